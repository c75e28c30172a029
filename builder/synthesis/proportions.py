"""Pooling of single-arm proportions."""

from __future__ import annotations

import math
from collections.abc import Sequence

from .binomial_normal import fit_logit_normal
from .distributions import student_quantile
from .effects import inverse_variance, prediction_interval
from .intervals import exact_interval
from .pooled import Pooled
from .ranges import confidence_level, counts, same_length
from .results import Interval, Refusal

METHODS = ("glmm", "two-step", "summed")

_TWO_PEAKS = "The likelihood has a second peak not far below: another amount of variation is nearly as likely."
_NO_TAU = "No variation between studies was seen, so the prediction interval may be deceptively narrow."


def pooled_proportion(
    events: Sequence[int], totals: Sequence[int], method: str = "glmm", confidence: float = 0.95
) -> Pooled | Refusal:
    """The typical study's rate, or the rate of all counts together.

    events and totals: one item a study. method: "glmm" (binomial counts, logits normal between studies, maximum
    likelihood; t interval with one degree of freedom fewer than studies; no Q and no I squared), "two-step" (logits,
    0.5 added only in studies with 0 or 100 %, restricted maximum likelihood, truncated Knapp-Hartung) or "summed"
    (scale "proportion", exact interval; one common rate assumed). Refused by the first two with one study, by "glmm"
    where every study has 0 % (or 100 %), where the likelihood has no maximum, and where the standard deviation of the
    logits is above 3. Raises ValueError for unequal lengths, no study, impossible counts or another method.

    The back-transformed GLMM is the median study's rate, not the mean over patients (Lin and Chu 2020, Epidemiology
    31:713-717). Stijnen, Hamza, Oezdemir 2010, Stat Med 29:3046-3067 (from memory).
    """
    if method not in METHODS:
        raise ValueError(f"method must be one of {', '.join(METHODS)}, not {method!r}")
    level = confidence_level(confidence)
    same_length("events", events, "totals", totals)
    pairs = [counts(event, total) for event, total in zip(events, totals, strict=True)]
    if method == "summed":
        return _summed(pairs, level)
    if len(pairs) < 2:
        return Refusal("One study: how much studies differ cannot be seen, so there is no typical rate.")
    return _glmm(pairs, level) if method == "glmm" else _two_step(pairs, level)


def _glmm(pairs: list[tuple[int, int]], confidence: float) -> Pooled | Refusal:
    import numpy as np

    studies = len(pairs)
    fit = fit_logit_normal(np.array([float(e) for e, _ in pairs]), np.array([float(n) for _, n in pairs]))
    if isinstance(fit, Refusal):
        return fit
    tau_squared = fit.standard_deviation**2
    half = student_quantile((1 + confidence) / 2, studies - 1) * fit.mean_standard_error
    notes = ((_TWO_PEAKS,) if fit.two_peaks else ()) + ((_NO_TAU,) if tau_squared == 0 and studies > 2 else ())
    return Pooled(
        estimate=fit.mean,
        standard_error=fit.mean_standard_error,
        interval=Interval(fit.mean - half, fit.mean + half),
        scale="logit",
        prediction_interval=prediction_interval(fit.mean, fit.mean_standard_error, tau_squared, studies, confidence),
        tau_squared=tau_squared,
        tau_squared_interval=None,
        q=None,
        q_degrees_of_freedom=None,
        q_p_value=None,
        i_squared=None,
        studies=studies,
        left_out=(),
        method="binomial-normal random-intercept model (maximum likelihood), t interval",
        notes=notes,
    )


def _two_step(pairs: list[tuple[int, int]], confidence: float) -> Pooled | Refusal:
    import numpy as np

    effects, variances, corrected = [], [], 0
    for events, total in pairs:
        add = 0.5 if events in (0, total) else 0.0
        corrected += add > 0
        yes, no = events + add, total - events + add
        effects.append(math.log(yes / no))
        variances.append(1 / yes + 1 / no)
    notes: tuple[str, ...] = ()
    if corrected:
        of = "1 study" if corrected == 1 else f"{corrected} studies"
        notes = (f"0.5 was added to the events and the non-events of {of} with 0 % or 100 %.",)
    return inverse_variance(
        np.array(effects), np.array(variances), "random", "truncated-knapp-hartung", "logit", confidence, notes=notes
    )


def _summed(pairs: list[tuple[int, int]], confidence: float) -> Pooled:
    events, total = sum(e for e, _ in pairs), sum(n for _, n in pairs)
    share = events / total
    return Pooled(
        estimate=share,
        standard_error=math.sqrt(share * (1 - share) / total),
        interval=exact_interval(events, total, confidence),
        scale="proportion",
        prediction_interval=None,
        tau_squared=None,
        tau_squared_interval=None,
        q=None,
        q_degrees_of_freedom=None,
        q_p_value=None,
        i_squared=None,
        studies=len(pairs),
        left_out=(),
        method="counts added up, exact interval",
        notes=("One common rate in all studies is assumed.",),
    )
