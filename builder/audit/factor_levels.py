"""The levels of a factor in the vocabulary: their words and their bounds say one thing, and no two levels the same."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from itertools import combinations

from ..numerals import Lexicon, read_numerals
from ..problems import Problem, error
from ..proof.declared_names import Span, span_of, span_of_wording
from ..reading.folded import folded
from ..reading.model import Factor, FactorLevel, Vocabulary
from ..reading.values import Words

_BASIS = "Basis: the format of this guide; common practice, no source."

RULES = {
    "level-bounds-differ": (
        "The title of a level, or a synonym with a number, gives other bounds than the level's `range`: a claim would "
        'be shown under "over 8 mm" and counted from 3 mm on. Correct the one that is a slip, or give the synonym to '
        f"the level whose bounds it has. {_BASIS}"
    ),
    "levels-overlap": (
        "Two levels of a measured factor overlap, so the same size would belong to both and be counted twice. Levels "
        f"may share an end point or leave a gap between them. Correct the `range` of one of the two. {_BASIS}"
    ),
    "level-word-twice": (
        "One wording is a title or synonym of two levels of a factor, so a claim with that wording could mean either. "
        f"Keep it at the level that reports mean by it. {_BASIS}"
    ),
}


def find_in_vocabulary(vocabulary: Vocabulary) -> Iterator[Problem]:
    """Every factor of the vocabulary."""
    for factor in vocabulary.factors.values():
        yield from find_words_twice(factor)
        for level in factor.levels:
            yield from find_other_bounds(level, factor, vocabulary.lexicon)
        if factor.unit is not None:
            yield from find_overlaps(factor)


def find_words_twice(factor: Factor) -> Iterator[Problem]:
    """A wording that stands for two levels."""
    known: dict[str, tuple[FactorLevel, Words]] = {}
    for level in factor.levels:
        for word in (level.title, *level.synonyms):
            other, first = known.setdefault(folded(word.text), (level, word))
            if other is not level:
                file, line, _ = first.position
                yield error(
                    word.position,
                    "level-word-twice",
                    f'"{word.text}" stands for the level {level.id.text} of {factor.id} and, at {file}:{line}, for '
                    f"its level {other.id.text}",
                    "keep it at one of the two",
                )


def find_other_bounds(level: FactorLevel, factor: Factor, lexicon: Lexicon) -> Iterator[Problem]:
    """A title or synonym whose numbers are not the level's bounds."""
    band = _band(level)
    if band is None or (factor.unit is None and level.range is None):
        return
    source = level.range if level.range is not None else level.title
    ends = {end for end in (band.low, band.high) if end is not None}
    for word in (level.title, *level.synonyms):
        if word is source or not _differs(word.text, band, ends, lexicon):
            continue
        file, line, _ = source.position
        what = "`range`" if level.range is not None else "title"
        yield error(
            word.position,
            "level-bounds-differ",
            f'"{word.text}" has other bounds than the {what} of its level, "{source.text}" ({file}:{line})',
            f"range: {word.text}, or call the level otherwise",
        )


def _differs(wording: str, band: Span, ends: set[Decimal], lexicon: Lexicon) -> bool:
    span = span_of_wording(wording)
    if span is not None:
        # "0 to 3 mm" is "up to 3 mm": nothing measured lies below nothing.
        return span.unit == band.unit and (span.low or None, span.high) != (band.low or None, band.high)
    if band.unit == "none":
        return False
    # "3 mm or less": not the words of a range, but the number is one of its bounds or it is of another level.
    tokens = read_numerals(wording, lexicon)
    return any(token.unit == band.unit and token.value not in ends for token in tokens if token.kind != "unreadable")


def find_overlaps(factor: Factor) -> Iterator[Problem]:
    """Two levels that share more than an end point."""
    banded = [(level, band) for level in factor.levels if (band := _band(level)) is not None]
    for (one, first), (other, second) in combinations(banded, 2):
        if first.unit == second.unit and _share_more_than_a_point(first, second):
            file, line, _ = one.position
            yield error(
                (other.range or other.title).position,
                "levels-overlap",
                f'"{_said(other)}" overlaps the level {one.id.text} of {factor.id}, "{_said(one)}" ({file}:{line})',
                "let the `range` of one end where that of the other begins",
            )


def _band(level: FactorLevel) -> Span | None:
    return span_of(level.range) if level.range is not None else span_of_wording(level.title.text)


def _said(level: FactorLevel) -> str:
    return (level.range or level.title).text


def _share_more_than_a_point(one: Span, other: Span) -> bool:
    lows = [end for end in (one.low, other.low) if end is not None]
    highs = [end for end in (one.high, other.high) if end is not None]
    return not lows or not highs or max(lows) < min(highs)
