"""Quantiles and tails, against scipy."""

import math

import pytest
from hypothesis import given, strategies as st
from passageproof.synthesis.distributions import (
    beta_quantile,
    beta_tails,
    bracketed_root,
    chi_square_quantile,
    chi_square_tail,
    critical_value,
    normal_quantile,
    normal_tail,
    student_quantile,
    student_two_sided,
)
from scipy import special, stats

SHAPES = st.floats(0.5, 2000)


@given(st.floats(1e-12, 1 - 1e-12))
def test_normal_quantile_agrees_with_scipy(probability: float) -> None:
    assert normal_quantile(probability) == pytest.approx(special.ndtri(probability), rel=1e-11, abs=1e-14)


def test_critical_value_of_95_percent() -> None:
    assert critical_value(0.95) == pytest.approx(1.959963984540054, abs=1e-15)


@given(st.floats(-8, 8))
def test_normal_tail_agrees_with_scipy(z: float) -> None:
    assert normal_tail(z) == pytest.approx(stats.norm.sf(z), rel=1e-12)


@given(st.floats(0.001, 0.999), SHAPES, SHAPES)
def test_beta_tails_agree_with_scipy(x: float, a: float, b: float) -> None:
    below, above = beta_tails(x, a, b)
    assert below == pytest.approx(special.betainc(a, b, x), rel=1e-9, abs=1e-13)
    assert above == pytest.approx(special.betaincc(a, b, x), rel=1e-9, abs=1e-13)


@given(st.floats(1e-4, 1 - 1e-4), SHAPES, SHAPES)
def test_beta_quantile_is_where_the_tail_is(probability: float, a: float, b: float) -> None:
    below, above = beta_tails(beta_quantile(probability, a, b), a, b)
    # Close to one, two neighbouring floats may lie further apart in probability than they do themselves.
    assert min(abs(below - probability), abs(above - (1 - probability))) < 1e-10


@given(st.floats(1e-4, 1 - 1e-4), st.integers(1, 500))
def test_student_quantile_agrees_with_scipy(probability: float, degrees: int) -> None:
    expected = float(stats.t.ppf(probability, degrees))
    assert student_quantile(probability, degrees) == pytest.approx(expected, rel=1e-9, abs=1e-11)


@given(st.floats(-50, 50), st.integers(1, 500))
def test_student_p_agrees_with_scipy(t: float, degrees: int) -> None:
    assert student_two_sided(t, degrees) == pytest.approx(2 * stats.t.sf(abs(t), degrees), rel=1e-9, abs=1e-14)


@given(st.floats(0, 500), st.integers(1, 200))
def test_chi_square_tail_agrees_with_scipy(value: float, degrees: int) -> None:
    assert chi_square_tail(value, degrees) == pytest.approx(stats.chi2.sf(value, degrees), rel=1e-10, abs=1e-200)


@given(st.floats(1e-4, 1 - 1e-4), st.integers(1, 200))
def test_chi_square_quantile_agrees_with_scipy(probability: float, degrees: int) -> None:
    assert chi_square_quantile(probability, degrees) == pytest.approx(stats.chi2.ppf(probability, degrees), rel=1e-9)


# NIST/SEMATECH e-Handbook of Statistical Methods, section 1.3.6.7.2, critical values of Student's t (from memory)
@pytest.mark.parametrize(
    ("probability", "degrees", "printed"),
    [(0.975, 1, 12.706), (0.975, 5, 2.571), (0.975, 10, 2.228), (0.975, 30, 2.042), (0.95, 10, 1.812)],
)
def test_student_quantile_is_that_of_the_printed_table(probability: float, degrees: int, printed: float) -> None:
    assert student_quantile(probability, degrees) == pytest.approx(printed, abs=5e-4)
    assert student_quantile(1 - probability, degrees) == pytest.approx(-printed, abs=5e-4)
    assert student_two_sided(-printed, degrees) == pytest.approx(2 * (1 - probability), rel=1e-3)


# NIST/SEMATECH e-Handbook of Statistical Methods, section 1.3.6.7.4, critical values of chi-square (from memory)
@pytest.mark.parametrize(
    ("probability", "degrees", "printed"),
    [(0.95, 1, 3.841), (0.95, 5, 11.070), (0.95, 10, 18.307), (0.05, 10, 3.940), (0.025, 4, 0.484)],
)
def test_chi_square_quantile_is_that_of_the_printed_table(probability: float, degrees: int, printed: float) -> None:
    assert chi_square_quantile(probability, degrees) == pytest.approx(printed, abs=5e-4)
    assert chi_square_tail(printed, degrees) == pytest.approx(1 - probability, abs=1e-3)


def test_nothing_lies_beyond_infinity() -> None:
    assert student_two_sided(-math.inf, 3) == chi_square_tail(math.inf, 3) == 0


@given(st.floats(-1e3, 1e3))
def test_root_of_a_cube_is_found(target: float) -> None:
    assert bracketed_root(lambda x: x**3 - target, -20, 20) == pytest.approx(
        abs(target) ** (1 / 3) * (1 if target >= 0 else -1), abs=1e-4 if abs(target) < 1e-9 else 1e-9
    )


def test_bracket_without_a_root_is_named() -> None:
    with pytest.raises(ValueError, match="no change of sign"):
        bracketed_root(lambda x: x * x + 1, -1, 1)
