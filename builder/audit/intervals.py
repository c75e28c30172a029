"""Printed intervals against their estimate, their counts and their P."""

from __future__ import annotations

from collections.abc import Iterator

from ..problems import Problem, with_article
from ..proof.asking import ask
from ..proof.figures_of import count, is_withheld, percent_of
from ..reading.contrasts import RATIOS
from ..reading.report_model import Claim, Contrast, Estimate, Level
from ..reading.values import Ends, Missing, Number, Percentage, PValue
from ..synthesis.consistency import interval_fits_counts, off_centre, p_agrees_with_interval
from ..synthesis.rounding import percent_near_misses
from .tables import in_percent, is_possible

RULES = {
    "interval-misses-estimate": (
        "A confidence interval does not contain its own estimate, or its ends are in the wrong order. Usually a digit "
        "was misread or misprinted, or the interval belongs to another row. Basis: the usual intervals contain their "
        "estimate by construction."
    ),
    "interval-not-from-counts": (
        "No usual method gives this interval from the counts beside it (Wald, Wilson, both with continuity "
        "correction, exact, Jeffreys, Agresti-Coull), and the estimate is not in its middle on any scale either. The "
        "interval may allow for units of one patient being alike, or belong to another total. Basis: Newcombe 1998, "
        "Stat Med 17:857-872; Brown, Cai, DasGupta 2001, Stat Sci 16:101-133."
    ),
    "interval-off-centre": (
        "An estimate is not in the middle of its interval on any scale on which such intervals are calculated: raw, "
        "log, log of the complement, logit, arcsine, log(-log) for proportions; log for ratios; raw for differences. "
        "Usually one digit of a limit was misprinted. Basis: Altman and Bland 2011, BMJ 343:d2090 (from memory); "
        "Cochrane Handbook chapter 6 (from memory)."
    ),
    "interval-against-p": (
        "A P value cannot belong to the interval beside it: by one of the two the data are compatible with no "
        "difference, by the other they are not, and neither rounding nor the choice of test explains it. The P value "
        "may be of another test, of heterogeneity for instance. P values decide nothing in this guide; the question "
        "is whether both were read from the same row. Basis: Altman and Bland 2011, BMJ 343:d2304 (from memory)."
    ),
    "proportion-out-of-range": (
        "A share is below none or above all, a ratio is not above 0, or a difference between shares is larger than 1. "
        "Basis: arithmetic."
    ),
}


def find_in_claim(claim: Claim, place: str) -> Iterator[Problem]:
    """Every interval of a claim."""
    if type(claim.interval) is Ends:
        yield from _of_rate(claim, claim.interval, claim.pooled is not None, place)
    for level in claim.levels:
        if type(level.interval) is Ends:
            yield from _of_rate(level, level.interval, claim.pooled is not None, place)
        if level.estimate is not None:
            yield from _of_estimate(level.estimate, place)
    if claim.estimate is not None:
        yield from _of_estimate(claim.estimate, place)
    if claim.contrast is not None:
        yield from _of_contrast(claim.contrast, place)


def _confidence(typed: Percentage | Missing | None) -> float:
    if type(typed) is Percentage and 0 < typed.value < 100:
        return float(typed.value) / 100
    return 0.95


def _of_rate(holder: Claim | Level, interval: Ends, is_pooled: bool, place: str) -> Iterator[Problem]:
    rate, counts, total = percent_of(holder), _counts_of(holder), count(holder.total)
    if is_withheld(holder.events) or is_withheld(holder.total):
        return  # without its counts an honest exact interval would look off its centre
    if rate is None and counts is None:
        return
    per = _per(interval)
    if per is None:
        yield _out_of_range(interval, place)
        return
    shown, estimate, value, decimals = _told_of_rate(rate, counts)
    printed = f"{shown} ({interval.text})"
    if _misses(value, decimals, interval, per):
        yield _missed(interval, printed, place)
        return
    low, high, confidence = interval.low.text, interval.high.text, _confidence(holder.confidence)
    tried = [counts] if counts is not None else _likely(rate, total)
    if any(interval_fits_counts(each, of, low, high, confidence, per) for each, of in tried):
        return
    if not off_centre(estimate, low, high, "proportion", per):
        return
    if tried:
        tells = (
            f"no usual method gives this interval for {tried[0][0]} of {tried[0][1]}, nor is the estimate in its middle"
        )
        yield ask(interval.position, "interval-not-from-counts", printed, tells, place)
    elif is_pooled or rate is None or not _fits_some_total(rate, interval, confidence, per):
        yield _off_centre(interval, printed, place)


