"""Inverse-variance pooling of effects with known standard errors."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING

from .distributions import critical_value, student_quantile
from .heterogeneity import (
    as_arrays,
    heterogeneity_from_q,
    q_profile_interval,
    reml_tau_squared,
    weighted_fit,
)
from .pooled import Pooled
from .ranges import confidence_level
from .results import Interval, Refusal

if TYPE_CHECKING:
    from .heterogeneity import Array

MODELS = ("random", "common")
INTERVALS = ("normal", "knapp-hartung", "truncated-knapp-hartung")
SCALES = ("log", "logit", "difference")


def pooled_effect(
    effects: Sequence[float],
    standard_errors: Sequence[float],
    model: str = "random",
    interval: str = "truncated-knapp-hartung",
    scale: str = "log",
    confidence: float = 0.95,
) -> Pooled | Refusal:
    """Inverse-variance mean of effects, one a study.

    effects: on the scale of analysis, so logs of ratios. standard_errors: above 0. model: "random" (tau squared by
    restricted maximum likelihood) or "common". interval: "normal", "knapp-hartung" or "truncated-knapp-hartung" (never
    narrower than the normal standard error allows); always "normal" where model is "common". scale: "log", "logit" or
    "difference", which decides what natural() does. One study: "common" gives it back, "random" refuses. At two studies
    the t interval has one degree of freedom and says next to nothing. Raises ValueError for unequal lengths, no study,
    other names or values out of range.

    Hartung and Knapp 2001, Stat Med 20:3875-3889 (from memory); truncated as in Roever, Knapp, Friede 2015, BMC Med Res
    Methodol 15:99.
    """
    if model not in MODELS:
        raise ValueError(f"model must be one of {', '.join(MODELS)}, not {model!r}")
    if interval not in INTERVALS:
        raise ValueError(f"interval must be one of {', '.join(INTERVALS)}, not {interval!r}")
    if scale not in SCALES:
        raise ValueError(f"scale must be one of {', '.join(SCALES)}, not {scale!r}")
    level = confidence_level(confidence)
    values, variances = as_arrays(effects, standard_errors)
    return inverse_variance(values, variances, model, interval, scale, level)


def inverse_variance(
    effects: Array,
    variances: Array,
    model: str,
    interval: str,
    scale: str,
    confidence: float,
    left_out: tuple[int, ...] = (),
    notes: tuple[str, ...] = (),
) -> Pooled | Refusal:
    """pooled_effect of checked arguments, with what the caller left out and has to say."""
    import numpy as np

    studies = len(effects)
    if model == "random" and studies < 2:
        return Refusal("One study: how much studies differ cannot be seen, so there is no random-effects mean.")
    ones = np.ones((studies, 1))
    common = weighted_fit(effects, variances, ones)
    spread = heterogeneity_from_q(common.q, studies - 1)
    profile = q_profile_interval(effects, variances, confidence) if studies > 1 else None
    if studies > 1 and profile is None:
        notes += ("The studies vary less than chance allows: the interval of tau squared is empty.",)
    if model == "random":
        tau_squared = reml_tau_squared(effects, variances, ones)
        fit = weighted_fit(effects, variances + tau_squared, ones)
    else:
        tau_squared, fit, interval = 0.0, common, "normal"
    estimate, error = float(fit.coefficients[0]), math.sqrt(fit.covariance[0, 0])
    reach = _error_and_half(error, fit.q, studies, interval, confidence)
    if isinstance(reach, Refusal):
        return reach
    used, half = reach
    return Pooled(
        estimate=estimate,
        standard_error=used,
        interval=Interval(estimate - half, estimate + half),
        scale=scale,
        prediction_interval=(
            prediction_interval(estimate, error, tau_squared, studies, confidence) if model == "random" else None
        ),
        tau_squared=tau_squared,
        tau_squared_interval=profile,
        q=spread.q,
        q_degrees_of_freedom=spread.degrees_of_freedom,
        q_p_value=spread.p_value,
        i_squared=spread.i_squared,
        studies=studies,
        left_out=left_out,
        method=_METHODS[interval] if model == "random" else "inverse variance, common effect",
        notes=notes,
    )


def _error_and_half(
    error: float, q: float, studies: int, interval: str, confidence: float
) -> tuple[float, float] | Refusal:
    """The standard error that an interval rests on, and half the interval's width. q: around the fitted mean."""
    if interval == "normal":
        return error, critical_value(confidence) * error
    factor = math.sqrt(q / (studies - 1))
    if factor == 0 and interval == "knapp-hartung":
        return Refusal("The studies agree exactly: the Knapp-Hartung interval would have no width.")
    used = error * (max(1.0, factor) if interval == "truncated-knapp-hartung" else factor)
    return used, student_quantile((1 + confidence) / 2, studies - 1) * used


_METHODS = {
    "normal": "inverse variance, random effects (REML), normal interval",
    "knapp-hartung": "inverse variance, random effects (REML), Knapp-Hartung interval",
    "truncated-knapp-hartung": "inverse variance, random effects (REML), truncated Knapp-Hartung interval",
}


def prediction_interval(
    estimate: float, standard_error: float, tau_squared: float, studies: int, confidence: float
) -> Interval | None:
    """Where the effect of a new study is expected; None below three studies. standard_error: the normal-theory one.

    Higgins, Thompson, Spiegelhalter 2009, J R Stat Soc A 172:137-159 (from memory).
    """
    if studies < 3:
        return None
    half = student_quantile((1 + confidence) / 2, studies - 2) * math.sqrt(tau_squared + standard_error**2)
    return Interval(estimate - half, estimate + half)
