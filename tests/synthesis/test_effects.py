"""Inverse-variance pooling."""

from math import log, sqrt

import numpy as np
import pytest
from hypothesis import given, strategies as st
from passageproof.synthesis import Refusal, pooled_effect
from statsmodels.stats.meta_analysis import combine_effects

STUDIES = st.lists(
    st.tuples(st.floats(-3, 3).map(lambda x: round(x, 3)), st.floats(0.05, 2).map(lambda x: round(x, 3))),
    min_size=2,
    max_size=12,
)
INTERVALS = ("normal", "knapp-hartung", "truncated-knapp-hartung")
MODELS = ("random", "common")


# statsmodels divides by Q, which is 0 for equal effects
@given(STUDIES.filter(lambda studies: len({effect for effect, _ in studies}) > 1))
def test_common_effect_and_heterogeneity_agree_with_statsmodels(studies) -> None:
    effects, errors = zip(*studies, strict=True)
    found = pooled_effect(effects, errors, model="common")
    other = combine_effects(np.array(effects), np.array(errors) ** 2, method_re="iterated")
    assert found.estimate == pytest.approx(other.mean_effect_fe, abs=1e-10)
    assert found.standard_error == pytest.approx(other.sd_eff_w_fe, rel=1e-10)
    assert found.q == pytest.approx(other.q, abs=1e-8)


@given(STUDIES, st.randoms(use_true_random=False), st.sampled_from(MODELS))
def test_order_of_studies_does_not_matter(studies, random, model: str) -> None:
    shuffled = list(studies)
    random.shuffle(shuffled)
    one, other = (pooled_effect(*zip(*rows, strict=True), model=model) for rows in (studies, shuffled))
    assert other.estimate == pytest.approx(one.estimate, abs=1e-8)
    assert other.interval == pytest.approx(one.interval, abs=1e-7)
    assert other.tau_squared == pytest.approx(one.tau_squared, rel=1e-6, abs=1e-9)


@given(STUDIES, st.sampled_from(INTERVALS), st.sampled_from(MODELS))
def test_estimate_lies_inside_its_interval(studies, interval: str, model: str) -> None:
    found = pooled_effect(*zip(*studies, strict=True), model=model, interval=interval)
    if found:
        assert found.interval.low <= found.estimate <= found.interval.high


@given(STUDIES)
def test_estimate_lies_within_the_studies(studies) -> None:
    effects, errors = zip(*studies, strict=True)
    for model in MODELS:
        estimate = pooled_effect(effects, errors, model=model).estimate
        assert min(effects) - 1e-9 <= estimate <= max(effects) + 1e-9


@given(STUDIES, st.sampled_from(MODELS))
def test_opposite_effects_mirror_the_pool(studies, model: str) -> None:
    effects, errors = zip(*studies, strict=True)
    one = pooled_effect(effects, errors, model=model)
    other = pooled_effect([-effect for effect in effects], errors, model=model)
    assert other.estimate == pytest.approx(-one.estimate, abs=1e-9)
    assert other.interval == pytest.approx((-one.interval.high, -one.interval.low), abs=1e-8)


@given(STUDIES)
def test_ten_times_the_patients_tighten_the_common_effect(studies) -> None:
    effects, errors = zip(*studies, strict=True)
    one = pooled_effect(effects, errors, model="common")
    ten = pooled_effect(effects, [error / sqrt(10) for error in errors], model="common")
    assert ten.standard_error == pytest.approx(one.standard_error / sqrt(10))


@given(STUDIES)
def test_truncated_interval_is_never_narrower_than_knapp_hartung_or_its_own_normal_error(studies) -> None:
    effects, errors = zip(*studies, strict=True)
    normal, plain, truncated = (pooled_effect(effects, errors, interval=interval) for interval in INTERVALS)
    assert truncated.standard_error >= normal.standard_error * (1 - 1e-12)
    if plain:
        assert truncated.standard_error == pytest.approx(max(normal.standard_error, plain.standard_error))


@pytest.mark.parametrize("studies", [2, 3, 8])
def test_equal_studies_pool_to_themselves(studies: int) -> None:
    found = pooled_effect([0.4] * studies, [0.3] * studies)
    assert found.estimate == pytest.approx(0.4)
    assert found.standard_error == pytest.approx(0.3 / sqrt(studies))
    assert (found.tau_squared, found.q, found.i_squared) == (0, 0, 0)
    assert found.tau_squared_interval is None
    assert any("less than chance" in note for note in found.notes)


def test_equal_studies_have_no_knapp_hartung_interval() -> None:
    refused = pooled_effect([0.4] * 3, [0.3] * 3, interval="knapp-hartung")
    assert isinstance(refused, Refusal)
    assert "no width" in refused.reason


def test_one_study_is_given_back_by_the_common_model_and_refused_by_the_random_one() -> None:
    found = pooled_effect([log(2.9)], [0.4535], model="common")
    assert (found.estimate, found.standard_error) == pytest.approx((log(2.9), 0.4535))
    assert found.i_squared is None
    assert isinstance(pooled_effect([log(2.9)], [0.4535]), Refusal)


