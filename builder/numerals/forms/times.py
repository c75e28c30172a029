"""Times: two units, several times of one unit, dates and years of the calendar."""

from __future__ import annotations

import re
from itertools import pairwise

from ..kinds import Kind
from ..late import late
from ..months import of_hours
from ..printed import Numeral, Printed
from ..words import TIMES, WHEN
from .found import Found, form

TIME_UNITS = frozenset(TIMES.values())


@form("first:NUMBER SLASH NUMBER (SLASH NUMBER)* SLASH last:NUMBER DASH? unit:UNIT")
def times_with_slashes(found: Found) -> None:
    """ "At 6/12/24 months"."""
    _carry_back(found.printed, found["first"], found["last"], found.printed.said[found.place("unit")])


@form("unit:UNIT first:NUMBER SLASH NUMBER (SLASH NUMBER)* SLASH last:NUMBER")
def slashed_behind_unit(found: Found) -> None:
    """ "At months 6/12/24"."""
    if found.printed.word(found.place("unit")) in _PLURALS:
        _carry_back(found.printed, found["first"], found["last"], found.printed.said[found.place("unit")])


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


@form("[FILLER ROLE WORD] first:NUMBER (COMMA NUMBER)* (COMMA | COMMA? AND) last:NUMBER UNIT")
def at_times(found: Found) -> None:
    """ "at 1, 2 and 5 years"."""
    printed = found.printed
    if printed.word(found.start) in _BEFORE_TIMES:
        _carry_back(printed, found["first"], found["last"], found["last"].unit)


_BEFORE_TIMES = frozenset({
    "at", "after", "by", "recall", "recalls", "follow-up", "follow-ups", "time", "times", "intervals", "examined",
    "reviewed",
})  # fmt: skip


@form("first:NUMBER DASH (COMMA NUMBER DASH)* COMMA? [AND TO] last:NUMBER DASH? UNIT")
def times_with_dashes(found: Found) -> None:
    """ "1-, 3- and 5-year", "one-, three- and five-year"."""
    _carry_back(found.printed, found["first"], found["last"], found["last"].unit)


@form("unit:UNIT first:NUMBER ((COMMA | COMMA? AND) NUMBER)* (COMMA | COMMA? AND) last:NUMBER")
def times_behind_unit(found: Found) -> None:
    """ "at months 6, 12 and 24", "on days 1, 3 and 7"."""
    printed, unit = found.printed, found.place("unit")
    is_plural = printed.word(unit) in _PLURALS
    if is_plural and printed.word(unit - 1) in _BEFORE_UNIT:
        _carry_back(printed, found["first"], found["last"], printed.said[unit])


_BEFORE_UNIT = _BEFORE_TIMES | {"on", "of", "for", "postoperative", "post-operative"}
_PLURALS = frozenset({"days", "weeks", "months", "years"})


def comes_later(printed: Printed, time: Numeral) -> bool:
    """ "One day later", "twenty-four hours after surgery"."""
    return time.unit in TIME_UNITS and _later_than(printed.text, time.end) is not None


_later_than = late(r"[\s~-]*(?:[a-z]+\b)?\s*(?:later|after|following|post)\b").match


def read_elided(printed: Printed) -> None:
    """ "at 24 but not at 72 hours", "92% at 24 and 86% at 48 months"."""
    text = printed.text
    _read_elided_in_turn(printed)
    _read_elided_behind(printed)
    if "not" not in text and "but" not in text:
        return
    for time, behind in pairwise(printed.numerals):
        if time.unit == "none" and behind.unit in TIME_UNITS and not time.decimals and not time.part:
            is_led = printed.word(time.piece - 1) in _BEFORE_ELIDED
            if is_led and _is_but(text, time.end, behind.start):
                time.unit = behind.unit


def _read_elided_in_turn(printed: Printed) -> None:
    """The unit of the last of several times, each led by the same word behind a figure of its own."""
    last: Numeral | None = None
    for time in reversed(printed.numerals):
        if time.unit in TIME_UNITS:
            last = time if printed.word(time.piece - 1) in _BEFORE_ELIDED else None
        elif last is not None and time.unit == "none" and not (time.decimals or time.part):
            led = printed.word(time.piece - 1)
            if led in _BEFORE_ELIDED:
                is_in_turn = led == printed.word(last.piece - 1) and _is_in_turn(printed.text, time.end, last.start)
                last, unit = (time, last.unit) if is_in_turn else (None, "")
                time.unit = unit or time.unit


def _read_elided_behind(printed: Printed) -> None:
    """ "96% after 2 years, 88% after 5 and 71% after 10": the unit of the first of several times led by the same word,
    each later than the one before, in one sentence."""
    first: Numeral | None = None
    for time in printed.numerals:
        led = printed.word(time.piece - 1)
        if led not in _BEFORE_ELIDED:
            continue
        if time.unit in TIME_UNITS:
            first = time
        elif first is not None and time.unit == "none" and not (time.decimals or time.part or time.comparator):
            is_led_alike = led == printed.word(first.piece - 1)
            is_same = _ends_sentence(printed.text, first.end, time.start) is None
            if is_led_alike and is_same and time.value > first.value and _is_closed(printed.text, time.end):
                time.unit, first = first.unit, time


