"""Which way one row goes for the patient: a ratio or difference by its side, a rate beside that of its reference."""

from __future__ import annotations

from decimal import Decimal
from typing import Literal

from ...reading.contrasts import RATIOS
from ...reading.values import Missing, Words
from ...synthesis.rounding import round_half_up
from ..values.figures import Figure
from .findings import Finding

Direction = Literal["better", "worse", "no clear difference", "not stated"]
DIRECTIONS: tuple[Direction, ...] = ("better", "worse", "no clear difference", "not stated")


def is_adjusted(finding: Finding) -> bool:
    """True where the report names what the ratio was adjusted for; "not reported" is not adjusted."""
    contrast = finding.contrast
    if contrast is None or isinstance(contrast.adjusted_for, Missing):
        return False
    return not (isinstance(contrast.adjusted_for, Words) and contrast.adjusted_for.text == "none")


def direction_of_ratio(finding: Finding, value: Figure | None) -> Direction:
    """The side of a ratio or difference, for the patient; "not stated" where the event is neither good nor bad.

    A prevented fraction counts events that did not come, so above nothing is the good side of a bad event.
    """
    contrast = finding.contrast
    if contrast is None or value is None:
        return "not stated"
    good = contrast.event_is.text == "good" if contrast.event_is is not None else None
    number = value.number
    if contrast.measure.text in RATIOS:
        if round_half_up(number, 1) == Decimal("1.0"):
            return "no clear difference"
        higher = number > 1
    else:
        if number == 0:
            return "no clear difference"
        higher = number > 0
        if good is None:
            good = finding.outcome.good if contrast.event is None else None
        if contrast.measure.text == "prevented fraction":
            higher = not higher
    if good is None:
        return "not stated"
    return "better" if higher == good else "worse"


def share_good(finding: Finding) -> Decimal | None:
    """The share that did well, in per cent, from counts or else from the printed rate or estimate."""
    good = finding.good_events
    if good is not None and finding.total:
        return Decimal(100 * good) / Decimal(finding.total)
    estimate = finding.estimate
    figure = finding.figure("success_rate", "rate")
    is_good = finding.outcome.good
    if figure is None and estimate is not None:
        figure = finding.figure("estimate/value")
        is_good = estimate.kind.text == "survival"
    if figure is None:
        return None
    return figure.number if is_good else 100 - figure.number


def direction_of_measured(finding: Finding, reference: Finding | None) -> Direction | None:
    """The side of a mean, else of a median, beside that of the reference; None where either was not measured.

    "no clear difference" only where both print alike. An outcome whose event is good is one of which more is better.
    """
    if reference is None or finding.kind != "measured" or reference.kind != "measured":
        return None
    for name in ("mean", "median"):
        own, other = finding.figure(name), reference.figure(name)
        if own is not None and other is not None:
            if own.number == other.number:
                return "no clear difference"
            return "better" if (own.number > other.number) == finding.outcome.good else "worse"
    return None


def direction_between(share: Decimal | None, reference: Decimal | None) -> Direction | None:
    """The side of a rate beside its reference; "no clear difference" only where both print alike at whole per cent."""
    if share is None or reference is None:
        return None
    if round_half_up(share, 0) == round_half_up(reference, 0):
        return "no clear difference"
    return "better" if share > reference else "worse"
