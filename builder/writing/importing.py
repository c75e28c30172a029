"""References come in: every one of an export becomes an entry in a file of its own, and nothing is overwritten."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from contextlib import suppress
from pathlib import Path
from types import ModuleType

from ..problems import Problem
from ..reading.bibtex import read_bibtex
from ..reading.exported import doi_in, names_in, readable_field, readable_name
from ..reading.model import Evidence
from ..reading.sources import Sources
from ..records import NamedTuple
from .exports.entry import entry_text, free_key, shown_title
from .exports.reference import CannotRead, Reference, letters_of
from .starting import CannotWrite

_UTF_16 = (b"\xff\xfe", b"\xfe\xff")
_find_year = re.compile(r"\d{4}").search
_is_ris = re.compile(r"^\s*TY  - ", re.MULTILINE).match


class Known(NamedTuple):
    """What tells an entry from all others."""

    key: str
    doi: str
    pmid: str
    title: str
    """Letters and digits alone."""
    year: str
    author: str
    """The first one's family name, letters alone."""


class Imported(NamedTuple):
    """What became of one reference."""

    line: int
    title: str
    file: str = ""
    """From the root, where an entry was written."""
    key: str = ""
    entry: str = ""
    """The text of the file that it is or would be; "" where it is here already."""
    here_as: str = ""
    """The key of an entry that has the same DOI or number in PubMed."""
    alike: str = ""
    """The key of an entry that has the same title, so that somebody must say whether it is the same."""
    left_out: tuple[str, ...] = ()
    notices: tuple[str, ...] = ()


class Export(NamedTuple):
    """A file of references."""

    text: str
    notice: str = ""
    """What whoever takes it in should look at."""


_ANSI = (
    "this file is not in UTF-8 and was read in the signs of Windows, which RIS names as its own: "
    "compare the accents with the paper"
)


def read_export(path: Path) -> Export:
    """An export.

    Raises CannotRead where it cannot be opened or is in an encoding that would have to be guessed.
    """
    try:
        data = path.read_bytes()
    except OSError as fault:
        raise CannotRead(f"this file cannot be read: {fault.strerror or fault}") from fault
    return text_of(data)


def text_of(data: bytes) -> Export:
    """An export by its bytes.

    RIS is in the character set of Windows by its own specification ("Windows ANSI"), so one that is not in UTF-8 is
    read in that. Raises CannotRead where another encoding than UTF-8 would have to be guessed.
    """
    try:
        text = data.decode("utf-16") if data[:2] in _UTF_16 else data.decode("utf-8-sig")
    except UnicodeDecodeError as fault:
        with suppress(UnicodeDecodeError):
            if _is_ris(text := data.decode("windows-1252")):
                return Export(_with_one_kind_of_line_end(text), _ANSI)
        before = data[: fault.start]
        line, column = before.count(b"\n") + 1, fault.start - before.rfind(b"\n")
        message = "this file is not in UTF-8, so its accents would be guessed: export it again and choose UTF-8"
        raise CannotRead(message, line, column) from fault
    return Export(_with_one_kind_of_line_end(text))


def _with_one_kind_of_line_end(text: str) -> str:
    return text.replace("\r\n", "\n").replace("\r", "\n")


def references_in(text: str) -> Iterator[Reference | CannotRead]:
    """The references of an export, in order, and what of it could not be read.

    Raises CannotRead where it is no export of a kind that is known.
    """
    yield from _reader_of(text).read_references(text)


def _reader_of(text: str) -> ModuleType:
    from .exports import bibtex_file, csl_json, pubmed, ris, tagged

    start = text.lstrip()[:1]
    if tagged.is_of_pubmed(text):
        return pubmed
    if tagged.is_ris(text):
        return ris
    if re.match(r"\s*[\[{]\s*[\[{\"]", text):
        return csl_json
    if re.search(r"^\s*@\s*\w+\s*[{(]", text, re.MULTILINE):
        return bibtex_file
    if not text.strip():
        raise CannotRead("this file is empty")
    if start == "<":
        what = "this is a page of the web or XML"
    elif start == "%":
        what = "this is an export with one % and letter a line"
    else:
        what = "no reference is found here"
    raise CannotRead(f"{what}: export again as RIS, PubMed (.nbib), CSL-JSON or BibTeX")


