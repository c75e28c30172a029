"""Maximum likelihood of binomial counts whose logits vary normally between studies."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from ..records import NamedTuple
from .results import Refusal

if TYPE_CHECKING:
    from .heterogeneity import Array

_NODES = 161
_SCAN_NODES = 61
# Where the likelihood is looked at first; at the last two it has reached its limit for endless variation.
_SCAN = (0.1, 0.18, 0.32, 0.6, 1.0, 1.6, 2.5, 4.0, 6.5, 11.0, 18.0, 40.0, 150.0)
LARGEST_TAU = 3.0
"""Above this standard deviation of the logits a typical rate means nothing (rule of thumb of this guide): two studies
in three then lie anywhere between 5 and 95 %."""


class LogitNormal(NamedTuple):
    """The fitted distribution of the studies' logits."""

    mean: float
    standard_deviation: float
    mean_standard_error: float
    """From the observed information of both parameters; of the mean alone where the deviation is 0."""
    log_likelihood: float
    """Without the binomial coefficients."""
    two_peaks: bool
    """Another, lower peak of the likelihood lies less than 2 below."""


class _Point(NamedTuple):
    value: Array
    slope: Array
    curvature: Array


def fit_logit_normal(events: Array, totals: Array) -> LogitNormal | Refusal:
    """Mean and standard deviation of the logits of at least two studies, with checked counts as floats.

    Refused where every study has 0 % (or 100 %), where the likelihood rises without end, and where the deviation is
    above LARGEST_TAU.

    Stijnen, Hamza, Oezdemir 2010, Stat Med 29:3046-3067 (from memory). Each study is integrated by the trapezoidal rule
    after u = mode + a sinh(t) (Takahasi and Mori 1974, Publ RIMS 9:721-741, from memory), which stays exact where
    Gauss-Hermite nodes miss a study with 0 or 100 %.
    """
    import numpy as np

    share = float(events.sum() / totals.sum())
    if share in (0.0, 1.0):
        return Refusal(
            f"Every study has {round(100 * share)} %: the logit is infinite and the variation between studies unseen."
        )
    boundary = _no_variation(events, totals, share)
    deviations = _scanned_deviations(totals, share)
    means, values = _scan(events, totals, deviations)
    peaks = [i for i in range(1, len(values) - 1) if values[i] >= values[i - 1] and values[i] > values[i + 1]]
    rising_from_zero = _rising_at_zero(events, totals, share)
    if values[0] > values[1] and (rising_from_zero or values[0] > boundary.log_likelihood):
        peaks.insert(0, 0)
    climbed = [_climb(events, totals, float(means[i]), float(deviations[i]), boundary) for i in peaks]
    failed = None in climbed
    candidates = [fit for fit in climbed if fit is not None]
    if not rising_from_zero:
        candidates.append(boundary)
    endless = float(np.max(values[-2:]))
    best = _highest(candidates, boundary)
    if best is None or endless > best.log_likelihood - 1e-3:
        return Refusal("Endless variation between the studies is as likely as any other amount: no rate is typical.")
    if failed:
        return Refusal("The likelihood is too flat for its maximum to be found: no rate is typical.")
    if best.standard_deviation > LARGEST_TAU:
        return Refusal(
            f"The studies' logits vary with a standard deviation of {best.standard_deviation:.1f}, "
            f"above {LARGEST_TAU:.0f}: no rate is typical."
        )
    near = [fit for fit in candidates if fit is not best and fit.log_likelihood > best.log_likelihood - 2]
    apart = any(abs(fit.standard_deviation - best.standard_deviation) > 1e-3 for fit in near)
    return best._replace(two_peaks=apart)


def _highest(candidates: list[LogitNormal], boundary: LogitNormal) -> LogitNormal | None:
    """The likeliest fit; a tie in the last digits is no evidence of variation."""
    best = max(candidates, key=lambda fit: fit.log_likelihood, default=None)
    if best is not None and boundary.log_likelihood >= best.log_likelihood - 1e-10:
        return boundary
    return best


def _no_variation(events: Array, totals: Array, share: float) -> LogitNormal:
    logit = math.log(share / (1 - share))
    count, total = float(events.sum()), float(totals.sum())
    value = count * math.log(share) + (total - count) * math.log1p(-share)
    return LogitNormal(logit, 0.0, 1 / math.sqrt(total * share * (1 - share)), value, False)


