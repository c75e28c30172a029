"""Ratios and differences by name, and P values."""

from __future__ import annotations

from ..kinds import Kind
from ..printed import Numeral
from .found import Found, form
from .pairs import make_confidence, make_interval


@form(
    """measure:MEASURE (ROUND_OPEN MEASURE ROUND_CLOSE)?
    ([ROUND_OPEN SQUARE_OPEN COMMA]* (level:NUMBER PERCENT? DASH?)? interval:CI CI{0,3} [ROUND_CLOSE SQUARE_CLOSE]*)?
    [EQUALS COLON COMMA OF FILLER ROLE WORD]{0,4} COMPARATOR? ratio:NUMBER (?! PERCENT? DASH? CI)"""
)
def ratio(found: Found) -> None:
    """ "OR 2.15", "hazard ratio (HR) was 2.9"; the numbers of "OR (95% CI) 1.2-7.1" are the interval."""
    printed, number, measure = found.printed, found["ratio"], found.place("measure")
    level = found.get("level")
    high = _other_end(found)
    if level is not None and high is not None and number.value <= level.value <= high.value:
        level.form, level.measure = "ratio", printed.said[measure]  # "OR 0.9 CI 0.7 to 1.2"
    else:
        make_confidence(level)
    has_words = Kind.WORD in printed.kinds[found.start : found.end]
    if not has_words or number.decimals:  # not in "the OR for 47 eyes"
        number.measure = printed.said[measure]
    if high is not None:
        make_interval(printed, number, high)
    elif number.measure and number.unit in _UNITS_OF.get(number.measure, _NO_UNIT):
        number.form = "ratio"
        if printed.word(measure) in _ADJUSTED:
            number.words.append("adjusted")


_NO_UNIT = ("none",)
_UNITS_OF = {"mean difference": ("none", "other")}
_ADJUSTED = frozenset({"aor", "arr", "ahr"})
_PARTS_ENDS = frozenset({Kind.DASH, Kind.TO, Kind.COMMA, Kind.SEMICOLON})


def _other_end(found: Found) -> Numeral | None:
    """The number behind the form, where an interval was announced and this is its other end."""
    printed = found.printed
    is_announced = found.place("interval") >= 0
    is_parted = printed.kind(found.end) in _PARTS_ENDS
    return printed.at.get(found.end + 1) if is_announced and is_parted else None


@form("P_SIGN [FILLER WORD ROLE]{0,2} [EQUALS COLON OF]? COMPARATOR? value:NUMBER")
def p_value(found: Found) -> None:
    """ "P = .02", "p < 0.05", "P value of .02"."""
    value = found["value"]
    if value.unit == "none" and value.value <= 1 and (value.decimals or value.value in (0, 1)):
        value.form = "p"
