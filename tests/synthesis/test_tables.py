"""Pooling of two-by-two tables."""

from math import exp, log

import pytest
from hypothesis import given, strategies as st
from passageproof.synthesis import Refusal, TwoByTwo, contrast, pooled_tables
from statsmodels.stats.contingency_tables import StratifiedTable

MEASURES = ("odds ratio", "risk ratio", "risk difference")
TANG = [TwoByTwo(10, 64, 14, 58), TwoByTwo(4, 50, 7, 50)]


@st.composite
def table(draw: st.DrawFn) -> TwoByTwo:
    total, reference_total = draw(st.integers(2, 150)), draw(st.integers(2, 150))
    return TwoByTwo(draw(st.integers(1, total - 1)), total, draw(st.integers(1, reference_total - 1)), reference_total)


TABLES = st.lists(table(), min_size=2, max_size=8)


def complement(row: TwoByTwo) -> TwoByTwo:
    return TwoByTwo(row.total - row.events, row.total, row.reference_total - row.reference_events, row.reference_total)


def test_published_risk_ratio_of_failure_is_reproduced() -> None:
    # Tang 2010, Quintessence Int 41:557-566, MTA against IRM: .62 (.34 to 1.16), as in the Cochrane review of the same
    # trials. Chong 2003 at 12 months from printed n and %; the row of Lindeboom 2005 is from memory.
    assert pooled_tables(TANG, "risk ratio").q == pytest.approx(0.0318, abs=5e-5)  # by R
    found = pooled_tables(TANG, "risk ratio").natural()
    assert found.estimate == pytest.approx(0.6228, abs=5e-5)
    assert found.interval == pytest.approx((0.3353, 1.1568), abs=5e-5)
    assert [f"{value:.2f}" for value in (found.estimate, *found.interval)] == ["0.62", "0.34", "1.16"]


def test_other_visit_of_the_same_trial_gives_another_pool() -> None:
    # Chong 2003 at 24 months, 5 of 61 against 6 of 47 from printed n and %: R gives .6062 (.2701 to 1.3607)
    found = pooled_tables([TwoByTwo(5, 61, 6, 47), TANG[1]], "risk ratio").natural()
    assert (found.estimate, *found.interval) == pytest.approx((0.6062, 0.2701, 1.3607), abs=5e-5)


def test_inverse_variance_of_the_same_trials_prints_another_digit() -> None:
    # R 4.2 with metafor 3.8-1: .625 (.3368 to 1.1597), I2 0
    found = pooled_tables(TANG, "risk ratio", "inverse-variance", interval="normal")
    assert found.natural().estimate == pytest.approx(0.625, abs=5e-4)
    assert found.natural().interval == pytest.approx((0.3368, 1.1597), abs=5e-5)
    assert found.i_squared == 0


@given(TABLES)
def test_mantel_haenszel_odds_ratio_agrees_with_statsmodels(tables: list[TwoByTwo]) -> None:
    other = StratifiedTable([[[a, n - a], [c, m - c]] for a, n, c, m in tables])
    found = pooled_tables(tables, "odds ratio")
    assert found.estimate == pytest.approx(other.logodds_pooled, abs=1e-9)
    assert found.standard_error == pytest.approx(other.logodds_pooled_se, rel=1e-9)


@given(table(), st.sampled_from(MEASURES))
def test_one_table_pools_to_its_own_contrast(row: TwoByTwo, measure: str) -> None:
    own = contrast(row, measure)
    assert pooled_tables([row], measure).estimate == pytest.approx(own.estimate, abs=1e-9)
    common = pooled_tables([row], measure, "inverse-variance", model="common")
    assert (common.estimate, common.standard_error) == pytest.approx((own.estimate, own.standard_error))
    assert isinstance(pooled_tables([row], measure, "inverse-variance"), Refusal)


@given(table(), st.integers(2, 6), st.sampled_from(MEASURES))
def test_equal_tables_pool_to_themselves(row: TwoByTwo, count: int, measure: str) -> None:
    own = contrast(row, measure).estimate
    for method in ("mantel-haenszel", "inverse-variance"):
        assert pooled_tables([row] * count, measure, method).estimate == pytest.approx(own, abs=1e-9)


@given(TABLES, st.randoms(use_true_random=False), st.sampled_from(MEASURES))
def test_order_of_tables_does_not_matter(tables: list[TwoByTwo], random, measure: str) -> None:
    shuffled = list(tables)
    random.shuffle(shuffled)
    for method in ("mantel-haenszel", "inverse-variance"):
        one, other = pooled_tables(tables, measure, method), pooled_tables(shuffled, measure, method)
        assert other.estimate == pytest.approx(one.estimate, abs=1e-8)
        assert other.interval == pytest.approx(one.interval, abs=1e-7)


@given(TABLES, st.sampled_from(("odds ratio", "risk difference")))
def test_complement_mirrors_odds_ratio_and_difference(tables: list[TwoByTwo], measure: str) -> None:
    mirrored = [complement(row) for row in tables]
    methods = ("mantel-haenszel", "inverse-variance") + (("peto",) if measure == "odds ratio" else ())
    for method in methods:
        one, other = pooled_tables(tables, measure, method), pooled_tables(mirrored, measure, method)
        assert other.estimate == pytest.approx(-one.estimate, abs=1e-8)
        assert other.standard_error == pytest.approx(one.standard_error, rel=1e-7)


def test_complement_does_not_mirror_a_risk_ratio() -> None:
    one = pooled_tables(TANG, "risk ratio").natural().estimate
    other = pooled_tables([complement(row) for row in TANG], "risk ratio").natural().estimate
    assert other != pytest.approx(1 / one, abs=0.1)


