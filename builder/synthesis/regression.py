"""Does an effect go with a measured property of the studies?"""

from __future__ import annotations

import math
from collections.abc import Sequence

from ..records import NamedTuple
from .distributions import critical_value, normal_tail, student_quantile, student_two_sided
from .effects import INTERVALS
from .heterogeneity import as_arrays, reml_tau_squared, weighted_fit
from .ranges import confidence_level, number, same_length
from .results import Interval, Refusal


class Regression(NamedTuple):
    """A random-effects meta-regression on one moderator."""

    intercept: float
    """Effect where the moderator is 0."""
    slope: float
    intercept_standard_error: float
    slope_standard_error: float
    slope_interval: Interval
    slope_p_value: float
    tau_squared: float
    """What is left unexplained, by restricted maximum likelihood."""
    studies: int


def meta_regression(
    effects: Sequence[float],
    standard_errors: Sequence[float],
    moderator: Sequence[float],
    interval: str = "knapp-hartung",
    confidence: float = 0.95,
) -> Regression | Refusal:
    """Effects regressed on one moderator, with what remains between studies by restricted maximum likelihood.

    effects and standard_errors: as for pooled_effect. moderator: one number a study. interval: "knapp-hartung" (t with
    two degrees of freedom fewer than studies), "truncated-knapp-hartung" or "normal". Refused below three studies or
    where the moderator does not vary. Raises ValueError for unequal lengths, another interval or values out of range.

    Knapp and Hartung 2003, Stat Med 22:2693-2710 (from memory). Ten studies a moderator: Cochrane Handbook, chapter 10.
    """
    import numpy as np

    if interval not in INTERVALS:
        raise ValueError(f"interval must be one of {', '.join(INTERVALS)}, not {interval!r}")
    level = confidence_level(confidence)
    values, variances = as_arrays(effects, standard_errors)
    same_length("effects", effects, "moderator", moderator)
    positions = np.array([number("a moderator", item) for item in moderator])
    studies = len(values)
    if studies < 3:
        return Refusal("Fewer than three studies: a line through them says nothing.")
    # Centred and scaled inside: calendar years would cost half of the digits.
    middle, width = float(positions.mean()), float(np.ptp(positions))
    if not width > 1e-12 * max(1.0, abs(middle)):
        return Refusal("The moderator is the same in all studies: there is no slope.")
    design = np.column_stack([np.ones(studies), (positions - middle) / width])
    tau_squared = reml_tau_squared(values, variances, design)
    fit = weighted_fit(values, variances + tau_squared, design)
    slope = float(fit.coefficients[1]) / width
    covariance = fit.covariance
    degrees = studies - 2
    factor = math.sqrt(fit.q / degrees)
    if interval == "truncated-knapp-hartung":
        factor = max(1.0, factor)
    elif interval == "normal":
        factor = 1.0
    slope_error = factor * math.sqrt(covariance[1, 1]) / width
    shift = middle / width
    intercept_variance = covariance[0, 0] - 2 * shift * covariance[0, 1] + shift**2 * covariance[1, 1]
    if slope_error <= 1e-12 * abs(slope):
        return Refusal("The studies lie exactly on a line: this interval would have no width.")
    ratio = abs(slope) / slope_error
    critical = critical_value(level) if interval == "normal" else student_quantile((1 + level) / 2, degrees)
    return Regression(
        intercept=float(fit.coefficients[0]) - slope * middle,
        slope=slope,
        intercept_standard_error=factor * math.sqrt(intercept_variance),
        slope_standard_error=slope_error,
        slope_interval=Interval(slope - critical * slope_error, slope + critical * slope_error),
        slope_p_value=2 * normal_tail(ratio) if interval == "normal" else student_two_sided(ratio, degrees),
        tau_squared=tau_squared,
        studies=studies,
    )
