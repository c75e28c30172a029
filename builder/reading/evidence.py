"""The evidence of one folder, read whole: all values, and all that is wrong in them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path
from typing import Any, TypeVar

from ..compiled_patterns import compiled
from ..problems import Problem, in_order
from ..records import NamedTuple
from ..two_processes import in_two
from . import yaml_text
from .addresses import refuse_links_of_page
from .compendium import read_compendium
from .files import WRITTEN_DIR, FoundFile, find_files
from .invisible import refuse_invisible
from .model import Compendium, Evidence, Page, Question, Report, Status, Urgent, Vocabulary
from .named_units import with_typed_units
from .names import UnitNames
from .pictures import Picture, read_picture
from .questions import read_question
from .report_model import Source
from .reports import read_report
from .site_settings import find_in_settings
from .standing import NO_LOCAL, read_local, read_statuses, read_urgent
from .unit_forms import unit_names
from .vocabulary import read_vocabulary
from .yaml_text import Sheet

T = TypeVar("T")

_find_keys = compiled(r"@\s*\w+\s*[{(]\s*([^\s,{}()=]+)").findall


Key = tuple[Any, ...]
"""File, its text, and all else that its reading rests on."""
Read = tuple[Any, tuple[Problem, ...]]
"""What was read of a file, and the problems in it."""
Files = dict[Key, Read]


class ReadBefore:
    """What each file held the last time, for whoever reads one folder again and again: a file that says the same is not
    taken apart again."""

    def __init__(self) -> None:
        self.files: Files = {}

    @property
    def texts(self) -> dict[str, str]:
        """What each file says, by its path from the root; pages written by hand and drawings left out."""
        return {key[0]: key[1] for key in self.files}


def read_evidence(
    root: Path, before: ReadBefore | None = None, meanwhile: Callable[[], object] | None = None
) -> Evidence:
    """Everything under root/evidence/ and root/site_src/, with every problem once and in order, that of mkdocs.yml too.

    before: changes nothing but the time it takes. meanwhile: done before a process that reads the sources is waited
    for. Nothing typed in a file makes it raise.
    Raises FileNotFoundError where root/evidence/compendium.yaml does not exist.
    """
    problems = list(find_in_settings(root))
    return evidence_of(find_files(root, problems), problems, before, meanwhile)


def evidence_of(
    files: Sequence[FoundFile],
    problems: Sequence[Problem],
    before: ReadBefore | None = None,
    meanwhile: Callable[[], object] | None = None,
) -> Evidence:
    """The same of files that were found already. problems: what was wrong in finding them."""
    reading = _Reading(before.files if before is not None else {})
    reading.problems += problems
    found = sorted(files, key=_turn)
    written = [each for each in found if each.folder == "sources"]
    others = [each for each in found if each.folder != "sources"]
    # Who has read the folder before knows most files.
    is_worth_it = not reading.knows_any and sum(len(each.text or "") for each in written) >= _MANY_SOURCES
    first = [each for each in others if _turn(each) < _LAST]
    reading.take_all(first)
    apart = _apart(others, written) if is_worth_it else []
    taken = {each.file for each in (*first, *apart)}

    def take_others() -> None:
        reading.take_all([each for each in others if each.file not in taken])
        if meanwhile is not None:
            meanwhile()

    def read_apart() -> tuple[_Sources, list[Read], list[Read | None]]:
        sources = reading.sources_of(written)
        kept = [reading.files.get((each.file, each.text)) for each in written] if before is not None else []
        return sources, [reading.read_alone(each) for each in apart], kept

    _, (sources, read, kept) = in_two(take_others, read_apart, is_worth_it=is_worth_it)
    for each, of_it in zip(apart, read, strict=True):
        reading.hold_read(each, of_it)
    if before is not None:
        # A worker kept for itself what is to be remembered.
        reading.files |= {(each.file, each.text): of_it for each, of_it in zip(written, kept, strict=True) if of_it}
        before.files = reading.files
    return reading.finish(sources)


_MANY_SOURCES = 30_000
"""From so many characters of BibTeX on, a second process reads them while this one reads all else: neither needs the
other's, and this one saves importing the library for BibTeX too."""
_LIKE_BIBTEX = 0.6
"""Time for a character of BibTeX, beside one of a claim file: to read it, and to hand over what was read."""
_LIKE_IMPORTS = 20_000
"""Characters of claim files that are read while this process imports what is done `meanwhile`, and that one, so much
sooner, the library for BibTeX."""
_LIKE_ONE_APART = 2.8
"""To read a claim file, to hand it over, to take it over, and not to read it here, beside reading it."""


