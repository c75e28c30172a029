"""Printed figures that should fit each other."""

from decimal import ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal
from math import exp, log, sqrt

import pytest
from hypothesis import given, strategies as st
from passageproof.synthesis import (
    TwoByTwo,
    interval_fits_counts,
    off_centre,
    p_agrees_with_interval,
    p_from_ratio_interval,
    ratio_from_table_agrees,
    sd_exceeds_range,
    usual_intervals,
)

COUNTS = st.integers(1, 200).flatmap(lambda total: st.tuples(st.integers(0, total), st.just(total)))


def printed(value: float, decimals: int, rounding: str = ROUND_HALF_UP) -> str:
    return str(Decimal(value).quantize(Decimal(1).scaleb(-decimals), rounding))


@given(COUNTS, st.integers(0, 2), st.sampled_from((0.9, 0.95, 0.99)))
def test_every_usual_method_is_recognised_at_any_precision(
    counts: tuple[int, int], decimals: int, confidence: float
) -> None:
    events, total = counts
    for low, high in usual_intervals(events, total, confidence).values():
        low_text, high_text = printed(100 * low, decimals), printed(100 * high, decimals)
        assert interval_fits_counts(events, total, low_text, high_text, confidence)


@given(COUNTS, st.integers(0, 2))
def test_limits_cut_at_0_and_100_percent_are_recognised(counts: tuple[int, int], decimals: int) -> None:
    events, total = counts
    for low, high in usual_intervals(events, total).values():
        low_text = printed(100 * max(low, 0.0), decimals, ROUND_HALF_EVEN)
        high_text = printed(100 * min(high, 1.0), decimals, ROUND_HALF_EVEN)
        assert interval_fits_counts(events, total, f"{low_text}%", f"{high_text}%")


@given(COUNTS.filter(lambda counts: 2 < counts[0] < counts[1] - 2), st.integers(3, 9))
def test_interval_moved_by_points_fits_no_method(counts: tuple[int, int], points: int) -> None:
    events, total = counts
    limits = usual_intervals(events, total).values()
    low = min(100 * low for low, _ in limits) - points
    high = max(100 * high for _, high in limits)
    assert not interval_fits_counts(events, total, printed(low, 1), printed(high, 1))


@pytest.mark.parametrize(
    ("events", "total", "low", "high", "fits"),
    [
        (81, 263, "25.5", "36.6", True),  # Newcombe 1998, Stat Med 17:857-872: Wilson
        (81, 263, "25.2", "36.4", True),  # Wald
        (81, 263, "25.3", "36.8", True),  # exact
        (81, 263, "25.4", "36.8", True),  # Wilson with continuity correction, .2535 to .3682
        (81, 263, "25.5", "36.4", False),  # the lower limit of one and the upper of another
        (115, 124, "86.67", "96.63", True),  # exact limits of Gorni 2022, by R
        # Al-Dayri 2019 prints 65 to 93: neither 23 of 29 nor 27 of 34 gives both limits (Wald 64.6-94.1, 65.8-93.0)
        (27, 34, "65", "93", False),
        (23, 29, "65", "94", True),
        (27, 34, "66", "93", True),
        (16, 16, "79", "100", True),  # exact .794
        (16, 16, "81", "100", True),  # Wilson .8064
        (16, 16, "100", "100", True),  # Wald has no width
        (16, 16, "70", "100", False),
        (0, 20, "0", "16.1", True),
        (0, 20, "-2.9", "19.0", True),  # Agresti-Coull, not cut
    ],
)
def test_published_and_worked_intervals(events: int, total: int, low: str, high: str, fits: bool) -> None:
    assert interval_fits_counts(events, total, low, high) is fits


def test_fractions_are_read_where_the_paper_prints_them() -> None:
    assert interval_fits_counts(81, 263, ".2553", ".3662", per=1)
    assert interval_fits_counts(81, 263, "25.53%", "36.62%", per=1)
    assert not interval_fits_counts(81, 263, ".2553", ".3662")


