"""Several units in one patient: how much less they say than as many patients would."""

from __future__ import annotations

from .ranges import number, whole


def design_effect(units: int, clusters: int, intraclass_correlation: float) -> float:
    """By which factor clustering inflates the variance of a rate, from the mean cluster size.

    units: those counted, at least 1. clusters: patients, 1 to units. intraclass_correlation: 0 to 1. Raises ValueError
    outside these ranges. A mean cluster size understates the effect where sizes are unequal.

    1 + (m - 1) rho: Kish 1965, Survey Sampling; Cochrane Handbook, section 23.1.4 (from memory).
    """
    units = whole("units", units, 1)
    clusters = whole("clusters", clusters, 1, units)
    correlation = number("intraclass_correlation", intraclass_correlation)
    if not 0 <= correlation <= 1:
        raise ValueError(f"intraclass_correlation must be from 0 to 1, not {intraclass_correlation!r}")
    return 1 + (units / clusters - 1) * correlation


def effective_total(units: int, clusters: int, intraclass_correlation: float) -> float:
    """How many independent units say as much; arguments and source as for design_effect."""
    return units / design_effect(units, clusters, intraclass_correlation)
