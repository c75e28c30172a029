"""Confidence intervals for one proportion, in plain Python.

Compared in Newcombe 1998, Stat Med 17:857-872, and Brown, Cai, DasGupta 2001, Stat Sci 16:101-133. In each function
events is 0 to total and total at least 1; anything else raises ValueError.
"""

from __future__ import annotations

import math

from .distributions import beta_quantile, critical_value
from .ranges import confidence_level, counts
from .results import Interval


def wilson_interval(events: int, total: int, confidence: float = 0.95) -> Interval:
    """Score interval for one proportion, without continuity correction.

    Both ends lie in [0, 1]; the lower is exactly 0 when events is 0, the upper exactly 1 when events is total.

    Wilson 1927, J Am Stat Assoc 22:209-212; written as in Newcombe 1998, method 3.
    """
    events, total = counts(events, total)
    low, high = wilson_limits(events, total, critical_value(confidence_level(confidence)))
    return Interval(low, high)


def exact_interval(events: int, total: int, confidence: float = 0.95) -> Interval:
    """Clopper-Pearson interval: each limit leaves half of what the confidence leaves in its binomial tail.

    Never covers less than the confidence, and usually more. The lower limit is exactly 0 when events is 0, the upper
    exactly 1 when events is total.

    Clopper and Pearson 1934, Biometrika 26:404-413; by beta quantiles as in Brown, Cai, DasGupta 2001, section 4.2.1.
    """
    events, total = counts(events, total)
    tail = (1 - confidence_level(confidence)) / 2
    low = 0.0 if events == 0 else beta_quantile(tail, events, total - events + 1)
    high = 1.0 if events == total else 1 - beta_quantile(tail, total - events, events + 1)
    return Interval(low, high)


def jeffreys_interval(events: int, total: int, confidence: float = 0.95) -> Interval:
    """Equal-tailed interval of the Beta(events + 1/2, total - events + 1/2) distribution.

    The lower limit is 0 when events is 0, and the upper 1 when events is total.

    Brown, Cai, DasGupta 2001, section 3.1.
    """
    events, total = counts(events, total)
    tail = (1 - confidence_level(confidence)) / 2
    low = 0.0 if events == 0 else beta_quantile(tail, events + 0.5, total - events + 0.5)
    high = 1.0 if events == total else 1 - beta_quantile(tail, total - events + 0.5, events + 0.5)
    return Interval(low, high)


def wald_interval(events: int, total: int, confidence: float = 0.95, continuity: bool = False) -> Interval:
    """Normal approximation around the share itself, not cut to [0, 1]; only to recognise what a paper printed.

    continuity: widened by 1 / (2 total) on either side.

    Newcombe 1998, methods 1 and 2.
    """
    events, total = counts(events, total)
    low, high = wald_limits(events, total, critical_value(confidence_level(confidence)), continuity)
    return Interval(low, high)


def wilson_continuity_interval(events: int, total: int, confidence: float = 0.95) -> Interval:
    """Score interval with continuity correction; only to recognise what a paper printed.

    Newcombe 1998, method 4.
    """
    events, total = counts(events, total)
    low, high = wilson_continuity_limits(events, total, critical_value(confidence_level(confidence)))
    return Interval(low, high)


def agresti_coull_interval(events: int, total: int, confidence: float = 0.95) -> Interval:
    """Wald's formula after adding z^2 / 2 events and as many non-events; not cut to [0, 1].

    Agresti and Coull 1998, Am Stat 52:119-126; as in Brown, Cai, DasGupta 2001, formula 5.
    """
    events, total = counts(events, total)
    low, high = agresti_coull_limits(events, total, critical_value(confidence_level(confidence)))
    return Interval(low, high)


# The bare formulas below take checked counts and the normal quantile z: the audit calls them by the thousand.


def wilson_limits(events: int, total: int, z: float) -> tuple[float, float]:
    """Limits of wilson_interval."""
    square = z * z
    centre = (events + square / 2) / (total + square)
    half = z * math.sqrt(events * (total - events) / total + square / 4) / (total + square)
    # At the ends centre and half are equal in exact arithmetic; floats would leave 3.5e-18 for 0 of 63.
    return (0.0 if events == 0 else centre - half), (1.0 if events == total else centre + half)


def wilson_continuity_limits(events: int, total: int, z: float) -> tuple[float, float]:
    """Limits of wilson_continuity_interval."""
    square, double = z * z, 2 * (total + z * z)
    share = events / total
    low, high = 0.0, 1.0
    if events > 0:
        root = math.sqrt(max(0.0, square - 2 - 1 / total + 4 * share * (total - events + 1)))
        low = max(0.0, (2 * events + square - 1 - z * root) / double)
    if events < total:
        root = math.sqrt(max(0.0, square + 2 - 1 / total + 4 * share * (total - events - 1)))
        high = min(1.0, (2 * events + square + 1 + z * root) / double)
    return low, high


def wald_limits(events: int, total: int, z: float, continuity: bool = False) -> tuple[float, float]:
    """Limits of wald_interval."""
    share = events / total
    half = z * math.sqrt(share * (1 - share) / total) + (0.5 / total if continuity else 0.0)
    return share - half, share + half


def agresti_coull_limits(events: int, total: int, z: float) -> tuple[float, float]:
    """Limits of agresti_coull_interval."""
    added = total + z * z
    centre = (events + z * z / 2) / added
    half = z * math.sqrt(centre * (1 - centre) / added)
    return centre - half, centre + half
