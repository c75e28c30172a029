"""How a text falls apart into sentences, clauses and brackets, by its signs alone."""

from __future__ import annotations

import re
from functools import lru_cache

from ..compiled_patterns import compiled
from ..numerals.late import late
from ..numerals.rows import layout_of

Span = tuple[int, int]
"""Where words stand in the text of a passage: from, and up to."""

_CLAUSE_END = compiled(r";|\.(?=\s|$)(?<!\bv.)(?<!\bvs.)|\n(?=[^\n]*\|)")
"""Rows of a table typed with "|" are clauses of their own."""
_SEGMENT_END = late(
    r";|\.(?=\s|$)(?<!\bv.)(?<!\bvs.)|,(?=\s)(?![^()\n]*\))|\band\b(?![^()\n]*\))|\n(?=[^\n]*\|)", re.IGNORECASE
)


def clauses(text: str) -> list[int]:
    """Where the clauses of a passage end: at semicolons and full stops, and at the end of a row."""
    return _with_rows(text, [match.start() for match in _CLAUSE_END.finditer(text)])


def segments(text: str) -> list[int]:
    """Where the smallest parts of a passage end: at semicolons, full stops, commas between blanks and "and"."""
    return _with_rows(text, [match.start() for match in _SEGMENT_END.finditer(text)])


def _with_rows(text: str, ends: list[int]) -> list[int]:
    """The ends and those of the rows of a table whose columns are parted by blanks or labels."""
    if layout_of(text) not in ("blanks", "labels"):
        return ends
    return sorted({*ends, *(at for at, letter in enumerate(text) if letter == "\n")})


# The sign first: what stands before it is looked at there alone, not before every letter.
_SENTENCE_END = compiled(
    r"[.!?\n](?:(?<=\n)\s*\n|(?<!\n)(?=\s|$)(?<!\bvs.)(?<!\bv.)(?<!\bcf.)(?<!\bca.)(?<!\bi\.e.)(?<!\be\.g.)(?<!\bapprox.)"
    r"(?<!\bresp.)(?<!\bref.)(?<!\badj.)(?<!\bFig.)(?<!\bTab.)(?<!\bDr.))"
)
_BRACKETS = compiled(r"[()\[\]]")
_ROUND = compiled("[()]")
_SEMICOLON = compiled(";")


@lru_cache(maxsize=512)  # several readers of one passage ask
def sentences(text: str, start: int, end: int) -> tuple[Span, ...]:
    """The sentences of a slice of a passage."""
    return tuple(_between(_SENTENCE_END, text, start, end))


@lru_cache(maxsize=512)
def brackets(text: str, start: int, end: int) -> tuple[Span, ...]:
    """The outermost brackets of a slice, each with its signs."""
    found: list[Span] = []
    if text.find("(", start, end) < 0 and text.find("[", start, end) < 0:
        return ()
    depth, opened = 0, start
    for sign in _BRACKETS.finditer(text, start, end):
        if sign[0] in "([":
            if depth == 0:
                opened = sign.start()
            depth += 1
        elif depth:
            depth -= 1
            if depth == 0:
                found.append((opened, sign.end()))
    return tuple(found)


def brackets_inside(text: str, start: int, end: int) -> tuple[Span, ...]:
    """The same of a slice that may be a bracket itself."""
    return brackets(text, start + (text[start : start + 1] in ("(", "[")), end)


def bracket_around(text: str, at: int) -> int:
    """Where the innermost bracket opens that holds this place; -1 outside any."""
    opened: list[int] = []
    for sign in _ROUND.finditer(text, 0, at):
        if sign[0] == "(":
            opened.append(sign.start())
        elif opened:
            opened.pop()
    return opened[-1] if opened else -1


def parts_between_semicolons(text: str, start: int, end: int) -> list[Span]:
    """A sentence between its semicolons, those in brackets left alone."""
    if text.find(";", start, end) < 0:
        return [(start, end)]
    inside = brackets(text, start, end)
    parts: list[Span] = []
    low = start
    for at in (sign.start() for sign in _SEMICOLON.finditer(text, start, end)):
        if not any(opened <= at < closed for opened, closed in inside):
            parts.append((low, at))
            low = at + 1
    return [*parts, (low, end)]


def _between(ends: re.Pattern[str], text: str, start: int, end: int) -> list[Span]:
    parts: list[Span] = []
    low = start
    for found in ends.finditer(text, start, end):
        parts.append((low, found.start()))
        low = found.end()
    return [*parts, (low, end)]


is_comparison = compiled(
    r"\W*(?:as )?(?:compared (?:with|to)|relative to|in contrast (?:with|to)|as opposed to|unlike)\s(?:[\w-]+\s+){0,6}",
    re.IGNORECASE,
).fullmatch
"""The words before a name with which another one behind it is compared: "Compared with those of"."""
