"""Everything that a release changes or adds, as texts: nothing is written here, and nothing is tagged or published."""

from __future__ import annotations

import contextlib
import datetime
import re
import shutil
import tempfile
from collections.abc import Iterator
from pathlib import Path

from ..impact.bases import KEPT, NoBase, base_folder, said_by_git
from ..impact.comparing import compare
from ..impact.moves import Impact
from ..problems import Position, Problem
from ..reading.evidence import ReadBefore, read_evidence
from ..reading.model import Evidence
from ..reading.parsing import is_release
from ..records import NamedTuple
from .described import Release, citation, datacite
from .notes import release_notes

COMPENDIUM = "evidence/compendium.yaml"
CITATION = "CITATION.cff"
PROGRAM = "pyproject.toml"


class CannotRelease(Exception):
    """Nothing can be prepared; the message says why, and what to do. `problems`: of the evidence, where it is these."""

    def __init__(self, reason: str, problems: tuple[Problem, ...] = ()) -> None:
        super().__init__(reason)
        self.problems = problems


class Asked(NamedTuple):
    """What was asked for."""

    number: str
    """X.Y.Z."""
    since: str
    """A revision or folder to compare with; "": the last release that git knows."""
    on: datetime.date | None
    """The day of the release; None: that of its evidence."""
    program: str
    """The program's own new release; "": it stays."""
    address: str
    """Of the site, ending in "/"; "" where it is not told."""


class Prepared(NamedTuple):
    """A release as it would be."""

    number: str
    base: str
    """What its notes compare with; "" for a first one."""
    files: dict[str, str]
    """Text by path from the root: of new files, and of changed ones."""
    before: dict[str, str]
    """Text of those that are there."""
    doubts: tuple[str, ...] = ()
    """What a person looks at before it is written."""

    @property
    def notes(self) -> str:
        """Its notes."""
        return self.files[notes_file(self.number)]


def notes_file(number: str) -> str:
    """Where the notes of a release stand."""
    return f"releases/v{number}.md"


def datacite_file(number: str) -> str:
    """Where its metadata stand."""
    return f"releases/v{number}.datacite.json"


def prepare(root: Path, asked: Asked) -> Prepared:
    """All texts of a release. Raises CannotRelease, and NoBase as `base_folder` does."""
    for number in (asked.number, *([asked.program] if asked.program else [])):
        if not is_release(number):
            raise CannotRelease(f'"{number}" is not three numbers such as 1.2.0 (Semantic Versioning)')
    read = ReadBefore()
    evidence = read_evidence(root, read)
    if evidence.compendium is None:
        raise CannotRelease("compendium.yaml cannot be read", evidence.problems)
    last = _last_release(root)
    _must_be_later(asked.number, evidence.compendium.release.text, last)
    base = asked.since or (f"v{last}" if last else "")
    impact = _moves(root, base, read)
    release = Release(asked.number, asked.on or evidence.compendium.evidence_date.value, evidence.compendium)
    files = _files(root, asked, release, evidence) | {notes_file(asked.number): release_notes(release, impact, base)}
    before = {path: _text(root, path) for path in files if (root / path).is_file()}
    changed = {path: text for path, text in files.items() if before.get(path) != text}
    return Prepared(asked.number, base, changed, before, tuple(_doubts(asked.number, last, impact)))


def is_prepared(root: Path, number: str) -> str:
    """Why the files do not say that this release is made of them; "" where they do."""
    evidence = read_evidence(root)
    if evidence.compendium is None:
        return "compendium.yaml cannot be read"
    if evidence.compendium.release.text != number:
        return f"{COMPENDIUM} is of release {evidence.compendium.release.text}, not {number}"
    if not re.search(rf"^version: ['\"]?{re.escape(number)}['\"]?\s*$", _text(root, CITATION), re.MULTILINE):
        return f"{CITATION} is not of release {number}"
    missing = [path for path in (notes_file(number), datacite_file(number)) if not (root / path).is_file()]
    return f"{missing[0]} is missing" if missing else ""


