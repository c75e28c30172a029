"""The binomial-normal likelihood, against slow integration."""

from itertools import pairwise
from math import exp, lgamma, log, pi, sqrt

import numpy as np
import pytest
from hypothesis import given, settings, strategies as st
from passageproof.synthesis import Refusal
from passageproof.synthesis.binomial_normal import LARGEST_TAU, LogitNormal, fit_logit_normal
from scipy import integrate, special

STUDIES = st.lists(
    st.integers(1, 60).flatmap(lambda total: st.tuples(st.integers(0, total), st.just(total))), min_size=2, max_size=6
)


def slow_likelihood(studies: list[tuple[int, int]], mean: float, deviation: float) -> float:
    """By scipy's adaptive quadrature over each study's logit, in pieces around its own peak."""
    total = 0.0
    for x, n in studies:
        if deviation == 0:
            total += x * mean - n * float(np.logaddexp(0, mean))
            continue

        def exponent(u: float, x: int = x, n: int = n) -> float:
            eta = mean + deviation * u
            return x * eta - n * float(np.logaddexp(0, eta)) - u * u / 2

        grid = np.linspace(-12, 12, 4001)
        values = np.array([exponent(u) for u in grid])
        peak, top = float(grid[values.argmax()]), float(values.max())
        edges = [peak + side for side in (-12, -4, -1, -0.3, 0, 0.3, 1, 4, 12)]
        area = sum(
            integrate.quad(lambda u, top=top: exp(exponent(u) - top), *piece, epsabs=1e-13, epsrel=1e-11, limit=200)[0]
            for piece in pairwise(edges)
        )
        total += top + log(area / sqrt(2 * pi))
    return total


def fitted(studies: list[tuple[int, int]]) -> LogitNormal | Refusal:
    events, totals = np.array(studies, dtype=float).T
    return fit_logit_normal(events, totals)


@pytest.mark.parametrize(
    "studies",
    [
        [(18, 21), (66, 90), (101, 110)],
        [(20, 20), (31, 33), (18, 18), (44, 50), (25, 26)],
        [(0, 12), (1, 30), (0, 8), (9, 55), (2, 40), (0, 21)],
        [(1, 1), (0, 1), (1, 2), (5, 6)],
        [(900, 1000), (85, 100), (4200, 5000)],
    ],
)
def test_likelihood_agrees_with_adaptive_quadrature(studies) -> None:
    fit = fitted(studies)
    slow = slow_likelihood(studies, fit.mean, fit.standard_deviation)
    assert fit.log_likelihood == pytest.approx(slow, abs=1e-8)


@settings(max_examples=15)
@given(STUDIES, st.floats(-3, 3), st.floats(0.02, LARGEST_TAU))
def test_no_other_mean_and_deviation_are_likelier(studies, step: float, deviation: float) -> None:
    fit = fitted(studies)
    if isinstance(fit, Refusal):
        return
    assert slow_likelihood(studies, fit.mean + step, deviation) <= fit.log_likelihood + 1e-8


@pytest.mark.parametrize("studies", [[(3, 11), (6, 17), (10, 21), (1, 6)], [(85, 100)] * 4, [(4, 5), (8, 10)]])
def test_boundary_is_the_binomial_likelihood(studies) -> None:
    fit = fitted(studies)
    x, n = (sum(column) for column in zip(*studies, strict=True))
    assert fit.standard_deviation == 0
    assert fit.mean == pytest.approx(special.logit(x / n))
    assert fit.mean_standard_error == pytest.approx(sqrt(1 / x + 1 / (n - x)))


def test_higher_peak_wins_over_a_peak_at_zero() -> None:
    # constructed; one large study makes the likelihood peak at 0 as well
    studies = [(90, 100), (12, 18), (9, 9), (800, 900)]
    fit = fitted(studies)
    best_at_zero = slow_likelihood(studies, float(special.logit(911 / 1027)), 0)
    assert fit.log_likelihood >= best_at_zero


@pytest.mark.parametrize(
    ("studies", "reason"),
    [
        ([(12, 12), (9, 9), (30, 30)], "Every study has 100 %"),
        ([(0, 10), (0, 25)], "Every study has 0 %"),
        ([(0, 40), (40, 40), (0, 40), (40, 40)], "Endless variation"),
        ([(0, 1), (0, 1), (1, 1), (1, 1)], "Endless variation"),
        ([(0, 15), (15, 15), (7, 14), (10, 20)], "standard deviation of 3.9"),
    ],
)
def test_what_has_no_typical_rate_is_refused(studies, reason: str) -> None:
    refused = fitted(studies)
    assert isinstance(refused, Refusal)
    assert reason in refused.reason


def test_standard_error_is_from_the_observed_information() -> None:
    studies = [(18, 21), (66, 90), (101, 110), (12, 20)]
    fit = fitted(studies)
    at, step = np.array([fit.mean, fit.standard_deviation]), 1e-3
    information = np.empty((2, 2))
    for i in range(2):
        for j in range(2):
            one, other = step * np.eye(2)[i], step * np.eye(2)[j]
            corners = [
                sign * slow_likelihood(studies, *(at + a * one + b * other))
                for a, b, sign in ((1, 1, 1), (1, -1, -1), (-1, 1, -1), (-1, -1, 1))
            ]
            information[i, j] = -sum(corners) / (4 * step**2)
    assert fit.mean_standard_error == pytest.approx(sqrt(np.linalg.inv(information)[0, 0]), rel=1e-4)


def test_coefficients_left_out_do_not_depend_on_the_parameters() -> None:
    # miller1978 of the reference values: R's log-likelihood with the coefficients is -6.95685974966756
    studies = [(3, 11), (6, 17), (10, 21), (1, 6)]
    coefficients = sum(lgamma(n + 1) - lgamma(x + 1) - lgamma(n - x + 1) for x, n in studies)
    assert fitted(studies).log_likelihood + coefficients == pytest.approx(-6.95685974966756, abs=1e-9)