@pytest.mark.parametrize(
    ("estimate", "low", "high", "kind", "off"),
    [
        # published reports; each fits on at least one scale, or on none
        ("72.5", "61.9", "81.0", "proportion", False),  # Siew 2015 (from memory): logit
        ("86", "76", "92", "proportion", False),  # Ather 2022: logit only
        ("91.867", "85.058", "96.741", "proportion", False),  # Swiss Dent J 2025: arcsine only
        ("90.162", "79.813", "97.067", "proportion", False),
        ("90.49", "88.49", "92.34", "proportion", False),  # Nawal 2023: double arcsine at 20 to 50 a study
        ("69.6", "64.5", "74.8", "proportion", False),  # raw
        ("39.0", "31.1", "46.9", "proportion", False),
        ("52", "42", "56", "proportion", True),  # Tiburcio-Machado 2021, Int Endod J 54:712-735
        ("52", "48", "56", "proportion", False),
        ("6", "2", "10", "proportion", False),  # Gorni 2022
        ("30", "20", "38", "proportion", False),
        ("62", "46", "73", "proportion", False),
        ("0.62", "0.34", "1.16", "ratio", False),  # Tang 2010, Quintessence Int 41:557-566
        ("0.35", "0.13", "0.94", "ratio", False),
        ("0.08", "0.01", "0.57", "ratio", False),
        ("2.86", "1.56", "5.24", "ratio", False),  # de Chevigny 2008, J Endod 34:258-263
        ("2.86", "1.56", "4.24", "ratio", True),  # the same, one digit changed
        ("-1.25", "-1.65", "-0.851", "difference", False),  # Poulsen 2006, CD001476
        ("-1.25", "-1.65", "-0.751", "difference", True),
        # constructed
        ("97", "91", "100", "proportion", False),  # cut at 100 %
        ("2.0", "1.0", "3.0", "ratio", True),  # symmetric, but not as a ratio is
        ("25%", "10%", "37.5%", "prevented fraction", False),  # log of one minus
        ("25%", "10%", "40%", "prevented fraction", False),  # raw
        ("25%", "10%", "60%", "prevented fraction", True),
    ],
)
def test_published_estimates_against_their_intervals(estimate: str, low: str, high: str, kind: str, off: bool) -> None:
    assert off_centre(estimate, low, high, kind) is off


def test_rounding_intervals_that_only_touch_are_off_centre() -> None:
    # the middle of 1.0 to 2.0 is 1.45 to 1.55, that of the printed 1.6 begins at 1.55
    assert off_centre("1.6", "1.0", "2.0", "difference")
    assert not off_centre("1.5", "1.0", "2.0", "difference")
    assert not off_centre("1.4", "1.0", "1.9", "difference")


@given(st.floats(0.2, 5), st.floats(0.05, 1), st.integers(2, 3))
def test_interval_made_on_the_log_scale_is_never_off_centre(ratio: float, error: float, decimals: int) -> None:
    low, high = ratio * exp(-1.96 * error), ratio * exp(1.96 * error)
    texts = [printed(value, decimals) for value in (ratio, low, high)]
    assert not off_centre(*texts, "ratio")


@given(
    st.floats(0.02, 0.98),
    st.floats(0.02, 1.2),
    st.sampled_from(
        [
            (lambda p: log(p / (1 - p)), lambda x: 1 / (1 + exp(-x))),
            (log, lambda x: min(exp(x), 1.0)),
            (lambda p: log(1 - p), lambda x: max(1 - exp(x), 0.0)),
            (lambda p: log(-log(p)), lambda x: exp(-exp(x))),
            (lambda p: p, lambda x: min(max(x, 0.0), 1.0)),
        ]
    ),
    st.integers(0, 2),
)
def test_interval_made_on_any_scale_of_a_proportion_is_never_off_centre(share, half, scale, decimals: int) -> None:
    there, back = scale
    limits = sorted(back(there(share) + side * half) for side in (-1, 1))
    texts = [printed(100 * value, decimals) for value in (share, *limits)]
    assert not off_centre(*texts, "proportion")


def test_p_from_a_published_ratio() -> None:
    # Altman and Bland 2011, BMJ 343:d2304 (from memory): risk ratio .81 (.70 to .94) gives P = .005
    assert p_from_ratio_interval(0.81, 0.70, 0.94) == pytest.approx(0.005, abs=5e-4)


def test_p_from_a_symmetric_interval_by_formula() -> None:
    z = log(2) / ((log(4) - log(1)) / (2 * 1.959964))
    assert p_from_ratio_interval(2, 1, 4) == pytest.approx(0.05, abs=1e-6)
    assert z == pytest.approx(1.959964)


@pytest.mark.parametrize(
    ("p", "estimate", "low", "high", "kind", "agrees"),
    [
        (".02", "2.9", "1.2", "7.1", "ratio", True),
        ("<.05", "2.9", "1.2", "7.1", "ratio", True),
        ("=0.019", "2.9", "1.2", "7.1", "ratio", True),
        (">.05", "2.9", "1.2", "7.1", "ratio", False),
        (".2", "2.9", "1.2", "7.1", "ratio", False),
        ("<.001", "2.9", "1.2", "7.1", "ratio", False),
        (".003", "2.26", "1.33", "3.85", "ratio", True),  # Li 2015
        ("<.00001", "2.88", "1.86", "4.44", "ratio", True),
        (".02", "3.43", "1.17", "10.05", "ratio", True),  # Cabanillas 2020: .0247
        (".001", "1.87", "1.28", "2.73", "ratio", True),  # Wang 2022, retracted, and every number fits
        (".01", "1.77", "1.14", "2.73", "ratio", True),
        (".04", "-0.5", "-1.0", "-0.02", "difference", True),
        (".4", "-0.5", "-1.0", "-0.02", "difference", False),
        (">.9", "1.0", "0.5", "2.0", "ratio", True),
        ("<.05", "2.86", "1.56", "5.24", "ratio", True),  # de Chevigny 2008 prints P <= .05
        (".5", "0.0", "0.0", "0.0", "ratio", True),  # nothing can be said
    ],
)
def test_p_against_its_interval(p: str, estimate: str, low: str, high: str, kind: str, agrees: bool) -> None:
    assert p_agrees_with_interval(p, estimate, low, high, kind) is agrees


