"""Percentages printed without their sign beside the counts that they follow from: "39/47 (83)", "83 (39/47)"."""

from __future__ import annotations

import re
from decimal import Decimal

from ..kinds import Kind
from ..late import late
from ..printed import Numeral, Printed
from .counts import make_count
from .found import Found, form

_HALF = Decimal("0.5")
_find_headings = late(r"\(\s*(?:(\\?%|\\?\s?per\s?cent)|s\.?d\.?|se|sem|range|iqr|95)[^()]*\)", re.IGNORECASE).finditer


@form("ROUND_OPEN share:NUMBER ROUND_CLOSE")
def share_in_brackets(found: Found) -> None:
    """The 83 of "39/47 (83)" and, below a heading "n (%)", of "39 (83.0)"."""
    printed, share = found.printed, found["share"]
    before = found.start - 1
    while printed.kind(before) in (Kind.UNIT, Kind.ROLE) and before > found.start - 3:
        before -= 1
    counted = printed.at.get(before)
    if counted is None or share.unit != "none" or share.form or share.comparator:
        return
    events = counted.mate if counted.part == "total" else None
    if events is not None:
        is_share = _is_share(share, events, counted)
    else:
        is_count = counted.unit in printed.lexicon.counts and not counted.decimals
        is_share = is_count and share.value <= 100 and _is_below_percent(printed, found.start)
    if is_share:
        share.unit = "%"


@form("share:NUMBER ROUND_OPEN events:NUMBER [SLASH OF] total:NUMBER UNIT? ROUND_CLOSE")
def share_before_n(found: Found) -> None:
    """ "83 (39/47)"."""
    share, events, total = found["share"], found["events"], found["total"]
    make_count(found.printed, events, total)
    if share.unit == "none" and not share.form and _is_share(share, events, total):
        share.unit = "%"


@form("first:NUMBER (COMMA NUMBER)* COMMA? AND (?=(last:NUMBER PERCENT))")
def shares_with_one_sign(found: Found) -> None:
    """ "Success rates were 83.1, 80 and 71.4%": one sign behind the last."""
    printed, last = found.printed, found["last"]
    shares = [printed.at[place] for place in range(found.start, found.end) if place in printed.at]
    if any(share.unit != "none" or share.form or share.comparator or share.value > 100 for share in shares):
        return
    before = printed.text[max(shares[0].start - _NEAR, 0) : shares[0].start]
    if _leads_to_shares(before) is not None and last.unit == "%" and last.decimals == shares[0].decimals:
        for share in shares:
            share.unit = "%"


_NEAR = 120
_leads_to_shares = late(
    r"\b(?:rates?|percentages?|proportions?|shares|success|survival|prevalences?|incidences?)\b"
    r"(?:(?!\.\s)[^\d;])*?(?:\b(?:were|was|are|of|reached|averaged|being)|[:=])[\s~$]+\Z",
    re.IGNORECASE,
).search


def _is_share(share: Numeral, events: Numeral, total: Numeral) -> bool:
    """Whether one number is what two others come to in per cent, as far as it is printed."""
    if not total.value or events.part != "events":
        return False
    off = abs(share.value - 100 * events.value / total.value) * 10**share.decimals
    return off <= _HALF and share.value > 1


def _is_below_percent(printed: Printed, place: int) -> bool:
    """True where the last heading with brackets says "(%)", not "(SD)"."""
    end = printed.spans[place][0]
    if "%)" not in printed.text[:end]:
        return False
    last = ""
    for heading in _find_headings(printed.text, 0, end):
        last = heading[1] or ""
    return bool(last)
