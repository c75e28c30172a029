"""Times: two units, several times of one unit, dates and years of the calendar."""

from __future__ import annotations

from ..printed import Numeral, Printed
from ..words import TIMES, WHEN
from .found import Found, form

TIME_UNITS = frozenset(TIMES.values())


@form("NUMBER [DASH SLASH] NUMBER [DASH SLASH] NUMBER")
def date(found: Found) -> None:
    """ "12/03/2012" holds no count of anything."""


@form("years:NUMBER UNIT [AND COMMA]? months:NUMBER UNIT")
def years_and_months(found: Found) -> None:
    """ "3 years 5 months" is one number, 41 months."""
    years, months = found["years"], found["months"]
    if years.unit == "year" and months.unit == "month" and not years.decimals + months.decimals:
        years.value = years.value * 12 + months.value
        years.unit = "month"
        years.end = years.outer_end = found.printed.spans[months.piece + 1][1]
        months.is_dropped = True


@form("FILLER first:NUMBER (COMMA NUMBER)* COMMA? AND last:NUMBER UNIT")
def at_times(found: Found) -> None:
    """ "at 1, 2 and 5 years"."""
    printed = found.printed
    times = printed.numerals[found["first"].index : found["last"].index + 1]
    unit = times[-1].unit
    if unit in TIME_UNITS and printed.word(found.start) == "at":
        for time in times:
            if time.unit == "none":
                time.unit = unit


def read_calendar(printed: Printed) -> None:
    """ "in 2012", "1999 to 2009", "recruited 2012-2016": years of the calendar count nothing."""
    years = [numeral for numeral in printed.numerals if numeral.form in ("", "interval") and _is_like_a_year(numeral)]
    for year in years:
        mate = year.mate if year.part in ("low", "high") else None
        is_span = mate is not None and _is_like_a_year(mate)
        if is_span or printed.word(year.piece - 1) in WHEN:
            year.form = "calendar"


def _is_like_a_year(numeral: Numeral) -> bool:
    return numeral.end - numeral.start == 4 and numeral.unit == "none" and 1900 <= numeral.value < 2100
