"""Two arms of one study against each other: odds ratio, risk ratio, risk difference."""

from __future__ import annotations

import math

from ..records import NamedTuple
from .distributions import critical_value
from .intervals import wilson_limits
from .ranges import confidence_level, whole
from .results import Interval, Refusal

MEASURES = ("odds ratio", "risk ratio", "risk difference")


class TwoByTwo(NamedTuple):
    """Counts of two arms. The arms are named: the contrast says what `events` of `total` do against the reference."""

    events: int
    total: int
    reference_events: int
    reference_total: int


class Contrast(NamedTuple):
    """One study's effect."""

    estimate: float
    """The natural log of a ratio, or a difference of proportions."""
    standard_error: float
    interval: Interval
    scale: str
    """"log" or "difference"."""
    corrected: bool
    """0.5 was added to each cell, since one of them was 0."""


def checked_table(table: TwoByTwo) -> TwoByTwo:
    """The table with its four counts as ints; ValueError where events exceed a total or a total is below 1."""
    events, total, reference_events, reference_total = table
    total = whole("total", total, 1)
    reference_total = whole("reference_total", reference_total, 1)
    return TwoByTwo(
        whole("events", events, 0, total),
        total,
        whole("reference_events", reference_events, 0, reference_total),
        reference_total,
    )


def is_double_zero(table: TwoByTwo) -> bool:
    """Nobody had the event in either arm, or everybody had: such a study says nothing about a ratio of odds."""
    seen = table.events + table.reference_events
    return seen == 0 or seen == table.total + table.reference_total


def contrast(table: TwoByTwo, measure: str, confidence: float = 0.95) -> Contrast | Refusal:
    """One study's log odds ratio, log risk ratio or risk difference with its large-sample standard error.

    measure: "odds ratio", "risk ratio" or "risk difference". A ratio gets 0.5 added to each cell where one is 0, and
    says so; a difference never does. Where both arms have 0 % or 100 % the difference has a standard error of 0, and
    its interval is Newcombe's hybrid score interval instead of one without width. Raises ValueError for another
    measure or impossible counts.

    Woolf 1955, Ann Hum Genet 19:251-253 (odds ratio); Katz et al. 1978, Biometrics 34:469-474 (risk ratio); the
    correction for studies with an empty cell as in Sweeting, Sutton, Lambert 2004, Stat Med 23:1351-1375; Newcombe
    1998, Stat Med 17:873-890, method 10 (all from memory).
    """
    if measure not in MEASURES:
        raise ValueError(f"measure must be one of {', '.join(MEASURES)}, not {measure!r}")
    table = checked_table(table)
    z = critical_value(confidence_level(confidence))
    if measure == "risk difference":
        return _difference(table, z)
    estimate, variance, corrected = log_ratio(table, measure)
    error = math.sqrt(variance)
    return Contrast(estimate, error, Interval(estimate - z * error, estimate + z * error), "log", corrected)


def log_ratio(table: TwoByTwo, measure: str) -> tuple[float, float, bool]:
    """Log odds or risk ratio of a checked table, its variance, and whether 0.5 was added."""
    a, c = float(table.events), float(table.reference_events)
    b, d = table.total - a, table.reference_total - c
    corrected = 0 in (a, b, c, d)
    if corrected:
        a, b, c, d = a + 0.5, b + 0.5, c + 0.5, d + 0.5
    if measure == "odds ratio":
        return math.log(a * d / (b * c)), 1 / a + 1 / b + 1 / c + 1 / d, corrected
    return math.log(a * (c + d) / (c * (a + b))), b / (a * (a + b)) + d / (c * (c + d)), corrected


def risk_difference(table: TwoByTwo) -> tuple[float, float]:
    """Difference of the shares of a checked table, and its variance."""
    a, n, c, m = table
    return a / n - c / m, a * (n - a) / n**3 + c * (m - c) / m**3


def _difference(table: TwoByTwo, z: float) -> Contrast:
    estimate, variance = risk_difference(table)
    error = math.sqrt(variance)
    limits = _newcombe(table, z) if variance == 0 else Interval(estimate - z * error, estimate + z * error)
    return Contrast(estimate, error, limits, "difference", False)


def newcombe_interval(table: TwoByTwo, confidence: float = 0.95) -> Interval:
    """Hybrid score interval for the difference of two independent proportions, without continuity correction.

    Of the share of the arm less that of the reference; both ends lie in [-1, 1]. Raises ValueError for impossible
    counts.

    Newcombe 1998, Stat Med 17:873-890, method 10.
    """
    return _newcombe(checked_table(table), critical_value(confidence_level(confidence)))


def _newcombe(table: TwoByTwo, z: float) -> Interval:
    share, reference = table.events / table.total, table.reference_events / table.reference_total
    own_low, own_high = wilson_limits(table.events, table.total, z)
    other_low, other_high = wilson_limits(table.reference_events, table.reference_total, z)
    low = share - reference - math.hypot(share - own_low, other_high - reference)
    return Interval(low, share - reference + math.hypot(own_high - share, reference - other_low))
