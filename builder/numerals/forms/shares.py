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
_find_headings = late(
    r"\(\s*(?:[^()%\d]{1,30}[,;]\s*)?(?:(\\?%|\\?\s?per\s?cent)|s\.?d\.?|se|sem|range|iqr|95)[^()]*\)", re.IGNORECASE
).finditer


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


@form("NUMBER SLASH NUMBER (SLASH NUMBER)* SLASH NUMBER PERCENT")
def slashed_shares(found: Found) -> None:
    """ "Survival was 96/88/71%": one sign behind the last of three or more."""
    printed = found.printed
    shares = [printed.at[place] for place in range(found.start, found.end) if place in printed.at]
    if len(shares) > 2 and all(share.unit in ("none", "%") and share.value <= 100 for share in shares):
        for share in shares:
            share.unit = "%"


_NEAR = 120
_leads_to_shares = late(
    r"\b(?:rates?|percentages?|proportions?|shares|success|survival|prevalences?|incidences?)\b"
    r"(?:(?!\.\s)[^\d;])*?(?:\b(?:were|was|are|of|reached|averaged|being)|[:=])[\s~$]+\Z",
    re.IGNORECASE,
).search


def read_behind_commas(printed: Printed) -> None:
    """The 85 of "34/40, 85" below a heading "(healed/total, %)"."""
    if "%)" not in printed.text:
        return
    for total in printed.numerals:
        events, place = total.mate, total.piece + 1
        if total.part != "total" or events is None or printed.kind(place) != Kind.COMMA:
            continue
        share = printed.at.get(place + 1)
        is_bare = share is not None and share.unit == "none" and not share.form and not share.part
        if share is not None and is_bare and _is_share(share, events, total) and _is_below_percent(printed, place):
            share.unit = "%"


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
