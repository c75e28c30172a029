"""Rows, columns and headings of a passage that was typed as a table."""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Iterator, Sequence
from functools import partial

from ..compiled_patterns import compiled
from ..numerals import Token
from ..numerals.late import late
from ..numerals.rows import Layout, labels_in, layout_of, lists_in, rows_of
from ..records import NamedTuple
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
    stubs: tuple[Span, ...] = ()
    """What stands over the first column, and so over the heads of all rows."""

    @property
    def row_and_column(self) -> tuple[Span, ...]:
        """Its own cell, the others of its row and the headings of its column: the nearest words first."""
        return (self.cell, *self.others, *self.headings)

    @property
    def everywhere(self) -> tuple[Span, ...]:
        """The same and the lines above."""
        return (*self.row_and_column, *self.above)


class Table:
    """The lines of a passage that may be typed as a table, and for each of its numbers the place in it."""

    __slots__ = ("_over", "has_cells", "lines", "places")

    def __init__(self, lines: Sequence[Line], places: Sequence[InCell | None]) -> None:
        self.lines = lines
        """Empty in prose."""
        self.places = places
        """None of a number in a line of words."""
        self.has_cells = any(place is not None for place in places) if lines else False
        """Whether any number stands in a row."""
        rows = next((at for at, line in enumerate(lines) if line.cells), len(lines))
        self._over = frozenset((line.start, line.end) for line in lines[:rows])

    @property
    def _has_sections(self) -> bool:
        return any(place is not None and place.above and place.above[0] not in self._over for place in self.places)

    def sections(self, place: InCell) -> tuple[Span, ...]:
        """What heads the rows around a number and no others: a line of words, or the first cell of a row before."""
        if not place.above or (place.above[0] in self._over and not self._has_sections):
            return ()
        return place.above[:1]


def table_of(text: str, tokens: Sequence[Token]) -> Table:
    """The one reading of rows and columns of a passage."""
    layout = layout_of(text)
    if not layout:
        return Table((), [None] * len(tokens))
    lines = _lines_of(text, tokens, layout)
    over = _Over(has_stubs=_head_sections(text, lines), of_all=_row_of_all(text, lines))
    return Table(lines, _places(lines, [token.start for token in tokens], over))


_GAP = late(r"\t+| {2,}")
_RULE = compiled(r"[\s|:+=-]*")


def _lines_of(text: str, tokens: Sequence[Token], layout: Layout) -> list[Line]:
    """Rows, headings and lines of words."""
    if layout == "labels":
        return _of_labels(text, [(label, [value]) for label, value in labels_in(text)])
    if layout == "lists":
        lines = _of_labels(text, lists_in(text))
        return [line._replace(is_heading=line.is_heading or bool(unit_of_times(text, line))) for line in lines]
    spans = [
        _stripped(text, low, high)
        for low, high in rows_of(text)
        if text[low:high].strip() and not _RULE.fullmatch(text, low, high)
    ]
    figures = figures_of(tokens)
    if layout == "bars":
        spans = [Cell(_behind_name(text, *span), span.end) for span in spans]
        cut = partial(_between_signs, text, "|", _borders(text, spans))
    elif layout == "semicolons":
        cut = partial(_between_signs, text, ";", (False, False))
    else:
        cut = partial(_between_gaps, text)
    lines = [_line(text, span, cut(*span), figures) for span in spans]
    first = next((at for at, line in enumerate(lines) if line.cells), 0)
    if lines[first].cells and _names_columns(text, *lines[first : first + 2]):
        lines[first] = lines[first]._replace(is_heading=True)
    return [line._replace(is_heading=line.is_heading or bool(unit_of_times(text, line))) for line in lines]


_name_of_heading = compiled(r"columns?\s*:\s*", re.IGNORECASE).match


def _behind_name(text: str, low: int, high: int) -> int:
    """Where the cells of "Columns: Status | n | %" begin."""
    found = _name_of_heading(text, low, high) if "|" in text[low:high] else None
    return low if found is None else found.end()


def _of_labels(text: str, rows: Sequence[tuple[Span, Sequence[Span]]]) -> list[Line]:
    """Rows of a label and its values; what stands between them is words, however many lines it takes."""
    lines: list[Line] = []
    at = 0
    for label, values in rows:
        lines += _words(text, at, label[0])
        low, high = _stripped(text, label[0], values[-1][1])
        lines.append(Line(low, high, tuple(_stripped(text, *cell) for cell in (label, *values)), is_heading=False))
        at = values[-1][1]
    return [*lines, *_words(text, at, len(text))]


def _words(text: str, low: int, high: int) -> list[Line]:
    low, high = _stripped(text, low, high)
    return [Line(low, high, (), is_heading=True)] if _find_word(text, low, high) is not None else []


