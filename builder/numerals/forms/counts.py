"""Counts: so many of so many, and the size of a group."""

from __future__ import annotations

import re

from ..kinds import Kind, pattern
from ..late import late
from ..printed import Numeral, Printed
from ..rows import is_headed_by_slash
from ..words import TIMES
from .found import Found, form
from .pairs import couple, destroy

_TIMES = frozenset(TIMES.values())
_N_EQUALS = "(N_SIGN [EQUALS COLON])?"
_WORDS_BETWEEN = "[UNIT ROLE FILLER ADJECTIVE]{0,3}"
_OPEN, _CLOSE = "ROUND_OPEN SQUARE_OPEN", "ROUND_CLOSE SQUARE_CLOSE"
_MORE = "[FILLER ALL OF ADJECTIVE]*"
OUT_OF = f"OF {_MORE}"
"""Before a total."""


@form(
    f"""{_N_EQUALS} events:NUMBER {_WORDS_BETWEEN} ([{_OPEN}] [^{_OPEN} {_CLOSE}]* [{_CLOSE}])?
    {OUT_OF} total:NUMBER"""
)
def n_of_n(found: Found) -> None:
    """ "39 of 47", "39 healed of the 47", "39 eyes (83%) of 47"."""
    make_count(found.printed, found["events"], found["total"])
    _pair_those_before(found.printed, found["events"], found["total"])


def _pair_those_before(printed: Printed, events: Numeral, total: Numeral) -> None:
    """Numbers before, that come to the total with the events: "complete in 70, uncertain in 16 and absent in 14 of
    100" counts each of 100."""
    if events.mate is not total:
        return
    left = total.value - events.value
    before: list[Numeral] = []
    for one in reversed(printed.numerals[: events.index]):
        if (
            not left
            or _is_whole(printed, one)
            or one.form
            or one.mate
            or one.share
            or not one.value
            or not _may_be_pair(printed, one, total)
        ):
            break
        before.append(one)
        left -= one.value
    if left or not before or any(kind in _ENDS for kind in printed.kinds[before[-1].piece : events.piece]):
        return
    for one in before:
        one.part, one.form, one.unit, one.mate = "events", "count", total.unit, total


def _is_whole(printed: Printed, one: Numeral) -> bool:
    """Whether a number is what others are of: the 46 of "none of the 46 and 2 of the 48"."""
    kinds = printed.kinds[: one.piece]
    led = kinds.rstrip(_BEFORE_A_WHOLE)
    return led[-1:] in _LEADS_TO_A_WHOLE or Kind.ALL in kinds[len(led) :]


_BEFORE_A_WHOLE = Kind.FILLER + Kind.ALL + Kind.ADJECTIVE
_LEADS_TO_A_WHOLE = (Kind.OF, Kind.SLASH)
_ENDS = (Kind.STOP, Kind.SEMICOLON, Kind.COLON, Kind.ROUND_OPEN, Kind.SQUARE_OPEN)
_BEHIND = f"[UNIT ROLE ADJECTIVE]{{0,2}} ([{_OPEN}] [^{_OPEN} {_CLOSE} DASH TO ROLE]* [{_CLOSE}])?"
"""Of a list's item; brackets with a range in them are read as one: "31 months (range 12-60), 80 of 98"."""
_LIST = f"(COMMA NUMBER {_BEHIND})* COMMA? AND NUMBER {_BEHIND}"


@form(f"first:NUMBER {_BEHIND} {_LIST} of:OF {_MORE} total:NUMBER {_BEHIND} {_LIST}")
def numbers_of_numbers(found: Found) -> None:
    """ "3 (5%), 5 (9%) and 8 (13%) of 60, 57 and 62", by position; two of two only with "respectively"."""
    events = _outside_brackets(found, found.start, found.place("of"))
    totals = _outside_brackets(found, found.place("of"), found.end)
    for total in totals[:-1]:
        if total.unit == "none":
            total.unit = totals[-1].unit
    pairs = list(zip(events, totals, strict=False))
    is_parallel = len(events) == len(totals) and (len(pairs) > 2 or _is_said_behind(found, "respectively"))
    if is_parallel and all(_may_be_pair(found.printed, *pair) for pair in pairs):
        for one, total in pairs:
            make_count(found.printed, one, total)
    else:
        make_count(found.printed, events[-1], totals[0])


