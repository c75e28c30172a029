"""Rows of a table as people type them: between bars, tabs or gaps of blanks, or each behind its label."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Literal

from ..compiled_patterns import compiled
from .late import late

Span = tuple[int, int]

Layout = Literal["", "bars", "blanks", "semicolons", "labels", "lists"]
"""What parts the columns of a passage; nothing in prose."""
_GAP = late(r"[^\s.!?](?:\t| {2,})[^\S\n]*\S")
_LABEL = late(
    r"^[^\S\n]*(?P<label>[^:|\n]{1,60}?)"
    r"(?P<sign>[^\S\n]*:|(?:(?<=[^\W\d_])|(?<=\)))[^\S\n]+[–—-](?=\s)|[^\S\n]*\.{3,}|[^\S\n]*…)[^\S\n]*"
    r"(?P<value>(?:n[^\S\n]*=[^\S\n]*|[ac]?(?:OR|HR|RR)[^\S\n]*[=,]?[^\S\n]*)?[<>=≤≥±+(−–-]*[\d.·][^\n:|]{0,79})$",
    re.MULTILINE,
)
_BARE = late(
    r"^[^\S\n]*(?P<label>(?:[^\W\d_][^\s\d.:;,|]*[^\S\n]+){1,5})"
    r"(?P<value>\d+(?:\.\d+)?[^\S\n]*%?(?:[^\S\n]*(?:/[^\S\n]*\d+|\([\d.]+[^\S\n]*%?\)))*)[^\S\n]*$",
    re.MULTILINE,
)
"""A line of a label and its number with nothing between: "Complete healing 67"."""
_FEWEST_BARE = 3
_SENTENCE_END = compiled(r"[.!?]\s+\S")
_WORD = compiled(r"[^\W\d_]{2,}")
_MOST_WORDS = 6
"""In a value behind a label; more of them are a sentence."""


@lru_cache(maxsize=256)
def layout_of(text: str) -> Layout:
    """How the columns of a passage are parted. Blanks, or labels, on one line alone are no table."""
    if "|" in text:
        return "bars"
    if "\n" not in text:
        return "lists" if lists_in(text) else ""
    if ("\t" in text or "  " in text) and len({text.count("\n", 0, gap.start()) for gap in _GAP.finditer(text)}) > 1:
        return "blanks"
    if text.count(";") > 3 and _is_parted_by_semicolons(text):
        return "semicolons"
    return "labels" if len(labels_in(text)) > 1 else ""


def _bare_labels(text: str) -> list[tuple[Span, Span]]:
    """Of lines below one another, three or more."""
    if text.count("\n") < _FEWEST_BARE - 1:
        return []
    found = list(_BARE.finditer(text))
    if len(found) < _FEWEST_BARE:
        return []
    between = _BARE.sub("", text[found[0].start() : found[-1].end()]).split("\n")
    heads = [line for line in between if line.strip()]
    is_block = len(heads) < len(found) / 2 and all(map(_heads_labels, heads))
    return [(each.span("label"), each.span("value")) for each in found] if is_block else []


_heads_labels = compiled(r"\s*[^\d\n|:]{2,60}(?:\([nN]\s*=\s*\d+\))?:?\s*").fullmatch
"""What may stand between such lines: "Calcium hydroxide (n = 49)", over those of one arm."""
_LONGEST_CELL = 40


def _is_parted_by_semicolons(text: str) -> bool:
    """ "Side; seen; failures" over "upper; 87; 11": lines of as many short cells, three or more, and a figure in each
    line but the first."""
    rows = [line.split(";") for line in text.split("\n") if line.count(";") > 1]
    return (
        len(rows) > 1
        and len({len(row) for row in rows}) == 1
        and all(len(cell) <= _LONGEST_CELL for row in rows for cell in row)
        and all(any(cell.strip()[:1].isdigit() for cell in row[1:]) for row in rows[1:])
    )


def labels_in(text: str) -> list[tuple[Span, Span]]:
    """Label and value of each line that has just these: "Women: 48/63". One such line alone is no table."""
    if ":" not in text and " - " not in text and "–" not in text and "—" not in text and "..." not in text:
        return _bare_labels(text)
    return [
        (found.span("label"), found.span("value"))
        for found in _LABEL.finditer(text)
        if _WORD.search(found["label"]) is not None
        and len(_WORD.findall(found["value"])) <= _MOST_WORDS
        and _SENTENCE_END.search(found["value"]) is None
    ] or _bare_labels(text)


def is_headed_by_slash(text: str, at: int) -> bool:
    """Whether the heading of a cell names two things with a slash between, "eyes / scars". at: offset in the cell."""
    lines = text[:at].split("\n")
    column = lines[-1].count("|")
    if not column:
        return False
    over = (cells[column] for line in lines[:-1] if len(cells := line.split("|")) > column)
    return any(_names_two(cell) for cell in over)


_names_two = late(r"[^\W\d_]\)?\s*/\s*[^\W\d_]", holds=("/",)).search


def _is_closed(part: str) -> bool:
    """Whether each bracket closes again: the semicolon of "2.4 [1.1; 5.3]" parts two limits."""
    return part.count("(") == part.count(")") and part.count("[") == part.count("]")


_VALUE = r"[<>=≤≥±+(−–-]*\d(?:[^;:|\n.]|\.(?=\d)){0,39}"
_LIST = late(
    rf"(?:(?<=\.\s)|^)(?P<label>[^.:;|\n]{{2,60}}):[^\S\n]*(?P<values>{_VALUE}(?:;[^\S\n]*{_VALUE}){{2,}})(?=\.(?:\s|$)|$)"
)
_FEWEST_SIGNS = 4
"""Semicolons in two lists of three."""


def lists_in(text: str) -> list[tuple[Span, list[Span]]]:
    """Label and values of each row that was typed as a sentence: "Years: 1; 2; 5. Survival: 97%; 94%; 88%."; empty
    where not two of them at least are as long as one another."""
    if text.count(";") < _FEWEST_SIGNS or ":" not in text:
        return []
    found: list[tuple[Span, list[Span]]] = []
    for row in _LIST.finditer(text):
        start, end = row.span("values")
        cuts = [start, *(at + each for at in range(start, end) if text[at] == ";" for each in (0, 1)), end]
        found.append((row.span("label"), list(zip(cuts[::2], cuts[1::2], strict=True))))
    return found if len(found) > 1 and len({len(values) for _, values in found}) == 1 else []


def rows_of(text: str) -> list[Span]:
    """The lines of a passage; a line typed with "|" ends at a semicolon too, where rows stand on both sides, and at
    each full stop of a table that was typed on one line."""
    spans: list[Span] = []
    start = 0
    for line in text.split("\n"):
        parts = line.split(";")
        if len(parts) > 1 and "|" in line and all("|" in part and _is_closed(part) for part in parts):
            for part in parts:
                spans.append((start, start + len(part)))
                start += len(part) + 1
        else:
            spans += [(start + low, start + high) for low, high in _sentences_of_rows(line)]
            start += len(line) + 1
    return spans


_row_ends = late(r"\.\s+(?=\S)").finditer


def _sentences_of_rows(line: str) -> list[Span]:
    """The rows of "Columns: Status | n | %. Healed | 39 | 83. Not healed | 8 | 17."; the whole line where its sentences
    have not as many cells as one another."""
    if line.count("|") < 2:
        return [(0, len(line))]
    cuts = [0, *(at for end in _row_ends(line) for at in end.span()), len(line)]
    spans = list(zip(cuts[::2], cuts[1::2], strict=True))
    signs = [count for low, high in spans if (count := line.count("|", low, high))]
    return spans if len(signs) > 1 and len(set(signs)) == 1 else [(0, len(line))]
