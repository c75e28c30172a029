"""Variation between studies."""

import numpy as np
import pytest
from hypothesis import given, settings, strategies as st
from passageproof.synthesis.heterogeneity import (
    heterogeneity_from_q,
    q_profile_interval,
    reml_tau_squared,
    weighted_fit,
)
from scipy import optimize, stats

STUDIES = st.lists(
    st.tuples(st.floats(-3, 3).map(lambda x: round(x, 3)), st.floats(0.05, 2).map(lambda x: round(x, 3))),
    min_size=2,
    max_size=12,
)


def arrays(studies: list[tuple[float, float]]) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    effects, errors = np.array(studies).T
    return effects, errors**2, np.ones((len(studies), 1))


def restricted_likelihood(tau: float, effects: np.ndarray, variances: np.ndarray) -> float:
    """By its definition: the likelihood of contrasts of the effects (Harville 1974, Biometrika 61:383-385)."""
    contrasts = np.eye(len(effects))[1:] - np.eye(len(effects))[0]
    covariance = contrasts @ np.diag(variances + tau) @ contrasts.T
    return float(stats.multivariate_normal.logpdf(contrasts @ effects, cov=covariance))


@settings(max_examples=40)
@given(STUDIES)
def test_no_other_tau_squared_has_a_higher_restricted_likelihood(studies) -> None:
    effects, variances, ones = arrays(studies)
    best = restricted_likelihood(reml_tau_squared(effects, variances, ones), effects, variances)
    for tau in (0.0, *np.geomspace(1e-5, 50, 150)):
        assert restricted_likelihood(tau, effects, variances) <= best + 1e-9


def test_lower_of_two_peaks_is_not_taken() -> None:
    # constructed: the restricted likelihood peaks at 0 and again far above
    effects, variances, ones = arrays([(0.0, 0.02), (0.01, 0.02), (0.02, 0.02), (3.0, 1.2), (-2.6, 1.2)])
    taus = np.geomspace(1e-7, 30, 4000)
    likelihoods = [restricted_likelihood(tau, effects, variances) for tau in taus]
    found = reml_tau_squared(effects, variances, ones)
    assert restricted_likelihood(found, effects, variances) >= max(likelihoods) - 1e-9


def test_equal_effects_have_no_variation() -> None:
    effects, variances, ones = arrays([(0.3, 0.1), (0.3, 0.2), (0.3, 0.4)])
    assert reml_tau_squared(effects, variances, ones) == 0
    assert weighted_fit(effects, variances, ones).q == 0


@given(STUDIES, st.sampled_from((1e-3, 10.0, 1e4)))
def test_tau_squared_goes_with_the_square_of_the_scale(studies, factor: float) -> None:
    effects, variances, ones = arrays(studies)
    plain = reml_tau_squared(effects, variances, ones)
    scaled = reml_tau_squared(factor * effects, factor**2 * variances, ones)
    assert scaled / factor**2 == pytest.approx(plain, rel=1e-6, abs=1e-9)


@given(STUDIES)
def test_q_profile_limits_hit_the_quantiles(studies) -> None:
    # Viechtbauer 2007, Stat Med 26:37-52 (from memory): the definition, put to scipy's quantiles
    effects, variances, ones = arrays(studies)
    degrees = len(effects) - 1
    at_zero = weighted_fit(effects, variances, ones).q
    interval = q_profile_interval(effects, variances, 0.95)
    if interval is None:
        assert at_zero < stats.chi2.ppf(0.025, degrees)
        return
    for limit, probability in zip(interval, (0.975, 0.025), strict=True):
        target = stats.chi2.ppf(probability, degrees)
        if limit == 0:
            assert at_zero <= target * (1 + 1e-9)
        else:
            assert weighted_fit(effects, variances + limit, ones).q == pytest.approx(target, rel=1e-6)


def test_i_squared_from_q() -> None:
    # Nawal 2023, J Conserv Dent 26:122-133 prints I2 .8 % with 11 studies and P = .433: Q = 10 / (1 - .008)
    spread = heterogeneity_from_q(10 / (1 - 0.008), 10)
    assert spread.i_squared == pytest.approx(0.008)
    assert spread.p_value == pytest.approx(0.433, abs=5e-4)
    assert heterogeneity_from_q(3.0, 10).i_squared == 0


def test_weighted_fit_is_least_squares() -> None:
    rng = np.random.default_rng(11)
    design = np.column_stack([np.ones(9), rng.normal(size=9)])
    effects, variances = rng.normal(size=9), rng.uniform(0.1, 2, 9)
    fit = weighted_fit(effects, variances, design)
    other = optimize.lsq_linear(design / np.sqrt(variances)[:, None], effects / np.sqrt(variances))
    assert fit.coefficients == pytest.approx(other.x)
    assert fit.q == pytest.approx(2 * other.cost)