@form(
    f"first:NUMBER {_BEHIND} (COMMA NUMBER {_BEHIND})* COMMA? [COMMA AND] NUMBER {_BEHIND} of:OF {_MORE} total:NUMBER"
)
def numbers_of_n(found: Found) -> None:
    """ "at 6, 12 and 24 months: 35, 39 and 41 of 47": each is of 47, where as many times stand beside."""
    printed, total = found.printed, found["total"]
    events = _outside_brackets(found, found.start, found.place("of"))
    totals = _totals_in_words(found, len(events))
    if totals and all(_may_be_pair(printed, *pair) for pair in zip(events, totals, strict=True)):
        for one, of in zip(events, totals, strict=True):
            make_count(printed, one, of)
        return
    make_count(printed, events[-1], total)
    _pair_those_before(printed, events[-1], total)
    if not (_follow_as_many_times(found, len(events)) or _precede_as_many_times(found, len(events))):
        return
    for one in events[:-1]:
        if _may_be_pair(printed, one, total):
            one.part, one.form, one.unit, one.mate = "events", "count", total.unit, total


def _totals_in_words(found: Found, count: int) -> list[Numeral]:
    """As many totals with words between: "55 and 47 of the 61 eyes with A and the 58 with B, respectively"."""
    printed = found.printed
    if not _is_said_behind(found, "respectively"):
        return []
    total = found["total"]
    totals = [total]
    for place in range(total.piece + 1, min(total.piece + 10 * count, len(printed.kinds))):
        kind = printed.kinds[place]
        if kind == Kind.NUMBER:
            behind = printed.kinds[totals[-1].piece + 1 : place]
            if _match_next_total(behind) is None:
                return []
            totals.append(printed.at[place])
            if len(totals) == count:
                is_alone = printed.kind(place + 1) not in (Kind.OF, Kind.SLASH, Kind.PERCENT)
                return totals if is_alone else []
    return []


_match_next_total = late(
    pattern("[UNIT ROLE ADJECTIVE FILLER WORD LABEL DASH]{0,8} (COMMA | COMMA? AND) [FILLER OF]{0,3}")
).fullmatch


def _outside_brackets(found: Found, first: int, last: int) -> list[Numeral]:
    """The numbers between two places, those in brackets left out."""
    printed = found.printed
    out, depth = [], 0
    for place in range(first, last):
        kind = printed.kinds[place]
        depth += (kind in _OPENS) - (kind in _CLOSES)
        if kind == Kind.NUMBER and not depth:
            out.append(printed.at[place])
    return out


_OPENS, _CLOSES = (Kind.ROUND_OPEN, Kind.SQUARE_OPEN), (Kind.ROUND_CLOSE, Kind.SQUARE_CLOSE)


def _is_said_behind(found: Found, word: str) -> bool:
    """True where the rest of the sentence has a word."""
    text = found.printed.text
    at = found.printed.spans[found.end - 1][1]
    return word in text[at : at + _NEAR].lower().split(". ")[0]


_NEAR = 120
"""Characters of a sentence in which "respectively" is looked for."""


def _follow_as_many_times(found: Found, count: int) -> bool:
    """Whether a list of as many times stands before a list."""
    numerals = found.printed.numerals
    first = found["first"].index
    before = numerals[max(0, first - count - 1) : first]
    lengths = [numeral.unit in _TIMES for numeral in before]
    return len(lengths) >= count and all(lengths[-count:]) and (len(lengths) == count or not lengths[0])


_TIME = "|".join(sorted(TIMES, key=len, reverse=True))
_match_times_behind = late(
    r"[^.;:,\d]{0,80}?\b(?:at|after|by|on)\s+(?:the\s+)?(?:(?P<before>days|weeks|months|years)\s+)?"
    rf"(?P<times>\d+-?(?:(?:\s*,\s*(?:and\s+)?|\s+and\s+)\d+-?)+|"
    rf"(?P<each>(?:day|week|month|year))\s+\d+(?:(?:\s*,\s*(?:and\s+)?|\s+and\s+)(?P=each)\s+\d+)+)"
    rf"(?:[\s~-]*(?P<behind>{_TIME})\b)?",
    re.IGNORECASE,
).match


