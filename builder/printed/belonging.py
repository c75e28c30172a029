"""Which numbers of a passage belong to which of several names: by its clauses, lists, rows and columns."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ..compiled_patterns import compiled
from ..numerals import Token
from ..numerals.late import holds_any, late
from .aliases import with_aliases
from .clauses import Span
from .lists import OF_ALL, STRUCTURAL
from .owner import UNCLEAR, Owners, is_inside
from .prose import Prose
from .tables import InCell, Table
from .wordings import Mention, Names


def owners_of(
    text: str, mentions: list[Mention], tokens: Sequence[Token], table: Table, names: Names, counted: frozenset[str]
) -> Owners:
    """To which of the names each number belongs.

    mentions: where they stand. counted: what is counted, and what is said of it: "eyes", "healed".
    """
    if not mentions:
        return [None] * len(tokens)
    mentions = with_aliases(text, mentions, names)
    is_complete = len({mention.key for mention in mentions} - {""}) >= len(names)
    return owners_among(text, tokens, mentions, table, counted, is_complete=is_complete)


def is_all_of_one(text: str, mentions: list[Mention], table: Table, names: Names) -> bool:
    """Whether a passage begins with the only name in it, and says no more of whose its numbers are: "A: 39 of 47".

    Whatever number stands behind the name is its own then, and `owners_of` need not be asked.
    """
    if not mentions or table.lines or "\n" in text or text[: mentions[0].start].strip(" "):
        return False
    if any(mention.key != mentions[0].key for mention in mentions) or not mentions[0].key:
        return False
    return not holds_any(text.lower(), OF_ALL) and (with_aliases(text, mentions, names) is mentions)


def owners_among(
    text: str, tokens: Sequence[Token], mentions: list[Mention], table: Table, counted: frozenset[str],
    *, is_complete: bool,
) -> Owners:  # fmt: skip
    """To which of the things mentioned each number belongs.

    counted: as above. is_complete: whether the passage mentions all that there
    are: then a clause with one is that one's.
    """
    owners: Owners = [None] * len(tokens)
    numbers = [index for index, token in enumerate(tokens) if not is_inside(token, mentions)]
    reader = _Tables(text, tokens, mentions, owners, counted, is_complete=is_complete)
    if table.has_cells:
        for line in table.lines:
            inside = [index for index in numbers if line.start <= tokens[index].start < line.end]
            if not line.cells:
                reader.read_prose((line.start, line.end), inside)
        for index in numbers:
            place = table.places[index]
            if place is not None:
                reader.read_cell(index, place)
        return owners
    rows = _rows_of(text, mentions, tokens)
    if rows:
        reader.read_lines(rows, numbers)
    else:
        reader.read_prose((0, len(text)), numbers)
    return owners


_match_time_word = compiled(r"\s*(?:(?:at|after)\s+)?(?:year|month|week|day)s?\s+", re.IGNORECASE).match
_match_label = late(r"\s*[^\s.:;,|][^.:;,|\d\n]{0,39}(?::|\s[–-]\s)").match


_match_test = late(
    r"\W*(?:p(?:[\s-]?values?)?\s*[=<>≤:]|χ|chi|fisher|log-?rank|adjusted|mann|student|n\.?s\.?\b)", re.IGNORECASE
).match
""" "p = 0.58, Fisher's exact test" below rows is none."""


def _is_silent(text: str, tokens: Sequence[Token], start: int, line: str) -> bool:
    """Whether a line counts nothing: a test, or a time alone."""
    inside = [token for token in tokens if start <= token.start < start + len(line)]
    return _match_test(line) is not None or all(token.kind not in STRUCTURAL for token in inside)


def _rows_of(text: str, mentions: Sequence[Mention], tokens: Sequence[Token]) -> list[Span]:
    """The lines of a passage, where each that has a number begins with a name, or with a label: "healed: 39"."""
    if "\n" not in text:
        return []
    starts = {mention.start for mention in mentions}
    rows: list[Span] = []
    start = named = 0
    for line in text.split("\n"):
        first = start + len(line) - len(line.lstrip())
        led = _match_time_word(text, start, start + len(line))
        if first in starts or (led and led.end() in starts) or _match_label(text, start, start + len(line)):
            named += any(start <= mention.start < start + len(line) for mention in mentions)
        elif start and any(letter.isdigit() for letter in line) and not _is_silent(text, tokens, start, line):
            return []  # the first may be a title
        rows.append((start, start + len(line)))
        start += len(line) + 1
    return rows if named > 1 else []


class _Tables(Prose):
    """The same of a passage that has rows and columns."""

    def read_cell(self, index: int, place: InCell) -> None:
        """A number in a table: its own cell's name, else its row's and its column's, else that of a heading over
        several rows."""
        own = self.named(place.cell)
        if own:
            if len(own) > 1 and self.owners[index] is None:
                inside = [
                    at for at, token in enumerate(self.tokens)
                    if place.cell[0] <= token.start < place.cell[1] and not is_inside(token, self.mentions)
                ]  # fmt: skip
                self.read_region(place.cell, inside)
            elif len(own) == 1:
                self.own([index], own[0])
            return
        row = self._first_named(place.others)
        column = self._first_named(place.headings)
        if len(row) > 1 or len(column) > 1 or (row and column and row[0].key != column[0].key):
            self.owners[index] = UNCLEAR
        elif row:
            self.own([index], row[0])
        elif column:
            self.own([index], column[0], by="position")
        else:
            above = self._first_named(place.above)
            if len(above) == 1:
                self.own([index], above[0], is_sure=place.above[0][0] <= above[0].start)
            elif above:
                self.owners[index] = UNCLEAR

    def _first_named(self, spans: Sequence[Span]) -> list[Mention]:
        for span in spans:
            found = self.named(span)
            if found:
                return found
        return []