def _moves(root: Path, base: str, read: ReadBefore) -> Impact | None:
    """What moves since then; nothing is prepared of evidence that does not pass its check."""
    if not base:
        # Compared with itself nothing moves, and it is checked all the same.
        found = compare(root, root, read)
    else:
        with base_folder(root, base) as folder, _numbered_as(folder, root, read) as now:
            found = compare(folder, now, read)
    if found.impact is None:
        where = f" in {base}" if found.is_before else ""
        raise CannotRelease(f"the evidence{where} does not pass its check", found.problems)
    return found.impact if base else None


@contextlib.contextmanager
def _numbered_as(base: Path, root: Path, read: ReadBefore) -> Iterator[Path]:
    """The evidence below root with the number of the release before: that pages print a new one moves no answer."""
    before, now = (read_evidence(folder, read).compendium for folder in (base, root))
    if before is None or now is None or before.release.text == now.release.text:
        yield root
        return
    with tempfile.TemporaryDirectory(prefix="numbered-") as folder:
        for name in KEPT:
            if (root / name).is_dir():
                shutil.copytree(root / name, Path(folder) / name)
            elif (root / name).is_file():
                shutil.copy(root / name, folder)
        old = now.release
        text = _with_text(_text(root, COMPENDIUM), old.position, old.text, before.release.text)
        (Path(folder) / COMPENDIUM).write_text(text, "utf-8")
        yield Path(folder)


def _files(root: Path, asked: Asked, release: Release, evidence: Evidence) -> dict[str, str]:
    old = release.compendium.release
    files = {
        COMPENDIUM: _with_text(_text(root, COMPENDIUM), old.position, old.text, asked.number),
        CITATION: citation(_text(root, CITATION), release),
        datacite_file(asked.number): datacite(release, evidence.sources, asked.address),
    }
    if asked.program:
        files[PROGRAM] = _with_program(_text(root, PROGRAM), asked.program)
    return files


def _with_text(text: str, at: Position, old: str, new: str) -> str:
    """The file with one value typed anew, where it stands."""
    lines = text.split("\n")
    line = lines[at.line - 1]
    start = line.find(old, at.column - 1)
    if start < 0 or start > at.column:
        raise CannotRelease(f"{at}: the release is typed in a way that only a person can change: type {new} there")
    lines[at.line - 1] = line[:start] + new + line[start + len(old) :]
    return "\n".join(lines)


def _with_program(text: str, number: str) -> str:
    """pyproject.toml with the program's release in its first table `project` (PyPA, "Core metadata": version)."""
    found = re.search(r"^\[project\]$(?:\n(?!\[).*)*?\nversion = \"([^\"]*)\"$", text, re.MULTILINE)
    if found is None:
        raise CannotRelease(f"{PROGRAM} has no version of the program here: leave --program out")
    return text[: found.start(1)] + number + text[found.end(1) :]


def _text(root: Path, path: str) -> str:
    file = root / path
    return file.read_text("utf-8-sig") if file.is_file() else ""


def _must_be_later(number: str, typed: str, last: str) -> None:
    if last and _order(number) <= _order(last):
        raise CannotRelease(f"{number} is not later than {last}, which is released: a release is never changed")
    if is_release(typed) and _order(number) < _order(typed):
        raise CannotRelease(f"{number} is earlier than {typed}, which {COMPENDIUM} has")


def _doubts(number: str, last: str, impact: Impact | None) -> Iterator[str]:
    """Does the number say as much as the page "What changed" promises of it?"""
    if impact is None or not last:
        return
    step = next(place for place, (new, old) in enumerate(zip(_order(number), _order(last), strict=True)) if new != old)
    if impact.turned_round and step > 0:
        yield "a comparison or a study now points the other way: where advice is reversed the first number moves"
    elif any(move.before is None or move.after is None or move.before["text"] != move.after["text"]
             for move in impact.figures) and step > 1:  # fmt: skip
        yield "numbers on pages are not what they were: then the second number moves, the third for wording alone"


def _order(number: str) -> list[int]:
    return [int(part) for part in number.split(".")]


def _last_release(root: Path) -> str:
    """The latest release among the tags of git; "" where there is none, or no git."""
    try:
        tags = said_by_git(root, "tag", "--list", "v*", "--merged", "HEAD") or b""
    except NoBase:
        return ""
    numbers = [number for tag in tags.decode().split() if is_release(number := tag.removeprefix("v"))]
    return max(numbers, key=_order, default="")