_ends_sentence = late(r"[.!?]\s|\n\s*\n").search
_is_closed = late(r"\s*(?:$|[,;:.)(](?!\d)|and\b|but\b)", re.IGNORECASE).match
_is_in_turn = late(
    r"(?:\s*[(\[][^()\[\]]*[)\]])?\s*(?:,|,?\s*(?:and|but|to|versus|vs\.?))\s+(?:(?!at\b|after\b|by\b|on\b)[a-z-]+\s+){0,4}"
    r"[\d.·]*\d\s?%?(?:\s*[(\[][^()\[\]]*[)\]])?(?:\s+of\s+(?:the\s+)?\d+)?(?:\s*[(\[][^()\[\]]*[)\]])?"
    r"\s+(?:at|after|by|on)\s+",
    re.IGNORECASE,
).fullmatch
_BEFORE_ELIDED = frozenset({"at", "after", "by", "on"})
_is_but = late(
    r",?\s+(?:but|and|or|yet|though)\s+(?:(?:not|no longer|also|only|still|again)\s+)?(?:(?:at|after|by|on)\s+)?",
    re.IGNORECASE,
).fullmatch


def _carry_back(printed: Printed, first: Numeral, last: Numeral, unit: str) -> None:
    """The unit of the last of several times is that of all."""
    if unit in TIME_UNITS:
        for time in printed.numerals[first.index : last.index + 1]:
            if time.unit == "none":
                time.unit = unit


def read_hours(printed: Printed) -> None:
    """ "72 hours" are 3 days, "36 hours" 2160 minutes: both are one number with its unit, as `shown` has it; the first
    of "24 to 48 hours" is shown without."""
    for numeral in printed.numerals if "hour" in printed.said else ():
        if numeral.unit != "hour":
            continue
        behind = numeral.piece + 1
        if printed.kind(behind) == Kind.DASH:
            behind += 1
        numeral.value, numeral.unit, numeral.decimals = of_hours(numeral.value)
        if printed.kind(behind) == Kind.UNIT and printed.said[behind] == "hour":
            numeral.end = numeral.outer_end = printed.spans[behind][1]
        else:
            numeral.stands_for = "hour"


def read_months(printed: Printed) -> None:
    """ "At 24 m", "12 m follow-up": months, where "5 m" alone is a length of another kind."""
    metres = [
        numeral for numeral in printed.numerals
        if numeral.unit == "other" and not numeral.decimals and printed.word(_unit_of(printed, numeral)) == "m"
    ]  # fmt: skip
    last: Numeral | None = None
    for numeral in metres:
        listed = _ends_in_times(printed.text, 0, numeral.start)
        is_joined = last is not None and _is_joined(printed.text[last.end : numeral.start]) is not None
        if listed is None and not is_joined and not _tells_when(printed, numeral):
            continue
        last = numeral
        begin = listed.start() if listed is not None else numeral.start
        for time in printed.numerals:
            if time is numeral or time is numeral.mate or (begin <= time.start < numeral.start and time.unit == "none"):
                time.unit = "month"


def _unit_of(printed: Printed, numeral: Numeral) -> int:
    """The place of the unit behind a number: "24 m", "24-m"."""
    return numeral.piece + (2 if printed.kind(numeral.piece + 1) == Kind.DASH else 1)


def _tells_when(printed: Printed, numeral: Numeral) -> bool:
    unit = _unit_of(printed, numeral)
    behind = printed.word(unit + 1)
    if behind in _BEHIND_MONTHS:
        return True
    if behind in _LONG:
        return False
    before = printed.kind(numeral.piece - 1)
    is_alone = (before in _BEGINNINGS or _begins_row(printed, numeral)) and (
        printed.kind(unit + 1) in _ENDINGS or printed.kind(unit + 1) == Kind.NUMBER
    )
    return printed.word(numeral.piece - 1) in _BEFORE_MONTHS or is_alone


def _begins_row(printed: Printed, numeral: Numeral) -> bool:
    return printed.text[: numeral.start].rstrip(" ")[-1:] in ("\n", "\t", "|")


_BEGINNINGS = ("", Kind.ROUND_OPEN, Kind.SEMICOLON, Kind.COMMA, Kind.COLON, Kind.STOP)
_ENDINGS = ("", Kind.ROUND_CLOSE, Kind.COLON, Kind.COMMA, Kind.SEMICOLON, Kind.STOP)
""" "(24 m)", "24 m: 26 of 32": a time that stands by itself, where a height or a distance is said of something."""


_ends_in_times = late(
    r"\b(?:at|after|by)\s+(?:(?:\d+,?\s+)+(?:and|or|to)\s+|(?:\d+\s?/\s?){2,})$", re.IGNORECASE
).search
_is_joined = late(r"\s*m(?:,|,?\s+and|\s+to|\s*[–-])\s*(?:at\s+)?", re.IGNORECASE).fullmatch
_BEFORE_MONTHS = frozenset({"at", "after", "by", "within", "recall", "follow-up", "months"})
_LONG = frozenset({"height", "high", "distance", "away", "from", "depth", "deep", "length", "long"})
_BEHIND_MONTHS = frozenset(
    {"follow-up", "followup", "recall", "later", "postoperatively", "post-operatively", "visit", "control"}
)


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
