"""Two means of one study against each other, where each group has a spread of its own."""

from __future__ import annotations

import math

from ..records import NamedTuple
from .distributions import student_quantile
from .ranges import confidence_level, number, whole
from .results import Interval, Refusal


class Measured(NamedTuple):
    """What was measured in one group."""

    mean: float
    sd: float
    """Standard deviation of the single values, 0 or more; a standard error is none."""
    total: int
    """How many were measured."""


class MeanDifference(NamedTuple):
    """The mean of a group minus that of its reference, in the unit of both."""

    estimate: float
    standard_error: float
    degrees_of_freedom: float
    interval: Interval


def mean_difference(group: Measured, reference: Measured, confidence: float = 0.95) -> MeanDifference | Refusal:
    """The difference of two independent means, with the interval of Welch's t, whose groups need not spread alike.

    Refused where a group has fewer than two, of which no spread is known, or where neither group spreads at all. Raises
    ValueError for a negative or infinite spread, an infinite mean, or a total below 1.

    Welch 1947, Biometrika 34:28-35; the degrees of freedom as in Satterthwaite 1946, Biometrics Bulletin 2:110-114
    (both from memory).
    """
    level = confidence_level(confidence)
    first, second = _checked("group", group), _checked("reference", reference)
    if min(first.total, second.total) < 2:
        return Refusal("of a single one no spread is known")
    variances = [each.sd**2 / each.total for each in (first, second)]
    variance = sum(variances)
    if variance == 0:
        return Refusal("neither group has any spread")
    freedom = variance**2 / sum(
        part**2 / (each.total - 1) for part, each in zip(variances, (first, second), strict=True)
    )
    estimate, error = first.mean - second.mean, math.sqrt(variance)
    half = student_quantile(0.5 + level / 2, freedom) * error
    return MeanDifference(estimate, error, freedom, Interval(estimate - half, estimate + half))


def _checked(name: str, group: Measured) -> Measured:
    sd = number(f"{name} sd", group.sd)
    if sd < 0:
        raise ValueError(f"{name} sd must be 0 or more, not {sd}")
    return Measured(number(f"{name} mean", group.mean), sd, whole(f"{name} total", group.total, 1))
