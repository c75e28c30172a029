"""Two arms of one study."""

from math import exp, log, sqrt

import pytest
from hypothesis import given, strategies as st
from passageproof.synthesis import TwoByTwo, contrast, newcombe_interval
from statsmodels.stats.contingency_tables import Table2x2
from statsmodels.stats.proportion import confint_proportions_2indep

MEASURES = ("odds ratio", "risk ratio", "risk difference")


@st.composite
def tables(draw: st.DrawFn, smallest: int = 1) -> TwoByTwo:
    total, reference_total = draw(st.integers(smallest, 200)), draw(st.integers(smallest, 200))
    return TwoByTwo(draw(st.integers(0, total)), total, draw(st.integers(0, reference_total)), reference_total)


def complement(table: TwoByTwo) -> TwoByTwo:
    return TwoByTwo(
        table.total - table.events,
        table.total,
        table.reference_total - table.reference_events,
        table.reference_total,
    )


def test_ratios_of_twenty_and_twenty_five_percent() -> None:
    # a page that was read divides by .33 and prints an odds ratio of .76; from full precision it is .75
    table = TwoByTwo(20, 100, 25, 100)
    assert exp(contrast(table, "risk ratio").estimate) == pytest.approx(0.80)
    assert exp(contrast(table, "odds ratio").estimate) == pytest.approx(0.75)
    assert contrast(table, "risk difference").estimate == pytest.approx(-0.05)


def test_standard_errors_by_formula() -> None:
    # Woolf 1955; Katz et al. 1978 (formulas from memory)
    table = TwoByTwo(10, 64, 14, 58)
    assert contrast(table, "odds ratio").standard_error == pytest.approx(sqrt(1 / 10 + 1 / 54 + 1 / 14 + 1 / 44))
    assert contrast(table, "risk ratio").standard_error == pytest.approx(sqrt(1 / 10 - 1 / 64 + 1 / 14 - 1 / 58))
    variance = 10 / 64 * 54 / 64 / 64 + 14 / 58 * 44 / 58 / 58
    assert contrast(table, "risk difference").standard_error == pytest.approx(sqrt(variance))


@given(tables())
def test_log_ratios_agree_with_statsmodels(table: TwoByTwo) -> None:
    a, n, c, m = table
    cells = [[a, n - a], [c, m - c]]
    if 0 in cells[0] + cells[1]:
        cells = [[cell + 0.5 for cell in row] for row in cells]
    other = Table2x2(cells, shift_zeros=False)
    for measure, estimate, error in (
        ("odds ratio", other.log_oddsratio, other.log_oddsratio_se),
        ("risk ratio", other.log_riskratio, other.log_riskratio_se),
    ):
        found = contrast(table, measure)
        assert found.estimate == pytest.approx(estimate, abs=1e-9)
        assert found.standard_error == pytest.approx(error, abs=1e-9)


@given(tables(), st.sampled_from(MEASURES))
def test_estimate_lies_inside_its_interval(table: TwoByTwo, measure: str) -> None:
    found = contrast(table, measure)
    assert found.interval.low < found.estimate < found.interval.high or found.estimate in (-1, 1)


@given(tables(), st.sampled_from(("odds ratio", "risk difference")))
def test_complement_mirrors_odds_ratio_and_difference(table: TwoByTwo, measure: str) -> None:
    one, other = contrast(table, measure), contrast(complement(table), measure)
    assert other.estimate == pytest.approx(-one.estimate, abs=1e-12)
    assert other.standard_error == pytest.approx(one.standard_error, abs=1e-12)
    assert other.interval == pytest.approx((-one.interval.high, -one.interval.low), abs=1e-12)


def test_complement_does_not_mirror_a_risk_ratio() -> None:
    table = TwoByTwo(90, 100, 80, 100)
    one, other = contrast(table, "risk ratio"), contrast(complement(table), "risk ratio")
    assert exp(one.estimate) == pytest.approx(1.125)
    assert exp(other.estimate) == pytest.approx(0.5)


@given(tables().filter(lambda table: 0 not in (*table, *complement(table))), st.sampled_from(MEASURES))
def test_ten_times_the_counts_tightens_the_contrast_of_filled_cells(table: TwoByTwo, measure: str) -> None:
    one, ten = contrast(table, measure), contrast(TwoByTwo(*(10 * count for count in table)), measure)
    assert ten.interval.high - ten.interval.low < one.interval.high - one.interval.low


@given(tables(), st.sampled_from(MEASURES))
def test_exchanged_arms_change_the_sign(table: TwoByTwo, measure: str) -> None:
    a, n, c, m = table
    assert contrast(TwoByTwo(c, m, a, n), measure).estimate == pytest.approx(-contrast(table, measure).estimate)


def test_half_is_added_only_where_a_cell_is_empty() -> None:
    # CONVENTIONS of the reference values: only in studies with an empty cell, never for a difference
    assert not contrast(TwoByTwo(1, 10, 3, 10), "odds ratio").corrected
    empty = contrast(TwoByTwo(0, 10, 3, 10), "odds ratio")
    assert empty.corrected
    assert empty.estimate == pytest.approx(log(0.5 * 7.5 / (10.5 * 3.5)))
    difference = contrast(TwoByTwo(0, 10, 3, 10), "risk difference")
    assert not difference.corrected
    assert difference.estimate == pytest.approx(-0.3)


def test_difference_without_variance_keeps_an_honest_interval() -> None:
    # Newcombe 1998, Stat Med 17:873-890, method 10: from the Wilson limits 0 to .2775 of 0/10 and 0 to .2589 of 0/11
    found = contrast(TwoByTwo(0, 10, 0, 11), "risk difference")
    assert found.standard_error == 0
    assert found.interval == pytest.approx((-0.2588, 0.2775), abs=2e-4)


@pytest.mark.parametrize(
    "table", [(5, 4, 1, 4), (1, 4, 5, 4), (0, 0, 1, 4), (1, 4, 0, 0), (-1, 4, 1, 4), (1.5, 4, 1, 4), ("1", 4, 1, 4)]
)
def test_impossible_tables_are_named(table) -> None:
    with pytest.raises(ValueError, match=r"events|total"):
        contrast(TwoByTwo(*table), "odds ratio")


def test_other_measures_are_named() -> None:
    with pytest.raises(ValueError, match="measure must be one of"):
        contrast(TwoByTwo(1, 4, 1, 4), "hazard ratio")


@pytest.mark.parametrize(
    ("table", "limits"),
    [
        # Newcombe 1998, Stat Med 17:873, Table II, method 10, as the tests of m-Py/propint quote it
        (TwoByTwo(56, 70, 48, 80), (0.0524, 0.3339)),
        (TwoByTwo(9, 10, 3, 10), (0.1705, 0.8090)),
    ],
)
def test_newcombe_interval_as_published(table: TwoByTwo, limits: tuple[float, float]) -> None:
    assert newcombe_interval(table) == pytest.approx(limits, abs=1e-4)


@given(tables())
def test_newcombe_interval_agrees_with_statsmodels(table: TwoByTwo) -> None:
    other = confint_proportions_2indep(*(table.events, table.total), *(table.reference_events, table.reference_total),
                                       method="newcomb")  # fmt: skip
    assert newcombe_interval(table) == pytest.approx(other, abs=1e-9)


@given(tables())
def test_newcombe_interval_is_mirrored_by_the_complement(table: TwoByTwo) -> None:
    one, other = newcombe_interval(table), newcombe_interval(complement(table))
    assert other == pytest.approx((-one.high, -one.low), abs=1e-12)
    assert -1 <= one.low <= one.high <= 1
