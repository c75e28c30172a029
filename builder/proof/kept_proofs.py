"""Proofs of the last check of a folder, kept on this machine: a report that says the same is not proved again.

They change nothing but the time. A proof is kept by a digest of all that it rests on: this program and its Python, the
vocabulary and the drawings it names, the units that are counted, the claim file, the entry with its place, and what any
report tells of the studies. Where one letter of it is another, the report is proved as ever. What a site is built from
is never taken from here, nor what a workflow checks (`commands/check.py`).

They lie outside of the evidence, in a folder that its owner alone may open. A file that is torn, that another program
wrote or that somebody else may have written is as if it were not there.
"""

from __future__ import annotations

import hashlib
import json
import os
import stat
import sys
from collections.abc import Iterator, Mapping, Sequence
from contextlib import suppress
from pathlib import Path
from typing import Any

from ..loaded_together import write_whole
from ..numerals import Lexicon
from ..problems import Position, Problem
from ..reading.model import Outcome
from ..reading.report_model import Report, Source
from ..reading.yaml_text import PARSED_BY
from .declared_names import DeclaredNames
from .report_proof import Proved, prove_reports

Row = list[Any]
"""What is kept of one report, as JSON has it."""
_MOST_BYTES = 64_000_000
"""A larger file is not kept: five times that of 10,000 reports without a question."""
_MOST_FILES = 20
"""Folders whose proofs are kept; those checked last."""


class KeptProofs:
    """`prove_reports` without places, and what it gave to the very same question the last time."""

    def __init__(self, file: Path, texts: Mapping[str, str]) -> None:
        """file: where they are kept, see `file_for`. texts: what each claim file and the vocabulary say, by their path
        from the root."""
        self._file, self._texts = file, texts
        self._before = _read(file)
        self._asked: list[str] = []
        """Digests of what was asked for."""
        self._new: dict[str, Row] = {}
        self._surroundings = ""

    def __call__(
        self,
        reports: Sequence[tuple[Report, Source]],
        units: Mapping[str, str],
        outcomes: Mapping[str, Outcome],
        lexicon: Lexicon,
        *,
        located: bool = True,
        declared: DeclaredNames | None = None,
    ) -> list[Proved]:
        """What `prove_reports` gives. Where places are wanted, or nothing is declared, nothing is kept."""
        if located or declared is None:
            return prove_reports(reports, units, outcomes, lexicon, located=located, declared=declared)
        digests = [self._digest_of(report, source, units, declared) for report, source in reports]
        self._asked += digests
        found = {each: proved for each in digests if (proved := _proved(self._before.get(each))) is not None}
        unknown = [place for place, each in enumerate(digests) if each not in found]
        asked = [reports[place] for place in unknown]
        new = prove_reports(asked, units, outcomes, lexicon, located=False, declared=declared) if asked else []
        for place, proved in zip(unknown, new, strict=True):
            found[digests[place]] = proved
            self._new[digests[place]] = _row(proved)
        return [found[each] for each in digests]

    def handed_over(self) -> tuple[list[str], dict[str, Row]]:
        """What a worker asked for and found anew, for `take_over` of the process it was forked off."""
        return self._asked, self._new

    def take_over(self, handed: tuple[list[str], dict[str, Row]]) -> None:
        """As if this process had asked for it."""
        asked, new = handed
        self._asked = [*self._asked, *asked]
        self._new = self._new | new

    def keep(self) -> None:
        """For the next check, what this one asked for. Never an error: what is not kept is proved."""
        rows = self._before | self._new
        kept = {each: rows[each] for each in self._asked}
        if kept.keys() == self._before.keys() and not self._new:
            return
        content = json.dumps(kept, separators=(",", ":")).encode()
        if len(content) > _MOST_BYTES:
            return
        with suppress(OSError):
            folder = self._file.parent
            folder.mkdir(mode=0o700, parents=True, exist_ok=True)
            if _is_ours(folder):
                write_whole(str(self._file), _digest(content) + b"\n" + content)
                for old in sorted(folder.iterdir(), key=lambda each: each.stat().st_mtime)[:-_MOST_FILES]:
                    old.unlink()

    def _digest_of(self, report: Report, source: Source, units: Mapping[str, str], declared: DeclaredNames) -> str:
        """Of all that the proof of a report rests on."""
        if not self._surroundings:
            drawn = sorted((*declared.pictures, *declared.unreadable))
            counted = list(declared.lexicon.units.values())
            vocabulary = self._texts.get("evidence/vocabulary.yaml")
            self._surroundings = _digest_of_all(_program(), vocabulary, drawn, counted)
        names = sorted(report.all_studies())
        studies = [(name, units.get(name), declared.described.get(name)) for name in names]
        return _digest_of_all(self._surroundings, report.file, self._texts[report.file], source, studies)


