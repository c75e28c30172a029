"""BibTeX as typed: entries whose fields keep their place, with strings and joins resolved."""

from __future__ import annotations

import logging
import re
from collections.abc import Sequence
from typing import Any

from ..compiled_patterns import compiled, lent
from ..problems import Position, Problem, error
from ..records import NamedTuple
from .abbreviations import LOOKED_AT, Abbreviations, end_of_piece, short
from .invisible import refuse_invisible
from .limits import ABBREVIATION, FIELD, FIELDS
from .places import Places
from .report_model import Field

with lent():
    from bibtexparser.model import (
        DuplicateBlockKeyBlock,
        DuplicateFieldKeyBlock,
        Entry,
        ImplicitComment,
        ParsingFailedBlock,
        String as StringBlock,
    )
    from bibtexparser.splitter import Splitter

# What the splitter cannot read becomes a problem of ours, so its own log lines would only tell it a second time.
logging.getLogger("bibtexparser").setLevel(logging.CRITICAL)

# Blanks behind the "@" belong to one part of the pattern alone, else many of them are tried in every way.
_find_starts = compiled(r"^[ \t]*@(?:[ \t]*(\w+))?[ \t]*([{(])[ \t]*([^\s,{}()=]*)", re.MULTILINE).finditer
_find_field = compiled(r"(?<![\w-])[\w-]+[ \t]*=[ \t]*[{\"]").search

ANNOTATIONS = ("annotation", "annote")
"""Fields that hold the passages, which have limits of their own."""
_LOSING = frozenset(("forgotten-comma", "beyond-limit"))
_LONGEST_TYPE = 40
_TYPES = """
    article book booklet conference inbook incollection inproceedings manual mastersthesis misc phdthesis
    proceedings techreport unpublished mvbook bookinbook suppbook collection mvcollection suppcollection dataset
    online patent periodical suppperiodical mvproceedings reference mvreference inreference report set software
    thesis xdata electronic www artwork audio bibnote commentary image jurisdiction legislation legal letter
    movie music performance review standard video customa customb customc customd custome customf
"""
ENTRY_TYPES = frozenset(_TYPES.split())
"""Types of BibTeX (btxdoc 1988, section 3.1) and biblatex (manual, sections 2.1.1 to 2.1.3), in lower case."""


class RawEntry(NamedTuple):
    """An entry before anything is inherited."""

    key: str
    type: str
    position: Position
    fields: dict[str, Field]
    raw: str
    strings: tuple[str, ...] = ()
    """The @string definitions of its file as typed, where it uses any."""


class BibFile(NamedTuple):
    """What a .bib file holds."""

    entries: list[RawEntry]
    lost: set[str]
    """Keys of entries that could not be read."""


def read_bibtex(file: str, text: str, problems: list[Problem]) -> BibFile:
    """The entries of one file; what cannot be read is noted with its place, and its key kept.

    text: with "\\n" line ends and without byte-order mark.
    """
    refuse_invisible(file, text, problems)
    places = Places(file, text)
    library = Splitter(text).split()
    strings = _abbreviations(library.blocks)
    defined = tuple(block.raw or "" for block in library.blocks if isinstance(block, StringBlock))
    entries: list[RawEntry] = []
    lost: set[str] = set()
    read: list[tuple[int, int]] = []
    reasons: dict[int, tuple[str, int]] = {}
    at = 0
    is_rest = False
    for block in library.blocks:
        block = _without_warnings(block)
        raw = block.raw or ""
        start = text.find(raw, at)
        if isinstance(block, ParsingFailedBlock):
            # The splitter sets a line end before the text, so its offsets are one more than ours.
            reasons[start] = (getattr(block.error, "abort_reason", ""), getattr(block.error, "end_index", 1) - 1)
            at = start + 1
            is_rest = True
            continue
        at = start + len(raw)
        if isinstance(block, ImplicitComment) and is_rest:
            continue  # what follows an entry that could not be read belongs to it
        is_rest = False
        if isinstance(block, Entry):
            before = len(problems)
            entry = _entry(block, start, places, strings, problems)
            entry = _with_strings(entry, defined)
            # What follows a forgotten comma is not known, so nothing may be concluded from its absence; nor is what
            # passes a limit.
            if any(problem.rule in _LOSING for problem in problems[before:]):
                lost.add(entry.key)
            else:
                entries.append(entry)
        elif isinstance(block, StringBlock):
            _refuse_long(block, start, strings, places, problems)
        elif isinstance(block, ImplicitComment):
            if _refuse_stray_text(raw, start, places, problems) and entries and read and read[-1][1] >= start - 2:
                lost.add(entries.pop().key)
            continue
        read.append((start, at))
    _find_dropped(places, read, reasons, lost, problems)
    return BibFile(entries, lost)


