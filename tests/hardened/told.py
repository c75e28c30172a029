"""What is said of a folder of evidence, and whether its site can be made: in one process, within stated memory.

python tests/hardened/told.py broke                 each row of broke.yaml, as JSON
python tests/hardened/told.py mutated SEED N M      tests/example changed N times; M of those accepted are built
"""

from __future__ import annotations

import json
import random
import resource
import shutil
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

import yaml
from passageproof.audit.whole import audit
from passageproof.build import build_files
from passageproof.problems import as_text
from passageproof.reading.evidence import read_evidence

HERE = Path(__file__).parent
EXAMPLE = HERE.parent / "example"
MEMORY_MB = 900


def said_of(root: Path) -> list[str]:
    """Every open problem as a user sees it."""
    return [as_text(problem) for problem in audit(read_evidence(root)).problems]


def made(root: Path) -> int:
    """How many files the site has; each of them is made."""
    built = build_files(root)
    assert built.guide is not None, "a check passes and a build does not"
    return sum(1 for path in built.files for _ in built.files.pieces(path))


def rows() -> list[dict[str, Any]]:
    """The rows of broke.yaml."""
    found: list[dict[str, Any]] = yaml.safe_load((HERE / "broke.yaml").read_text("utf-8"))
    return found


def write_row(row: dict[str, Any], root: Path) -> None:
    """The example with what a row puts into it."""
    shutil.copytree(EXAMPLE, root)
    path = root / "evidence" / row["file"]
    text = path.read_text("utf-8") if path.exists() else ""
    piece = row.get("piece", "")
    # "№" is the number of the piece, "№+" that of the next.
    pieces = (piece.replace("№+", f"{each + 1}").replace("№", f"{each}") for each in range(row.get("times", 0)))
    by = row["by"].replace("§", "".join(pieces))
    if row["replace"]:
        assert row["replace"] in text, row["name"]
        text = text.replace(row["replace"], by, 1)
    else:
        text += by
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(text.encode("utf-8", "surrogatepass"))


def _broke() -> None:
    for row in rows():
        with tempfile.TemporaryDirectory() as folder:
            root = Path(folder) / "root"
            write_row(row, root)
            said = said_of(root)
            print(json.dumps({"name": row["name"], "said": said[:5], "made": 0 if said else made(root)}), flush=True)


def _mutated(seed: int, rounds: int, builds: int) -> None:
    from mutated import mutated  # beside this file

    chance = random.Random(seed)
    files = {
        path.relative_to(EXAMPLE).as_posix(): path.read_text("utf-8")
        for path in sorted(EXAMPLE.rglob("*"))
        if path.suffix in (".yaml", ".bib")
    }
    accepted = built = 0
    slowest = (0.0, "")
    begin = time.monotonic()
    with tempfile.TemporaryDirectory() as folder:
        root = Path(folder)
        shutil.copytree(EXAMPLE, root, dirs_exist_ok=True)
        for _ in range(rounds):
            file, text, what = mutated(files, chance)
            (root / file).write_bytes(text.encode("utf-8", "surrogatepass"))
            start = time.monotonic()
            try:
                said = said_of(root)
                if not said:
                    accepted += 1
                    if built < builds:
                        built += 1
                        made(root)
            except BaseException:
                print(f"{file}: {what}", file=sys.stderr)
                raise
            slowest = max(slowest, (time.monotonic() - start, f"{file}: {what}"))
            (root / file).write_text(files[file], "utf-8")
    print(json.dumps({"rounds": rounds, "accepted": accepted, "built": built, "slowest": slowest,
                      "seconds": round(time.monotonic() - begin)}))  # fmt: skip


def main(arguments: list[str]) -> None:
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY_MB << 20, MEMORY_MB << 20))
    if arguments[0] == "broke":
        _broke()
    else:
        _mutated(*map(int, arguments[1:]))


if __name__ == "__main__":
    main(sys.argv[1:])
