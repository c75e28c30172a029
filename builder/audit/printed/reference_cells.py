"""What the row of a ratio compares, by its head and by the cell or line that tells the reference."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ...numerals.late import late
from .clauses import Span
from .comparisons import Compared
from .tables import InCell, Line, Table
from .wordings import Mention

_heads_reference = late(
    r"\W*(?:references?|referents?|ref\.?|comparators?|compared (?:with|to)|versus|vs\.?|against)\b"
    r"(?:\s+(?:group|category|level|class))?\W*",
    re.IGNORECASE,
    holds=("ref", "compar", "versus", "vs", "against"),
).fullmatch


def compared_in_row(text: str, table: Table, place: InCell, mentions: Sequence[Mention]) -> Compared | None:
    """ "Suture | no suture | 2.74" below "Variable | Reference | HR"; without such a column the head of the
    row alone. None where its head names nobody, or several."""
    head = _first(place)
    named = _keys(head, mentions) if head is not None else {}
    if head is None or len(named) != 1:
        return None
    (level,) = named
    line = table.lines[place.row]
    for column, cell in enumerate(line.cells):
        told = _keys((cell.start, cell.end), mentions)
        if told and level not in told:  # "Suture | no suture | 2.74": the head may be the factor
            if len(told) > 1 or not _is_headed(text, table, place.row, column):
                return None
            (reference,) = told
            return Compared(level, reference, (named[level], told[reference]))
    return Compared(level, "", (named[level],))


def _first(place: InCell) -> Span | None:
    """The head of a row, where the number stands in another cell."""
    before = [span for span in place.others if span[1] <= place.cell[0]]
    return min(before) if before else None


def _keys(span: Span, mentions: Sequence[Mention]) -> dict[str, Span]:
    return {
        mention.key: (mention.start, mention.end)
        for mention in mentions
        if mention.key and span[0] <= mention.start < span[1]
    }


def _is_headed(text: str, table: Table, row: int, column: int) -> bool:
    """Whether the heading over a column says that it holds references."""
    heads: list[Line] = [line for line in table.lines[:row] if line.is_heading and len(line.cells) > column]
    return any(_heads_reference(text, line.cells[column].start, line.cells[column].end) for line in heads)