def _apart(others: Sequence[FoundFile], written: Sequence[FoundFile]) -> list[FoundFile]:
    """The claim files that the second process reads beside the BibTeX, so that neither waits for the other.

    others: all files but those of BibTeX. written: these.
    """
    here = sum(len(each.text or "") for each in others) + _LIKE_IMPORTS
    there = _LIKE_BIBTEX * sum(len(each.text or "") for each in written)
    claims = [each for each in others if each.folder == "claims" and each.text is not None]
    room = (here - there) / _LIKE_ONE_APART
    apart: list[FoundFile] = []
    for each in claims[: len(claims) // 2]:
        room -= len(each.text or "")
        if room < 0:
            break
        apart.append(each)
    return apart


def _turn(found: FoundFile) -> int:
    """Drawings first, which the vocabulary names; then the vocabulary, whose units every study names; then the rest."""
    return 0 if found.folder == "pictures" else 1 if (found.folder, found.name) == ("", "vocabulary") else _LAST


_LAST = 2


class _Sources(NamedTuple):
    """What all BibTeX files hold together."""

    by_key: dict[str, Source]
    lost: set[str]
    """Keys of entries that could not be read."""
    problems: list[Problem]


class _Reading:
    """What is read so far."""

    def __init__(self, before: Files) -> None:
        self._before = before
        self.files: Files = {}
        self.problems: list[Problem] = []
        self.unreadable: set[str] = set()
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

    def sources_of(self, files: Sequence[FoundFile]) -> _Sources:
        """What the BibTeX files hold, problems too: of whatever changes here, a worker would tell nobody."""
        from .bibtex import read_bibtex  # the library for BibTeX takes as long to import as fifty entries to read
        from .sources import Sources

        problems: list[Problem] = []
        sources = Sources(problems)
        for found in files:
            if found.text is None:
                sources.lost.update(_find_keys(found.hint))
            else:
                reading = partial(read_bibtex, found.file, found.text)
                sources.add(self._once((found.file, found.text), reading, problems))
        by_key = sources.finish()
        return _Sources(by_key, sources.lost, problems)

    def take_all(self, files: Sequence[FoundFile]) -> None:
        """Reads all other files in turn."""
        for found in files:
            self.take(found)

    @property
    def knows_any(self) -> bool:
        """Whether a file was read before."""
        return bool(self._before)

    def read_alone(self, found: FoundFile) -> Read:
        """What one claim file holds, for `hold_read` of another process; the vocabulary was taken before."""
        problems: list[Problem] = []
        return self._read(found, found.text or "", problems), tuple(problems)

    def hold_read(self, found: FoundFile, read: Read) -> None:
        """Take what was read of a claim file elsewhere."""
        text = found.text or ""
        self.files[self._key(found, text)] = read
        held, problems = read
        self.problems += problems
        if held is None:
            self._keep_names(found, text)
        else:
            self._hold(found, *held)

    def take(self, found: FoundFile) -> None:
        """Reads one file, or keeps the names that an unreadable one seems to hold."""
        text = found.text
        if text is None:
            self._keep_names(found, found.hint)
        elif found.folder == WRITTEN_DIR:
            if found.name.endswith(".md"):
                refuse_invisible(found.file, text, self.problems)
                refuse_links_of_page(found.file, text, self.problems)
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
            read = self._once(self._key(found, text), partial(self._read, found, text), self.problems)
            if read is None:
                self._keep_names(found, text)
            else:
                self._hold(found, *read)

    def _key(self, found: FoundFile, text: str) -> Key:
        drawn = frozenset(self._drawn()) if found.name == "vocabulary" else ()
        return found.file, text, self.units, drawn

    def _once(self, key: Key, read: Callable[[list[Problem]], T], problems: list[Problem]) -> T:
        """What `read` gives, or what it gave before; its problems are told each time."""
        found = self._before.get(key)
        if found is None:
            own: list[Problem] = []
            found = (read(own), tuple(own))
        self.files[key] = found
        problems += found[1]
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

    def finish(self, sources: _Sources) -> Evidence:
        """The evidence, once every file was taken."""
        self.problems += sources.problems
        self.unreadable |= {f"source:{key}" for key in sources.lost if key not in sources.by_key}
        vocabulary, undeclared = with_typed_units(self.vocabulary, self.reports.values())
        self.unreadable |= undeclared
        return Evidence(
            compendium=self.compendium,
            vocabulary=vocabulary,
            sources=sources.by_key,
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
