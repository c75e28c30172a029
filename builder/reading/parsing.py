"""What a text says as a number, percentage, interval, P, length, range or date; None where it says no such thing."""

from __future__ import annotations

import datetime
from decimal import Decimal
from functools import lru_cache

from ..compiled_patterns import compiled
from ..numerals import FORMAT_1
from ..numerals.format_units import COUNTED_IN_A_STUDY
from ..numerals.months import of_hours
from ..numerals.pieces import value_of
from .limits import DECIMALS, FIRST_YEAR, LAST_YEAR, NUMBER as BELOW, is_too_long

MISSING = frozenset(("not reported", "not applicable", "could not access"))
"""The three ways to say that a value is not there."""

UNITS = ("%", *COUNTED_IN_A_STUDY, "study", "day", "week", "month", "year", "mm", "minute")
"""Units of a measured factor: those of the public interface that something can be measured or counted in."""

_UNIT_NAMES = {name: name for name in UNITS} | {f"{name}s": name for name in UNITS if name.isalpha() and name != "mm"}
_UNIT_NAMES |= {unit.many: unit.id for unit in FORMAT_1.units.values()}
_UNIT_NAMES |= {"per cent": "%", "percent": "%"}
_TIMES = {"day": "day", "week": "week", "month": "month", "year": "year"}
_TIMES |= {f"{name}s": name for name in _TIMES}

# What follows are patterns of whole texts; whoever describes the form prints them.
_NUMBER = r"[-−]?(?:[0-9]{1,3}(?:,[0-9]{3})+|[0-9]+)?(?:\.[0-9]+)?"
NUMBER = rf"(?=[-−]?[.0-9])({_NUMBER})"
_INTERVAL = rf"({_NUMBER}) ?(%?) to ({_NUMBER}) ?(%?)"
PLAIN_ENDS = rf"{NUMBER} ? to {NUMBER} ?"
SHARE_ENDS = rf"{NUMBER} ?% to {NUMBER} ?%"
P_VALUE = rf"(<=|>=|<|>|≤|≥|) ?({_NUMBER})"
LENGTH = r"([0-9]+|[0-9]*\.[0-9]+) ([a-z]+)(?: ([0-9]+) ([a-z]+))?"
RANGE = (
    rf"(?:(over|from|under|up to) )?({_NUMBER})(?: ?(%|[a-z]+(?: cent)?))?"
    rf"(?: (to under|up to|to) ({_NUMBER})(?: ?(%|[a-z]+(?: cent)?))?)?"
)
COUNT = r"[0-9]{1,3}(?:,[0-9]{3})+|[0-9]+"
SHARE = r"(?=[.0-9])(?:0*100(?:\.0+)?|0*[0-9]{0,2}(?:\.[0-9]+)?) *%"
DATE = r"[0-9]{4}-[0-9]{2}-[0-9]{2}"
ID = r"[a-z0-9-]*[a-z0-9][a-z0-9-]*"
KEY = r"[A-Za-z0-9_-]*[A-Za-z0-9][A-Za-z0-9_-]*"
RELEASE = r"(?:0|[1-9][0-9]*)(?:\.(?:0|[1-9][0-9]*)){2}"

_is_number = compiled(NUMBER).fullmatch
_is_interval = compiled(_INTERVAL).fullmatch
_is_p = compiled(P_VALUE).fullmatch
_is_length = compiled(LENGTH).fullmatch
_is_range = compiled(RANGE).fullmatch
_COMPARATORS = {"≤": "<=", "≥": ">="}
_LONGEST_RELEASE = 20
_LONGEST = 40  # no value of a form is longer; more digits than a paper prints would only cost time


_USUAL = 12  # a number of so many characters is below every limit


@lru_cache(maxsize=4096)
def number(text: str) -> tuple[Decimal, int] | None:
    """Value and printed decimals: "39", "2.9", ".02", "-3.58", "42,300"; a true minus sign is read as a hyphen.

    None beyond the limits too.
    """
    if len(text) > _LONGEST:
        return None
    is_plain = (text.isdecimal() and text.isascii()) or _is_number(text)
    found = value_of(text) if is_plain else None
    if found is not None and len(text) > _USUAL and (abs(found[0]) >= BELOW or found[1] > DECIMALS):
        return None
    return found


