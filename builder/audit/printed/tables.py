"""Rows, columns and headings of a passage that was typed as a table."""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Sequence
from typing import NamedTuple

from ...numerals import Token
from .clauses import Span


class Cell(NamedTuple):
    """One cell of a row, without the blanks around it."""

    start: int
    end: int


class Line(NamedTuple):
    """One line of a passage, or a row of a table."""

    start: int
    end: int
    cells: tuple[Cell, ...]
    """Two or more in a row; none in a line of words."""
    is_heading: bool
    """A row without figures, or one with its first cell alone."""


class InCell(NamedTuple):
    """Where in a table a number stands."""

    row: int
    column: int
    """Both from 0, heading rows counted."""
    cell: Span
    others: tuple[Span, ...]
    """The other cells of its row, those to its left first, the nearest before the farther."""
    headings: tuple[Span, ...]
    """The cells above it in the rows of headings, the nearest first."""
    above: tuple[Span, ...]
    """Lines of words above its row, the nearest first: headings of some rows, then what stands over the table."""

    @property
    def row_and_column(self) -> tuple[Span, ...]:
        """Its own cell, the others of its row and the headings of its column: the nearest words first."""
        return (self.cell, *self.others, *self.headings)

    @property
    def everywhere(self) -> tuple[Span, ...]:
        """The same and the lines above."""
        return (*self.row_and_column, *self.above)


def is_table(text: str) -> bool:
    """Whether a passage may hold rows and columns."""
    return "|" in text or ("\n" in text and ("\t" in text or _find_gap(text) is not None))


_find_gap = re.compile(r"\S {2,}\S").search
_GAP = re.compile(r"\t+| {2,}")
_RULE = re.compile(r"[\s|:+=-]*")


def lines_of(text: str, tokens: Sequence[Token]) -> list[Line]:
    """The lines of a passage; a line typed with "|" ends at a semicolon too, where rows stand on both sides."""
    spans: list[Span] = []
    start = 0
    for line in text.split("\n"):
        parts = line.split(";")
        if len(parts) > 1 and "|" in line and all("|" in part for part in parts):
            for part in parts:
                spans.append((start, start + len(part)))
                start += len(part) + 1
        else:
            spans.append((start, start + len(line)))
            start += len(line) + 1
    has_bars = "|" in text
    figures = figures_of(tokens)
    return [
        _line(text, low, high, figures, has_bars=has_bars)
        for low, high in spans
        if text[low:high].strip() and not _RULE.fullmatch(text, low, high)
    ]


def _line(text: str, low: int, high: int, figures: Sequence[int], *, has_bars: bool) -> Line:
    while low < high and text[low].isspace():
        low += 1
    while high > low and text[high - 1].isspace():
        high -= 1
    cells = _cells(text, low, high, has_bars=has_bars)
    if len(cells) < 2:
        return Line(low, high, (), is_heading=True)
    rest = [cell for cell in cells[1:] if cell.start < cell.end]
    return Line(low, high, cells, is_heading=not any(_is_figure(text, cell, figures) for cell in rest))


def _cells(text: str, low: int, high: int, *, has_bars: bool) -> tuple[Cell, ...]:
    """A row between its bars, or where there is no bar in the passage, between tabs and gaps of several blanks."""
    cuts = [low]
    if has_bars:
        if text[low] == "|":
            cuts = [low + 1]
        if text[high - 1] == "|":
            high -= 1
        for at in range(cuts[0], high):
            if text[at] == "|":
                cuts += [at, at + 1]
    else:
        for found in _GAP.finditer(text, low, high):
            if text[found.start() - 1] not in ".!?":
                cuts += [found.start(), found.end()]
    cuts.append(high)
    return tuple(_stripped(text, *pair) for pair in zip(cuts[::2], cuts[1::2], strict=True))


def _stripped(text: str, low: int, high: int) -> Cell:
    while low < high and text[low].isspace():
        low += 1
    while high > low and text[high - 1].isspace():
        high -= 1
    return Cell(low, high)


_WORDS = frozenset({"size", "length", "minutes", "calendar", "confidence"})
"""Kinds of number that a heading may have: "over 3 mm", "12 months", "95% CI"."""
_begins_with_figure = re.compile(r"[\s<>=≤≥±+(−–-]*[\d.·]").match


def figures_of(tokens: Sequence[Token]) -> list[int]:
    """Where the numbers stand that no heading has."""
    return [token.start for token in tokens if token.kind not in _WORDS]


def _is_figure(text: str, cell: Cell, figures: Sequence[int]) -> bool:
    """ "39 of 47 (83%)"; but "over 3 mm" and "A (n = 47)" are words."""
    at = bisect_left(figures, cell.start)
    return at < len(figures) and figures[at] < cell.end and _begins_with_figure(text, cell.start) is not None


def places_in_table(lines: list[Line], starts: list[int]) -> list[InCell | None]:
    """For each number, by where it starts, its place in the table; None in a line of words."""
    out: list[InCell | None] = [None] * len(starts)
    if not any(line.cells for line in lines):
        return out
    heads: list[Line] = []
    above: list[Span] = []
    over: list[Span] = []
    was_heading = False
    at = 0
    for row, line in enumerate(lines):
        is_lone = all(cell.start == cell.end for cell in line.cells[1:])
        if is_lone and (heads or any(each.cells for each in lines[:row])):
            above = [(line.start, line.end)]
        elif is_lone:
            over.insert(0, (line.start, line.end))
        elif line.is_heading:
            heads = [*heads, line] if was_heading else [line]
        while at < len(starts) and starts[at] < line.end:
            if line.cells and starts[at] >= line.start:
                out[at] = _in_cell(row, line, starts[at], heads, above, over)
            at += 1
        was_heading = line.is_heading and not is_lone
    return out


def _in_cell(row: int, line: Line, start: int, heads: list[Line], above: list[Span], over: list[Span]) -> InCell | None:
    for column, cell in enumerate(line.cells):
        if cell.start <= start < cell.end:
            left = [(each.start, each.end) for each in reversed(line.cells[:column]) if each.start < each.end]
            right = [(each.start, each.end) for each in line.cells[column + 1 :] if each.start < each.end]
            found = []
            for head in reversed(heads):
                if head is not line:
                    over_it = _heading(head, column, len(line.cells))
                    found += [(over_it.start, over_it.end)] if over_it is not None else []
            return InCell(
                row, column, (cell.start, cell.end), (*left, *right), tuple(found), (*above, *over)
            )  # fmt: skip
    return None


def _heading(head: Line, column: int, width: int) -> Cell | None:
    """The cell of a heading over a column; a heading over several columns stands at the first, or once for each group
    of as many."""
    cells = list(head.cells)
    is_padded = any(cell.start == cell.end for cell in cells[1:])
    if len(cells) < width and not is_padded:
        first = cells[0].start == cells[0].end or (width - 1) % len(cells) != 0 or len(cells) == 1
        groups = cells[1:] if first else cells
        if not groups or column == 0:
            return None
        each, rest = divmod(width - 1, len(groups))
        return None if rest else groups[(column - 1) // each]
    for at in range(min(column, len(cells) - 1), 0 if column else -1, -1):
        if cells[at].start < cells[at].end:
            return cells[at]
    return None
