"""The follow-up that a claim means, and whether two are one."""

from __future__ import annotations

from ..reading.report_model import Claim, FollowUp, Report
from ..reading.values import Length, Missing, Words

_LENGTHS = ("at", "minimum", "maximum", "mean", "median")


def follow_up_of(claim: Claim, report: Report) -> FollowUp | None:
    """The follow-up block that a claim means: its own, or that of the claim it names."""
    block = claim.follow_up
    if type(block) is Words:
        other = report.claim(block.text)
        block = other.follow_up if other is not None else Missing("", block.position)
    return block if type(block) is FollowUp else None


def time_of(block: FollowUp | None) -> tuple[object, ...] | None:
    """What two blocks have in common that mean one time; None: unknown, and two unknown ones are never the same."""
    if block is None:
        return None
    return (
        block.start.text if isinstance(block.start, Words) else None,
        block.timing.text if isinstance(block.timing, Words) else None,
        *(_span(getattr(block, name)) for name in (*_LENGTHS, "tolerance")),
    )


def may_be_one_time(one: FollowUp | None, other: FollowUp | None) -> bool:
    """False where what both tell of their time differs."""
    if one is None or other is None or one is other:
        return True
    if isinstance(one.timing, Words) and isinstance(other.timing, Words) and one.timing.text != other.timing.text:
        return False
    spans = ((_span(getattr(one, name)), _span(getattr(other, name))) for name in _LENGTHS)
    return all(first is None or second is None or first == second for first, second in spans)


def _span(length: Length | Missing | None) -> tuple[str, object] | None:
    # 12 months and 1 year are one time; days and weeks stay what they are.
    if type(length) is not Length:
        return None
    return ("month", length.value * 12) if length.unit == "year" else (length.unit, length.value)
