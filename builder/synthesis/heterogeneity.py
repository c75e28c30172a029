"""How much studies differ beyond chance: Q, restricted maximum likelihood, and the Q-profile."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from ..records import NamedTuple
from .distributions import bracketed_root, chi_square_quantile, chi_square_tail
from .results import Interval

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

# Steps of the search over tau squared: ten a decade. A term 1 / (v + tau^2) changes over a whole decade, so no maximum
# of the likelihood hides between two steps.
_STEPS_PER_DECADE = 10


class Heterogeneity(NamedTuple):
    """Cochran's Q of effects around their common mean; of one effect there is nothing to be seen, and all are None."""

    q: float | None
    degrees_of_freedom: int | None
    p_value: float | None
    i_squared: float | None


class WeightedFit(NamedTuple):
    """Weighted least squares at one tau squared."""

    coefficients: Array
    covariance: Array
    """Inverse of the weighted cross-products: with known variances the covariance matrix of the coefficients."""
    q: float
    """Weighted residual sum of squares."""


def heterogeneity_from_q(q: float, degrees_of_freedom: int) -> Heterogeneity:
    """Q with its P and the I squared that follows from it (Higgins and Thompson 2002, Stat Med 21:1539-1558)."""
    if degrees_of_freedom < 1:
        return Heterogeneity(None, None, None, None)
    i_squared = max(0.0, (q - degrees_of_freedom) / q) if q > 0 else 0.0
    return Heterogeneity(q, degrees_of_freedom, chi_square_tail(q, degrees_of_freedom), i_squared)


def weighted_fit(effects: Array, variances: Array, design: Array) -> WeightedFit:
    """Least squares with weights 1 / variances. design: one row a study, one column a coefficient."""
    import numpy as np

    weights = 1 / variances
    # Weights relative to their largest, so that no scale of the effects makes the cross-products over- or underflow.
    unit = weights.max()
    weighted = design * (weights / unit)[:, None]
    inverse = np.linalg.inv(design.T @ weighted)
    coefficients = inverse @ (weighted.T @ effects)
    residuals = effects - design @ coefficients
    q = float(np.sum(weights * residuals**2))
    # Equal effects leave residuals of a last digit: that is no variation.
    noise = float(np.sum(weights)) * (8 * np.finfo(float).eps * float(np.max(np.abs(effects)))) ** 2
    return WeightedFit(coefficients, inverse / unit, q if q > noise else 0.0)


def common_effect_q(effects: Array, variances: Array) -> float:
    """Cochran's Q around the inverse-variance mean (Cochran 1954, Biometrics 10:101-129)."""
    import numpy as np

    return weighted_fit(effects, variances, np.ones((len(effects), 1))).q


def reml_tau_squared(effects: Array, variances: Array, design: Array) -> float:
    """The tau squared at the highest restricted likelihood, 0 included; more studies than columns are needed.

    Every local maximum is found from the sign of the score over a grid and polished by its root; the highest wins, and
    0 wins a tie. Converged packages may stop at a lower one.

    Restricted likelihood: Viechtbauer 2005, J Educ Behav Stat 30:261-293; bimodal cases: Veroniki et al. 2016, Res
    Synth Methods 7:55-79 (from memory).
    """
    import numpy as np

    spread = float(np.ptp(effects - design @ np.linalg.lstsq(design, effects, rcond=None)[0]))
    if spread == 0:
        return 0.0
    lowest = float(variances.min()) * 1e-4
    # Above this the score is negative: residuals are within the spread, and 1 / (v + tau^2) is at least half 1 / tau^2.
    highest = 10 * max(float(variances.max()), spread**2 * len(effects))
    while _restricted(np.array([highest]), effects, variances, design)[1][0] > 0:
        highest *= 100
    count = 2 + int(_STEPS_PER_DECADE * np.log10(highest / lowest))
    grid = np.concatenate([[0.0], np.geomspace(lowest, highest, count)])
    _, scores = _restricted(grid, effects, variances, design)
    falls = np.flatnonzero((scores[:-1] > 0) & (scores[1:] <= 0))

    def score(tau_squared: float) -> float:
        return float(_restricted(np.array([tau_squared]), effects, variances, design)[1][0])

    peaks = [0.0] if scores[0] <= 0 else []
    peaks += [bracketed_root(score, float(grid[i]), float(grid[i + 1])) for i in falls]
    if len(peaks) == 1:
        return peaks[0]
    likelihoods, _ = _restricted(np.array(peaks), effects, variances, design)
    return peaks[int(np.argmax(likelihoods))]


