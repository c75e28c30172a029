"""The evidence of one folder, read whole: all values, and all that is wrong in them."""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Any, TypeVar

from ..problems import Problem, in_order
from . import yaml_text
from .bibtex import read_bibtex
from .compendium import read_compendium
from .files import WRITTEN_DIR, FoundFile, find_files
from .model import Compendium, Evidence, Page, Question, Report, Status, Urgent, Vocabulary
from .named_units import with_typed_units
from .names import UnitNames
from .pictures import Picture, read_picture
from .questions import read_question
from .reports import read_report
from .site_settings import find_in_settings
from .sources import Sources
from .standing import NO_LOCAL, read_local, read_statuses, read_urgent
from .unit_forms import unit_names
from .vocabulary import read_vocabulary
from .yaml_text import Sheet

T = TypeVar("T")

_find_keys = re.compile(r"@\s*\w+\s*[{(]\s*([^\s,{}()=]+)").findall


Key = tuple[Any, ...]
"""File, its text, and all else that its reading rests on."""
Files = dict[Key, tuple[Any, tuple[Problem, ...]]]
"""What was read of each, and the problems in it."""


class ReadBefore:
    """What each file held the last time, for whoever reads one folder again and again: a file that says the same is not
    taken apart again."""

    def __init__(self) -> None:
        self.files: Files = {}

    @property
    def texts(self) -> dict[str, str]:
        """What each file says, by its path from the root; pages written by hand and drawings left out."""
        return {key[0]: key[1] for key in self.files}


def read_evidence(root: Path, before: ReadBefore | None = None) -> Evidence:
    """Everything under root/evidence/ and root/site_src/, with every problem once and in order, that of mkdocs.yml too.

    before: changes nothing but the time it takes. Nothing typed in a file makes it raise.
    Raises FileNotFoundError where root/evidence/compendium.yaml does not exist.
    """
    reading = _Reading(before.files if before is not None else {})
    reading.problems += find_in_settings(root)
    for found in sorted(find_files(root, reading.problems), key=_turn):
        reading.take(found)
    if before is not None:
        before.files = reading.files
    return reading.finish()


def _turn(found: FoundFile) -> int:
    """Drawings first, which the vocabulary names; then the vocabulary, whose units every study names; then the rest."""
    return 0 if found.folder == "pictures" else 1 if (found.folder, found.name) == ("", "vocabulary") else 2


