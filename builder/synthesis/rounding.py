"""Which printed percentages and means can come from whole counts: exact integer arithmetic.

The idea, for means, is Brown and Heathers 2017, Soc Psychol Personal Sci 8:363-369 (GRIM; from memory). Silent by
nature where the total is at least 100 times 10**decimals: every percentage is then reachable.
"""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal
from functools import lru_cache

from ..compiled_patterns import compiled
from ..records import NamedTuple
from .ranges import whole

ROUNDINGS = ("half-up", "half-even")

_NUMBER = compiled(r"([+-]?)(\d*)(?:\.(\d*))?")
_THOUSANDS = compiled(r"[+-]?\d{1,3}(?:,\d{3})+(?:\.\d*)?")


class Printed(NamedTuple):
    """A printed number as an integer count of its last decimal place: "85.70" is 8570 with 2 decimals."""

    scaled: int
    decimals: int

    def bounds(self) -> tuple[float, float]:
        """Ends of the interval of values that print so; the caller decides which end belongs to it."""
        unit = 2 * 10**self.decimals
        return (2 * self.scaled - 1) / unit, (2 * self.scaled + 1) / unit

    def value(self) -> float:
        """The number itself."""
        return float(self.scaled / 10**self.decimals)


@lru_cache(maxsize=4096)  # the same few numbers are printed again and again
def printed_number(text: str) -> Printed:
    """The integer and decimal places of a number as it was printed.

    text: "85.7", "86%", ".02", "-3.58", "42,300"; blanks around it, one trailing % and a typographic minus are
    allowed, an exponent is not. Raises ValueError for anything else.
    """
    bare = text.strip().removesuffix("%").rstrip().replace("\N{MINUS SIGN}", "-")
    if _THOUSANDS.fullmatch(bare):
        bare = bare.replace(",", "")
    match = _NUMBER.fullmatch(bare)
    if match is None or not (match[2] or match[3]):
        raise ValueError(f"{text!r} is not a number in plain digits")
    decimals = match[3] or ""
    scaled = int(match[2] + decimals)
    return Printed(-scaled if match[1] == "-" else scaled, len(decimals))


def rounded_share(events: int, total: int, decimals: int, rounding: str = "half-up") -> int:
    """100 * events / total rounded to `decimals` places, as an integer times 10**decimals; the counts are checked."""
    quotient, rest = divmod(100 * 10**decimals * events, total)
    up = 2 * rest > total or (2 * rest == total and (rounding == "half-up" or quotient % 2 == 1))
    return int(quotient) + up


def is_share_of(share: Decimal, decimals: int, events: Decimal, total: Decimal) -> bool:
    """Whether a percentage printed with so many places is that of events out of total: within half a unit of its last
    place, whichever way a half was rounded. False for a total of 0."""
    return bool(total) and 2 * abs(100 * events - share * total) * 10**decimals <= total


def achievable_percents(total: int, decimals: int, rounding: str = "half-up") -> list[int]:
    """Every percentage that some whole count out of total rounds to, times 10**decimals, in rising order.

    total: at least 1. decimals: at least 0. rounding: "half-up" or "half-even". Raises ValueError outside these.
    """
    total, decimals = whole("total", total, 1), whole("decimals", decimals, 0)
    _check_rounding(rounding)
    top = 100 * 10**decimals
    if total > 2 * top:  # neighbouring counts lie less than half a unit apart: nothing is skipped
        return list(range(top + 1))
    return sorted({rounded_share(events, total, decimals, rounding) for events in range(total + 1)})


def events_for_percent(percent_text: str, total: int, rounding: str = "half-up") -> list[int]:
    """Every whole count out of total that prints as this percentage at its own precision, in rising order.

    percent_text: as printed, "85.7" or "85.70%"; trailing zeros count. Empty where no count does. Raises ValueError
    for text that is no number, a total below 1 or another rounding.
    """
    total = whole("total", total, 1)
    _check_rounding(rounding)
    scaled, decimals = printed_number(percent_text)
    return [
        events
        for events in _candidates(scaled, decimals, total)
        if rounded_share(events, total, decimals, rounding) == scaled
    ]


class PercentMatches(NamedTuple):
    """Counts that could stand behind a printed percentage, by the way it may have been printed."""

    exact: list[int]
    """By half-up or half-even rounding: the percentage agrees."""
    truncated: list[int]
    """Only if the digits behind were cut off."""
    adjusted: list[int]
    """Only if one unit in the last place was taken or given so that a column sums to 100."""


def percent_near_misses(percent_text: str, total: int) -> PercentMatches:
    """How a printed percentage can be had from a whole count out of total; a count stands in one list only.

    percent_text and errors as for events_for_percent. Three empty lists: no count comes near it.

    Common practice, no source: both slips are met in print (Panda 2022, J Clin Med 11:3909, Table 4, cuts 13/15 to
    86.66 %; a column that was made to sum to 100 in Rud 1998 prints 5/27 as 18 %).
    """
    total = whole("total", total, 1)
    scaled, decimals = printed_number(percent_text)
    matches = PercentMatches([], [], [])
    for events in _candidates(scaled, decimals, total):
        rounded = {rounded_share(events, total, decimals, rounding) for rounding in ROUNDINGS}
        if scaled in rounded:
            matches.exact.append(events)
        elif 100 * 10**decimals * events // total == scaled:
            matches.truncated.append(events)
        elif scaled - 1 in rounded or scaled + 1 in rounded:
            matches.adjusted.append(events)
    return matches


def totals_for_mean(mean_text: str, count: int) -> list[int]:
    """Every sum of `count` whole numbers whose mean prints as this text, by half-up or half-even rounding.

    mean_text: as printed; count: at least 1. Empty where no sum does: the mean cannot be that of whole numbers.
    Raises ValueError for text that is no number or a count below 1.

    Brown and Heathers 2017, as named above.
    """
    count = whole("count", count, 1)
    scaled, decimals = printed_number(mean_text)
    unit = 2 * 10**decimals
    # |sum / count - scaled / 10**d| <= half a unit, the two ties included: half-up takes one, half-even the other
    low = -((1 - 2 * scaled) * count // unit)
    high = (2 * scaled + 1) * count // unit
    return [total for total in range(low, high + 1) if _mean_prints_as(total, count, scaled, decimals)]


def _mean_prints_as(total: int, count: int, scaled: int, decimals: int) -> bool:
    # Mirrored at 0: -2.5 prints as -3 or -2 by the same rules as 2.5.
    sign = -1 if total < 0 or scaled < 0 else 1
    quotient, rest = divmod(sign * total * 10**decimals, count)
    half_up = quotient + (2 * rest >= count)
    half_even = quotient + (2 * rest > count or (2 * rest == count and quotient % 2 == 1))
    return sign * scaled in (half_up, half_even)


def _candidates(scaled: int, decimals: int, total: int) -> range:
    # Counts within one and a half units of the last place: everything that rounding, cutting or adjusting can reach.
    unit = 200 * 10**decimals
    low = max(0, (2 * scaled - 3) * total // unit)
    high = min(total, -(-(2 * scaled + 3) * total // unit))
    return range(low, high + 1)


def _check_rounding(rounding: str) -> None:
    if rounding not in ROUNDINGS:
        raise ValueError(f"rounding must be one of {', '.join(ROUNDINGS)}, not {rounding!r}")


def round_half_up(number: Decimal, places: int) -> Decimal:
    """Rounded as people round: a half goes up."""
    return number.quantize(Decimal(1).scaleb(-places), rounding=ROUND_HALF_UP)
