"""A ratio becomes an absolute risk at a stated baseline."""

from __future__ import annotations

import math

from .ranges import positive, proportion
from .results import Refusal


def absolute_from_ratio(measure: str, ratio: float, baseline_risk: float) -> float | Refusal:
    """The risk that a ratio implies where the reference level has this risk of the same event.

    measure: "odds ratio", "risk ratio" or "hazard ratio" (proportional hazards assumed, both risks at one time). ratio:
    above 0. baseline_risk: 0 to 1; at 0 or 1 an odds or hazard ratio gives it back. Refused where a risk ratio would
    give a risk above 1. Raises ValueError outside these ranges.

    Cochrane Handbook, sections 12.5.4.2 and 15.4.4 (odds and risk ratio); 1 - (1 - p) ** HR follows from proportional
    hazards, Altman and Andersen 1999, BMJ 319:1492-1495 (from memory).
    """
    ratio = positive("ratio", ratio)
    baseline = proportion("baseline_risk", baseline_risk)
    if measure == "odds ratio":
        return ratio * baseline / (1 - baseline + ratio * baseline)
    if measure == "hazard ratio":
        return 1.0 if baseline == 1 else -math.expm1(ratio * math.log1p(-baseline))
    if measure != "risk ratio":
        raise ValueError(f"measure must be odds ratio, risk ratio or hazard ratio, not {measure!r}")
    risk = ratio * baseline
    # 5 * 0.2 in whatever order must not be refused for a last binary digit
    if risk > 1 + 1e-12:
        return Refusal("The risk ratio at this baseline would give a risk above 1; it cannot hold there.")
    return min(risk, 1.0)