def _restricted(taus: Array, effects: Array, variances: Array, design: Array) -> tuple[Array, Array]:
    """Restricted log-likelihood, up to a constant, and its slope, at each tau squared; slopes scaled by variance."""
    import numpy as np

    totals = variances[None, :] + taus[:, None]
    # Relative weights, as in weighted_fit; `smallest` restores the scale in the determinant.
    smallest = totals.min(axis=1, keepdims=True)
    weights = smallest / totals
    columns = design.shape[1]
    weighted = weights[:, :, None] * design[None]
    cross = np.swapaxes(weighted, 1, 2) @ design
    inverse = np.linalg.inv(cross)
    coefficients = inverse @ (np.swapaxes(weighted, 1, 2) @ effects)[:, :, None]
    residuals = effects[None] - (coefficients[:, :, 0] @ design.T)
    squares = weights * residuals**2
    _, log_determinant = np.linalg.slogdet(cross)
    likelihood = -0.5 * (
        np.sum(np.log(totals), axis=1)
        + np.sum(squares, axis=1) / smallest[:, 0]
        + log_determinant
        - columns * np.log(smallest[:, 0])
    )
    hat = np.einsum("tij,tni,tnj->t", inverse, weighted, weighted)
    slope = np.sum(weights * squares, axis=1) / smallest[:, 0] - (np.sum(weights, axis=1) - hat)
    return likelihood, slope


def q_profile_interval(effects: Array, variances: Array, confidence: float) -> Interval | None:
    """The tau squared values at which the generalised Q lies between its chi-square quantiles.

    None where even at 0 the studies vary less than chance allows: the set is empty.

    Viechtbauer 2007, Stat Med 26:37-52 (from memory).
    """
    import numpy as np

    degrees = len(effects) - 1
    # As common_effect_q, without its general design: this is asked some thirty times a data set.
    centred = effects - effects.mean()

    def q(tau_squared: float) -> float:
        weights = 1 / (variances + tau_squared)
        mean = (weights @ centred) / weights.sum()
        return float(weights @ (centred - mean) ** 2)

    at_zero = common_effect_q(effects, variances)
    tail = (1 - confidence) / 2
    lower_target, upper_target = chi_square_quantile(1 - tail, degrees), chi_square_quantile(tail, degrees)
    if at_zero < upper_target:
        return None
    limits = []
    for target in (lower_target, upper_target):
        if at_zero <= target:
            limits.append(0.0)
            continue
        # Q is at most the sum of squares over tau squared, so it has fallen below the target here.
        high = 2 * float(np.sum((effects - effects.mean()) ** 2)) / target
        limits.append(bracketed_root(lambda tau, goal=target: q(tau) - goal, 0.0, high))  # type: ignore[misc]
    return Interval(*limits)


def as_arrays(effects: Sequence[float], standard_errors: Sequence[float]) -> tuple[Array, Array]:
    """Effects and variances as arrays, checked: one of each a study, finite, standard errors above 0, or ValueError."""
    import numpy as np

    from .ranges import number, positive, same_length

    same_length("effects", effects, "standard_errors", standard_errors)
    values = np.array([number("an effect", effect) for effect in effects])
    errors = np.array([positive("a standard error", error) for error in standard_errors])
    variances = errors**2
    if not (variances.min() > 1e-200 and variances.max() < 1e200):
        raise ValueError("standard errors are too small or too large to be squared")
    return values, variances