_heads_times = late(
    r"(?:(?:time|follow-?up|recall|interval|period|at|after)\b[\s,:(/-]*)*(?:in\s+)?(?P<unit>day|week|month|year)s?\)?"
    r"(?:\s*(?:after|of|since|from|post)\b.*)?\s*",
    re.IGNORECASE,
).fullmatch
"""What heads a row of times: "Months", "Time (years)", "Months after repair"."""


_is_bare = compiled(r"\d+(?:\.\d+)?").fullmatch


def unit_of_times(text: str, line: Line) -> str:
    """day, week, month or year of a row such as "Months | 6 | 12 | 24"; "" of any other."""
    head = _heads_times(text, *line.cells[0]) if len(line.cells) > 2 else None
    if head is None or not all(_is_bare(text, *cell) for cell in line.cells[1:]):
        return ""
    return head["unit"].lower()


def _line(text: str, span: Span, cells: tuple[Cell, ...], figures: Sequence[int]) -> Line:
    if len(cells) < 2:
        return Line(*span, (), is_heading=True)
    rest = [cell for cell in cells[1:] if cell.start < cell.end]
    return Line(*span, cells, is_heading=not any(_is_figure(text, cell, figures) for cell in rest))


def _borders(text: str, spans: Sequence[Span]) -> tuple[bool, bool]:
    """Whether the rows stand inside bars to the left and to the right; a bar before some alone ends an empty cell."""
    rows = [text[low:high] for low, high in spans if "|" in text[low:high]]
    return all(row.startswith("|") for row in rows), all(row.endswith("|") for row in rows)


_find_word = compiled(r"[^\W\d_]{3}").search


def _names_columns(text: str, line: Line, behind: Line | None = None) -> bool:
    """The first row of a table, where nothing stands over its first column and words stand over every other: "| 5%
    solution | 1% solution". behind: the row behind it, over whose first cell nothing may stand in blanks alone; or a
    row whose other cells are names that begin with a number in words: "Fixation | One screw | Two screws"."""
    first, *rest = line.cells
    is_set_in = behind is not None and len(behind.cells) == len(line.cells) + 1 and (
        _column(text, first.start) >= _column(text, behind.cells[0].end)
    )  # fmt: skip
    if is_set_in or first.start == first.end:
        named = line.cells if is_set_in else rest
        return all(_find_word(text, *cell) for cell in named if cell.start < cell.end)
    return all(_match_name(text, *cell) for cell in rest if cell.start < cell.end)


_match_name = compiled(r"[^\W\d_]{3,}(?![^\S\n]+of\b)[^\d|]*(?:\([nN]\s*=\s*\d+\))?\W*").fullmatch
""" "One screw (n = 57)": a number in words that begins a name."""


def _column(text: str, at: int) -> int:
    """How far from the beginning of its line a place is."""
    return at - text.rfind("\n", 0, at) - 1


def _between_signs(text: str, sign: str, borders: tuple[bool, bool], low: int, high: int) -> tuple[Cell, ...]:
    if sign not in text[low:high]:
        return ()
    low, high = low + borders[0], high - borders[1]
    signs = [at for at in range(low, high) if text[at] == sign]
    return _cells(text, [low, *(each for at in signs for each in (at, at + 1)), high])


def _between_gaps(text: str, low: int, high: int) -> tuple[Cell, ...]:
    """Between tabs and gaps of several blanks."""
    gaps = [found.span() for found in _GAP.finditer(text, low, high) if text[found.start() - 1] not in ".!?"]
    return _cells(text, [low, *(each for gap in gaps for each in gap), high])


def _cells(text: str, cuts: Sequence[int]) -> tuple[Cell, ...]:
    return tuple(_stripped(text, *pair) for pair in zip(cuts[::2], cuts[1::2], strict=True))


def _stripped(text: str, low: int, high: int) -> Cell:
    while low < high and text[low].isspace():
        low += 1
    while high > low and text[high - 1].isspace():
        high -= 1
    return Cell(low, high)


_WORDS = frozenset({"size", "length", "minutes", "calendar", "confidence"})
"""Kinds of number that a heading may have: "over 3 mm", "12 months", "95% CI"."""
_leads_figure = late(r"[\s<>=≤≥±+(−–-]*(?:[ac]?(?:OR|HR|RR|[Pp])\b[\s<>=≤≥:,−–-]*)?").fullmatch


def figures_of(tokens: Sequence[Token]) -> list[int]:
    """Where the numbers stand that no heading has."""
    return [token.start for token in tokens if token.kind not in _WORDS]


