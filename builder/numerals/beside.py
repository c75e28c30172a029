"""The unit, the comparator and the name that stand beside a number."""

from __future__ import annotations

import re
from collections.abc import Callable

from ..compiled_patterns import compiled
from .kinds import Kind
from .printed import Numeral, Printed
from .words import LEADING_TIMES, WHICH_TIME


def read_beside(printed: Printed) -> None:
    """Give each number its unit and comparator, and the word "label" where it is a name."""
    kinds = printed.kinds
    last = len(kinds) - 1
    for numeral in printed.numerals:
        place = numeral.piece
        if place < last:
            read = _BEHIND.get(kinds[place + 1])
            if read is not None:
                read(printed, numeral, place)
        if place:
            read = _BEFORE.get(kinds[place - 1])
            if read is not None:
                read(printed, numeral, place)
    if _OR_MORE in kinds:
        _read_or_more(printed)


_OR_MORE = Kind.OR_MORE


def _read_or_more(printed: Printed) -> None:
    """ "3 mm or more"."""
    for numeral in printed.numerals:
        behind = numeral.piece + 1
        if printed.kind(behind) in (Kind.PERCENT, Kind.UNIT):
            behind += 1
        if printed.kind(behind) == Kind.OR_MORE:
            numeral.comparator = printed.said[behind]


# Behind the number


def _percent(printed: Printed, numeral: Numeral, place: int) -> None:
    """ "83%"."""
    numeral.unit = "%"
    numeral.outer_end = printed.spans[place + 1][1]


def _unit(printed: Printed, numeral: Numeral, place: int) -> None:
    """ "47 eyes"; but of "P 0.001", with the next row of a table that begins "Eye", nothing."""
    unit = printed.said[place + 1]
    if (
        numeral.decimals
        and unit in printed.lexicon.units
        and "\n" in printed.text[numeral.end : printed.spans[place + 1][0]]
    ):
        return
    leads_on = printed.kind(place + 2) == Kind.NUMBER and printed.word(place + 1) in LEADING_TIMES
    if leads_on and not _is_beside(printed, place):  # "Day 1 | Day 3": the second word belongs to the 3
        return
    is_another = unit == "mm" and _match_power_or_rate(printed.text, printed.spans[place + 1][1]) is not None
    numeral.unit = "other" if is_another else unit


_match_power_or_rate = compiled(
    r"\$?\^|\{?\\textsuperscript|\s?/\s?(?:s|sec|second|min|minute|h|hour|day|week|month|year|yr)\b|\s?(?:per|a)\s(?:day|week|month|year)"
).match
"""Behind the "mm" of "mm$^3$" and "mm/month", which are no lengths."""


def _dash_and_unit(printed: Printed, numeral: Numeral, place: int) -> None:
    """ "2-year"."""
    if printed.kind(place + 2) == Kind.UNIT:
        numeral.unit = printed.said[place + 2]


def _counted_behind_words(printed: Printed, numeral: Numeral, place: int) -> None:
    """ "47 adult eyes", "60 excised human eyes"."""
    noun = place + 2
    while printed.kind(noun) in _DESCRIBING and noun < place + 5:
        noun += 1
    if printed.kind(noun) == Kind.UNIT and printed.said[noun] in printed.lexicon.units:
        numeral.unit = printed.said[noun]


_DESCRIBING = frozenset({Kind.ROLE, Kind.ADJECTIVE, Kind.DASH})


def _unit_behind_brackets(printed: Printed, numeral: Numeral, place: int) -> None:
    """The 31 of "31 (12) months"."""
    close = printed.kinds.find(Kind.ROUND_CLOSE, place)
    if close > 0 and printed.kind(close + 1) == Kind.UNIT and _is_beside(printed, close):
        numeral.unit = printed.said[close + 1]


def _unit_behind_closing_bracket(printed: Printed, numeral: Numeral, place: int) -> None:
    """The 12 of "31 (12) months"."""
    if printed.kind(place + 2) == Kind.UNIT and _is_beside(printed, place + 1):
        numeral.unit = printed.said[place + 2]


def _is_beside(printed: Printed, place: int) -> bool:
    """Whether a piece and the next stand in one cell: in "no scar (n = 47) | Scar (n = 45)" nobody counts scars."""
    between = printed.text[printed.spans[place][1] : printed.spans[place + 1][0]]
    return not any(sign in between for sign in "|\t\n")


