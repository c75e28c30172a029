"""Small-study effects."""

import numpy as np
import pytest
import statsmodels.api as sm
from passageproof.synthesis import Refusal, TwoByTwo, egger_test, peters_test

RNG = np.random.default_rng(5)
ERRORS = RNG.uniform(0.1, 0.8, 14).tolist()
EFFECTS = [float(0.3 + error * RNG.normal()) for error in ERRORS]
TABLES = [
    TwoByTwo(int(RNG.integers(1, n)), int(n), int(RNG.integers(1, n)), int(n) + 3) for n in RNG.integers(8, 200, 14)
]


def test_egger_is_the_regression_of_the_standard_normal_deviate_on_precision() -> None:
    # Egger et al. 1997, BMJ 315:629-634: the intercept there is the slope here
    errors = np.array(ERRORS)
    other = sm.OLS(np.array(EFFECTS) / errors, sm.add_constant(1 / errors)).fit()
    found = egger_test(EFFECTS, ERRORS)
    assert (found.slope, found.standard_error) == pytest.approx((other.params[0], other.bse[0]))
    assert (found.t, found.p_value) == pytest.approx((other.tvalues[0], other.pvalues[0]))
    assert found.degrees_of_freedom == 12


def test_peters_is_the_weighted_regression_on_one_over_total() -> None:
    # Peters et al. 2006, JAMA 295:676-680 (from memory)
    a, n, c, m = np.array(TABLES, dtype=float).T
    effects = np.log(a * (m - c) / ((n - a) * c))
    total, events = n + m, a + c
    other = sm.WLS(effects, sm.add_constant(1 / total), weights=events * (total - events) / total).fit()
    found = peters_test(TABLES)
    assert (found.slope, found.t, found.p_value) == pytest.approx((other.params[1], other.tvalues[1], other.pvalues[1]))


def test_below_ten_studies_both_are_refused() -> None:
    for refused in (egger_test(EFFECTS[:9], ERRORS[:9]), peters_test(TABLES[:9])):
        assert isinstance(refused, Refusal)
        assert refused.reason.startswith("9 studies: below 10")


def test_studies_without_weight_do_not_make_up_the_ten() -> None:
    tables = [*TABLES[:9], TwoByTwo(0, 20, 0, 20)]
    assert isinstance(peters_test(tables), Refusal)
    assert peters_test([*TABLES, TwoByTwo(0, 20, 0, 20)]) == peters_test(TABLES)


def test_equal_sizes_are_refused() -> None:
    refused = egger_test(EFFECTS, [0.3] * 14)
    assert isinstance(refused, Refusal)
    assert "same in all studies" in refused.reason


def test_impossible_studies_are_named() -> None:
    with pytest.raises(ValueError, match="standard error"):
        egger_test(EFFECTS, [0.0] * 14)
    with pytest.raises(ValueError, match="no table"):
        peters_test([])