def _is_figure(text: str, cell: Cell, figures: Sequence[int]) -> bool:
    """ "39 of 47 (83%)"; but "over 3 mm" and "A (n = 47)" are words."""
    at = bisect_left(figures, cell.start)
    return at < len(figures) and figures[at] < cell.end and _leads_figure(text, cell.start, figures[at]) is not None


def _head_sections(text: str, lines: Sequence[Line]) -> bool:
    """Whether rows of headings come again for each section: "Women | healed n/N" ... "Men | healed n/N"."""
    heads = [line for line in lines if line.is_heading and len(line.cells) > 1]
    if len(heads) < 2 or any(line.cells[0].start == line.cells[0].end for line in heads):
        return False
    alike = {text[line.cells[0].end : line.end].strip() for line in heads}
    return len(alike) == 1 and len({text[slice(*line.cells[0])] for line in heads}) == len(heads)


_is_of_all = late(
    r"(?:grand\s+)?(?:totals?|all|overall|sum)\b[^\d\n]{0,20}", re.IGNORECASE, holds=("total", "all", "sum")
).fullmatch


def _row_of_all(text: str, lines: Sequence[Line]) -> Line | None:
    """The last row, where it alone is called "Total": it stands below no section."""
    rows = [line for line in lines if line.cells and not line.is_heading]
    if len(rows) < 3 or not _is_of_all(text, *rows[-1].cells[0]):
        return None
    return None if any(_is_of_all(text, *row.cells[0]) for row in rows[:-1]) else rows[-1]


def _places(lines: list[Line], starts: list[int], over: _Over) -> list[InCell | None]:
    """For each number, by where it starts, its place in the table; None in a line of words."""
    out: list[InCell | None] = [None] * len(starts)
    at = 0
    for row, line in enumerate(lines):
        over.read(line)
        while at < len(starts) and starts[at] < line.end:
            if line.cells and starts[at] >= line.start:
                out[at] = _in_cell(row, line, starts[at], over)
            at += 1
    return out


class _Over:
    """What stands over the row that is being read."""

    def __init__(self, *, has_stubs: bool, of_all: Line | None) -> None:
        """has_stubs: whether the first cell of a row of headings heads the rows below it and no others. of_all: the
        row that is of all sections."""
        self.has_stubs, self.of_all = has_stubs, of_all
        self.heads: list[Line] = []
        """Rows of headings."""
        self.table: list[Span] = []
        """Lines of words over the whole table, the nearest first."""
        self.section: list[Span] = []
        """The last line of words after the first row."""
        self.first: list[Span] = []
        """The first cell of a row before, where that of this row is left empty."""
        self._last: list[Span] = []
        self._has_rows = self._was_heading = False

    def read(self, line: Line) -> None:
        """One line more."""
        if line is self.of_all:
            self.section = []
        is_lone = all(cell.start == cell.end for cell in line.cells[1:])
        if is_lone and self._has_rows:
            self.section = [(line.start, line.end)]
        elif is_lone:
            self.table.insert(0, (line.start, line.end))
        elif line.is_heading:
            self.heads = [*self.heads, line] if self._was_heading else [line]
            if self.has_stubs:
                self.section = [(line.cells[0].start, line.cells[0].end)]
        self._has_rows = self._has_rows or bool(line.cells)
        self._was_heading = line.is_heading and not is_lone
        self._read_first(line, is_row=bool(line.cells) and not is_lone and not line.is_heading)

    def _read_first(self, line: Line, *, is_row: bool) -> None:
        is_empty = is_row and line.cells[0].start == line.cells[0].end
        self.first = self._last if is_empty else []
        if not is_empty:
            self._last = [(line.cells[0].start, line.cells[0].end)] if is_row else []

    @property
    def lines(self) -> tuple[Span, ...]:
        """Lines of words, and the first cell of a row before."""
        return (*self.first, *self.section, *self.table)


def _in_cell(row: int, line: Line, start: int, over: _Over) -> InCell | None:
    for column, cell in enumerate(line.cells):
        if cell.start <= start < cell.end:
            left = [(each.start, each.end) for each in reversed(line.cells[:column]) if each.start < each.end]
            right = [(each.start, each.end) for each in line.cells[column + 1 :] if each.start < each.end]
            heads = [head for head in reversed(over.heads) if head is not line]
            found = [_heading(head, column, len(line.cells)) for head in heads]
            headings = tuple((each.start, each.end) for each in found if each is not None)
            stubs = tuple(_stubs(heads, len(line.cells)))
            return InCell(row, column, (cell.start, cell.end), (*left, *right), headings, over.lines, stubs)
    return None


def _stubs(heads: Sequence[Line], width: int) -> Iterator[Span]:
    for head in heads:
        first = head.cells[0]
        if first.start < first.end and len(head.cells) >= width:
            yield (first.start, first.end)


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