class _Reading:
    """What is read so far."""

    def __init__(self, before: Files) -> None:
        self._before = before
        self.files: Files = {}
        self.problems: list[Problem] = []
        self.unreadable: set[str] = set()
        self.sources = Sources(self.problems)
        self.compendium: Compendium | None = None
        self.vocabulary = Vocabulary({}, {})
        self.reports: dict[str, Report] = {}
        self.questions: dict[str, Question] = {}
        self.urgent: dict[str, Urgent] = {}
        self.local = NO_LOCAL
        self.statuses: dict[str, Status] = {}
        self.pages: list[Page] = []
        self.files_beside_pages: list[str] = []
        self.pictures: dict[str, Picture] = {}
        self.units = UnitNames()

    def take(self, found: FoundFile) -> None:
        """Reads one file, or keeps the names that an unreadable one seems to hold."""
        text = found.text
        if text is None:
            self._keep_names(found, found.hint)
        elif found.folder == "sources":
            self.sources.add(self._once((found.file, text), partial(read_bibtex, found.file, text)))
        elif found.folder == WRITTEN_DIR:
            if found.name.endswith(".md"):
                self.pages.append(Page(found.file, text))
            else:
                self.files_beside_pages.append(found.file)
        elif found.folder == "pictures":
            picture = read_picture(f"{found.name}.svg", found.file, text, self.problems)
            if picture is None:
                self.unreadable.add(f"picture:{found.name}.svg")
            else:
                self.pictures[picture.name] = picture
        else:
            drawn = frozenset(self._drawn()) if found.name == "vocabulary" else ()
            key = (found.file, text, self.units, drawn)
            read = self._once(key, partial(self._read, found, text))
            if read is None:
                self._keep_names(found, text)
            else:
                self._hold(found, *read)

    def _once(self, key: Key, read: Callable[[list[Problem]], T]) -> T:
        """What `read` gives, or what it gave before; its problems are told each time."""
        found = self._before.get(key)
        if found is None:
            problems: list[Problem] = []
            found = (read(problems), tuple(problems))
        self.files[key] = found
        self.problems += found[1]
        value: T = found[0]
        return value

    def _read(self, found: FoundFile, text: str, problems: list[Problem]) -> tuple[Any, set[str]] | None:
        """What one file of ours holds, and the names in it that could not be read; None where it is no YAML."""
        name = found.name
        sheet = Sheet(found.file, text, problems, self.units)
        root = yaml_text.compose(sheet)
        if root is None:
            return None
        if found.folder == "claims":
            return read_report(root, sheet, name)
        if found.folder == "questions":
            question = read_question(root, sheet, name)
            return question, set() if question is not None else {f"question:{name}"}
        if name == "compendium":
            return read_compendium(root, sheet)
        if name == "vocabulary":
            return read_vocabulary(root, sheet, self._drawn())
        if name == "urgent":
            return read_urgent(root, sheet)
        return read_local(root, sheet) if name == "local" else read_statuses(root, sheet), set()

    def _hold(self, found: FoundFile, value: Any, lost: set[str]) -> None:
        name = found.name
        self.unreadable |= lost
        if found.folder in ("claims", "questions"):
            if value is not None:
                (self.reports if found.folder == "claims" else self.questions)[name] = value
        elif name == "compendium":
            self.compendium = value
        elif name == "vocabulary":
            self.vocabulary = value
            self.units = unit_names(self.vocabulary.declared_units, lost, self.vocabulary.units)
        elif name == "urgent":
            self.urgent = value
        elif name == "local":
            self.local = value
        else:
            self.statuses = value

    def _drawn(self) -> set[str]:
        """Names of all drawings, of those that could not be read too: what is wrong there was told once."""
        unread = (name.removeprefix("picture:") for name in self.unreadable if name.startswith("picture:"))
        return {*self.pictures, *unread}

    def _keep_names(self, found: FoundFile, text: str) -> None:
        """A file that cannot be read is still known by its name, and what it seems to name as well."""
        ids, keys = yaml_text.names_in(text)
        name = found.name
        if found.folder == "pictures":
            self.unreadable.add(f"picture:{name}.svg")
        elif found.folder == "sources":
            self.sources.lost.update(_find_keys(text))
        elif found.folder == "claims":
            self.unreadable.add(f"report:{name}")
            self.unreadable |= {f"claim:{name}/{text}" for text in ids} | {f"study:{text}" for text in ids}
        elif found.folder == "questions":
            self.unreadable.add(f"question:{name}")
        elif name == "compendium":
            self.unreadable |= {f"person:{text}" for text in keys}
        elif name == "vocabulary":
            lost = {f"{kind}:{text}" for kind in ("factor", "outcome", "unit") for text in keys}
            self.unreadable |= lost
            self.units = unit_names(self.vocabulary.declared_units, lost, self.vocabulary.units)
        elif name == "urgent":
            self.unreadable |= {f"urgent:{text}" for text in keys}

    def finish(self) -> Evidence:
        """The evidence, once every file was taken."""
        sources = self.sources.finish()
        self.unreadable |= {f"source:{key}" for key in self.sources.lost if key not in sources}
        vocabulary, undeclared = with_typed_units(self.vocabulary, self.reports.values())
        self.unreadable |= undeclared
        return Evidence(
            compendium=self.compendium,
            vocabulary=vocabulary,
            sources=sources,
            reports=dict(sorted(self.reports.items())),
            questions=dict(sorted(self.questions.items())),
            urgent=self.urgent,
            local=self.local,
            statuses=self.statuses,
            pages=tuple(self.pages),
            pictures=self.pictures,
            unreadable=frozenset(self.unreadable),
            problems=tuple(in_order(self.problems)),
            files_beside_pages=tuple(self.files_beside_pages),
        )