@given(TABLES, st.sampled_from(MEASURES))
def test_ten_times_the_counts_tightens_the_common_effect(tables: list[TwoByTwo], measure: str) -> None:
    ten_times = [TwoByTwo(*(10 * count for count in row)) for row in tables]
    assert pooled_tables(ten_times, measure).standard_error < pooled_tables(tables, measure).standard_error


@given(TABLES, st.sampled_from(MEASURES))
def test_estimate_lies_inside_its_interval(tables: list[TwoByTwo], measure: str) -> None:
    found = pooled_tables(tables, measure)
    assert found.interval.low < found.estimate < found.interval.high


def test_peto_by_observed_minus_expected() -> None:
    # Yusuf et al. 1985, Prog Cardiovasc Dis 27:335-371 (formula from memory)
    observed, expected = 10 + 4, 64 * 24 / 122 + 50 * 11 / 100
    variance = 64 * 58 * 24 * 98 / (122**2 * 121) + 50 * 50 * 11 * 89 / (100**2 * 99)
    found = pooled_tables(TANG, "odds ratio", "peto")
    assert found.estimate == pytest.approx((observed - expected) / variance)
    assert found.standard_error == pytest.approx(variance**-0.5)


def test_studies_that_say_nothing_are_left_out_and_listed() -> None:
    tables = [TwoByTwo(0, 10, 0, 11), *TANG, TwoByTwo(20, 20, 22, 22)]
    for method in ("mantel-haenszel", "peto", "inverse-variance"):
        found = pooled_tables(tables, "odds ratio", method)
        assert (found.left_out, found.studies) == ((0, 3), 2)
        assert found.estimate == pytest.approx(pooled_tables(TANG, "odds ratio", method).estimate)
        assert any("2 studies with 0 % or 100 %" in note for note in found.notes)


def test_everybody_with_the_event_counts_in_the_mantel_haenszel_risk_ratio_alone() -> None:
    # reference values, convention 4.2: there as a risk ratio of 1; inverse variance leaves it out
    tables = [*TANG, TwoByTwo(20, 20, 22, 22)]
    assert pooled_tables(tables, "risk ratio").left_out == ()
    assert pooled_tables(tables, "risk ratio", "inverse-variance").left_out == (2,)
    assert abs(pooled_tables(tables, "risk ratio").estimate) < abs(pooled_tables(TANG, "risk ratio").estimate)


def test_difference_keeps_studies_without_events_by_mantel_haenszel_alone() -> None:
    tables = [TwoByTwo(0, 10, 0, 11), *TANG]
    assert pooled_tables(tables, "risk difference").left_out == ()
    assert pooled_tables(tables, "risk difference", "inverse-variance").left_out == (0,)


def test_nothing_is_added_to_an_empty_cell_by_mantel_haenszel() -> None:
    tables = [TwoByTwo(0, 20, 4, 20), TwoByTwo(3, 30, 6, 30)]
    ratio = (0 * 16 / 40 + 3 * 24 / 60) / (20 * 4 / 40 + 27 * 6 / 60)
    assert pooled_tables(tables, "odds ratio").estimate == pytest.approx(log(ratio))


def test_added_halves_are_said() -> None:
    tables = [TwoByTwo(0, 20, 4, 20), *TANG]
    found = pooled_tables(tables, "odds ratio", "inverse-variance")
    assert "0.5 was added to each cell of 1 study with an empty cell." in found.notes


@pytest.mark.parametrize(
    ("tables", "measure", "method"),
    [
        ([TwoByTwo(0, 10, 0, 11)], "odds ratio", "mantel-haenszel"),
        ([TwoByTwo(0, 10, 0, 11)], "odds ratio", "peto"),
        ([TwoByTwo(0, 10, 0, 11)], "risk ratio", "mantel-haenszel"),
        ([TwoByTwo(0, 10, 0, 11)], "risk difference", "mantel-haenszel"),
        ([TwoByTwo(0, 10, 0, 11)], "risk difference", "inverse-variance"),
        ([TwoByTwo(10, 10, 11, 11)], "risk ratio", "mantel-haenszel"),
        ([TwoByTwo(0, 10, 3, 11)], "odds ratio", "mantel-haenszel"),
        ([TwoByTwo(0, 10, 3, 11)], "risk ratio", "mantel-haenszel"),
    ],
)
def test_what_cannot_be_estimated_is_refused_with_a_sentence(tables, measure: str, method: str) -> None:
    refused = pooled_tables(tables, measure, method)
    assert isinstance(refused, Refusal)
    assert refused.reason.endswith(".")


def test_odds_ratio_of_a_risk_ratio_is_another_number() -> None:
    odds, risk = (exp(pooled_tables(TANG, measure).estimate) for measure in ("odds ratio", "risk ratio"))
    assert odds < risk < 1


@pytest.mark.parametrize(
    ("arguments", "named"),
    [
        ((TANG, "hazard ratio"), "measure"),
        ((TANG, "odds ratio", "fixed"), "method"),
        ((TANG, "risk ratio", "peto"), "Peto"),
        (([], "odds ratio"), "no table"),
        (([TwoByTwo(5, 4, 1, 4)], "odds ratio"), "events"),
        ((TANG, "odds ratio", "inverse-variance", "fixed"), "model"),
    ],
)
def test_impossible_arguments_are_named(arguments, named: str) -> None:
    with pytest.raises(ValueError, match=named):
        pooled_tables(*arguments)