def _precede_as_many_times(found: Found, count: int) -> bool:
    """Whether a list of as many times stands behind the whole: "35, 39 and 41 of 47 at 6, 12 and 24 months"."""
    behind = _match_times_behind(found.printed.text, found["total"].end)
    if behind is None or not (behind["before"] or behind["behind"] or behind["each"]):
        return False
    return len(re.findall(r"\d+", behind["times"])) == count


def _may_be_pair(printed: Printed, events: Numeral, total: Numeral) -> bool:
    counts = printed.lexicon.counts
    is_count = events.unit in counts and total.unit in counts and not (events.decimals or total.decimals)
    return is_count and events.value <= total.value and not events.comparator


@form(f"first:NUMBER SLASH NUMBER (SLASH NUMBER)* SLASH last:NUMBER [UNIT ROLE]? of:OF {_MORE} total:NUMBER")
def slashed_of_n(found: Found) -> None:
    """ "31/36/41 of 47": each is of 47."""
    printed, total = found.printed, found["total"]
    events = _outside_brackets(found, found.start, found.place("of"))
    if all(_may_be_pair(printed, one, total) for one in events):
        make_count(printed, events[-1], total)
        for one in events[:-1]:
            one.part, one.form, one.unit, one.mate = "events", "count", total.unit, total


@form(f"ROUND_OPEN {_N_EQUALS} events:NUMBER ROUND_CLOSE {OUT_OF} total:NUMBER")
def n_in_brackets_of_n(found: Found) -> None:
    """The "(n = 5) of 50" of "10% (n = 5) of 50"."""
    make_count(found.printed, found["events"], found["total"])


@form(f"{_N_EQUALS} events:NUMBER SLASH total:NUMBER")
def n_slash_n(found: Found) -> None:
    """ "39/47"; but "75 / 9" below "eyes / scars" are as many eyes and as many scars."""
    events, total = found["events"], found["total"]
    if events.value > total.value and is_headed_by_slash(found.printed.text, events.start):
        return
    make_count(found.printed, events, total)


@form(f"share:NUMBER PERCENT {_WORDS_BETWEEN} {OUT_OF} whole:NUMBER")
def share_of_n(found: Found) -> None:
    """ "83% of 47": words behind the 47 speak of the 83%."""
    found["whole"].share = found["share"]


@form("N_SIGN [EQUALS COLON] COMPARATOR? size:NUMBER")
def n_equals(found: Found) -> None:
    """ "n = 47"."""
    size = found["size"]
    if size.unit in found.printed.lexicon.counts:
        size.form = "count"
    size.words.append("n")


_HELD_TOGETHER = frozenset({"arm", "study"})
"""What holds those that are counted: the number behind its "of" is the size of each."""
_OCCASIONS = frozenset({"visits", "sessions"})
"""Of "20 of 50 visits" each is one of what was treated, or its occasion: a count."""


def _are_so_many_each(printed: Printed, events: Numeral, total: Numeral) -> bool:
    """ "Four arms of 40"."""
    is_held = events.unit in _HELD_TOGETHER and total.unit != events.unit
    return is_held and printed.kind(total.piece - 1) == Kind.OF


def make_count(printed: Printed, events: Numeral, total: Numeral) -> None:
    """Two whole numbers of units are events and the total they are of."""
    counts = printed.lexicon.counts
    if total.unit == "other" and printed.word(total.piece + 1) in _OCCASIONS:
        total.unit = "none"
    if events.unit not in counts or total.unit not in counts or events.decimals or total.decimals:
        return
    if _are_so_many_each(printed, events, total):
        return
    if events.comparator in ("<=", ">=") and printed.text[events.outer_start :][:3].lower() in ("no ", "not"):
        events.comparator, events.outer_start = "", events.start  # "no fewer than 39 of 47" are 39
    if events.value > total.value:
        # "71 of 37": a digit was lost; but in "13 of the two visit group" the word is a name.
        is_name = printed.text[total.start].isalpha() and not printed.text[events.start].isalpha()
        if events.unit in ("none", total.unit) and not is_name:
            destroy(events, total)
        return
    couple(events, total, "events", "total")
    events.form = total.form = "count"
    if "label" in events.words:  # "in the MTA group 2 of 41 failed"
        events.words.remove("label")
    _say_what_is_counted(events, total)


def _say_what_is_counted(events: Numeral, total: Numeral) -> None:
    """The unit that is printed behind one of the two is that of both."""
    if events.unit == "none":
        events.unit = total.unit
    elif total.unit == "none":
        total.unit = events.unit