def _abbreviations(blocks: Sequence[object]) -> Abbreviations:
    strings = Abbreviations()
    for block in blocks:
        if isinstance(block, StringBlock):
            strings.define(block.key, block.value)
    return strings


def _refuse_long(
    block: StringBlock, start: int, strings: Abbreviations, places: Places, problems: list[Problem]
) -> None:
    if strings.is_too_long(block.key):
        message = f"the abbreviation {short(block.key)} has more than {ABBREVIATION:,} characters"
        problems.append(error(places.place(start), "beyond-limit", message, "shorten it"))


def _with_strings(entry: RawEntry, defined: tuple[str, ...]) -> RawEntry:
    """The entry with the definitions of its file, where it uses any."""
    uses = defined and any(not field.literal for field in entry.fields.values())
    return entry._replace(strings=defined) if uses else entry


def _without_warnings(block: Any) -> Any:
    """The entry behind the notes that its key or one of its fields stands twice: we say so ourselves."""
    while isinstance(block, DuplicateBlockKeyBlock | DuplicateFieldKeyBlock):
        block = block.ignore_error_block
    return block


def _entry(block: Entry, start: int, places: Places, strings: Abbreviations, problems: list[Problem]) -> RawEntry:
    position = places.place(start)
    text = places.text
    raw = block.raw or ""
    kind = block.entry_type.lower()
    if kind not in ENTRY_TYPES:
        problems.append(_unknown_type(kind, position))
    fields: dict[str, Field] = {}
    cursor = start + raw.find(",") + 1
    if len(block.fields) > FIELDS:
        message = f"the entry {short(block.key)} has {len(block.fields):,} fields: it may have {FIELDS}"
        problems.append(error(position, "beyond-limit", message, "leave out those that are not needed"))
        return RawEntry(block.key, kind, position, fields, raw)
    for typed in block.fields:
        name, value = typed.key, typed.value
        name_at = text.index(name, cursor)
        value_at = text.index(value, text.index("=", name_at + len(name)) + 1)
        cursor = value_at + len(value)
        lowered = name.lower()
        if not lowered.replace("_", "").replace("-", "").replace(":", "").isalnum():
            message = f'"{short(name)}" cannot be the name of a field: is a comma missing, or is there one too many?'
            hint = "each field is written name = {text}, with a comma after it"
            problems.append(error(places.place(name_at), "bibtex-syntax", message, hint))
        elif lowered in fields:
            message = f'the field "{short(lowered)}" is given twice in the entry {short(block.key)}'
            problems.append(error(places.place(name_at), "duplicate-field", message, "delete one of the two"))
        else:
            field = _field(lowered, value, value_at, places, strings, problems)
            if len(field.text) > FIELD and lowered not in ANNOTATIONS:
                message = f"`{short(lowered)}` has {len(field.text):,} characters: a field may have {FIELD:,}"
                problems.append(error(field.position, "beyond-limit", message, "shorten it"))
            fields[lowered] = field
    return RawEntry(block.key, kind, position, fields, raw)


def _unknown_type(kind: str, position: Position) -> Problem:
    from difflib import get_close_matches  # only a message needs it

    near = get_close_matches(kind[:_LONGEST_TYPE], ENTRY_TYPES, 1)
    hint = f"did you mean @{near[0]}?" if near else "@misc fits whatever has no type of its own"
    return error(position, "unknown-entry-type", f'"@{short(kind)}" is not an entry type of BibTeX or biblatex', hint)


def _field(
    name: str, value: str, value_at: int, places: Places, strings: Abbreviations, problems: list[Problem]
) -> Field:
    first = value[:1]
    if (first == "{" and value.find("}") == len(value) - 1) or (first == '"' and value.find('"', 1) == len(value) - 1):
        inner = value[1:-1]
    elif value.isdecimal():
        return Field(name, value, places.place(value_at), True)
    else:
        end = end_of_piece(value, 0)
        if first in ("{", '"') and end == len(value):
            inner = value[1:-1]
        else:
            text, faults = strings.resolved(value)
            for offset, rule, message, hint in faults:
                problems.append(error(places.place(value_at + offset), rule, message, hint))
            # A forgotten comma leaves its first part as it stands in the file.
            is_literal = first == "{" and value.startswith(text, 1)
            return Field(name, text, places.place(value_at + is_literal), is_literal)
    text = inner.strip()
    lead = 1 + len(inner) - len(inner.lstrip()) if text else 1
    return Field(name, text, places.place(value_at + lead), True)


