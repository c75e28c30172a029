"""What stands beside each of several figures of one kind, and so tells them apart: "fixed 91.3%; random 88.6%"."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ..compiled_patterns import compiled
from ..numerals import Token
from ..numerals.late import late
from ..records import NamedTuple
from .clauses import Span
from .tables import InCell, Table


class Labelled(NamedTuple):
    """One figure with the words that are its own."""

    at: int
    """Its place among the numbers."""
    kind: str
    """count, percent or ratio."""
    spans: tuple[Span, ...]
    lead: Span
    """From the stop before it as far as the figure."""
    words: frozenset[str]
    """In small letters, without what stands in every label; also the figure of "model 2"."""


_find_words = compiled(r"[a-z]+|(?<=model )\d\b|(?<=step )\d\b|(?<=stage )\d\b|(?<=block )\d\b").findall
_PASSING = frozenset({
    "a", "an", "the", "in", "for", "among", "of", "with", "those", "that", "who", "had", "was", "were", "is", "at",
    "by", "and", "or", "it", "but", "there", "to", "as", "be", "been", "ci", "n", "so", "on", "their", "its", "than",
    "from", "against", "both", "each",
})  # fmt: skip
_cuts = late(r"[;\n]|[.,:](?=\s)|\b(?:and|but|while|whereas|versus|vs|against|or|as did)\b", re.IGNORECASE)
_closes = compiled(r"\s*%?[\s)\]]*").match


def labels_of(text: str, tokens: Sequence[Token], table: Table) -> dict[int, Labelled]:
    """By the place of each figure, and of its percentage or interval, what is printed beside it alone."""
    figures = labelled_figures(text, tokens)
    found: dict[int, Labelled] = {}
    for place, (first, last, kind) in enumerate(figures):
        cell = table.places[first]
        spans = _of_cell(text, cell) if cell is not None else _of_prose(text, tokens, figures, place)
        lead = (_led_from(text, tokens, figures, place), tokens[first].outer_start) if cell is None else spans[0]
        words = plain_words(" ".join(text[slice(*span)] for span in spans), with_digits=True)
        label = Labelled(first, kind, tuple(spans), lead, words)
        for at in range(first, last + 1):
            found[at] = label
    return found


def plain_words(text: str, *, with_digits: bool = False) -> frozenset[str]:
    """Words that say something, in small letters and without an s at their end: "adjusted", "model"."""
    found = frozenset(_find_words(text.lower())) - _PASSING
    return frozenset(
        word.removesuffix("s") if len(word) > _SHORT else word for word in found if with_digits or not word.isdigit()
    )


_SHORT = 3


def labelled_figures(text: str, tokens: Sequence[Token]) -> list[tuple[int, int, str]]:
    """First and last number of each figure, and its kind."""
    found: list[tuple[int, int, str]] = []
    at = 0
    while at < len(tokens):
        token = tokens[at]
        is_pair = token.part in ("events", "total") and token.pair == at + 1
        kind = (
            "count" if is_pair
            else "percent" if token.kind == "percent" and not token.part
            else "ratio" if token.decimals and token.kind in ("number", "ratio") and not token.part
            else ""
        )  # fmt: skip
        last = at + is_pair
        while kind and last + 1 < len(tokens) and _belongs(text, tokens, last, kind):
            last += 1
        if kind:
            found.append((at, last, kind))
        at = last + 1
    return found


def _belongs(text: str, tokens: Sequence[Token], last: int, kind: str) -> bool:
    """Whether the next number is the interval, the P value or the percentage of a figure."""
    here, following = tokens[last], tokens[last + 1]
    between = text[max(here.end, here.outer_end) : following.outer_start]
    if following.part in ("low", "high") or following.kind in ("confidence", "interval", "p"):
        return len(between) < _LONG and "\n" not in between and (following.part != "low" or "." not in between)
    return kind == "count" and following.kind == "percent" and between.strip(" ,") in ("(", "[", "")


_LONG = 30


def _of_cell(text: str, cell: InCell) -> list[Span]:
    """The words of its own cell, those of its row without a figure, and the heading of its column."""
    head = min(cell.others, default=(0, 0))
    row = [span for span in cell.others if span == head or not any(sign.isdigit() for sign in text[slice(*span)])]
    return [cell.cell, *row, *cell.headings]


def _of_prose(text: str, tokens: Sequence[Token], figures: Sequence[tuple[int, int, str]], place: int) -> list[Span]:
    first = figures[place][0]
    low = _end(text, tokens, figures[place - 1]) if place else 0
    start, end = tokens[first].outer_start, _end(text, tokens, figures[place])
    high = tokens[figures[place + 1][0]].outer_start if place + 1 < len(figures) else len(text)
    begin = low + _cut(text[low:start])
    stop = end + _cut_behind(text, end, high, is_last=place + 1 == len(figures))
    return [(max(begin, text.rfind("\n", begin, start) + 1), start), (end, stop)]


def _led_from(text: str, tokens: Sequence[Token], figures: Sequence[tuple[int, int, str]], place: int) -> int:
    low = _end(text, tokens, figures[place - 1]) if place else 0
    between = text[low : tokens[figures[place][0]].outer_start]
    return low + max((end for start, end in _places(between) if between[start] in ";\n."), default=0)


def _end(text: str, tokens: Sequence[Token], figure: tuple[int, int, str]) -> int:
    token = tokens[figure[1]]
    end = max(token.end, token.outer_end)
    closed = _closes(text, end)
    return closed.end() if closed is not None else end


def _places(between: str) -> list[tuple[int, int]]:
    """Where a text between two figures may be cut, brackets left alone."""
    depth, open_at = 0, []
    for at, sign in enumerate(between):
        depth += (sign == "(") - (sign == ")" and depth > 0)
        if depth:
            open_at.append(at)
    inside = frozenset(open_at)
    return [found.span() for found in _cuts.finditer(between) if found.start() not in inside]


def _cut(between: str) -> int:
    """Where the words of the second of two figures begin: behind the last strong sign, else the last weak one."""
    places = _places(between)
    if not places:
        return 0
    strong = [end for start, end in places if between[start] in ";\n.:" and _says_more(between[end:])]
    if strong:
        return strong[-1]
    weak = [end for start, end in places if between[start] != ":"]
    return weak[-1] if weak else 0


def _says_more(words: str) -> bool:
    return bool(plain_words(words) - _OF_FIGURES)


_OF_FIGURES = frozenset({"hr", "rr", "hazard", "odd", "risk", "ratio", "rate", "adjusted"})


def _cut_behind(text: str, end: int, high: int, *, is_last: bool) -> int:
    """How far the words behind a figure reach."""
    between = text[end:high]
    places = _places(between)
    strong = [start for start, _ in places if between[start] in ";\n."]
    if strong:
        return strong[0]
    if is_last:
        return len(between)
    return places[-1][0] if places else 0