def _rising_at_zero(events: Array, totals: Array, share: float) -> bool:
    # Half the second derivative of the likelihood in the deviation, at 0: squared residuals against binomial variances.
    residuals = events - totals * share
    surplus = float((residuals**2 - totals * share * (1 - share)).sum())
    return surplus > 1e-12 * float(totals.sum())


def _scanned_deviations(totals: Array, share: float) -> Array:
    import numpy as np

    # What chance alone does to the logit of the largest study: a smaller deviation cannot be told from none.
    finest = 0.5 / math.sqrt(float(totals.max()) * share * (1 - share))
    if finest >= _SCAN[0]:
        return np.array(_SCAN)
    steps = 1 + math.ceil(math.log(_SCAN[0] / finest) / math.log(1.8))
    return np.concatenate([np.geomspace(finest, _SCAN[0], steps)[:-1], _SCAN])


def _scan(events: Array, totals: Array, deviations: Array) -> tuple[Array, Array]:
    """At each deviation the best mean and the likelihood there, to scanning accuracy."""
    import numpy as np

    # Where normal logits of each study would have the mean: a start from which few steps are left.
    own = (events + 0.5) / (totals + 1)
    weights = 1 / (deviations[:, None] ** 2 + 1 / (totals * own * (1 - own)))
    means = (weights * np.log(own / (1 - own))).sum(axis=1) / weights.sum(axis=1)
    point = _evaluate(events, totals, means, deviations, _SCAN_NODES, of_mean_alone=True)
    values, moving = point.value, np.arange(len(deviations))
    for _ in range(12):
        # For a given deviation the likelihood is concave in the mean; steps are held since the tails are nearly linear.
        bent = point.curvature[:, 0, 0]
        limit = 1 + deviations[moving]
        step = np.clip(-point.slope[:, 0] / np.minimum(bent, -1e-8), -limit, limit)
        means[moving] += step
        point = _evaluate(events, totals, means[moving], deviations[moving], _SCAN_NODES, of_mean_alone=True)
        values[moving] = point.value
        is_moving = np.abs(step) / limit >= 1e-2
        moving = moving[is_moving]
        # The last two stand for endless variation: nobody waits for them.
        if not len(moving) or moving[0] >= len(deviations) - 2:
            break
        point = _Point(point.value[is_moving], point.slope[is_moving], point.curvature[is_moving])
    return means, values


def _climb(events: Array, totals: Array, mean: float, deviation: float, boundary: LogitNormal) -> LogitNormal | None:
    """Newton's steps with halving, from a point near a peak; the boundary where the way leads down to it.

    None where no peak is reached.
    """
    import numpy as np

    at = np.array([mean, deviation])
    point = _evaluate(events, totals, at[:1], at[1:], _NODES)
    for _ in range(100):
        value, slope, curvature = float(point.value[0]), point.slope[0], point.curvature[0]
        if at[1] < 0.3:  # near 0 the likelihood is a smooth function of the variance, not of the deviation
            stretch = np.array([1.0, 2 * at[1]])
            bend = np.array([[0.0, 0.0], [0.0, slope[1] / at[1]]])
            slope, curvature = slope / stretch, (curvature - bend) / np.outer(stretch, stretch)
            if at[1] < 1e-4 and slope[1] < 0:
                return boundary
        step = _uphill(slope, curvature)
        # The promised gain is of second order in the step: below this the next step ends in the digits of a float.
        last = float(slope @ step) < 1e-10
        for _ in range(40):
            new = _moved(at, step)
            trial = _evaluate(events, totals, new[:1], new[1:], _NODES)
            if last or float(trial.value[0]) > value:
                break
            step = step / 2
        else:
            return None
        at, point = new, trial
        if last:
            break
    else:
        return None
    information = -point.curvature[0]
    determinant = information[0, 0] * information[1, 1] - information[0, 1] ** 2
    if not (information[0, 0] > 0 and determinant > 0):
        return None
    error = math.sqrt(information[1, 1] / determinant)
    return LogitNormal(float(at[0]), float(at[1]), error, float(point.value[0]), False)


def _uphill(slope: Array, curvature: Array) -> Array:
    import numpy as np

    roots, axes = np.linalg.eigh(-curvature)
    # Where the surface bends the wrong way the step still goes uphill, along its axes.
    safe = np.maximum(np.abs(roots), 1e-8 * float(np.max(np.abs(roots))))
    step: Array = axes @ ((axes.T @ slope) / safe)
    longest = float(np.max(np.abs(step)))
    return step if longest <= 2 else step * (2 / longest)