def test_common_model_has_a_normal_interval_whatever_was_asked() -> None:
    found = pooled_effect([0.1, 0.9], [0.2, 0.3], model="common", interval="knapp-hartung")
    assert found.interval.high - found.estimate == pytest.approx(1.959964 * found.standard_error)
    assert found.prediction_interval is None
    assert found.tau_squared == 0


def test_prediction_interval_begins_at_three_studies() -> None:
    assert pooled_effect([0.1, 0.9], [0.2, 0.3]).prediction_interval is None
    assert pooled_effect([0.1, 0.9, 0.4], [0.2, 0.3, 0.3]).prediction_interval is not None


def test_dersimonian_laird_and_our_pool_of_three_perforation_series() -> None:
    # 18 of 21, 66 of 90 and 101 of 110 healed (Mente 2010, Krupp 2013, Gorni 2016); worked by hand and with R: Q
    # 11.377, I2 82.4 %, tau squared .6290 by DerSimonian and Laird 1986, Control Clin Trials 7:177-188 (from memory).
    # The guide would decline to show such a pool.
    counts = [(18, 21), (66, 90), (101, 110)]
    effects = [log(x / (n - x)) for x, n in counts]
    errors = [sqrt(1 / x + 1 / (n - x)) for x, n in counts]
    found = pooled_effect(effects, errors, model="common", scale="logit")
    assert found.natural().estimate == pytest.approx(0.8162, abs=5.1e-5)
    assert found.q == pytest.approx(11.377, abs=5e-4)
    assert found.i_squared == pytest.approx(0.824, abs=5e-4)
    weights = [error**-2 for error in errors]
    excess = found.q - 2
    dersimonian_laird = excess / (sum(weights) - sum(w * w for w in weights) / sum(weights))
    assert dersimonian_laird == pytest.approx(0.6290, abs=5e-5)
    widened = pooled_effect(
        effects, [sqrt(error**2 + dersimonian_laird) for error in errors], model="common", scale="logit"
    )
    assert widened.natural()[:2] == (pytest.approx(0.8470, abs=5e-5), pytest.approx((0.6688, 0.9382), abs=5e-5))


@pytest.mark.parametrize(
    ("counts", "pool"),
    [
        # by R 4.2, metafor 3.8-1: four series without, then with one whose patients are counted twice
        ([(18, 21), (66, 90), (115, 124), (41, 44)], (0.8749, 0.7309, 0.9474)),
        ([(18, 21), (66, 90), (101, 110), (115, 124), (41, 44)], (0.8851, 0.7802, 0.9436)),
    ],
)
def test_dersimonian_laird_of_perforation_series_with_and_without_counting_twice(counts, pool) -> None:
    effects = [log(x / (n - x)) for x, n in counts]
    variances = [1 / x + 1 / (n - x) for x, n in counts]
    weights = [1 / variance for variance in variances]
    q = pooled_effect(effects, [sqrt(v) for v in variances], model="common").q
    tau_squared = (q - len(counts) + 1) / (sum(weights) - sum(w * w for w in weights) / sum(weights))
    widened = [sqrt(variance + tau_squared) for variance in variances]
    found = pooled_effect(effects, widened, model="common", scale="logit").natural()
    assert (found.estimate, *found.interval) == pytest.approx(pool, abs=5.1e-5)


def test_hartung_knapp_of_the_three_series_is_nearly_empty() -> None:
    # the same worked example prints .4670 to .9722 by t with 2 degrees of freedom, at DerSimonian-Laird's tau squared
    counts = [(18, 21), (66, 90), (101, 110)]
    effects = [log(x / (n - x)) for x, n in counts]
    errors = [sqrt(1 / x + 1 / (n - x) + 0.6290) for x, n in counts]
    found = pooled_effect(effects, errors, interval="knapp-hartung", scale="logit")
    assert found.tau_squared == pytest.approx(0, abs=0.2)
    assert found.natural().interval == pytest.approx((0.4670, 0.9722), abs=5e-3)


@pytest.mark.parametrize(
    ("effects", "errors", "named"),
    [
        ([], [], "no study"),
        ([0.1], [0.1, 0.2], "one item a study"),
        ([0.1, 0.2], [0.1, 0.0], "standard error"),
        ([0.1, 0.2], [0.1, -1.0], "standard error"),
        ([0.1, float("nan")], [0.1, 0.1], "effect"),
        ([0.1, "0.2"], [0.1, 0.1], "effect"),
        ([0.1, 0.2], [0.1, 1e-150], "too small"),
    ],
)
def test_impossible_studies_are_named(effects, errors, named: str) -> None:
    with pytest.raises(ValueError, match=named):
        pooled_effect(effects, errors)


@pytest.mark.parametrize("wrong", [{"model": "fixed"}, {"interval": "t"}, {"scale": "raw"}, {"confidence": 95}])
def test_unknown_choices_are_named(wrong) -> None:
    with pytest.raises(ValueError, match=next(iter(wrong))):
        pooled_effect([0.1, 0.2], [0.1, 0.1], **wrong)