def _newtons(printed: Printed, numeral: Numeral, place: int) -> None:
    """ "20 N", not "39 n = 47"."""
    if printed.text[slice(*printed.spans[place + 1])] == "N" and printed.kind(place + 2) not in _LEADS_TO_A_SIZE:
        numeral.unit = "other"


_LEADS_TO_A_SIZE = frozenset({Kind.EQUALS, Kind.COLON, Kind.COMPARATOR, Kind.NUMBER, Kind.ROUND_OPEN})

# Before the number


def _comparator(printed: Printed, numeral: Numeral, place: int) -> None:
    """ "over 3 mm", "< .05"; but "pooled over 12 studies" are 12."""
    if numeral.unit == "study" and printed.word(place - 1) == "over" and _is_pooled(printed, place - 1):
        return
    numeral.comparator = printed.said[place - 1]
    numeral.outer_start = printed.spans[place - 1][0]


def _is_pooled(printed: Printed, over: int) -> bool:
    """Whether something was pooled over studies, not by somebody: "we pooled over 12 studies" are more than 12."""
    start = printed.spans[over][0]
    found = _ends_in_pooled(printed.text[max(start - 60, 0) : start])
    return found is not None and (found["before"] or "").lower() not in _WHO_POOLS


_ends_in_pooled = compiled(
    r"(?:(?P<before>[\w-]+)\s+)?\b(?:pooled|combined|averaged|summed|summari[sz]ed|meta-analy[sz]ed)\s+$", re.IGNORECASE
).search
_WHO_POOLS = frozenset({
    "we", "they", "i", "he", "she", "authors", "reviewers", "review", "reviews", "analysis", "analyses",
    "meta-analysis", "meta-analyses", "study", "team", "group", "report", "paper", "which", "that", "who", "and", "it",
    "also", "have", "has", "had", "already", "then", "together",
})  # fmt: skip


def _unit_before(printed: Printed, numeral: Numeral, place: int) -> None:
    """ "month 12" is a time, "bed 46" a name; in "2-year 83", "47 eyes 39" and "the first year 39" the word belongs to
    something else."""
    if numeral.unit != "none" or (printed.kind(place - 2) in _LEADS_A_UNIT and _is_beside(printed, place - 2)):
        return
    word = printed.word(place - 1)
    if word in LEADING_TIMES and printed.word(place - 2) not in WHICH_TIME:
        numeral.unit = printed.said[place - 1]
    elif word in printed.lexicon.numbered:
        numeral.words.append("label")


_LEADS_A_UNIT = frozenset({Kind.NUMBER, Kind.DASH})


def _label(printed: Printed, numeral: Numeral, place: int) -> None:
    """ "Table 2"; "per 100"; but "mean score 2.1" is what was scored, "yes vs no 1.9" a ratio, "in each group 20" a
    count."""
    word = printed.word(place - 1)
    is_counted = word in _OF_THOSE_STUDIED and (numeral.value >= _MORE_THAN_NAMES or printed.word(place - 2) in _EACH)
    if numeral.unit == "none" and not is_counted and not (numeral.decimals and word in _WITH_VALUES):
        numeral.words.append(printed.said[place - 1])


_OF_THOSE_STUDIED = frozenset({"group", "groups"})
_EACH = frozenset({"each", "every", "per", "either", "both"})
_MORE_THAN_NAMES = 10
"""No study numbers so many groups: the 39 of "in the control group 39 healed" is a count."""


_WITH_VALUES = frozenset({"score", "scores", "no", "number", "group", "groups", "ref", "reference"})
"""Words that have no name with decimals behind them, as "Table 2.1" is one."""

Reader = Callable[[Printed, Numeral, int], None]

_BEHIND: dict[str, Reader] = {
    Kind.PERCENT: _percent,
    Kind.UNIT: _unit,
    Kind.DASH: _dash_and_unit,
    Kind.N_SIGN: _newtons,
    Kind.ROLE: _counted_behind_words,
    Kind.ADJECTIVE: _counted_behind_words,
    Kind.ROUND_OPEN: _unit_behind_brackets,
    Kind.ROUND_CLOSE: _unit_behind_closing_bracket,
}
"""By the kind of the piece behind a number, what to read there."""
_BEFORE: dict[str, Reader] = {Kind.COMPARATOR: _comparator, Kind.UNIT: _unit_before, Kind.LABEL: _label}
"""By the kind of the piece before it."""
