"""A margin that was fixed beforehand: whether a printed interval lies within it, is not shown to, or lies beyond."""

from __future__ import annotations

from decimal import Decimal
from typing import Literal

from ...reading.contrasts import RATIOS
from .findings import Finding

Verdict = Literal["within", "not shown within", "beyond"]


def margin_verdict(finding: Finding) -> Verdict | None:
    """Where the printed interval of a contrast, at its printed level, lies beside its margin.

    One-sided unless the margin says two: then alone "within" means similar, both ends inside. None without a margin or
    an interval, and where nothing says on which side harm lies.

    Piaggio et al. 2012, JAMA 308:2594-2604, figure 1 (from memory).
    """
    contrast = finding.contrast
    if contrast is None or contrast.margin is None:
        return None
    margin = finding.figure("contrast/margin/value")
    low, high = finding.figure("contrast/interval/low"), finding.figure("contrast/interval/high")
    if margin is None or low is None or high is None:
        return None
    is_two = contrast.margin.sides is not None and contrast.margin.sides.text == "two"
    is_up = harm_lies_above(finding)
    if is_up is None and not is_two:
        return None
    lower, upper = _limits(margin.number, contrast.measure.text in RATIOS)
    if is_two:
        is_within = lower < low.number and high.number < upper
        is_beyond = high.number < lower or low.number > upper
    elif is_up:
        is_within, is_beyond = high.number < upper, low.number > upper
    else:
        is_within, is_beyond = low.number > lower, high.number < lower
    return "within" if is_within else "beyond" if is_beyond else "not shown within"


def margin_places(finding: Finding) -> tuple[Decimal, ...]:
    """Where its margin lies on the scale of the contrast: towards harm, or on both sides; empty without a verdict."""
    contrast, margin = finding.contrast, finding.figure("contrast/margin/value")
    if contrast is None or contrast.margin is None or margin is None or margin_verdict(finding) is None:
        return ()
    lower, upper = _limits(margin.number, contrast.measure.text in RATIOS)
    if contrast.margin.sides is not None and contrast.margin.sides.text == "two":
        return lower, upper
    return (upper,) if harm_lies_above(finding) else (lower,)


def harm_lies_above(finding: Finding) -> bool | None:
    """True where a higher value is worse for the patient; None where nothing says whether the event is good or bad."""
    contrast = finding.contrast
    if contrast is None:
        return None
    good = contrast.event_is.text == "good" if contrast.event_is is not None else None
    if good is None and contrast.event is None:
        good = finding.outcome.good
    if good is None:
        return None
    # A prevented fraction counts bad events that did not come.
    return good if contrast.measure.text == "prevented fraction" else not good


def _limits(margin: Decimal, is_ratio: bool) -> tuple[Decimal, Decimal]:
    """The margin and its mirror on the other side of no difference, the lower first."""
    if is_ratio:
        return min(margin, 1 / margin), max(margin, 1 / margin)
    return -abs(margin), abs(margin)