def _counts_of(holder: Claim | Level) -> tuple[int, int] | None:
    """Events and total, where both are known and fit."""
    events, total = count(holder.events), count(holder.total)
    if events is None or not total or total < 0 or events > total:
        return None
    return events, total


def _told_of_rate(rate: Percentage | None, counts: tuple[int, int] | None) -> tuple[str, str, float, int]:
    """A rate as printed or as its counts, as text in per cent, its value from 0 to 1 and the decimals of that."""
    if rate is not None:
        return rate.text, rate.text, float(rate.value) / 100, rate.decimals + 2
    assert counts is not None
    value = counts[0] / counts[1]
    return f"{counts[0]} of {counts[1]}", f"{100 * value:.9f}%", value, 9


_MOST_TRIED = 50


def _fits_some_total(rate: Percentage, interval: Ends, confidence: float, per: int) -> bool:
    """Whether some total gives both the rate and the interval by a usual method, where the report prints no total."""
    share = float(rate.value) / 100
    width = float(interval.high.value - interval.low.value) / per
    if width <= 0:
        return False
    near = int(max(share * (1 - share), 0.02) * (3.92 / width) ** 2)
    low, high = interval.low.text, interval.high.text
    return any(
        interval_fits_counts(events, total, low, high, confidence, per)
        for total in range(max(1, near // 2), min(2 * near + 20, 2000))
        for events in percent_near_misses(rate.text, total).exact[:_MOST_TRIED]
    )


def _of_estimate(estimate: Estimate, place: str) -> Iterator[Problem]:
    value, interval = estimate.value, estimate.interval
    if type(value) is not Percentage or type(interval) is not Ends:
        return
    per = _per(interval)
    printed = f"{value.text} ({interval.text})"
    if per is None:
        yield _out_of_range(interval, place)
    elif _misses(float(value.value) / 100, value.decimals + 2, interval, per):
        yield _missed(interval, printed, place)
    elif off_centre(value.text, interval.low.text, interval.high.text, "proportion", per) and not (
        estimate.kind.text == "cumulative incidence" and _centred_as_survival(value, interval, per)
    ):
        yield _off_centre(interval, printed, place)


def _centred_as_survival(value: Percentage, interval: Ends, per: int) -> bool:
    """Whether the share without the event is in the middle: incidences are mostly made on the scale of survival."""
    low, high = interval.low, interval.high
    texts = (
        f"{100 - value.value:.{value.decimals}f}%",
        f"{per - high.value:.{high.decimals}f}",
        f"{per - low.value:.{low.decimals}f}",
    )
    return not off_centre(*texts, "proportion", per)


def _per(interval: Ends) -> int | None:
    """100 for per cent, 1 for fractions, None where the ends can be neither."""
    low, high = interval.low.value, interval.high.value
    if type(interval.low) is Percentage:
        return 100 if low >= 0 and high <= 100 else None
    if low < 0 or high > 100:
        return None
    return 1 if high <= 1 else 100


def _misses(value: float, decimals: int, interval: Ends, per: int) -> bool:
    """True where the estimate lies outside by more than both roundings explain, or the ends are the wrong way round."""
    low, high = float(interval.low.value) / per, float(interval.high.value) / per
    if low > high:
        return True
    half = 0.5 * 10.0**-decimals
    below = 0.5 * 10.0**-interval.low.decimals / per
    above = 0.5 * 10.0**-interval.high.decimals / per
    return value + half < low - below or value - half > high + above


def _missed(interval: Ends, printed: str, place: str) -> Problem:
    tells = "the interval does not contain its estimate"
    if interval.low.value > interval.high.value:
        tells = "the ends of the interval are in the wrong order"
    return ask(interval.position, "interval-misses-estimate", printed, tells, place)


def _off_centre(interval: Ends, printed: str, place: str) -> Problem:
    tells = "the estimate is not in the middle of its interval on any scale on which such intervals are calculated"
    return ask(interval.position, "interval-off-centre", printed, tells, place)


def _out_of_range(interval: Ends, place: str) -> Problem:
    tells = "a share lies between none and all"
    return ask(interval.position, "proportion-out-of-range", interval.text, tells, place)


def _likely(rate: Percentage | None, total: int | None) -> list[tuple[int, int]]:
    """Counts of a known total that print as a rate."""
    if rate is None or not total or total >= 100_000:
        return []
    return [(each, total) for each in percent_near_misses(rate.text, total).exact[:_MOST_TRIED]]


def _of_contrast(contrast: Contrast, place: str) -> Iterator[Problem]:
    value, interval, measure = contrast.value, contrast.interval, contrast.measure.text
    if isinstance(value, Missing):
        return
    # Only the value: Wald's interval of a difference may well reach beyond all.
    if not is_possible(contrast, value):
        yield ask(
            value.position,
            "proportion-out-of-range",
            value.text,
            f"{with_article(measure)} cannot have this value",
            place,
        )
        return
    if type(interval) is not Ends:
        return
    kind = "ratio" if measure in RATIOS else "prevented fraction" if measure == "prevented fraction" else "difference"
    printed = f"{value.text} ({interval.text})"
    scale, ends_scale = _scales(contrast, value, interval, kind)
    if _misses(float(value.value) / scale, value.decimals + (2 if scale == 100 else 0), interval, ends_scale):
        yield _missed(interval, printed, place)
        return
    if scale != ends_scale or (kind == "ratio" and not value.value):
        return  # per cent beside fractions, or a ratio that prints as 0: only the side can be compared
    low, high = interval.low.text, interval.high.text
    if off_centre(value.text, low, high, kind, scale):
        yield _off_centre(interval, printed, place)
    if type(contrast.p) is PValue and kind != "prevented fraction":
        yield from _against_p(contrast.p, value, interval, kind, _confidence(contrast.confidence), place)


def _scales(contrast: Contrast, value: Number | Percentage, interval: Ends, kind: str) -> tuple[int, int]:
    """What a value and the ends of its interval are parts of, 100 or 1."""
    is_percent = type(value) is Percentage or in_percent(contrast)
    ends_percent = type(interval.low) is Percentage or in_percent(contrast)
    if is_percent != ends_percent and kind != "ratio" and _per_differs(value, interval):
        return (100, 1) if is_percent else (1, 100)
    return (100, 100) if is_percent else (1, 1)


def _per_differs(value: Number | Percentage, interval: Ends) -> bool:
    # "-12%" beside "-.20 to -.04": fractions never exceed 1 in size.
    return max(abs(interval.low.value), abs(interval.high.value)) <= 1 < abs(value.value) or type(value) is Number


# How far the z of another test (likelihood ratio, log-rank, exact, t) may lie from Wald's: generous, since small
# tables spread them; and less where interval and P stand on two sides of no difference. Common practice, no source.
_SLACK = 0.25
_SLACK_ACROSS = 0.1
_SLACK_DIFFERENCE = 0.35


def _against_p(
    p: PValue, value: Number | Percentage, interval: Ends, kind: str, confidence: float, place: str
) -> Iterator[Problem]:
    low, high = interval.low.text, interval.high.text
    p_text = f"{p.comparator}{p.value:f}"
    slack = _SLACK if kind == "ratio" else _SLACK_DIFFERENCE
    if _stand_across(p, interval, kind, confidence):
        slack = _SLACK_ACROSS
    if p_agrees_with_interval(p_text, value.text, low, high, kind, confidence, slack):
        return
    printed = f"{value.text} ({interval.text}), P {p.text}"
    tells = "this P value and this interval do not fit together, beyond what rounding and the choice of test explain"
    yield ask(p.position, "interval-against-p", printed, tells, place)


def _stand_across(p: PValue, interval: Ends, kind: str, confidence: float) -> bool:
    """True where the interval leaves out no difference and P does not, or the other way round."""
    none = 1 if kind == "ratio" else 0
    holds_none = interval.low.value <= none <= interval.high.value
    limit = 1 - confidence
    value = float(p.value)
    if holds_none:
        return p.comparator in ("", "<", "<=") and value < limit
    return p.comparator in ("", ">", ">=") and value > limit
