"""Intervals for one proportion."""

import pytest
from hypothesis import given, strategies as st
from passageproof.synthesis import (
    agresti_coull_interval,
    exact_interval,
    jeffreys_interval,
    wald_interval,
    wilson_continuity_interval,
    wilson_interval,
)
from statsmodels.stats.proportion import proportion_confint

METHODS = (wilson_interval, exact_interval, jeffreys_interval)
COUNTS = st.integers(1, 300).flatmap(lambda total: st.tuples(st.integers(0, total), st.just(total)))


@pytest.mark.parametrize(
    ("events", "total", "low", "high"),
    [
        # Newcombe 1998, Stat Med 17:857-872, method 3 (pairs from memory, values recomputed, printed table not at hand)
        (81, 263, 0.2553, 0.3662),
        (15, 148, 0.0624, 0.1605),
        (0, 20, 0.0000, 0.1611),
        (1, 29, 0.0061, 0.1718),
        # recomputed by hand from the counts of published series
        (23, 60, 0.2709, 0.5098),
        (18, 21, 0.6536, 0.9502),  # Mente 2010
        (66, 90, 0.6338, 0.8138),  # Krupp 2013
        (101, 110, 0.8518, 0.9564),  # Gorni 2016
        (115, 124, 0.8678, 0.9613),  # Gorni 2022
        (55, 64, 0.7538, 0.9242),
        (81, 116, 0.6095, 0.7743),
        (4, 4, 0.5101, 1.0),
        (16, 16, 0.8064, 1.0),
        (2, 3, 0.2077, 0.9385),
        (9, 10, 0.5958, 0.9821),
    ],
)
def test_wilson_gives_the_published_limits(events: int, total: int, low: float, high: float) -> None:
    assert wilson_interval(events, total) == pytest.approx((low, high), abs=5.1e-5)


@pytest.mark.parametrize(
    ("method", "limits"),
    [
        # Newcombe 1998, Table I, 81 of 263 (limits from memory, four decimals)
        (wald_interval, (0.2522, 0.3638)),
        (wilson_continuity_interval, (0.2535, 0.3682)),
        (exact_interval, (0.2527, 0.3676)),
    ],
)
def test_other_methods_give_newcombes_limits(method, limits) -> None:
    assert method(81, 263) == pytest.approx(limits, abs=5.1e-5)


def test_upper_limit_after_no_failure_in_sixteen() -> None:
    # one-sided 95 % is the two-sided 90 % limit: 1 - 0.05 ** (1 / 16); the rule of three says 3 / 16 = .188
    # (Hanley and Lippman-Hand 1983, JAMA 249:1743-1745, from memory)
    assert exact_interval(0, 16, confidence=0.90).high == pytest.approx(1 - 0.05 ** (1 / 16), abs=1e-12)
    assert exact_interval(0, 16, confidence=0.90).high == pytest.approx(0.171, abs=5e-4)
    assert exact_interval(0, 16).high == pytest.approx(0.206, abs=5e-4)


@pytest.mark.parametrize(
    ("events", "total"), [(0, 7), (1, 7), (7, 7), (3, 20), (250, 1000), (99_999, 10**5), (7, 10**6)]
)
def test_limits_agree_with_statsmodels(events: int, total: int) -> None:
    for method, name in ((wilson_interval, "wilson"), (exact_interval, "beta")):
        other = [float(limit) for limit in proportion_confint(events, total, method=name)]
        assert method(events, total) == pytest.approx(other, abs=1e-10, nan_ok=True)
    if 0 < events < total:  # at the ends statsmodels leaves Jeffreys' limits as they come
        assert jeffreys_interval(events, total) == pytest.approx(
            proportion_confint(events, total, method="jeffreys"), abs=1e-10
        )
        low, high = agresti_coull_interval(events, total)  # which statsmodels cuts to [0, 1]
        assert (max(low, 0), min(high, 1)) == pytest.approx(
            proportion_confint(events, total, method="agresti_coull"), abs=1e-10
        )


@given(COUNTS)
def test_share_lies_inside_its_interval(counts: tuple[int, int]) -> None:
    events, total = counts
    for method in METHODS:
        low, high = method(events, total)
        assert 0 <= low <= events / total <= high <= 1


@given(COUNTS)
def test_complement_mirrors_the_interval(counts: tuple[int, int]) -> None:
    events, total = counts
    for method in METHODS:
        low, high = method(events, total)
        assert method(total - events, total) == pytest.approx((1 - high, 1 - low), abs=1e-12)


@given(COUNTS)
def test_ten_times_the_counts_tightens_the_interval(counts: tuple[int, int]) -> None:
    events, total = counts
    for method in METHODS:
        (low, high), (tight_low, tight_high) = method(events, total), method(10 * events, 10 * total)
        assert tight_high - tight_low < high - low


@given(COUNTS, st.sampled_from((0.9, 0.95, 0.99)))
def test_exact_limits_leave_half_of_the_rest_in_their_tail(counts: tuple[int, int], confidence: float) -> None:
    from scipy.stats import binom  # the definition of Clopper and Pearson 1934, put to an outside library

    events, total = counts
    low, high = exact_interval(events, total, confidence)
    if events > 0:
        assert binom.sf(events - 1, total, low) == pytest.approx((1 - confidence) / 2, rel=1e-8)
    if events < total:
        assert binom.cdf(events, total, high) == pytest.approx((1 - confidence) / 2, rel=1e-8)


@pytest.mark.parametrize("total", [1, 20, 63, 1000])
def test_ends_are_exact_without_events_and_with_all(total: int) -> None:
    for method in METHODS:
        assert method(0, total).low == 0
        assert method(total, total).high == 1


@pytest.mark.parametrize(
    ("events", "total"), [(5, 4), (-1, 4), (0, 0), (1.5, 4), ("3", 4), (None, 4), (float("nan"), 4), (True, 4)]
)
def test_impossible_counts_are_named(events, total) -> None:
    for method in (*METHODS, wald_interval, wilson_continuity_interval, agresti_coull_interval):
        with pytest.raises(ValueError, match=r"events|total"):
            method(events, total)


@pytest.mark.parametrize("confidence", [0, 1, 95, -0.5, "0.95", float("nan")])
def test_confidence_outside_0_to_1_is_named(confidence) -> None:
    for method in METHODS:
        with pytest.raises(ValueError, match="confidence"):
            method(3, 4, confidence=confidence)


def test_whole_float_counts_as_a_count() -> None:
    assert wilson_interval(18.0, 21.0) == wilson_interval(18, 21)
