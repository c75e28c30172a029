"""Confidence intervals and their level."""

from __future__ import annotations

from ..kinds import Kind
from .found import Found, form
from .pairs import ENDS_PARTED, make_confidence, make_interval

_LEVEL_LEADS_ON = f"""(?=[ROUND_OPEN SQUARE_OPEN COLON EQUALS COMMA]* COMPARATOR? NUMBER PERCENT? UNIT?
    [{ENDS_PARTED} AND] COMPARATOR? NUMBER)"""


@form(
    f"""(level:NUMBER PERCENT? DASH?)? CI{{1,4}} ([ROUND_OPEN SQUARE_OPEN] CI [ROUND_CLOSE SQUARE_CLOSE])?
    (DASH? level_behind:NUMBER PERCENT? {_LEVEL_LEADS_ON})?
    [ROUND_OPEN ROUND_CLOSE SQUARE_OPEN COLON EQUALS COMMA SEMICOLON OF FILLER]* BETWEEN?
    COMPARATOR? low:NUMBER [PERCENT UNIT]? [{ENDS_PARTED} AND]{{1,2}} COMPARATOR? high:NUMBER"""
)
def confidence_interval(found: Found) -> None:
    """ "95% CI 55 to 85", "CI 95%: [55, 85]", "95% confidence limits 55 and 85"."""
    make_confidence(found.get("level"))
    make_confidence(found.get("level_behind"))
    make_interval(found.printed, found["low"], found["high"])


@form("level:NUMBER PERCENT? DASH? CI")
def confidence_alone(found: Found) -> None:
    """ "95% CI" at the head of a column."""
    make_confidence(found["level"])


@form(
    f"""SQUARE_OPEN COMPARATOR? low:NUMBER PERCENT? UNIT? [{ENDS_PARTED}]
    COMPARATOR? high:NUMBER PERCENT? UNIT? SQUARE_CLOSE"""
)
def in_square_brackets(found: Found) -> None:
    """ "[0.76, 0.92]", whatever stands before."""
    make_interval(found.printed, found["low"], found["high"])


@form("ROUND_OPEN COMPARATOR? low:NUMBER PERCENT? [COMMA SEMICOLON] COMPARATOR? high:NUMBER PERCENT? ROUND_CLOSE")
def in_round_brackets(found: Found) -> None:
    """The brackets of "OR 2.9 (1.2, 7.1)", where the number before them lies between the two."""
    printed = found.printed
    before = found.start - 1
    if printed.kind(before) == Kind.PERCENT:
        before -= 1
    estimate = printed.at.get(before)
    if estimate is None:
        return
    decimals = {each.decimals for each in (estimate, found["low"], found["high"])}
    is_alike = len(decimals) == 1 and estimate.decimals > 0  # "MTA 0.62 (0.44; 0.87)"
    if estimate.form != "ratio" and estimate.unit != "%" and not is_alike:
        return
    if found["low"].value <= estimate.value <= found["high"].value:
        make_interval(printed, found["low"], found["high"])
