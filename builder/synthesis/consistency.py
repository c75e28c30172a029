"""Do printed figures fit each other? What an arithmetic check asks, in plain Python and without inverting anything.

Every answer errs towards "fits": a printed number stands for all values that round to it, by either rule at a tie.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator

from ..records import NamedTuple
from .contrast import MEASURES, TwoByTwo, checked_table, log_ratio
from .distributions import beta_tails, critical_value
from .intervals import (
    agresti_coull_limits,
    exact_interval,
    jeffreys_interval,
    wald_limits,
    wilson_continuity_limits,
    wilson_limits,
)
from .ranges import confidence_level, counts
from .results import Interval
from .rounding import printed_number

KINDS = ("proportion", "ratio", "difference", "prevented fraction")

# Float noise when a value computed here is held against the end of a rounding interval.
_NOISE = 1e-12


class _Bounds(NamedTuple):
    low: float
    high: float

    def holds(self, value: float) -> bool:
        return self.low - _NOISE <= value <= self.high + _NOISE


def usual_intervals(events: int, total: int, confidence: float = 0.95) -> dict[str, Interval]:
    """The intervals that papers print for one proportion, by method; Wald's and Agresti-Coull's are not cut to [0, 1].

    events: 0 to total; total: at least 1; ValueError outside. Sources: the functions of synthesis/intervals.py.
    """
    events, total = counts(events, total)
    z = critical_value(confidence_level(confidence))
    methods = {name: Interval(*limits) for name, limits in _closed_forms(events, total, z)}
    methods["exact"] = exact_interval(events, total, confidence)
    methods["Jeffreys"] = jeffreys_interval(events, total, confidence)
    return methods


def interval_fits_counts(
    events: int, total: int, low_text: str, high_text: str, confidence: float = 0.95, per: int = 100
) -> bool:
    """Whether any usual method gives both printed limits from the printed counts, each at its printed precision.

    Methods: Wald, Wilson, both with continuity correction, exact, Jeffreys, Agresti-Coull; cut to [0, 1] or not; with
    z = 1.959964 or, at 95 %, 1.96. low_text and high_text: per cent with or without the sign; per=1 where the paper
    prints fractions (a % sign still means per cent). Raises ValueError for counts or texts that cannot be read.

    Newcombe 1998, Stat Med 17:857-872; Brown, Cai, DasGupta 2001, Stat Sci 16:101-133. Exact and Jeffreys limits are
    not computed: a limit lies between two values if its defining tail probability does.
    """
    events, total = counts(events, total)
    level = confidence_level(confidence)
    low, high = _share_bounds(low_text, per), _share_bounds(high_text, per)
    z = critical_value(level)
    for quantile in (z, 1.96) if abs(level - 0.95) < 1e-9 else (z,):
        for _, (own_low, own_high) in _closed_forms(events, total, quantile):
            if _fits(low, own_low) and _fits(high, own_high):
                return True
    tail = (1 - level) / 2
    return _beta_limits_fit(events, total, low, high, tail, 0.0) or _beta_limits_fit(
        events, total, low, high, tail, 0.5
    )


def _closed_forms(events: int, total: int, z: float) -> Iterator[tuple[str, tuple[float, float]]]:
    yield "Wald", wald_limits(events, total, z)
    yield "Wilson", wilson_limits(events, total, z)
    yield "Wilson with continuity correction", wilson_continuity_limits(events, total, z)
    yield "Wald with continuity correction", wald_limits(events, total, z, continuity=True)
    yield "Agresti-Coull", agresti_coull_limits(events, total, z)


def _fits(bounds: _Bounds, limit: float) -> bool:
    return bounds.holds(limit) or (not 0 <= limit <= 1 and bounds.holds(min(max(limit, 0.0), 1.0)))


def _beta_limits_fit(events: int, total: int, low: _Bounds, high: _Bounds, tail: float, half: float) -> bool:
    """Whether the limits of the exact (half = 0) or Jeffreys (half = 1/2) interval lie inside the bounds.

    A limit is where a Beta distribution leaves `tail`; the tail moves one way with the limit, so the bounds are tried.
    """
    misses = total - events
    # Exact: Beta(events, misses + 1) below and Beta(events + 1, misses) above. Jeffreys: half added to both counts.
    low_shape = (events + half, misses + 1 - half)
    high_shape = (events + 1 - half, misses + half)
    low_at_end = events == 0 and low.holds(0.0)
    high_at_end = misses == 0 and high.holds(1.0)
    if not low_at_end and (
        low_shape[0] == 0
        or beta_tails(low.low, *low_shape)[0] > tail * (1 + 1e-9)
        or beta_tails(low.high, *low_shape)[0] < tail * (1 - 1e-9)
    ):
        return False
    return high_at_end or not (
        high_shape[1] == 0
        or beta_tails(high.low, *high_shape)[1] < tail * (1 - 1e-9)
        or beta_tails(high.high, *high_shape)[1] > tail * (1 + 1e-9)
    )


def _text_bounds(text: str) -> _Bounds:
    return _Bounds(*printed_number(text).bounds())


def _share_bounds(text: str, per: int) -> _Bounds:
    unit = 100 if text.rstrip().endswith("%") else per
    low, high = printed_number(text).bounds()
    return _Bounds(low / unit, high / unit)


def _log(value: float) -> float:
    return math.log(value) if value > 0 else -math.inf


def _raw(value: float) -> float:
    return value


def _log_complement(value: float) -> float:
    return _log(1 - value)


def _logit(value: float) -> float:
    return _log(value) - _log(1 - value)


def _arcsine(value: float) -> float:
    return math.asin(math.sqrt(min(max(value, 0.0), 1.0)))


def _log_minus_log(value: float) -> float:
    return _log(-_log(value)) if value < 1 else -math.inf


_SCALES: dict[str, tuple[Callable[[float], float], ...]] = {
    "proportion": (_raw, _log, _log_complement, _logit, _arcsine, _log_minus_log),
    "ratio": (_log,),
    "difference": (_raw,),
    "prevented fraction": (_raw, _log_complement),
}


def off_centre(estimate_text: str, low_text: str, high_text: str, kind: str, per: int = 100) -> bool:
    """Whether the estimate is not in the middle of its interval on any scale on which such intervals are made.

    kind: "proportion" (raw, log, log(1-p), logit, arcsine (double arcsine too), log(-log)), "ratio" (log), "difference"
    (raw) or "prevented fraction" (raw, log(1-x)). Each text stands for the half-open interval of values that round to
    it, and a limit printed as 0 or 100 % for all that may have been cut there. per: for proportions and prevented
    fractions, what the printed figures are out of (1 for fractions; a % sign always means 100). Raises ValueError for
    another kind or texts that are no numbers.

    Symmetry on the scale of analysis: Cochrane Handbook, chapter 6 (from memory); Altman and Bland 2011, BMJ 343:d2090
    (from memory). An exact interval is symmetric on no scale: try interval_fits_counts first.
    """
    if kind not in KINDS:
        raise ValueError(f"kind must be one of {', '.join(KINDS)}, not {kind!r}")
    shares = kind in ("proportion", "prevented fraction")
    texts = (estimate_text, low_text, high_text)
    estimate, low, high = (_share_bounds(text, per) if shares else _text_bounds(text) for text in texts)
    if kind == "proportion":
        if low.low <= 0:
            low = _Bounds(-math.inf, low.high)
        if high.high >= 1:
            high = _Bounds(high.low, math.inf)
    elif kind == "prevented fraction" and high.high >= 1:
        high = _Bounds(high.low, math.inf)
    if any(_meet(scale, estimate, low, high) for scale in _SCALES[kind]):
        return False
    return kind != "proportion" or not _meet_double_arcsine(estimate, low, high)


def _meet(scale: Callable[[float], float], estimate: _Bounds, low: _Bounds, high: _Bounds) -> bool:
    """Whether some midpoint of the limits and some value of the estimate coincide on this scale."""
    if low.low == -math.inf or high.high == math.inf:
        return _meet_open(scale, estimate, low, high)
    first = (scale(low.low) + scale(high.low)) / 2
    second = (scale(low.high) + scale(high.high)) / 2
    return _overlap(first, second, scale(estimate.low), scale(estimate.high))


def _meet_open(scale: Callable[[float], float], estimate: _Bounds, low: _Bounds, high: _Bounds) -> bool:
    # A limit that was cut at 0 or 100 % may have been anything beyond, which bounds the middle on one side only.
    rising = scale(0.6) > scale(0.4)
    beyond = math.inf if rising else -math.inf
    first = -beyond if low.low == -math.inf else (scale(low.low) + scale(high.low)) / 2
    second = beyond if high.high == math.inf else (scale(low.high) + scale(high.high)) / 2
    return _overlap(first, second, scale(max(estimate.low, 0.0)), scale(min(estimate.high, 1.0)))


def _meet_double_arcsine(estimate: _Bounds, low: _Bounds, high: _Bounds) -> bool:
    """The arcsine scale as pooled rates use it: back from the double arcsine at a typical study size nobody prints.

    Miller 1978, Am Stat 32:138. From 5 units a study to endlessly many (the plain arcsine) the middle moves one way.
    """
    if low.low < 0 or high.high > 1:
        return False
    middles = [
        _double_arcsine_middle(*limits, size)
        for limits in ((low.low, high.low), (low.high, high.high))
        for size in (5, 20, 100, 10**6)
    ]
    return _overlap(min(middles), max(middles), estimate.low, estimate.high)


def _double_arcsine_middle(low: float, high: float, size: int) -> float:
    angles = (
        (math.asin(math.sqrt(size * p / (size + 1))) + math.asin(math.sqrt((size * p + 1) / (size + 1)))) / 2
        for p in (low, high)
    )
    double = sum(angles)  # twice the mean angle
    sine = math.sin(double)
    root = math.sqrt(max(0.0, 1 - (sine + (sine - 1 / sine) / size) ** 2))
    return (1 - math.copysign(root, math.cos(double))) / 2


def _overlap(first: float, second: float, third: float, fourth: float) -> bool:
    if any(math.isnan(value) for value in (first, second, third, fourth)):
        return True  # infinite at both ends: nothing can be said, so nothing is asked
    low, high = max(min(first, second), min(third, fourth)), min(max(first, second), max(third, fourth))
    # Half-open intervals that only touch share no value, whatever the last digit of a float says.
    return low == high if math.isinf(low) else high - low > _NOISE * max(1.0, abs(low))


def p_from_ratio_interval(estimate: float, low: float, high: float, confidence: float = 0.95) -> float:
    """Two-sided P of a ratio against 1, from its interval, by the normal approximation on the log scale.

    estimate and limits: above 0, low below high; ValueError otherwise.

    Altman and Bland 2011, BMJ 343:d2304 (from memory).
    """
    if not (0 < low < high < math.inf and 0 < estimate < math.inf):
        raise ValueError(f"a ratio and its limits must be above 0, and rising: {estimate!r} ({low!r} to {high!r})")
    error = (math.log(high) - math.log(low)) / (2 * critical_value(confidence_level(confidence)))
    return math.erfc(abs(math.log(estimate)) / error / math.sqrt(2))


def p_agrees_with_interval(
    p_text: str,
    estimate_text: str,
    low_text: str,
    high_text: str,
    kind: str = "ratio",
    confidence: float = 0.95,
    slack: float = 0.0,
) -> bool:
    """Whether a printed P can belong to a printed estimate and interval, all taken at their printed precision.

    p_text: ".02", "<.05", ">=.9". kind: "ratio" (against 1, on the log scale) or "difference" (against 0). slack: by
    which part the z values may differ beyond rounding, since an interval by Wald and a P by likelihood ratio or
    log-rank differ a little (0.1 is lenient). True where rounding leaves nothing to say. Raises ValueError for texts
    that are no numbers or another kind.

    Altman and Bland 2011, BMJ 343:d2304 (from memory), with the ends of the rounding intervals put in.
    """
    if kind not in ("ratio", "difference"):
        raise ValueError(f"kind must be ratio or difference, not {kind!r}")
    scale = _log if kind == "ratio" else _raw
    printed = _p_bounds(p_text)
    estimate, low, high = _text_bounds(estimate_text), _text_bounds(low_text), _text_bounds(high_text)
    double = 2 * critical_value(confidence_level(confidence))
    widest = (scale(high.high) - scale(low.low)) / double
    narrowest = (scale(high.low) - scale(low.high)) / double
    ends = (scale(estimate.low), scale(estimate.high))
    nearest = 0.0 if ends[0] <= 0 <= ends[1] else min(abs(ends[0]), abs(ends[1]))
    furthest = max(abs(ends[0]), abs(ends[1]))
    # A limit that prints as 0 has no log: the standard error is then unbounded and the P may be anything up to 1.
    least_z = 0.0 if math.isinf(widest) else nearest / widest * (1 - slack) if widest > 0 else 0.0
    most_z = furthest / narrowest * (1 + slack) if narrowest > 0 else math.inf
    smallest, largest = math.erfc(most_z / math.sqrt(2)), math.erfc(least_z / math.sqrt(2))
    return smallest <= printed.high + _NOISE and printed.low <= largest + _NOISE


def _p_bounds(text: str) -> _Bounds:
    bare = text.strip()
    for sign in ("<=", ">=", "<", ">", "\N{LESS-THAN OR EQUAL TO}", "\N{GREATER-THAN OR EQUAL TO}", "="):
        if bare.startswith(sign):
            value = printed_number(bare[len(sign) :]).value()
            if sign == "=":
                break
            return _Bounds(0.0, value) if sign[0] in "<\N{LESS-THAN OR EQUAL TO}" else _Bounds(value, 1.0)
    low, high = printed_number(bare.removeprefix("=")).bounds()
    return _Bounds(max(low, 0.0), min(high, 1.0))


def ratio_from_table_agrees(measure: str, value_text: str, table: TwoByTwo) -> bool:
    """Whether a printed crude ratio or difference follows from the printed counts, at its printed precision.

    measure: "odds ratio", "risk ratio", "risk difference" or "prevented fraction" (1 minus the risk ratio; per cent
    where the text has the sign; so for a difference). With an empty cell the ratio after adding 0.5 agrees too, and
    so does 0 where it is 0. Raises ValueError for another measure, impossible counts or text that is no number.

    Cochrane Handbook, chapter 6 (from memory); both rules of rounding at a tie are accepted.
    """
    if measure not in (*MEASURES, "prevented fraction"):
        raise ValueError(f"measure must be one of {', '.join((*MEASURES, 'prevented fraction'))}, not {measure!r}")
    table = checked_table(table)
    low, high = _share_bounds(value_text, 1)
    a, n, c, m = table
    b, d = n - a, m - c
    values: list[float] = []
    if measure == "risk difference":
        values.append((a * m - c * n) / (n * m))
    else:
        plain = "odds ratio" if measure == "odds ratio" else "risk ratio"
        over, under = (a * d, b * c) if plain == "odds ratio" else (a * m, c * n)
        if under:
            values.append(over / under)
        log_value, _, corrected = log_ratio(table, plain)
        if corrected:
            values.append(math.exp(log_value))
        if measure == "prevented fraction":
            values = [1 - value for value in values]
    room = _NOISE * max(1.0, abs(low), abs(high))
    return any(low - room <= value <= high + room for value in values)


def sd_exceeds_range(sd: str | float, minimum: str | float, maximum: str | float, count: int | None = None) -> bool:
    """Whether a standard deviation is larger than any sample between this minimum and maximum can have.

    Texts are taken at their printed precision, numbers as they are. count: how many values there were; without it the
    limit is that of two values, the range over the root of 2. False where maximum is below minimum (another question).
    Raises ValueError for text that is no number.

    Popoviciu 1935: a variance is at most a quarter of the squared range; times count / (count - 1) for a sample's (from
    memory). An odd count splits into unequal halves.
    """
    least_sd = _text_bounds(sd).low if isinstance(sd, str) else sd
    bottom = _text_bounds(minimum).low if isinstance(minimum, str) else minimum
    top = _text_bounds(maximum).high if isinstance(maximum, str) else maximum
    width = top - bottom
    if width < 0:
        return False
    if count is None or count < 2:
        return least_sd > width / math.sqrt(2) * (1 + _NOISE) + _NOISE
    largest = width * math.sqrt((count // 2) * (count - count // 2) / (count * (count - 1)))
    return least_sd > largest * (1 + _NOISE) + _NOISE