def _refuse_stray_text(raw: str, start: int, places: Places, problems: list[Problem]) -> bool:
    """Text between entries is a remark in BibTeX; what looks like fields was cut off by a brace too many: True."""
    has_fields = _find_field(raw) is not None
    if raw.startswith("@"):
        message = f'"{short(raw)}" is not read: is the brace after the entry type missing?'
        hint = "an entry begins @article{key,"
    elif has_fields:
        message = f'"{short(raw)}" is outside any entry and is not read: is there one "}}" too many above it?'
        hint = 'delete the "}" before it, or close the entry after its last field alone'
    else:
        return False
    problems.append(error(places.place(start), "unbalanced-brace", message, hint))
    return has_fields and raw.startswith((",", "}"))


def _find_dropped(
    places: Places,
    read: list[tuple[int, int]],
    reasons: dict[int, tuple[str, int]],
    lost: set[str],
    problems: list[Problem],
) -> None:
    """Entries that begin at a line start and are not among the blocks that were read."""
    text = places.text
    starts = list(_find_starts(text))
    blocks = iter(sorted(read))
    begin, end = next(blocks, (len(text), len(text)))
    for order, found in enumerate(starts):
        at = text.index("@", found.start())
        while at >= end and begin < len(text):
            begin, end = next(blocks, (len(text), len(text)))
        if begin <= at < end:
            continue
        stop = starts[order + 1].start() if order + 1 < len(starts) else len(text)
        kind, key = found[1] or "", found[3]
        is_entry = key and kind.lower() not in ("string", "preamble", "comment")
        what = f"the entry {short(key)}" if is_entry else f"this @{short(kind)}"
        if key:
            lost.add(key)
        offset, rule, why, hint = _why(places, at, stop, *reasons.get(at, ("", at)))
        problems.append(error(places.place(offset), rule, f"{what} cannot be read: {why}", hint))


_find_value = compiled(r"=[ \t]*([{\"])").search
_find_next_field = compiled(r"\n[ \t]*[\w-]+[ \t]*=[ \t]*[{\"\w]").search


def _why(places: Places, start: int, stop: int, reason: str, aborted: int) -> tuple[int, str, str, str]:
    """Where and why an entry cannot be read, by what the splitter says and what its text shows; and the mend."""
    text = places.text
    if "comma after entry key" in reason:
        begin = text[start : min(stop, start + LOOKED_AT)].split("\n", 1)[0].rstrip()
        return start, "forgotten-comma", "a comma is missing after its key", f"{short(begin)},"
    if "Expected a `=`" in reason or "Expected either" in reason:
        place = aborted if start <= aborted < stop else start
        return (
            place,
            "bibtex-syntax",
            'a field here has no "=" or no value, or a comma is missing, or there is one too many',
            _field_written(text, place),
        )
    line = places.place(stop).line
    before = f' before the "@" that begins line {line + (text[stop : stop + 1] == chr(10))}' if stop < len(text) else ""
    at = start
    while (found := _find_value(text, at, stop)) is not None:
        at = end_of_piece(text, found.start(1), stop)
        if at == stop or _find_next_field(text, found.start(1), at) is not None:
            closing = "}" if found[1] == "{" else '"'
            why = f"the {found[1]} that opens here is not closed{before}"
            return found.start(1), "unbalanced-brace", why, f'type "{closing}" where its text ends'
    why = "a brace opened in it is not closed before the next entry begins"
    return start, "unbalanced-brace", why, 'type "}" on a line of its own where the entry ends'


def _field_written(text: str, place: int) -> str:
    """The field that a line holds as BibTeX has it: "year = 2024," of "year: 2024,"."""
    begin = text.rfind("\n", 0, place) + 1
    line = text[begin : begin + LOOKED_AT].split("\n", 1)[0].strip()
    found = _find_other_sign(line)
    return f"{found[1]} = {found[2]}" if found else "each field is written name = {text}, with a comma after it"


_find_other_sign = compiled(r"(\w+)\s*[:;~-]\s*([^\s=][^=]*)").fullmatch
