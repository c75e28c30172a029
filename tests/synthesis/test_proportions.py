"""Pooling of single-arm proportions."""

from math import sqrt

import pytest
from hypothesis import given, strategies as st
from passageproof.synthesis import Refusal, exact_interval, pooled_proportion

STUDIES = st.lists(
    st.integers(2, 120).flatmap(lambda total: st.tuples(st.integers(0, total), st.just(total))), min_size=2, max_size=8
)
METHODS = ("glmm", "two-step", "summed")


@given(STUDIES, st.sampled_from(METHODS))
def test_complement_mirrors_the_pool(studies, method: str) -> None:
    events, totals = zip(*studies, strict=True)
    one = pooled_proportion(events, totals, method)
    other = pooled_proportion([n - x for x, n in studies], totals, method)
    assert isinstance(one, Refusal) == isinstance(other, Refusal)
    if one:
        plain, mirrored = one.natural(), other.natural()
        assert mirrored.estimate == pytest.approx(1 - plain.estimate, abs=1e-6)
        assert mirrored.interval == pytest.approx((1 - plain.interval.high, 1 - plain.interval.low), abs=1e-6)


@given(STUDIES, st.randoms(use_true_random=False), st.sampled_from(METHODS))
def test_order_of_studies_does_not_matter(studies, random, method: str) -> None:
    shuffled = list(studies)
    random.shuffle(shuffled)
    one, other = (pooled_proportion(*zip(*rows, strict=True), method) for rows in (studies, shuffled))
    assert isinstance(one, Refusal) == isinstance(other, Refusal)
    if one:
        assert other.estimate == pytest.approx(one.estimate, abs=1e-6)
        assert other.standard_error == pytest.approx(one.standard_error, rel=1e-5)


@given(STUDIES, st.sampled_from(METHODS))
def test_estimate_lies_inside_its_interval_and_between_0_and_1(studies, method: str) -> None:
    found = pooled_proportion(*zip(*studies, strict=True), method)
    if found:
        natural = found.natural()
        assert 0 <= natural.interval.low <= natural.estimate <= natural.interval.high <= 1


@given(st.integers(2, 60).flatmap(lambda n: st.tuples(st.integers(1, n - 1), st.just(n))), st.integers(2, 7))
def test_equal_studies_pool_to_themselves(study: tuple[int, int], count: int) -> None:
    events, total = study
    for method in METHODS:
        found = pooled_proportion([events] * count, [total] * count, method)
        assert found.natural().estimate == pytest.approx(events / total)
        assert found.tau_squared in (0, None)


def test_ten_times_the_counts_tightens_equal_studies() -> None:
    for method in METHODS:
        one, ten = pooled_proportion([8, 8], [10, 10], method), pooled_proportion([80, 80], [100, 100], method)
        assert ten.standard_error == pytest.approx(one.standard_error / sqrt(10))


def test_three_perforation_series_give_a_useless_prediction_interval() -> None:
    # Mente 2010, Krupp 2013, Gorni 2016; by R's coarse quadrature: mean logit 1.725, .8488, tau squared .314. The guide
    # prints the rows.
    found = pooled_proportion([18, 66, 101], [21, 90, 110])
    assert found.estimate == pytest.approx(1.725, abs=5e-4)
    assert found.natural().estimate == pytest.approx(0.8488, abs=5e-5)
    assert found.tau_squared == pytest.approx(0.314, abs=1e-3)
    low, high = found.natural().prediction_interval
    assert low < 0.01
    assert high > 0.99


@pytest.mark.parametrize(
    ("events", "totals", "summed", "glmm"),
    [
        # By R 4.2, metafor 3.8-1, on counts that were read: Mente 2010, Krupp 2013, Gorni 2022 and a registered trial.
        # Their definitions differ: for computation only, not a clinical estimate.
        ([18, 66, 115, 41], [21, 90, 124, 44], 0.8602, 0.8775),
        # the same with Gorni 2016, whose patients are in Gorni 2022: the mistake of counting twice
        ([18, 66, 101, 115, 41], [21, 90, 110, 124, 44], 0.8766, 0.8879),
    ],
)
def test_pool_with_and_without_counting_twice(events, totals, summed: float, glmm: float) -> None:
    assert pooled_proportion(events, totals, "summed").estimate == pytest.approx(summed, abs=5e-5)
    assert pooled_proportion(events, totals).natural().estimate == pytest.approx(glmm, abs=5.1e-5)