def test_slack_forgives_another_test_of_the_same_model() -> None:
    assert not p_agrees_with_interval(".03", "2.9", "1.2", "7.1")
    assert p_agrees_with_interval(".03", "2.9", "1.2", "7.1", slack=0.1)


@given(st.floats(0.2, 5), st.floats(0.05, 1))
def test_p_computed_from_full_precision_agrees_once_all_is_rounded(ratio: float, error: float) -> None:
    low, high = ratio * exp(-1.959964 * error), ratio * exp(1.959964 * error)
    p = p_from_ratio_interval(ratio, low, high)
    assert p_agrees_with_interval(printed(p, 3), printed(ratio, 2), printed(low, 2), printed(high, 2))


@pytest.mark.parametrize(
    ("measure", "value", "agrees"),
    [
        # Chong 2003 at 12 months: 10 of 64 failed against 14 of 58 (counts derived from printed n and %)
        ("risk ratio", "0.65", True),
        ("risk ratio", "0.64", False),
        ("odds ratio", "0.58", True),
        ("odds ratio", "1.72", False),  # the other way round
        ("risk difference", "-0.085", True),
        ("risk difference", "-8.5%", True),
        ("prevented fraction", "35%", True),
        ("prevented fraction", ".35", True),
        ("prevented fraction", "40%", False),
    ],
)
def test_ratio_against_its_table(measure: str, value: str, agrees: bool) -> None:
    assert ratio_from_table_agrees(measure, value, TwoByTwo(10, 64, 14, 58)) is agrees


def test_crude_odds_ratio_is_not_the_adjusted_one() -> None:
    # Farzaneh 2004: 89 % against 42 % healed gives 11.2; the 26.5 that is printed is adjusted
    table = TwoByTwo(58, 100, 11, 100)
    assert ratio_from_table_agrees("odds ratio", "11.2", table)
    assert not ratio_from_table_agrees("odds ratio", "26.5", table)


def test_empty_cell_agrees_with_and_without_the_half() -> None:
    table = TwoByTwo(0, 20, 4, 20)
    corrected = 0.5 * 16.5 / (20.5 * 4.5)
    assert ratio_from_table_agrees("odds ratio", printed(corrected, 3), table)
    assert ratio_from_table_agrees("odds ratio", "0.00", table)
    assert not ratio_from_table_agrees("odds ratio", "0.5", table)


@pytest.mark.parametrize(
    ("sd", "minimum", "maximum", "count", "exceeds"),
    [
        ("25", "12", "60", None, False),
        ("36", "12", "60", None, True),  # at most 49 / sqrt(2) = 34.6, the rounding of both ends included
        ("26", "12", "60", 100, True),  # half at either end: 24.6
        ("24", "12", "60", 100, False),
        (24.0, 12, 60, 100, False),
        ("1", "60", "12", None, False),
        ("0.7", "0", "1", 2, False),  # two values: sd .7071
        ("0.9", "0.0", "1.0", 2, True),
    ],
)
def test_standard_deviation_against_its_range(sd, minimum, maximum, count, exceeds: bool) -> None:
    assert sd_exceeds_range(sd, minimum, maximum, count) is exceeds


@given(st.lists(st.integers(0, 100), min_size=2, max_size=30))
def test_no_sample_exceeds_its_own_range(values: list[int]) -> None:
    mean = sum(values) / len(values)
    sd = sqrt(sum((value - mean) ** 2 for value in values) / (len(values) - 1))
    assert not sd_exceeds_range(sd, min(values), max(values), len(values))
    assert not sd_exceeds_range(sd, min(values), max(values))


def test_text_and_kind_that_cannot_be_read_are_named() -> None:
    with pytest.raises(ValueError, match="not a number"):
        interval_fits_counts(3, 4, "a third", "90")
    with pytest.raises(ValueError, match="kind"):
        off_centre("1", "0", "2", "mean")
    with pytest.raises(ValueError, match="kind"):
        p_agrees_with_interval(".02", "1", "0", "2", "proportion")
    with pytest.raises(ValueError, match="measure"):
        ratio_from_table_agrees("hazard ratio", "2", TwoByTwo(1, 2, 1, 2))
    with pytest.raises(ValueError, match="ratio"):
        p_from_ratio_interval(2, 0, 4)
