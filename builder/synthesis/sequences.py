"""How a pooled effect changes as studies leave or arrive."""

from __future__ import annotations

from collections.abc import Sequence

from .effects import INTERVALS, inverse_variance
from .heterogeneity import as_arrays
from .pooled import Pooled
from .ranges import confidence_level, whole
from .results import Refusal


def leave_one_out(
    effects: Sequence[float],
    standard_errors: Sequence[float],
    scale: str = "log",
    confidence: float = 0.95,
    interval: str = "normal",
) -> list[Pooled | Refusal]:
    """The random-effects mean (REML) without each study in turn, in the order of the studies.

    Arguments and errors as for pooled_effect; beside a whole, interval is that of the whole, or leaving a study out
    seems to make the rest more certain. Refused, one by one, where fewer than two studies would be left.

    IntHout, Ioannidis, Borm 2014, BMC Med Res Methodol 14:25.
    """
    level = confidence_level(confidence)
    if interval not in INTERVALS:
        raise ValueError(f"interval must be one of {', '.join(INTERVALS)}, not {interval!r}")
    values, variances = as_arrays(effects, standard_errors)
    results: list[Pooled | Refusal] = []
    for index in range(len(values)):
        kept = [other for other in range(len(values)) if other != index]
        if len(kept) < 2:
            results.append(Refusal("Fewer than two studies would be left: there is nothing to pool."))
            continue
        results.append(inverse_variance(values[kept], variances[kept], "random", interval, scale, level, (index,)))
    return results


def cumulative(
    effects: Sequence[float],
    standard_errors: Sequence[float],
    order: Sequence[int],
    scale: str = "log",
    confidence: float = 0.95,
) -> list[Pooled | Refusal]:
    """The random-effects mean (REML, normal interval) after each further study.

    order: indices from 0 of the studies as they arrived, none twice. The first result is the first study alone. Other
    arguments and errors as for pooled_effect.

    Lau et al. 1992, N Engl J Med 327:248-254 (from memory).
    """
    level = confidence_level(confidence)
    values, variances = as_arrays(effects, standard_errors)
    arrived = [whole("an item of order", index, 0, len(values) - 1) for index in order]
    if len(set(arrived)) != len(arrived):
        raise ValueError("order names a study twice")
    results: list[Pooled | Refusal] = []
    for count in range(1, len(arrived) + 1):
        kept = arrived[:count]
        model = "random" if count > 1 else "common"
        results.append(inverse_variance(values[kept], variances[kept], model, "normal", scale, level))
    return results
