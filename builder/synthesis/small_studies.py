"""Do small studies show other effects than large ones? Asymmetry, which is not the same as publication bias."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING

from ..records import NamedTuple
from .contrast import TwoByTwo, checked_table, is_double_zero, log_ratio
from .distributions import student_two_sided
from .heterogeneity import as_arrays, weighted_fit
from .results import Refusal

if TYPE_CHECKING:
    from .heterogeneity import Array

FEWEST = 10
"""Below so many studies neither test is made (Sterne et al. 2011, BMJ 343:d4002)."""


class SmallStudy(NamedTuple):
    """A weighted regression of effects on a measure of study size, tested by t."""

    slope: float
    standard_error: float
    t: float
    degrees_of_freedom: int
    p_value: float


def egger_test(effects: Sequence[float], standard_errors: Sequence[float]) -> SmallStudy | Refusal:
    """Effects regressed on their standard errors, with weights 1 / variance and estimated dispersion.

    Arguments and errors as for pooled_effect; not for logits of single-arm rates, where effect and standard error are
    linked by construction. The slope is what Egger's regression of the standard normal deviate on precision calls its
    intercept. Refused below 10 studies or where all standard errors are equal.

    Egger et al. 1997, BMJ 315:629-634.
    """
    import numpy as np

    values, variances = as_arrays(effects, standard_errors)
    return _regression(values, np.sqrt(variances), variances, "The standard errors are the same in all studies.")


def peters_test(tables: Sequence[TwoByTwo]) -> SmallStudy | Refusal:
    """Log odds ratios regressed on 1 / total, with weights events x non-events / total.

    Tables and errors as for pooled_tables. Studies with nobody or everybody having the event have no weight. Refused
    where fewer than 10 are left or all totals are equal.

    Peters et al. 2006, JAMA 295:676-680 (from memory).
    """
    import numpy as np

    if len(tables) == 0:
        raise ValueError("there is no table")
    kept = [table for table in map(checked_table, tables) if not is_double_zero(table)]
    totals = np.array([float(table.total + table.reference_total) for table in kept])
    events = np.array([float(table.events + table.reference_events) for table in kept])
    effects = np.array([log_ratio(table, "odds ratio")[0] for table in kept])
    if len(kept) < FEWEST:
        return _too_few(len(kept))
    return _regression(
        effects, 1 / totals, totals / (events * (totals - events)), "The totals are the same in all studies."
    )


def _too_few(studies: int) -> Refusal:
    return Refusal(f"{studies} studies: below {FEWEST} a test for small-study effects says next to nothing.")


def _regression(effects: Array, predictor: Array, variances: Array, constant: str) -> SmallStudy | Refusal:
    import numpy as np

    studies = len(effects)
    if studies < FEWEST:
        return _too_few(studies)
    middle, width = predictor.mean(), float(np.ptp(predictor))
    if not width > 1e-9 * middle:
        return Refusal(f"{constant[:-1]}: there is no slope.")
    design = np.column_stack([np.ones(studies), (predictor - middle) / width])
    fit = weighted_fit(effects, variances, design)
    degrees = studies - 2
    slope = float(fit.coefficients[1]) / width
    error = math.sqrt(fit.q / degrees * fit.covariance[1, 1]) / width
    if error <= 1e-12 * abs(slope):
        return Refusal("The studies lie exactly on a line: the test has no error to hold it against.")
    return SmallStudy(slope, error, slope / error, degrees, student_two_sided(slope / error, degrees))
