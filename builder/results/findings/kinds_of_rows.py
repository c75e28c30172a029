"""What one claim and each of its levels tell: which kind of row it makes, and when it was counted."""

from __future__ import annotations

from typing import Literal

from ...reading.model import Claim, FollowUp, Level, Report
from ...reading.values import Words

FindingKind = Literal["rate", "measured", "estimate", "contrast", "words", "pairs", "grade", "pooled", "test", "absent"]


def has_any(*values: object) -> bool:
    """True where at least one of these fields was filled in."""
    return any(value is not None for value in values)


def kind_of(level: Level) -> FindingKind:
    """What a level of a claim tells: an estimate, something measured, words, or a rate."""
    if level.estimate is not None:
        return "estimate"
    if level.mean is not None or level.median is not None:
        return "measured"
    is_told = level.direction is not None and not has_any(level.events, level.success_rate, level.rate)
    return "words" if is_told or level.stated is not None else "rate"


def follow_up_of(report: Report, claim: Claim) -> tuple[FollowUp | None, str]:
    """The follow-up of a claim, its own or that of the claim it names, and what the ids of its figures begin with."""
    value = claim.follow_up
    owner = claim
    if isinstance(value, Words):
        named = report.claim(value.text)
        if named is None or not isinstance(named.follow_up, FollowUp):
            return None, ""
        owner, value = named, named.follow_up
    if not isinstance(value, FollowUp):
        return None, ""
    return value, f"{report.key}/{owner.id.text}/follow_up"
