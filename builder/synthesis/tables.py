"""Pooling of two-by-two tables: Mantel-Haenszel, Peto, inverse variance."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from .contrast import MEASURES, TwoByTwo, checked_table, is_double_zero, log_ratio, risk_difference
from .distributions import critical_value
from .effects import INTERVALS, MODELS, inverse_variance
from .heterogeneity import heterogeneity_from_q
from .pooled import Pooled
from .ranges import confidence_level
from .results import Interval, Refusal

METHODS = ("mantel-haenszel", "peto", "inverse-variance")


def pooled_tables(
    tables: Sequence[TwoByTwo],
    measure: str,
    method: str = "mantel-haenszel",
    model: str = "random",
    interval: str = "truncated-knapp-hartung",
    confidence: float = 0.95,
) -> Pooled | Refusal:
    """Pooled log odds ratio, log risk ratio or risk difference of two-by-two tables, one a study.

    measure: as for contrast. method: "mantel-haenszel" (common effect, nothing added to empty cells), "peto" (odds
    ratio only, common effect, for rare events and balanced arms) or "inverse-variance" (0.5 added in studies with an
    empty cell, for ratios; model and interval as for pooled_effect, used by this method alone). Studies that say
    nothing are left out and listed: for an odds ratio nobody or everybody with the event in both arms, for a risk ratio
    the same (by Mantel-Haenszel only nobody), for a difference by inverse variance those without variance. Refused
    where nothing is left or the estimate is infinite. Raises ValueError for other names, Peto's method with another
    measure, no table or impossible counts.

    Variances: Robins, Breslow, Greenland 1986, Biometrics 42:311-323 (odds ratio); Greenland and Robins 1985,
    Biometrics 41:55-68 (risk ratio); Sato, Greenland, Robins 1989, Biometrics 45:1323-1324 (difference). Peto: Yusuf et
    al. 1985, Prog Cardiovasc Dis 27:335-371 (all from memory).
    """
    for name, value, allowed in (
        ("measure", measure, MEASURES),
        ("method", method, METHODS),
        ("model", model, MODELS),
        ("interval", interval, INTERVALS),
    ):
        if value not in allowed:
            raise ValueError(f"{name} must be one of {', '.join(allowed)}, not {value!r}")
    if method == "peto" and measure != "odds ratio":
        raise ValueError(f"Peto's method gives an odds ratio, not a {measure}")
    if len(tables) == 0:
        raise ValueError("there is no table")
    checked = [checked_table(table) for table in tables]
    level = confidence_level(confidence)
    if method == "inverse-variance":
        return _inverse_variance(checked, measure, model, interval, level)
    if method == "peto":
        return _peto(checked, level)
    return _mantel_haenszel(checked, measure, level)


def _inverse_variance(
    tables: list[TwoByTwo], measure: str, model: str, interval: str, confidence: float
) -> Pooled | Refusal:
    import numpy as np

    difference = measure == "risk difference"
    effects, variances, left_out, corrected = [], [], [], 0
    for index, table in enumerate(tables):
        if difference:
            effect, variance = risk_difference(table)
            kept = variance > 0
        else:
            effect, variance, added = log_ratio(table, measure)
            kept = not is_double_zero(table)
            corrected += added and kept
        if kept:
            effects.append(effect)
            variances.append(variance)
        else:
            left_out.append(index)
    if not effects:
        return Refusal(_nothing_left(measure))
    notes = _left_out_note(len(left_out), measure) if left_out else ()
    if corrected:
        notes += (f"0.5 was added to each cell of {_studies(corrected)} with an empty cell.",)
    scale = "difference" if difference else "log"
    return inverse_variance(
        np.array(effects), np.array(variances), model, interval, scale, confidence, tuple(left_out), notes
    )


def _mantel_haenszel(tables: list[TwoByTwo], measure: str, confidence: float) -> Pooled | Refusal:
    fit, says_nothing = _MANTEL_HAENSZEL[measure]
    left_out = tuple(index for index, table in enumerate(tables) if says_nothing(table))
    kept = [table for table in tables if not says_nothing(table)]
    if not kept:
        return Refusal(_nothing_left(measure))
    result = fit(kept)
    if isinstance(result, Refusal):
        return result
    estimate, variance = result
    # Q as packages print it: study effects (corrected where a cell is empty) around this estimate.
    q, terms = 0.0, 0
    for table in kept:
        if measure == "risk difference":
            effect, own_variance = risk_difference(table)
        else:
            effect, own_variance, _ = log_ratio(table, measure)
        if own_variance > 0 and (measure == "risk difference" or not is_double_zero(table)):
            q, terms = q + (effect - estimate) ** 2 / own_variance, terms + 1
    return _common_effect(
        estimate, variance, q, terms, len(kept), left_out, measure, f"Mantel-Haenszel {measure}", confidence
    )


def _odds_ratio(tables: list[TwoByTwo]) -> tuple[float, float] | Refusal:
    for_sum = against_sum = pr = ps_qr = qs = 0.0
    for a, n, c, m in tables:
        b, d, total = n - a, m - c, n + m
        r, s, p, q = a * d / total, b * c / total, (a + d) / total, (b + c) / total
        for_sum, against_sum = for_sum + r, against_sum + s
        pr, ps_qr, qs = pr + p * r, ps_qr + p * s + q * r, qs + q * s
    if for_sum == 0 or against_sum == 0:
        return Refusal("The pooled odds ratio is 0 or infinite: print the counts.")
    variance = pr / (2 * for_sum**2) + ps_qr / (2 * for_sum * against_sum) + qs / (2 * against_sum**2)
    return math.log(for_sum / against_sum), variance


def _risk_ratio(tables: list[TwoByTwo]) -> tuple[float, float] | Refusal:
    own = other = spread = 0.0
    for a, n, c, m in tables:
        total = n + m
        own, other = own + a * m / total, other + c * n / total
        # (n m (a + c) - a c N) / N^2 in whole numbers: exactly 0 where everybody had the event
        spread += (n * m * (a + c) - a * c * total) / total**2
    if own == 0 or other == 0:
        return Refusal("The pooled risk ratio is 0 or infinite: print the counts.")
    if spread <= 0:
        return Refusal("Everybody had the event in both arms of every study: the risk ratio has no standard error.")
    return math.log(own / other), spread / (own * other)


def _risk_difference(tables: list[TwoByTwo]) -> tuple[float, float] | Refusal:
    weights = weighted = tilt = within = 0.0
    for a, n, c, m in tables:
        total = n + m
        weights += n * m / total
        weighted += (a * m - c * n) / total
        tilt += (c * n * n - a * m * m) / total**2 + n * m * (m - n) / (2 * total**2)
        within += (a * (m - c) + c * (n - a)) / (2 * total)
    estimate = weighted / weights
    variance = (estimate * tilt + within) / weights**2
    if variance <= 1e-14 / weights:
        return Refusal("The pooled risk difference has no standard error: print the counts.")
    return estimate, variance


def _nobody(table: TwoByTwo) -> bool:
    return table.events + table.reference_events == 0


def _never(table: TwoByTwo) -> bool:
    return False


_MANTEL_HAENSZEL: dict[
    str, tuple[Callable[[list[TwoByTwo]], tuple[float, float] | Refusal], Callable[[TwoByTwo], bool]]
] = {
    "odds ratio": (_odds_ratio, is_double_zero),
    "risk ratio": (_risk_ratio, _nobody),
    "risk difference": (_risk_difference, _never),
}


def _peto(tables: list[TwoByTwo], confidence: float) -> Pooled | Refusal:
    left_out, parts = [], []
    for index, table in enumerate(tables):
        a, n, c, m = table
        total, events = n + m, a + c
        if is_double_zero(table):
            left_out.append(index)
            continue
        # observed minus expected, and the hypergeometric variance
        parts.append((a - n * events / total, n * m * events * (total - events) / (total**2 * (total - 1))))
    if not parts:
        return Refusal(_nothing_left("odds ratio"))
    variance = sum(v for _, v in parts)
    estimate = sum(o for o, _ in parts) / variance
    q = sum(v * (o / v - estimate) ** 2 for o, v in parts)
    return _common_effect(
        estimate, 1 / variance, q, len(parts), len(parts), tuple(left_out), "odds ratio", "Peto odds ratio", confidence
    )


def _common_effect(
    estimate: float,
    variance: float,
    q: float,
    q_terms: int,
    studies: int,
    left_out: tuple[int, ...],
    measure: str,
    method: str,
    confidence: float,
) -> Pooled:
    error = math.sqrt(variance)
    half = critical_value(confidence) * error
    spread = heterogeneity_from_q(q, q_terms - 1)
    return Pooled(
        estimate=estimate,
        standard_error=error,
        interval=Interval(estimate - half, estimate + half),
        scale="difference" if measure == "risk difference" else "log",
        prediction_interval=None,
        tau_squared=0.0,
        tau_squared_interval=None,
        q=spread.q,
        q_degrees_of_freedom=spread.degrees_of_freedom,
        q_p_value=spread.p_value,
        i_squared=spread.i_squared,
        studies=studies,
        left_out=left_out,
        method=f"{method}, common effect",
        notes=_left_out_note(len(left_out), measure) if left_out else (),
    )


def _nothing_left(measure: str) -> str:
    return f"No study says anything about a {measure}: both arms are all 0 % or all 100 % throughout."


def _left_out_note(count: int, measure: str) -> tuple[str, ...]:
    return (f"{_studies(count).capitalize()} with 0 % or 100 % in both arms left out of the {measure}.",)


def _studies(count: int) -> str:
    return "1 study" if count == 1 else f"{count} studies"
