"""What the row of a ratio compares, by its head and by the cell or line that tells the reference."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ..compiled_patterns import compiled
from ..numerals.late import late
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


_announces = late(
    r"\b(?:reference|referent)(?:\s+(?:group|category|level|class))?\s*(?:[:=,]|was|is|being|were)\s*(?:the\s+)?$",
    re.IGNORECASE,
).search
_is_announced = late(
    r"\s+(?:[a-z]+\s+)?(?:was|is|as|being|served as|taken as|set as)\s+(?:the\s+)?(?:reference|referent)\b(?!\s*[:=])",
    re.IGNORECASE,
).match
_ends_a_clause = late(r"\s*(?:[.;,)\]\n]|$)").match
_find_end = late(r"[.;](?=\s)|\n").search


def announced_reference(text: str, mentions: Sequence[Mention], at: int) -> Mention | None:
    """The one name that an earlier sentence calls the reference of all ratios behind it: "Odds of healing; reference:
    coronal". None where none is, or several."""
    if "referen" not in text.lower():
        return None
    found: dict[str, Mention] = {}
    for mention in mentions:
        if mention.end > at or _find_end(text, mention.end, at) is None:
            continue
        before = text[max(mention.start - 40, 0) : mention.start]
        is_led = _announces(before) is not None and _ends_a_clause(text, mention.end) is not None
        if is_led or _is_announced(text, mention.end) is not None:
            found.setdefault(mention.key, mention)
    return next(iter(found.values())) if len(found) == 1 else None


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


_REFERENCE = r"(?:ref\w*\.?|comparator|baseline)(?:\s+(?:group|category|level|class))?"
_is_reference = late(rf"\W*(?:1(?:[.,·]0+)?(?!\d)\W*(?:{_REFERENCE})?|{_REFERENCE})\W*", re.IGNORECASE).fullmatch
_ends_in_reference = late(
    rf"[(\[,:–-]\s*{_REFERENCE}\s*[)\]]?$", re.IGNORECASE, holds=("ref", "comparator", "baseline")
).search
_is_dash = compiled(r"\s*[–—-]+\s*").fullmatch


def against_row(text: str, table: Table, place: InCell, mentions: Sequence[Mention]) -> Compared | None:
    """ "No | 3.12" below "Yes | 1 (reference)": what a ratio is for, and against the head of which other row.
    None where no row is marked as the reference, or where the heads name nobody, or several."""
    level = _named_left(table.lines[place.row], place.column, mentions)
    if level is None:
        return None
    for is_marked in (_says_reference, _is_left_out):
        for row in (*range(place.row - 1, -1, -1), *range(place.row + 1, len(table.lines))):
            line = table.lines[row]
            if len(line.cells) < 2 or not is_marked(text, line, place):
                continue
            reference = _named_left(line, len(line.cells), mentions)
            if reference is not None and reference.key != level.key:
                words = sorted(((level.start, level.end), (reference.start, reference.end)))
                return Compared(level.key, reference.key, tuple(words))
    return None


def _says_reference(text: str, line: Line, place: InCell) -> bool:
    """ "1.00", "Ref." in the column of the ratio, or "Yes (reference)" before it."""
    own = line.cells[min(place.column, len(line.cells) - 1)]
    if own.start < own.end and _is_reference(text, *own):
        return True
    return any(_ends_in_reference(text, *cell) for cell in line.cells[: place.column])


def _is_left_out(text: str, line: Line, place: InCell) -> bool:
    """ "Yes | – | –": of the levels of a model the one that has no ratio."""
    rest = line.cells[place.column :]
    return bool(rest) and all(_is_dash(text, *cell) for cell in rest)


def _named_left(line: Line, column: int, mentions: Sequence[Mention]) -> Mention | None:
    """The one name in the nearest cell to the left that has any."""
    for cell in reversed(line.cells[:column]):
        named = _keys((cell.start, cell.end), mentions)
        if len(named) > 1:
            return None
        if named:
            ((key, span),) = named.items()
            return Mention(*span, key)
    return None


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