def percentage(text: str) -> tuple[Decimal, int] | None:
    """Per cent and printed decimals: "83%", "5.40%"; limits are the caller's affair."""
    return number(text[:-1].rstrip(" ")) if text.endswith("%") else None


def interval(text: str) -> tuple[str, str, bool] | None:
    """The two ends as typed, without sign of per cent, and whether they are percentages: "62% to 80%"."""
    found = _is_interval(text) if len(text) <= 2 * _LONGEST else None
    if not found:
        return None
    low, low_sign, high, high_sign = found.groups()
    if low_sign != high_sign or number(low) is None or number(high) is None:
        return None
    return low, high, bool(low_sign)


def p_value(text: str) -> tuple[str, Decimal, int] | None:
    """Comparator, value and printed decimals: ".02", "<.05", ">=.9"."""
    found = _is_p(text) if len(text) <= _LONGEST else None
    if not found:
        return None
    value = number(found[2])
    return (_COMPARATORS.get(found[1], found[1]), *value) if value else None


_PARTS = {("year", "month"): 12, ("week", "day"): 7}


def length(text: str) -> tuple[Decimal, str, int] | None:
    """Value, unit (day, week, month, year) and decimals: "12 months"; "3 years 5 months" is 41 month.

    "72 hours" is 3 day, any other number of hours is in minutes. None beyond the limit too.
    """
    read = length_typed(text)
    return None if read is None or is_too_long(read[0], read[1]) else read


def length_typed(text: str) -> tuple[Decimal, str, int] | None:
    """The same, however long it is."""
    found = _is_length(text) if len(text) <= _LONGEST else None
    if not found:
        return None
    first, first_word, second, second_word = found.groups()
    value = number(first)
    if value is not None and second is None and first_word in ("hour", "hours"):
        return of_hours(value[0])
    unit = _TIMES.get(first_word)
    if unit is None or value is None:
        return None
    if second is None:
        return value[0], unit, value[1]
    smaller = _TIMES.get(second_word)
    if smaller is None or (unit, smaller) not in _PARTS or value[1]:
        return None
    return value[0] * _PARTS[unit, smaller] + Decimal(second), smaller, 0


def measured_range(text: str) -> tuple[Decimal | None, Decimal | None, str, bool, bool] | None:
    """Low, high, unit, low included, high included: "up to 3 mm", "over 3 mm", "1 mm to 3 mm", "under 10 minutes"."""
    found = _is_range(text) if len(text) <= 2 * _LONGEST else None
    if not found:
        return None
    before, first, first_unit, between, second, second_unit = found.groups()
    units = {_UNIT_NAMES.get(unit, "") for unit in (first_unit, second_unit) if unit}
    if len(units) > 1 or "" in units:
        return None
    unit = units.pop() if units else "none"
    one = number(first)
    if one is None:
        return None
    if between:
        two = number(second)
        if two is None or two[0] <= one[0] or before in ("under", "up to"):
            return None
        return one[0], two[0], unit, before != "over", between != "to under"
    if before in ("over", "from"):
        return one[0], None, unit, before == "from", False
    if before in ("under", "up to"):
        return None, one[0], unit, False, before == "up to"
    return None


def date(text: str) -> datetime.date | None:
    """A real day by ISO 8601 in its long form, "2026-02-03", within the years that the form takes."""
    if len(text) != 10 or text[4] != "-" or text[7] != "-" or not text.isascii():
        return None
    try:
        day = datetime.date.fromisoformat(text)
    except ValueError:
        return None
    return day if FIRST_YEAR <= day.year <= LAST_YEAR else None


def is_id(text: str) -> bool:
    """Lower-case letters, digits and hyphens, at least one letter or digit."""
    plain = text.replace("-", "")
    return plain.isalnum() and text.isascii() and text == text.lower()


def is_key(text: str) -> bool:
    """The key of a source with claims: letters, digits, underscore and hyphen."""
    plain = text.replace("-", "").replace("_", "")
    return plain.isalnum() and text.isascii()


def is_release(text: str) -> bool:
    """Three numbers with points between: "1.2.0"."""
    parts = text.split(".")
    return (
        len(text) <= _LONGEST_RELEASE
        and len(parts) == 3
        and text.isascii()
        and all(part.isdecimal() and str(int(part)) == part for part in parts)
    )
