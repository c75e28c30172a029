"""What a synthesis of several studies comes back as."""

from __future__ import annotations

import math

from ..records import NamedTuple
from .results import Interval


class Natural(NamedTuple):
    """A pooled result as proportions, ratios or differences."""

    estimate: float
    interval: Interval
    prediction_interval: Interval | None


class Pooled(NamedTuple):
    """A pooled effect on its scale of analysis."""

    estimate: float
    standard_error: float
    interval: Interval
    scale: str
    """"logit", "log", "difference" or "proportion"."""
    prediction_interval: Interval | None
    """For the effect of a new study, by t with two degrees of freedom fewer than studies and the normal-theory standard
    error (Higgins, Thompson, Spiegelhalter 2009, J R Stat Soc A 172:137-159). None below 3 studies or under a
    common-effect model."""
    tau_squared: float | None
    """Variance of the studies' true effects; 0 under a common-effect model, None where counts were only summed."""
    tau_squared_interval: Interval | None
    """Q-profile (Viechtbauer 2007, Stat Med 26:37-52). None where it does not apply, or is empty, which a note
    then says."""
    q: float | None
    q_degrees_of_freedom: int | None
    q_p_value: float | None
    i_squared: float | None
    """From Q: max(0, (Q - df) / Q), 0 to 1 (Higgins and Thompson 2002, Stat Med 21:1539-1558)."""
    studies: int
    """How many studies entered."""
    left_out: tuple[int, ...]
    """Indices of those that could not."""
    method: str
    notes: tuple[str, ...]
    """Sentences for the workings."""

    def natural(self) -> Natural:
        """Estimate, interval and prediction interval back-transformed: expit of a logit, exponential of a log."""
        back = {"logit": expit, "log": _exp}.get(self.scale, float)
        prediction = self.prediction_interval
        return Natural(
            back(self.estimate),
            Interval(back(self.interval.low), back(self.interval.high)),
            None if prediction is None else Interval(back(prediction.low), back(prediction.high)),
        )


def expit(value: float) -> float:
    """The proportion whose logit this is."""
    if value >= 0:
        return 1 / (1 + math.exp(-value))
    share = math.exp(value)
    return share / (1 + share)


def _exp(value: float) -> float:
    return math.exp(value) if value < 709 else math.inf