def _digest_of_all(*values: object) -> str:
    return _digest(repr(values).encode("utf-8", "backslashreplace")).decode()


def file_for(root: Path) -> Path | None:
    """Where the proofs of a folder are kept, below the folder for what can be had again (XDG Base Directory
    Specification 0.8; that of the platform where there is none); None where this user has none."""
    said = os.environ.get("XDG_CACHE_HOME", "")
    try:
        base = Path(said) if said.startswith("/") else _usual_folder(Path.home())
        name = hashlib.sha256(os.fsencode(root.resolve())).hexdigest()
    except (OSError, RuntimeError):  # nobody's home is known
        return None
    return base / "passageproof" / "proofs" / f"{name}.json"


def _usual_folder(home: Path) -> Path:
    if sys.platform == "darwin":
        return home / "Library" / "Caches"
    return Path(os.environ.get("LOCALAPPDATA") or home) if sys.platform == "win32" else home / ".cache"


def _is_ours(path: Path) -> bool:
    """Whether nobody else can have put something there."""
    found = path.lstat()
    if stat.S_ISLNK(found.st_mode):
        return False
    return not hasattr(os, "getuid") or (found.st_uid == os.getuid() and not found.st_mode & 0o022)


def _read(file: Path) -> dict[str, Row]:
    with suppress(OSError, ValueError):
        if _is_ours(file.parent) and _is_ours(file) and file.stat().st_size <= _MOST_BYTES + 100:
            digest, _, content = file.read_bytes().partition(b"\n")
            if digest == _digest(content):
                held = json.loads(content)
                return held if isinstance(held, dict) else {}
    return {}


def _digest(content: bytes) -> bytes:
    return hashlib.sha256(content).hexdigest().encode()


def _row(proved: Proved) -> Row:
    unproved_at = sorted(list(each) for each in proved.unproved_at)
    return [list(map(list, proved.problems)), proved.ids, proved.quoted, proved.unproved, unproved_at]


def _proved(row: Row | None) -> Proved | None:
    """What is kept as it was given; None where it is nothing of the kind."""
    with suppress(TypeError, ValueError, IndexError):
        if row is not None:
            problems, ids, quoted, unproved, unproved_at = row
            told = tuple(Problem(Position(*each[0]), *each[1:]) for each in problems)
            places = frozenset(Position(*each) for each in unproved_at)
            return Proved(told, {}, list(map(str, ids)), int(quoted), int(unproved), places)
    return None


def _program() -> tuple[str, ...]:
    """What is the same as long as the program is: its files, by their times and sizes as byte code goes by them, its
    Python, and what reads YAML for it."""
    return (*_files_below(os.path.dirname(os.path.dirname(os.path.abspath(__file__)))), sys.version, PARSED_BY)


def _files_below(folder: str) -> Iterator[str]:
    for each in sorted(os.scandir(folder), key=lambda each: each.name):
        if each.is_dir(follow_symlinks=False):
            yield from _files_below(each.path) if each.name != "__pycache__" else ()
        elif each.name.endswith(".py"):
            found = each.stat()
            yield f"{each.path} {found.st_mtime_ns} {found.st_size}"
