"""Exports of one tag a line, RIS and that of PubMed: records with every value of every tag, in order.

The lines of RIS are read by rispy. Its parser keeps the first value alone of a tag that it expects once, and drops a
record that nothing ends; so each record is handed to it by itself, and every tag may come again.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from rispy.parser import RisParser

from ...records import NamedTuple
from .reference import CannotRead


class Tagged(NamedTuple):
    """One record."""

    line: int
    values: dict[str, list[str]]
    """By tag, in the order of the file; empty values left out."""

    def first(self, *tags: str) -> str:
        """The first value of the first of these tags that has one; "" where none has."""
        return next((self.values[tag][0] for tag in tags if tag in self.values), "")

    def all(self, *tags: str) -> list[str]:
        """All values of these tags."""
        return [value for tag in tags for value in self.values.get(tag, ())]


class _SameNames(dict[str, str]):
    """Every tag is called by itself."""

    def __missing__(self, tag: str) -> str:
        return tag


class _EveryValue(RisParser):  # type: ignore[misc]  # rispy has no types
    """RIS, with each tag as often as it stands there."""

    LINE = re.compile(r"([A-Z][A-Z0-9])[ \t]{1,2}-(?:[ \t]?(.*))?$")

    def __init__(self) -> None:
        super().__init__(mapping=_SameNames(), delimiter_tags_mapping={})

    def parse_line(self, line: str) -> Any:
        """Tag and content; no tag where a line goes on with the one above."""
        found = self.LINE.match(line)
        return (found[1], (found[2] or "").strip()) if found else (None, line.strip())

    def _add_tag(self, record: dict[str, Any], tag: str | None, content: str, extend_multiline: bool = False) -> None:
        values = record.setdefault(tag or "", [])
        if extend_multiline and values:
            values[-1] = f"{values[-1]} {content}".strip()
        else:
            values.append(content)


class _OfPubMed(_EveryValue):
    """The format of PubMed's own exports: tags of four places, and lines that go on behind six blanks."""

    START_TAG = "PMID"
    LINE = re.compile(r"([A-Z][A-Z0-9]{1,3}) *-(?: (.*))?$")


is_ris = re.compile(r"^TY[ \t]{1,2}-", re.MULTILINE).search
is_of_pubmed = re.compile(r"^PMID- ", re.MULTILINE).search
_starts_ris = re.compile(r"TY[ \t]{1,2}-").match
_starts_pubmed = re.compile(r"PMID- ").match
_ends_ris = re.compile(r"ER[ \t]{1,2}-").match


def read_ris(text: str) -> Iterator[Tagged | CannotRead]:
    """The records in order, and a line outside of all of them where it says something."""
    return _read(text, _EveryValue(), _starts_ris)


def read_pubmed(text: str) -> Iterator[Tagged | CannotRead]:
    """The same of an export of PubMed."""
    return _read(text, _OfPubMed(), _starts_pubmed)


def _read(text: str, parser: _EveryValue, starts: Any) -> Iterator[Tagged | CannotRead]:
    lines: list[str] = []
    begun = 0
    for number, line in enumerate([*text.split("\n"), None], 1):
        if line is None or starts(line):
            if lines:
                yield _record(begun, lines, parser)
            lines = [line] if line is not None else []
            begun = number
        elif lines and not _ends_ris(line):
            lines.append(line)
        elif lines:
            yield _record(begun, lines, parser)
            lines = []
        elif line.strip():
            yield CannotRead(f'"{_short(line)}" stands outside of every reference, and was not read', number)


def _record(begun: int, lines: list[str], parser: _EveryValue) -> Tagged:
    [found] = parser.parse("\n".join([*lines, "ER  - "]))
    start = found.pop(parser.START_TAG)
    # The first value of the tag that begins a record comes alone.
    values = {parser.START_TAG: [start], **{tag: said for tag, told in found.items() if (said := _said(told))}}
    return Tagged(begun, values)


def _said(values: list[str]) -> list[str]:
    return [value for value in values if value]


def _short(line: str) -> str:
    line = line.strip()
    return line if len(line) <= 40 else line[:39].rstrip() + "…"