class Shelf:
    """The entries that are here, to which a reference is held before it becomes one more."""

    def __init__(self, evidence: Evidence, taken: Iterable[str] = ()) -> None:
        """taken: keys that no new entry may have, in small letters."""
        self._known = [
            known_by(key, {name: field.text for name, field in source.fields.items()})
            for key, source in evidence.sources.items()
        ]
        self._taken = {key.lower() for key in evidence.sources} | set(taken)

    def meet(self, found: Reference) -> Imported:
        """What it would become. Raises CannotRead where no entry can be made of it."""
        title = shown_title(found)
        mine = known_by("", found.fields)
        same = next((each.key for each in self._known if _is_same(each, mine)), "")
        if same:
            return Imported(found.line, title, here_as=same)
        alike = next((each.key for each in self._known if _is_alike(each, mine)), "")
        key = free_key(found, self._taken)
        entry = entry_text(found, key)
        fault = _fault_of(key, entry)
        if fault:
            raise CannotRead(fault, found.line)
        return Imported(found.line, title, "", key, entry, "", alike, found.left_out, found.notices)

    def take(self, key: str, found: Reference) -> None:
        """From now on it is here."""
        self._taken.add(key.lower())
        self._known.append(known_by(key, found.fields))


def write_references(
    root: Path, evidence: Evidence, text: str, *, alike_too: bool = False
) -> Iterator[Imported | CannotRead]:
    """Writes evidence/sources/KEY.bib for each reference that is not there yet, one after the other.

    alike_too: also one whose title stands here already, under another DOI or none.
    Raises CannotRead where the text is no export, CannotWrite where a file cannot be written.
    """
    shelf = Shelf(evidence, {path.stem.lower() for path in (root / "evidence/sources").glob("*.bib")})
    for found in references_in(text):
        if isinstance(found, CannotRead):
            yield found
            continue
        try:
            met = shelf.meet(found)
        except CannotRead as fault:
            yield fault
            continue
        if alike_too:
            met = met._replace(alike="")
        if met.entry and not met.alike:
            file = f"evidence/sources/{met.key}.bib"
            _write(root / file, file, met.entry)
            shelf.take(met.key, found)
            met = met._replace(file=file)
        yield met


def known_by(key: str, fields: Mapping[str, str]) -> Known:
    """What tells an entry with these fields from others."""
    doi = fields.get("doi", "")
    doi = doi_in(doi) or doi or doi_in(fields.get("url", ""))
    names = names_in(fields.get("author", ""))
    family = readable_name(names[0]) if names else ""
    family = family.split(",")[0] if "," in family else family.rpartition(" ")[2]
    year = _find_year(fields.get("date") or fields.get("year") or "")
    title = letters_of(readable_field(fields.get("title", "")))
    return Known(key, doi.casefold(), fields.get("pmid", ""), title, year[0] if year else "", letters_of(family))


def _is_same(one: Known, other: Known) -> bool:
    return bool((one.doi and one.doi == other.doi) or (one.pmid and one.pmid == other.pmid))


_TELLING = 20
"""A title of fewer letters ("Editorial", "Reply") tells nothing by itself."""


def _is_alike(one: Known, other: Known) -> bool:
    if not one.title or one.title != other.title:
        return False
    return len(one.title) >= _TELLING or (one.year, one.author) == (other.year, other.author)


def _fault_of(key: str, entry: str) -> str:
    """Why the entry could not be read once it stands there, or ""."""
    problems: list[Problem] = []
    sources = Sources(problems)
    sources.add(read_bibtex(f"{key}.bib", entry, problems))
    sources.finish()
    # Parents of an entry may come in with it.
    found = [problem for problem in problems if problem.severity == "error" and problem.rule != "unknown-crossref"]
    return f"this reference cannot become an entry: {found[0].message}" if found else ""


def _write(path: Path, file: str, text: str) -> None:
    try:
        path.parent.mkdir(exist_ok=True)
        with path.open("x", encoding="utf-8", newline="\n") as stream:
            stream.write(text)
    except FileExistsError as fault:
        raise CannotWrite(f"{file} is there already, and nothing is ever overwritten") from fault
    except OSError as fault:
        raise CannotWrite(f"{file} could not be written: {fault.strerror or fault}") from fault
