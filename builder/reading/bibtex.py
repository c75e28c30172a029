"""BibTeX as typed: entries whose fields keep their place, with strings and joins resolved."""

from __future__ import annotations

import logging
import re
from collections.abc import Sequence
from typing import Any

from ..compiled_patterns import compiled, lent
from ..problems import Position, Problem, error
from ..records import NamedTuple
from .invisible import refuse_invisible
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

MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November",
    "December",
)  # fmt: skip
_find_starts = compiled(r"^[ \t]*@[ \t]*(\w*)[ \t]*([{(])[ \t]*([^\s,{}()=]*)", re.MULTILINE).finditer
_find_delimiters = compiled(r'\\.|[{}"]', re.DOTALL).finditer
_find_bare = compiled(r"[^\s{}\"#,%]+").match
_find_bare_text = compiled(r"[^\s{}\"#,%=]+[ \t]+[^{}\"#,%=]+$").match
_find_field = compiled(r"[\w-]+[ \t]*=[ \t]*[{\"]").search

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


class _Text:
    """A text with its places, asked for in rising order or nearly so."""

    def __init__(self, file: str, text: str) -> None:
        self.file = file
        self.text = text
        self._offset = 0
        self._line = 1

    def place(self, offset: int) -> Position:
        if offset < self._offset:
            self._line -= self.text.count("\n", offset, self._offset)
        else:
            self._line += self.text.count("\n", self._offset, offset)
        self._offset = offset
        return Position(self.file, self._line, offset - self.text.rfind("\n", 0, offset))


def read_bibtex(file: str, text: str, problems: list[Problem]) -> BibFile:
    """The entries of one file; what cannot be read is noted with its place, and its key kept.

    text: with "\\n" line ends and without byte-order mark.
    """
    refuse_invisible(file, text, problems)
    places = _Text(file, text)
    library = Splitter(text).split()
    strings = _strings(library.blocks)
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
            # What follows a forgotten comma is not known, so nothing may be concluded from its absence.
            if any(problem.rule == "forgotten-comma" for problem in problems[before:]):
                lost.add(entry.key)
            else:
                entries.append(entry)
        elif isinstance(block, ImplicitComment):
            if _refuse_stray_text(raw, start, places, problems) and entries and read and read[-1][1] >= start - 2:
                lost.add(entries.pop().key)
            continue
        read.append((start, at))
    _find_dropped(places, read, reasons, lost, problems)
    return BibFile(entries, lost)


def _with_strings(entry: RawEntry, defined: tuple[str, ...]) -> RawEntry:
    """The entry with the definitions of its file, where it uses any."""
    uses = defined and any(not field.literal for field in entry.fields.values())
    return entry._replace(strings=defined) if uses else entry


def _without_warnings(block: Any) -> Any:
    """The entry behind the notes that its key or one of its fields stands twice: we say so ourselves."""
    while isinstance(block, DuplicateBlockKeyBlock | DuplicateFieldKeyBlock):
        block = block.ignore_error_block
    return block


def _strings(blocks: Sequence[object]) -> dict[str, str]:
    """The abbreviations of the file, by name in lower case; months are defined beforehand."""
    strings = {name[:3].lower(): name for name in MONTHS}
    for block in blocks:
        if isinstance(block, StringBlock):
            strings.setdefault(block.key.lower(), "")
            text, _ = _resolved(block.value, strings)
            strings[block.key.lower()] = text
    return strings


