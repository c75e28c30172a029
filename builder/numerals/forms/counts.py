"""Counts: so many of so many, and the size of a group."""

from __future__ import annotations

from ..printed import Numeral, Printed
from .found import Found, form
from .pairs import couple, destroy

_N_EQUALS = "(N_SIGN [EQUALS COLON])?"
_WORDS_BETWEEN = "[UNIT ROLE FILLER ADJECTIVE]{0,3}"
_OPEN, _CLOSE = "ROUND_OPEN SQUARE_OPEN", "ROUND_CLOSE SQUARE_CLOSE"
_OUT_OF = "OF [FILLER OF]*"


@form(
    f"""{_N_EQUALS} events:NUMBER {_WORDS_BETWEEN} ([{_OPEN}] [^{_OPEN} {_CLOSE}]* [{_CLOSE}])?
    {_OUT_OF} total:NUMBER"""
)
def n_of_n(found: Found) -> None:
    """ "39 of 47", "39 healed of the 47", "39 eyes (83%) of 47"."""
    make_count(found.printed, found["events"], found["total"])


@form(f"ROUND_OPEN {_N_EQUALS} events:NUMBER ROUND_CLOSE {_OUT_OF} total:NUMBER")
def n_in_brackets_of_n(found: Found) -> None:
    """The "(n = 5) of 50" of "10% (n = 5) of 50"."""
    make_count(found.printed, found["events"], found["total"])


@form(f"{_N_EQUALS} events:NUMBER SLASH total:NUMBER")
def n_slash_n(found: Found) -> None:
    """ "39/47"."""
    make_count(found.printed, found["events"], found["total"])


@form(f"share:NUMBER PERCENT {_WORDS_BETWEEN} {_OUT_OF} whole:NUMBER")
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


def make_count(printed: Printed, events: Numeral, total: Numeral) -> None:
    """Two whole numbers of units are events and the total they are of."""
    counts = printed.lexicon.counts
    if events.unit not in counts or total.unit not in counts or events.decimals or total.decimals:
        return
    if events.value > total.value:
        if events.unit in ("none", total.unit):  # "71 of 37": a digit was lost
            destroy(events, total)
        return
    couple(events, total, "events", "total")
    events.form = total.form = "count"
    if "label" in events.words:  # "in the MTA group 2 of 41 failed"
        events.words.remove("label")
    if events.unit == "none":
        events.unit = total.unit
    elif total.unit == "none":
        total.unit = events.unit
