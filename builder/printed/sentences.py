"""The sentence of a passage around a place, and its part between commas and joining words: what is said of counts."""

from __future__ import annotations

import re
from bisect import bisect
from collections.abc import Sequence

from ..compiled_patterns import compiled
from ..numerals import Token
from ..numerals.late import late
from .clauses import Span
from .word_stream import Word

_SENTENCE_END = compiled(r"[.!?](?=\s+[^a-z\s]|\s*$)(?<!\b[Vv]s.)(?<!\bal.)(?<!\b[Ff]ig.)(?<!\bca.)(?<!\b[Nn]o.)")
"""Not behind "vs.", "et al.", "Fig.", nor before a small letter."""
_JOINS = frozenset({"and", "but", "while", "whereas", "although", "though", "versus", "vs", "against", "than"})


class Layout:
    """Where the sentences, parts and cells of one passage begin and end."""

    def __init__(self, text: str, sentences: list[int], parts: list[int], brackets: list[Span]) -> None:
        self.text = text
        self._sentences, self._parts, self._brackets = sentences, parts, brackets

    def sentence(self, at: int) -> Span:
        """The sentence around a place."""
        return self._between(self._sentences, at)

    def part(self, at: int) -> Span:
        """The part of the sentence around a place."""
        return self._between(self._parts, at)

    def _between(self, ends: list[int], at: int) -> Span:
        place = bisect(ends, at)
        return (ends[place - 1] if place else 0, ends[place] if place < len(ends) else len(self.text) + 1)

    def is_in_brackets(self, at: int) -> bool:
        """True inside ( ) or [ ]."""
        return any(start <= at < end for start, end in self._brackets)


def layout_of(text: str, words: Sequence[Word], events: Sequence[int], tokens: Sequence[Token]) -> Layout:
    """events: where words for events begin; a bracket that holds such words and numbers is read like a sentence."""
    brackets = _brackets_of(words)
    numbers = [token.start for token in tokens]
    opaque = [
        span
        for span in brackets
        if not (any(span[0] < at < span[1] for at in events) and any(span[0] < at < span[1] for at in numbers))
    ]
    ends = [found.start() for found in _SENTENCE_END.finditer(text)]
    ends = [end for end in ends if not any(start <= end < stop for start, stop in brackets)]
    starts, heads = _named_figures(text, events)
    ends = sorted({*ends, *starts})
    parts = set(ends)
    listing: set[int] = set()
    for word in words:
        mark = word.text
        is_end = (
            mark in _JOINS
            or mark in (";", "|")
            or (mark == "," and text[word.end : word.end + 1].isspace())
            or mark in ("(", ")", "[", "]")
        )
        if is_end and word.start not in heads and not any(start <= word.start < stop for start, stop in opaque):
            parts.add(word.start)
            if mark == "and":
                listing.add(word.start)
    return Layout(text, ends, _between_numbers(sorted(parts), listing, numbers, len(text)), brackets)


_MEASURE = r"(?:[A-Za-z]{1,4}|(?:adjusted )?(?:odds|hazard|risk|rate) ratio|relative risk)[\s=:,]*"
_NAMED = late(
    r"(?:^|(?<=\n)|(?<=[;:.][ \n]))[^\S\n]*(?!(?:[Oo]f|[Ii]n|[Aa]mong|[Ff]or|[Ww]ith|[Aa]fter|[Bb]y|[Ff]rom|[Ii]f)\b)"
    r"[^\W\d_][^\n,.;:|()\d]{1,60}?"
    rf"(?:(?P<comma>,)\s(?:{_MEASURE})?\d|\s\((?:{_MEASURE})?\d[^()\n]*\)[;.,]?(?=\s*\n|\s*$)|"
    r"\s(?:a?[OHR]R)\s*[=:]?\s*\d)"
)


def _named_figures(text: str, events: Sequence[int]) -> tuple[list[int], set[int]]:
    """Of a list like "occlusion, HR 0.72 (0.54 to 0.96); death, HR 0.91 (0.70 to 1.18)", one a line or in a row: where
    its lines begin, and the commas behind the names, which part nothing."""
    run: list[re.Match[str]] = []
    runs = [run]
    for head in _NAMED.finditer(text) if events else ():
        if not any(head.start() <= at < head.end() for at in events):
            continue
        if run and _find_next.fullmatch(text, run[-1].end(), head.start()) is None:
            run = []
            runs.append(run)
        run.append(head)
    lists = [head for run in runs if len(run) > 1 for head in run]
    starts = [head.start() for head in lists if text[: head.start()].endswith("\n")]
    return starts, {head.start("comma") for head in lists}


_find_next = compiled(r"[^;\n]*(?:;\s?|;?\n)")


def _between_numbers(parts: list[int], listing: set[int], numbers: Sequence[int], end: int) -> list[int]:
    """An "and" parts a sentence only where numbers stand on both sides: not in "pain and swelling in 8"."""
    out: list[int] = []
    for place, at in enumerate(parts):
        before = out[-1] if out else 0
        behind = parts[place + 1] if place + 1 < len(parts) else end
        if at in listing and (
            not any(before <= number < at for number in numbers) or not any(at <= number < behind for number in numbers)
        ):
            continue
        out.append(at)
    return out


def _brackets_of(words: Sequence[Word]) -> list[Span]:
    spans: list[Span] = []
    opened: list[int] = []
    for word in words:
        if word.text in "([" and word.is_mark:
            opened.append(word.start)
        elif word.text in ")]" and word.is_mark and opened:
            spans.append((opened.pop(), word.end))
    return spans
