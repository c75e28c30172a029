"""Whole numbers out of typed values: what a rule may reckon with, or None."""

from __future__ import annotations

from functools import lru_cache

from ..reading.report_model import Candidates, Claim, Level, Study
from ..reading.values import Missing, Number, Percentage
from ..records import NamedTuple

_whole = lru_cache(maxsize=4096)(int)
"""A whole Decimal as an int; the same few counts are asked for again and again."""
_MOST = 10**12
"""No trade counts further; what lies beyond is left to the proof, so that no float overflows."""


def count(value: Number | Missing | Candidates | None) -> int | None:
    """A count as an int; None where there is none, or it is not whole, negative or beyond any count."""
    if type(value) is not Number or value.decimals:
        return None
    number = _whole(value.value)
    return number if 0 <= number < _MOST else None


def totals(value: Number | Missing | Candidates | None) -> tuple[int, ...]:
    """The total, or each candidate for it, as ints; () where there is none."""
    if type(value) is Candidates:
        found = [count(each) for each in value.candidates]
        return tuple(each for each in found if each is not None)
    number = count(value)
    return () if number is None else (number,)


def typed_total(value: Number | Missing | Candidates | None) -> str:
    """The total as typed, for a message."""
    if isinstance(value, Candidates):
        return " or ".join(each.text for each in value.candidates)
    return value.text if isinstance(value, Number) else "not reported"


NOT_PROVED = "not proved"
"""What a withheld figure reads: typed, but to be reckoned with by nobody."""


def is_withheld(value: object) -> bool:
    """True where a figure was typed and found no proof."""
    return isinstance(value, Missing) and value.text == NOT_PROVED


def scaled(value: Percentage | Number) -> int:
    """A printed number as an integer count of its last decimal place: 8570 for "85.70"."""
    return int(value.value * 10**value.decimals)


def percent_of(holder: Claim | Level) -> Percentage | None:
    """The printed rate of a claim or level, whichever of its two names it has."""
    for rate in (holder.rate, holder.success_rate):
        if type(rate) is Percentage:
            return rate
    return None


class Row(NamedTuple):
    """Counts of one claim or level, as far as they are known."""

    holder: Claim | Level
    events: int | None
    totals: tuple[int, ...]
    rate: Percentage | None


def row_of(holder: Claim | Level) -> Row:
    """What one claim or level prints of a rate."""
    return Row(holder, count(holder.events), totals(holder.total), percent_of(holder))


def own_studies(claim: Claim, studies: tuple[Study, ...]) -> tuple[Study, ...]:
    """The studies of its file that a claim speaks of."""
    if not claim.study:
        return studies
    named = {each.text for each in claim.study}
    return tuple(study for study in studies if study.id.text in named)