def _moved(at: Array, step: Array) -> Array:
    import numpy as np

    # A step that would pass the boundary goes most of the way.
    if at[1] < 0.3:
        deviation = math.sqrt(max(at[1] ** 2 + step[1], at[1] ** 2 / 100))
    else:
        deviation = max(at[1] + step[1], at[1] / 10)
    return np.array([at[0] + step[0], deviation])


def _tops(events: Array, totals: Array, mean: Array, deviation: Array, within: float) -> tuple[Array, Array]:
    """Where each study's integrand is highest, within that part of its width, and its curvature there."""
    import numpy as np

    # The integrand's log has a falling slope that is positive at the low end and negative at the high one.
    low, high = -deviation * (totals - events), deviation * events
    # A start a few steps away: the study's own logit, drawn towards the mean as far as its counts are few.
    own = (events + 0.5) / (totals + 1)
    pull = deviation**2 * totals * own * (1 - own)
    u = np.maximum(np.minimum((np.log(own / (1 - own)) - mean) / deviation * (pull / (1 + pull)), high), low)
    for _ in range(200):
        p = 1 / (1 + np.exp(-np.maximum(np.minimum(mean + deviation * u, 700), -700)))
        slope = deviation * (events - totals * p) - u
        sharpness: Array = 1 + deviation**2 * totals * p * (1 - p)
        step = slope / sharpness
        if (np.abs(step) * np.sqrt(sharpness)).max() < within:
            break
        low, high = np.where(slope > 0, u, low), np.where(slope < 0, u, high)
        new = u + step
        u = np.where((new > low) & (new < high), new, (low + high) / 2)
    return u, sharpness


def _evaluate(
    events: Array, totals: Array, means: Array, deviations: Array, nodes: int, *, of_mean_alone: bool = False
) -> _Point:
    """Likelihood, slope and curvature in (mean, deviation) at each pair; constants of the counts are left out.

    of_mean_alone: only the mean's own slope and curvature are wanted, and only they are given.
    """
    import numpy as np

    mean, deviation = means[:, None], deviations[:, None]
    u, sharpness = _tops(events, totals, mean, deviation, 0.25 if of_mean_alone else 0.05)
    width = 1.5 / np.sqrt(sharpness)
    reach = np.arcsinh((9 + np.abs(u)) / width)
    t = reach[:, :, None] * np.linspace(-1, 1, nodes)
    growth = np.exp(t)
    shrink = 1 / growth
    x = u[:, :, None] + (width / 2)[:, :, None] * (growth - shrink)
    eta = mean[:, :, None] + deviation[:, :, None] * x
    small = np.exp(-np.abs(eta))
    p = np.where(eta >= 0, 1.0, small) / (1 + small)
    count, total = events[None, :, None], totals[None, :, None]
    exponent = count * eta - total * (np.maximum(eta, 0) + np.log1p(small)) - x * x / 2
    top = exponent.max(axis=2, keepdims=True)
    weight = np.exp(exponent - top) * (growth + shrink)
    mass = weight.sum(axis=2)
    weight /= mass[:, :, None]
    constant = np.log(width * reach / (nodes - 1)) - 0.5 * math.log(2 * math.pi)
    value = np.sum(top[:, :, 0] + np.log(mass) + constant, axis=1)

    score = count - total * p
    bend = total * p * (1 - p)

    def average(values: Array) -> Array:
        result: Array = np.einsum("dsn,dsn->ds", weight, values)
        return result

    first = average(score)
    if of_mean_alone:
        bent = (average(score * score - bend) - first**2).sum(axis=1)
        return _Point(value, first.sum(axis=1)[:, None], bent[:, None, None])
    second = average(x * score)
    slope = np.stack([first.sum(axis=1), second.sum(axis=1)], axis=1)
    square = score * score - bend
    mean_mean = (average(square) - first**2).sum(axis=1)
    mean_deviation = (average(x * square) - first * second).sum(axis=1)
    deviation_deviation = (average(x * x * square) - second**2).sum(axis=1)
    curvature = np.stack(
        [np.stack([mean_mean, mean_deviation], axis=1), np.stack([mean_deviation, deviation_deviation], axis=1)], axis=1
    )
    return _Point(value, slope, curvature)
