"""Tables typed with other signs than bars: as TeX, as lines with commas, as lists behind labels, or run into one line.

Each reader here gives the same text, as long as before, with bars between cells and semicolons between rows, so that
what finds rows and columns knows one way of typing and every place in the text stays where it was.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from ..compiled_patterns import compiled
from ..numerals.late import late

_FEWEST_ROWS = 2


def with_bars(text: str) -> str:
    """The text with bars and semicolons where a table was typed otherwise; the same text where none was."""
    if "|" in text or "\t" in text:
        return text
    if "&" in text:
        return _of_tex(text)
    if "\n" in text and "," in text:
        found = _of_commas(text)
        if found != text:
            return found
    if text.count(",") > 3 and text.count(":") > 1:
        found = _of_comma_lists(text)
        if found != text:
            return found
    return _of_run_in(text)


# "Healed & 39 & 83 \\ Not healed & 8 & 17 \\"

_row_end_of_tex = late(r"\\\\(?:\[[^\]\n]*\])?|\\hline\b|\\(?:top|mid|bottom)rule\b").sub
_cell_end_of_tex = late(r"(?<!\\)&").sub


def _of_tex(text: str) -> str:
    """Of rows that end at two strokes or at the line."""
    plain = _row_end_of_tex(lambda found: "." + " " * (len(found[0]) - 1), text)
    rows = [row for row in re.split(r"\. |\n", plain) if "&" in row]
    if len(rows) < _FEWEST_ROWS or len({row.count("&") for row in rows}) > 1:
        return text
    return _cell_end_of_tex("|", plain)


# "Status,n,%" over "Healed,39,83"

_LONGEST_CELL = 60


def _of_commas(text: str) -> str:
    """Of lines with as many commas as one another, no blank behind them, words alone in the first of them."""
    lines = text.split("\n")
    counts = [line.count(",") - line.count(", ") for line in lines]
    first = next((at for at, count in enumerate(counts) if count), len(lines))
    rows = [at for at in range(first, len(lines)) if counts[at] == counts[first]]
    if len(rows) < _FEWEST_ROWS or not _is_block(rows) or not _heads_cells(lines[first]):
        return text
    for at in rows[1:]:
        cells = _comma.split(lines[at])
        if max(len(cell.strip()) for cell in cells) > _LONGEST_CELL or not any(
            cell.strip()[:1].isdigit() for cell in cells[1:]
        ):
            return text
    return "\n".join(_comma.sub("|", line) if at in rows else line for at, line in enumerate(lines))


_comma = compiled(r",(?! )")


def _is_block(rows: Sequence[int]) -> bool:
    return rows[-1] - rows[0] == len(rows) - 1


def _heads_cells(line: str) -> bool:
    """Whether words stand in each cell, and no figure leads one: "Time (years),At risk,Survival (%),95% CI"."""
    return all(_heads_cell(cell.strip()) for cell in _comma.split(line))


_heads_cell = compiled(r"(?!\d)(?=.*[^\W\d_]|%).+|9\d%\s*C[IrL].*").fullmatch


# "Year: 2, 5, 8. At risk: 79, 41, 18. Survival (%): 95, 81, 71."

_VALUE = r"[<>=≤≥±+(−–-]*\d(?:[^,;:|\n.]|\.(?=\d)){0,29}"
_comma_list = late(
    rf"(?:(?<=\.\s)|(?<=;\s)|^)[^.,:;|\n]{{2,60}}:[^\S\n]*(?P<values>{_VALUE}(?:,[^\S\n]+{_VALUE}){{2,}})(?=[.;](?:\s|$)|$)",
    re.MULTILINE,
).finditer


def _of_comma_lists(text: str) -> str:
    """Of two or more lists of as many values, three at least, each behind its label."""
    spans = [found.span("values") for found in _comma_list(text)]
    if len(spans) < _FEWEST_ROWS or len({text.count(",", *span) for span in spans}) > 1:
        return text
    signs = list(text)
    for low, high in spans:
        for at in range(low, high):
            if signs[at] == ",":
                signs[at] = ";"
    return "".join(signs)


# "Status n % Healed 39 83 Not healed 8 17 Total 47 100"

_NAME = r"(?:n/N|[nN]o\.?|[nN]|%|[Nn]umber|[Tt]otal|[Pp]er\s?cent|[Mm]ean|SD|[Hh]ealed|[Ff]ailed|[Ll]ost|[Tt]eeth)"
_FIGURE = r"\d+(?:\.\d+)?%?"
_has_figures_in_a_row = compiled(r"[\d%]\s\d").search
_heads_run_in = late(rf"(?<![\w,.])(?P<names>{_NAME}(?:\s{_NAME})+)\s(?=[^\W\d_])").search
_row_run_in = late(
    r"(?P<label>(?:[^\W\d_][^\s\d.:;,|]*\s){1,5})(?P<figures>" + _FIGURE + r"(?:\s" + _FIGURE + r")*)(?:\s+|$|(?=[.;]))"
).match


def _of_run_in(text: str) -> str:
    """Of the names of two or more columns and at least two rows of a label and as many bare numbers."""
    heads = _heads_run_in(text) if _has_figures_in_a_row(text) else None
    if heads is None:
        return text
    width = len(heads["names"].split())
    rows = []
    at = heads.end()
    while (row := _row_run_in(text, at)) is not None and len(row["figures"].split()) == width:
        rows.append(row)
        at = row.end()
    if len(rows) < _FEWEST_ROWS:
        return text
    signs = list(text)
    _bar(signs, *heads.span("names"))
    for before, row in zip((heads, *rows), rows, strict=False):
        signs[before.end() - 1] = ";"
        _bar(signs, *row.span("figures"))
    return "".join(signs)


def _bar(signs: list[str], low: int, high: int) -> None:
    """Bars before the first cell of numbers and between them."""
    for at in (low - 1, *range(low, high)):
        if at >= 0 and signs[at].isspace():
            signs[at] = "|"