@pytest.mark.parametrize(
    ("events", "totals", "estimate", "low", "high"),
    [
        ([18, 66, 115, 41], [21, 90, 124, 44], 0.8733, 0.7497, 0.9407),
        ([18, 66, 101, 115, 41], [21, 90, 110, 124, 44], 0.8839, 0.7938, 0.9377),
    ],
)
def test_logit_and_reml_of_the_same_pools(events, totals, estimate: float, low: float, high: float) -> None:
    # R's normal intervals of the two-step logits; two-step itself prints the truncated Knapp-Hartung one
    from passageproof.synthesis import pooled_effect
    from scipy.special import logit

    effects = [float(logit(x / n)) for x, n in zip(events, totals, strict=True)]
    errors = [sqrt(1 / x + 1 / (n - x)) for x, n in zip(events, totals, strict=True)]
    found = pooled_effect(effects, errors, interval="normal", scale="logit").natural()
    assert (found.estimate, *found.interval) == pytest.approx((estimate, low, high), abs=5.1e-5)
    assert pooled_proportion(events, totals, "two-step").natural().estimate == pytest.approx(estimate, abs=5.1e-5)


def test_simply_added_counts_of_a_review_are_not_what_it_prints() -> None:
    # Pisano 2023, Healthcare 11:11: 39 of 44 and 36 of 42 survive, 75 of 86 is 87.2 %; the abstract prints 86.7 %
    found = pooled_proportion([39, 36], [44, 42], "summed")
    assert found.estimate == pytest.approx(0.8721, abs=5e-5)
    assert found.interval == exact_interval(75, 86)
    assert found.scale == "proportion"
    assert found.natural().estimate == found.estimate


def test_half_is_added_only_to_studies_at_an_end() -> None:
    found = pooled_proportion([20, 31, 18], [20, 33, 18], "two-step")
    assert "0.5 was added to the events and the non-events of 2 studies with 0 % or 100 %." in found.notes


def test_glmm_uses_no_correction_and_says_nothing_of_q() -> None:
    found = pooled_proportion([20, 31, 18, 44, 25], [20, 33, 18, 50, 26])
    assert (found.q, found.i_squared, found.tau_squared_interval) == (None, None, None)
    assert not any("0.5" in note for note in found.notes)


def test_caveat_stands_where_no_variation_was_seen() -> None:
    found = pooled_proportion([3, 6, 10, 1], [11, 17, 21, 6])
    assert found.tau_squared == 0
    assert any("deceptively narrow" in note for note in found.notes)


@pytest.mark.parametrize("method", ["glmm", "two-step"])
def test_one_study_is_refused(method: str) -> None:
    assert isinstance(pooled_proportion([18], [21], method), Refusal)


def test_one_study_summed_is_itself() -> None:
    assert pooled_proportion([18], [21], "summed").interval == exact_interval(18, 21)


def test_prediction_interval_begins_at_three_studies() -> None:
    assert pooled_proportion([18, 66], [21, 90]).prediction_interval is None


@pytest.mark.parametrize(
    ("events", "totals", "named"),
    [
        ([], [], "no study"),
        ([1], [2, 3], "one item a study"),
        ([3], [2], "events"),
        ([-1, 1], [2, 2], "events"),
        ([0, 1], [0, 2], "total"),
        (["1", 1], [2, 2], "events"),
        ([1.5, 1], [2, 2], "events"),
    ],
)
def test_impossible_studies_are_named(events, totals, named: str) -> None:
    for method in METHODS:
        with pytest.raises(ValueError, match=named):
            pooled_proportion(events, totals, method)


def test_unknown_method_is_named() -> None:
    with pytest.raises(ValueError, match="method"):
        pooled_proportion([1, 2], [3, 4], "freeman-tukey")