def _entry(block: Entry, start: int, places: _Text, strings: dict[str, str], problems: list[Problem]) -> RawEntry:
    position = places.place(start)
    text = places.text
    raw = block.raw or ""
    kind = block.entry_type.lower()
    if kind not in ENTRY_TYPES:
        problems.append(_unknown_type(kind, position))
    fields: dict[str, Field] = {}
    cursor = start + raw.find(",") + 1
    for typed in block.fields:
        name, value = typed.key, typed.value
        name_at = text.index(name, cursor)
        value_at = text.index(value, text.index("=", name_at + len(name)) + 1)
        cursor = value_at + len(value)
        lowered = name.lower()
        if not lowered.replace("_", "").replace("-", "").replace(":", "").isalnum():
            message = f'"{_short(name)}" cannot be the name of a field: is a comma missing, or is there one too many?'
            hint = "each field is written name = {text}, with a comma after it"
            problems.append(error(places.place(name_at), "bibtex-syntax", message, hint))
        elif lowered in fields:
            message = f'the field "{lowered}" is given twice in the entry {block.key}'
            problems.append(error(places.place(name_at), "duplicate-field", message, "delete one of the two"))
        else:
            fields[lowered] = _field(lowered, value, value_at, places, strings, problems)
    return RawEntry(block.key, kind, position, fields, raw)


def _unknown_type(kind: str, position: Position) -> Problem:
    from difflib import get_close_matches  # only a message needs it

    near = get_close_matches(kind, ENTRY_TYPES, 1)
    hint = f"did you mean @{near[0]}?" if near else "@misc fits whatever has no type of its own"
    return error(position, "unknown-entry-type", f'"@{kind}" is not an entry type of BibTeX or biblatex', hint)


def _field(
    name: str, value: str, value_at: int, places: _Text, strings: dict[str, str], problems: list[Problem]
) -> Field:
    first = value[:1]
    if (first == "{" and value.find("}") == len(value) - 1) or (first == '"' and value.find('"', 1) == len(value) - 1):
        inner = value[1:-1]
    elif value.isdecimal():
        return Field(name, value, places.place(value_at), True)
    else:
        end = _end_of_piece(value, 0)
        if first in ("{", '"') and end == len(value):
            inner = value[1:-1]
        else:
            text, faults = _resolved(value, strings)
            for offset, rule, message, hint in faults:
                problems.append(error(places.place(value_at + offset), rule, message, hint))
            # A forgotten comma leaves its first part as it stands in the file.
            is_literal = first == "{" and value.startswith(text, 1)
            return Field(name, text, places.place(value_at + is_literal), is_literal)
    text = inner.strip()
    lead = 1 + len(inner) - len(inner.lstrip()) if text else 1
    return Field(name, text, places.place(value_at + lead), True)


def _end_of_piece(value: str, at: int) -> int:
    """Offset behind the braced or quoted piece that opens here; the length of the value where it never closes."""
    is_quoted = value[at : at + 1] == '"'
    depth = 0
    for found in _find_delimiters(value, at):
        sign = found[0]
        if sign == "{":
            depth += 1
        elif sign == "}":
            depth -= 1
            if depth <= 0 and not is_quoted:
                return found.end()
        elif sign == '"' and is_quoted and depth <= 0 and found.start() > at:
            return found.end()
    return len(value)


def _resolved(value: str, strings: dict[str, str]) -> tuple[str, list[tuple[int, str, str, str]]]:
    """The text of a value made of pieces, and (offset, rule, message, hint) of each fault in it."""
    parts: list[str] = []
    faults: list[tuple[int, str, str, str]] = []
    at = 0
    expects_piece = True
    while at < len(value):
        character = value[at]
        if character.isspace():
            at += 1
        elif character == "#":
            expects_piece = True
            at += 1
        elif not expects_piece:
            rest = _short(value[at:])
            hint = f"end what stands before it with a comma: {_short(value[:at])},"
            faults.append((at, "forgotten-comma", f'a comma is missing before "{rest}"', hint))
            break
        elif character in '{"':
            end = _end_of_piece(value, at)
            parts.append(value[at + 1 : end - 1].strip() if "#" not in value else value[at + 1 : end - 1])
            at, expects_piece = end, False
        else:
            found = _find_bare(value, at)
            word = found[0] if found else character
            if word.lower() in strings:
                parts.append(strings[word.lower()])
            elif word.isdecimal():
                parts.append(word)
            else:
                word, message, hint = _bare_text(value, at, word)
                parts.append(word)
                faults.append((at, "undefined-string", message, hint))
            at, expects_piece = at + len(word), False
    return "".join(parts), faults


