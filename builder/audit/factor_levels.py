"""The levels of a factor in the vocabulary: their words and their bounds say one thing, and no two levels the same."""

from __future__ import annotations

import re
from collections.abc import Iterator
from decimal import Decimal
from itertools import combinations

from ..numerals import Lexicon, read_numerals
from ..numerals.late import late
from ..problems import Problem, error
from ..proof.asking import ask
from ..proof.declared_names import Span, span_of, span_of_wording
from ..reading.folded import folded
from ..reading.model import Factor, FactorLevel, Vocabulary
from ..reading.report_model import Claim
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
    "range-of-another-level": (
        "The `range` that a claim gives to a level has other bounds than the level's own words there, or overlaps that "
        "of another level of the same claim: its counts would be shown for sizes that they are not of. Type the bounds "
        f"that the report gives to this level, or leave `range` out. {_BASIS}"
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


def find_in_claim(claim: Claim, lexicon: Lexicon, place: str) -> Iterator[Problem]:
    """Ranges typed for the levels of a claim, beside the words of these levels and beside each other."""
    typed = [(level, level.range, span_of(level.range)) for level in claim.levels if level.range is not None]
    for level, source, band in typed:
        ends = {end for end in (band.low, band.high) if end is not None}
        wording = _plainly(level.level.text)
        if _differs(wording, band, ends, lexicon):
            tells = f'the claim types it as the range of "{level.level.text}"'
            yield ask(source.position, "range-of-another-level", source.text, tells, place, closing="which is meant?")
    for (one, first, own), (other, second, beside) in combinations(typed, 2):
        if own.unit == beside.unit and _share_more_than_a_point(own, beside):
            tells = f'this range of "{other.level.text}" overlaps that of "{one.level.text}", "{first.text}"'
            yield ask(second.position, "range-of-another-level", second.text, tells, place, closing="which is meant?")


def _plainly(wording: str) -> str:
    """ "More than 3 mm", "3 mm or more", as the form has them: "over 3 mm", "from 3 mm"."""
    for said, word in _SAID_AS:
        found = said.fullmatch(wording)
        if found is not None:
            return f"{word} {found['end'] or found['more']}"
    return wording


_SAID_AS = tuple(
    (late(rf"\s*(?:{before})\s+(?P<end>\d.*)|\s*(?P<more>\d.*?),?\s+(?:or|and) (?:{behind})\s*", re.IGNORECASE), word)
    for before, behind, word in (
        ("more than|greater than|larger than|longer than|above|deeper than|older than", "(?!)", "over"),
        ("less than|smaller than|shorter than|below|younger than|fewer than", "(?!)", "under"),
        ("at least|no less than", "more|over|larger|longer|above|older|greater", "from"),
        ("at most|no more than|not more than", "less|under|smaller|shorter|below|younger|fewer", "up to"),
    )
)


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
