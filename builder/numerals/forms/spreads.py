"""From one number to another, and a mean with its deviation."""

from __future__ import annotations

from decimal import Decimal

from ..kinds import Kind
from ..late import late
from ..months import MONTHS_IN
from ..printed import Numeral
from .found import Found, form
from .pairs import couple, destroy, share_unit


@form(
    """between:BETWEEN? COMPARATOR? low:NUMBER (PERCENT|DASH? UNIT)? (DASH (?=TO))?
    by:[DASH TO AND] ((?<=TO) DASH)? COMPARATOR? high:NUMBER"""
)
def a_to_b(found: Found) -> None:
    """ "12 to 65 months", "62-80%", "between 1 and 5 years"."""
    printed = found.printed
    low, high, by = found["low"], found["high"], found.place("by")
    is_between = found.place("between") >= 0
    if (printed.kinds[by] == Kind.AND) != is_between:
        return
    both_times = low.unit in MONTHS_IN and high.unit in MONTHS_IN
    if low.unit not in ("none", high.unit) and not both_times:
        return
    share_unit(low, high)
    if _in_months(low) <= _in_months(high):
        couple(low, high, "low", "high")
    elif printed.kinds[by] == Kind.DASH and low.unit not in ("none", "%"):  # "(83.1-71.4%)" are two shares
        destroy(low, high)
    if low.value < 0 < high.value and printed.said[by] == "--":  # an en dash, or a hyphen and a minus
        destroy(low, high)


def _in_months(length: Numeral) -> Decimal:
    return length.value * MONTHS_IN.get(length.unit, 1)


@form("mean:NUMBER [PERCENT UNIT]? PLUS_MINUS deviation:NUMBER")
def mean_and_deviation(found: Found) -> None:
    """ "31 ± 12 months"; in a text that prints "mean ± SE" no deviation but a standard error."""
    mean, deviation = found["mean"], found["deviation"]
    share_unit(mean, deviation)
    text = found.printed.text
    deviation.words.append("se" if _find_error(text) and not _find_deviation(text) else "sd")


# "SEM" alone is a microscope: only beside the sign, or in the brackets behind "mean", is it an error of the mean.
_find_error = late(
    r"(?:±|\\pm\b|\+/-|mean\s*[(\[,])[\s$}~]*(?:SEM?|S\.\s?E\.(?:\s?M\.)?)(?![a-zA-Z])|[Ss]tandard\s+errors?\b"
).search
_find_deviation = late(r"\bSDs?\b|\bS\.\s?D\.|[Ss]tandard\s+deviations?\b").search