def _bare_text(value: str, at: int, word: str) -> tuple[str, str, str]:
    """What stands in a value without braces and is no abbreviation: all of its words; message and hint."""
    whole = _find_bare_text(value, at)
    if whole is None:
        message = f'"{_short(word)}" is neither a number nor an abbreviation of this file'
        return word, message, f"put the text in braces: {{{_short(word)}}}"
    text = whole[0].rstrip()
    inner = " ".join(text.strip("“”„‟«»'").split())
    return text, f'"{_short(text)}" is a text and stands without braces', f"put it in braces: {{{inner}}}"


def _refuse_stray_text(raw: str, start: int, places: _Text, problems: list[Problem]) -> bool:
    """Text between entries is a remark in BibTeX; what looks like fields was cut off by a brace too many: True."""
    has_fields = _find_field(raw) is not None
    if raw.startswith("@"):
        message = f'"{_short(raw)}" is not read: is the brace after the entry type missing?'
        hint = "an entry begins @article{key,"
    elif has_fields:
        message = f'"{_short(raw)}" is outside any entry and is not read: is there one "}}" too many above it?'
        hint = 'delete the "}" before it, or close the entry after its last field alone'
    else:
        return False
    problems.append(error(places.place(start), "unbalanced-brace", message, hint))
    return has_fields and raw.startswith((",", "}"))


def _find_dropped(
    places: _Text,
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
        kind, key = found[1], found[3]
        what = f"the entry {key}" if key and kind.lower() not in ("string", "preamble", "comment") else f"this @{kind}"
        if key:
            lost.add(key)
        offset, rule, why, hint = _why(text, at, stop, *reasons.get(at, ("", at)))
        problems.append(error(places.place(offset), rule, f"{what} cannot be read: {why}", hint))


_find_next_field = compiled(r"\n[ \t]*[\w-]+[ \t]*=[ \t]*[{\"\w]").search


def _why(text: str, start: int, stop: int, reason: str, aborted: int) -> tuple[int, str, str, str]:
    """Where and why an entry cannot be read, by what the splitter says and what its text shows; and the mend."""
    if "comma after entry key" in reason:
        begin = text[start:stop].split("\n", 1)[0].rstrip()
        return start, "forgotten-comma", "a comma is missing after its key", f"{_short(begin)},"
    if "Expected a `=`" in reason or "Expected either" in reason:
        place = aborted if start <= aborted < stop else start
        return (
            place,
            "bibtex-syntax",
            'a field here has no "=" or no value, or a comma is missing, or there is one too many',
            _field_written(text, place),
        )
    line = text.count("\n", 0, stop) + 1
    before = f' before the "@" that begins line {line + (text[stop : stop + 1] == chr(10))}' if stop < len(text) else ""
    for found in re.compile(r"=[ \t]*([{\"])").finditer(text, start, stop):
        piece = text[found.start(1) : stop]
        end = _end_of_piece(piece, 0)
        following = _find_next_field(piece)
        if end == len(piece) or (following and following.start() < end and "\n" in piece[:end]):
            closing = "}" if found[1] == "{" else '"'
            why = f"the {found[1]} that opens here is not closed{before}"
            return found.start(1), "unbalanced-brace", why, f'type "{closing}" where its text ends'
    why = "a brace opened in it is not closed before the next entry begins"
    return start, "unbalanced-brace", why, 'type "}" on a line of its own where the entry ends'


def _field_written(text: str, place: int) -> str:
    """The field that a line holds as BibTeX has it: "year = 2024," of "year: 2024,"."""
    begin = text.rfind("\n", 0, place) + 1
    line = text[begin:].split("\n", 1)[0].strip()
    found = _find_other_sign(line)
    return f"{found[1]} = {found[2]}" if found else "each field is written name = {text}, with a comma after it"


_find_other_sign = compiled(r"(\w+)\s*[:;~-]\s*([^\s=][^=]*)").fullmatch


def _short(text: str) -> str:
    text = " ".join(text.split())
    return text if len(text) <= 40 else text[:39].rstrip() + "…"
