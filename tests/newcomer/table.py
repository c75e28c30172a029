"""Mistakes of somebody who adds a first report, as their table has them: where each is made, told and mended."""

from __future__ import annotations

import re
import shutil
from pathlib import Path
from typing import Any, NamedTuple

import yaml

ENOUGH = 120
"""So many mistakes a table of them needs, to be one of what newcomers do."""
HERE = Path(__file__).parent
ROOT = HERE.parent.parent
REPORT = "claims/halberg2024repair.yaml"


class Mistake(NamedTuple):
    """One row of the table."""

    name: str
    group: str
    row: dict[str, Any]


def mistakes() -> list[Mistake]:
    """All rows, group by group."""
    return [
        Mistake(row["mistake"], path.stem[3:], row)
        for path in sorted((HERE / "mistakes").glob("*.yaml"))
        for row in yaml.safe_load(path.read_text("utf-8"))
    ]


def compendium(folder: Path) -> Path:
    """The example's evidence with the report of a newcomer, in a folder of its own."""
    shutil.copytree(ROOT / "tests" / "example" / "evidence", folder / "evidence")
    shutil.copytree(HERE / "evidence", folder / "evidence", dirs_exist_ok=True)
    return folder


def make(row: dict[str, Any], root: Path) -> tuple[str, int]:
    """Makes the mistake below a root; the file and the line where it must be told."""
    evidence = root / "evidence"
    if "moved" in row:
        to = evidence / row["moved"]["to"]
        to.parent.mkdir(parents=True, exist_ok=True)
        (evidence / row["moved"]["from"]).rename(to)
        return _place(row, to, root, 1)
    if "added" in row:
        file = evidence / row["added"]["file"]
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(row["added"]["text"], "utf-8")
        return _place(row, file, root, 1)
    file = evidence / row.get("file", REPORT)
    first = replace(file, row["was"], row["becomes"], "latin-1" if row.get("latin_1") else "utf-8")
    if "also" in row:
        replace(evidence / row["also"]["file"], row["also"]["was"], row["also"]["becomes"])
    return _place(row, evidence / row["told_in"] if "told_in" in row else file, root, first)


def mend(row: dict[str, Any], root: Path) -> None:
    """Types what the message says in place of what was typed by mistake."""
    replace(root / "evidence" / row.get("file", REPORT), row["becomes"], row["mended"])


def replace(file: Path, was: str, becomes: str, encoding: str = "utf-8") -> int:
    """Puts one text in place of another, the only one of its kind; the first line that changed, from 1."""
    text = file.read_text("utf-8")
    assert text.count(was) == 1, f"{file.name} has {was!r} {text.count(was)} times"
    file.write_text(text.replace(was, becomes), encoding)
    same = next((at for at, (old, new) in enumerate(zip(was, becomes, strict=False)) if old != new), len(was))
    return text.count("\n", 0, text.index(was) + same) + 1


def _place(row: dict[str, Any], file: Path, root: Path, line: int) -> tuple[str, int]:
    at = row.get("at")
    if at is not None:
        text, count = (at["text"], at["count"]) if isinstance(at, dict) else (at, 1)
        lines = [number for number, typed in enumerate(file.read_text("utf-8").splitlines(), 1) if text in typed]
        line = lines[count - 1]
    return file.resolve().relative_to(root.resolve()).as_posix(), line


_find_words = re.compile(r"[<>.]?\w[\w.%'-]*(?:,\d+)*").findall


def words_of(text: str) -> set[str]:
    """Words and numbers of a text."""
    return {word.strip(".'") if not word.startswith(".") else word for word in _find_words(text)}


def words_to_type(row: dict[str, Any]) -> set[str]:
    """What a mend has and the mistake has not: all of it must stand in the message."""
    return words_of(row["mended"]) - words_of(row["becomes"])
