"""All and none of a number: "all 20 eyes", "not seen in any of the 46", "no eye of 46", "all but two of 30"."""

from __future__ import annotations

import re
from collections.abc import Sequence
from decimal import Decimal

from ..late import late
from ..printed import Numeral, Printed
from .counts import OUT_OF
from .found import Found, form
from .pairs import couple

_DESCRIBED = "[OF FILLER ADJECTIVE]{0,4}"
_ALONE = "(?! [UNIT ROLE FILLER ADJECTIVE]{0,3} ([ROUND_OPEN] [^ROUND_CLOSE]* ROUND_CLOSE)? [OF SLASH DASH TO PERCENT])"
_find_negation = late(r"\b(?:not|no|never|nor|neither|without|none|nothing)\b[^.;:()\d]{0,60}\Z", re.IGNORECASE).search
_NO_CASES = frozenset({"study", "arm"})
"""What is true in all of these is no count of cases: "in each of the 12 studies"."""
_OF_THE_WHOLE = frozenset({"eligible", "treated", "due", "examined", "who", "n", "label", "median", "mean"})
"""Roles that all have, and nothing befell them: "all 20 eyes were treated"."""


@form(f"all:ALL (?= {_DESCRIBED} total:NUMBER {_ALONE})")
def all_of_n(found: Found) -> None:
    """ "all 20", which is 20 of 20; "not seen in any of the 46", which is 0 of 46."""
    printed, total, place = found.printed, found["total"], found.place("all")
    start, end = printed.spans[place]
    value = total.value
    if printed.said[place] == "any":
        end -= len("of")
        negation = _find_negation(printed.text, max(0, start - 80), start)
        if negation is None:
            return
        start, value = negation.start(), Decimal(0)
    elif printed.text[start:end].lower().endswith("of"):
        end -= len("of")
    end = start + len(printed.text[start:end].rstrip(" ~\n\t"))
    _add_events(printed, place, (start, end), value, total)


@form(f"no:LABEL UNIT {OUT_OF} total:NUMBER")
def no_unit_of_n(found: Found) -> None:
    """ "no eye of 46", which is 0 of 46."""
    printed, place = found.printed, found.place("no")
    if printed.word(place) == "no":
        if found["total"].unit == "none":
            found["total"].unit = printed.said[place + 1]
        _add_events(printed, place, (printed.spans[place][0], printed.spans[place + 1][1]), Decimal(0), found["total"])


@form(f"all:ALL WORD few:NUMBER {OUT_OF} total:NUMBER")
def all_but_few(found: Found) -> None:
    """ "all but two of 30", which is 28 of 30."""
    printed, few, total = found.printed, found["few"], found["total"]
    place = found.place("all")
    is_exception = printed.word(place + 1) in _BUT and printed.said[place] == "all"
    if is_exception and _may_be_total(printed, total) and not few.decimals and few.value < total.value:
        few.start = few.outer_start = printed.spans[place][0]
        _make_rest(printed, few, total)


@form(
    f"all:ALL {_DESCRIBED} total:NUMBER UNIT? COMMA? but:WORD [WORD FILLER]? few:NUMBER"
    "(?! [UNIT ROLE FILLER ADJECTIVE]{0,2} [OF SLASH DASH TO PERCENT])"
)
def all_of_n_but_few(found: Found) -> None:
    """ "all 30 save two", which is 28 of 30."""
    printed, few, total = found.printed, found["few"], found["total"]
    place = found.place("all")
    is_exception = printed.word(found.place("but")) in _BUT and printed.said[place] == "all"
    if is_exception and _may_be_total(printed, total) and not few.decimals and few.value < total.value:
        few.unit = "none"
        _make_rest(printed, few, total)
    elif is_exception is False:
        all_of_n.read(found)


_BUT = frozenset({"but", "except", "bar", "save", "excepting"})
_match_bracket = late(r"[^()\d.;]{0,60}[(:]\s*(?P<events>\d+)\s*(?:of|/)\s*(?:the\s+|all\s+)?(?P<total>\d+)").match


def _make_rest(printed: Printed, few: Numeral, total: Numeral) -> None:
    """What is left of a total without a few; nothing where the brackets behind print it in digits."""
    few.value = total.value - few.value
    again = _match_bracket(printed.text, max(few.end, total.end))
    if again is not None and (Decimal(again["events"]), Decimal(again["total"])) == (few.value, total.value):
        few.is_dropped = True
        return
    few.form = total.form = "count"
    few.unit = total.unit
    couple(few, total, "events", "total")


_SIDES = frozenset({"good", "bad"})


def _may_be_total(printed: Printed, total: Numeral) -> bool:
    is_count = total.unit in printed.lexicon.counts and total.unit not in _NO_CASES
    return is_count and not total.decimals and not total.is_destroyed and not total.comparator


def _add_events(printed: Printed, place: int, span: tuple[int, int], value: Decimal, total: Numeral) -> None:
    """A number that is said and not printed; the total stays a number of its own too."""
    if _may_be_total(printed, total):
        events = Numeral(place, total.index, *span, value, 0)
        events.form, events.unit, events.part, events.mate = "count", total.unit, "events", total
        printed.said_of.append(events)


def is_of_whole(printed: Printed, said: Sequence[str]) -> bool:
    """Whether role words say what was done with all, and not also what became of them: "all 22 examined had healed"."""
    stands_for = printed.lexicon.all_roles
    roles = {stands_for.get(word, word) for word in said}
    return not _OF_THE_WHOLE.isdisjoint(roles) and _SIDES.isdisjoint(roles)


def with_wholes(printed: Printed) -> list[Numeral]:
    """All numbers in order, with those that are said of a whole and its words; not where these say what was done with
    all."""
    if not printed.said_of:
        return printed.numerals
    kept = list(printed.numerals)
    for events in printed.said_of:
        events.words = list(events.mate.words) if events.mate is not None else []
        if not is_of_whole(printed, events.words):
            kept.append(events)
    kept.sort(key=lambda numeral: numeral.start)
    for index, numeral in enumerate(kept):
        numeral.index = index
    return kept
