"""Meta-regression on one moderator."""

import numpy as np
import pytest
from hypothesis import given, strategies as st
from passageproof.synthesis import Refusal, meta_regression
from scipy import stats

EFFECTS, ERRORS = [0.2, 0.9, -0.1, 0.4, 0.7], [0.2, 0.3, 0.25, 0.4, 0.15]
LATITUDES = [44, 55, 42, 52, 13, 44, 19, 13, 27, 42, 18, 33, 33]


def test_vaccine_trials_by_latitude() -> None:
    # Colditz et al. 1994, JAMA 271:698-702, as log risk ratios; metafor gives -.0291 (.0072), tau squared .0763
    tables = [
        (4, 123, 11, 139), (6, 306, 29, 303), (3, 231, 11, 220), (62, 13598, 248, 12867), (33, 5069, 47, 5808),
        (180, 1541, 372, 1451), (8, 2545, 10, 629), (505, 88391, 499, 88391), (29, 7499, 45, 7277),
        (17, 1716, 65, 1665), (186, 50634, 141, 27338), (5, 2498, 3, 2341), (27, 16913, 29, 17854),
    ]  # fmt: skip
    effects = [float(np.log(a / n / (c / m))) for a, n, c, m in tables]
    errors = [float(np.sqrt(1 / a - 1 / n + 1 / c - 1 / m)) for a, n, c, m in tables]
    found = meta_regression(effects, errors, LATITUDES, interval="normal")
    assert (found.slope, found.slope_standard_error) == pytest.approx((-0.0291, 0.0072), abs=5e-5)
    assert found.tau_squared == pytest.approx(0.0763, abs=5e-5)


def test_interval_and_p_belong_together() -> None:
    for interval, quantile in (("normal", stats.norm.ppf(0.975)), ("knapp-hartung", stats.t.ppf(0.975, 3))):
        found = meta_regression(EFFECTS, ERRORS, [1, 2, 3, 4, 5], interval=interval)
        half = (found.slope_interval.high - found.slope_interval.low) / 2
        assert half == pytest.approx(quantile * found.slope_standard_error)
        assert (found.slope_p_value < 0.05) == (found.slope_interval.low > 0 or found.slope_interval.high < 0)


@given(st.floats(-3000, 3000), st.floats(0.001, 1000))
def test_shifted_and_stretched_moderator_is_the_same_line(shift: float, factor: float) -> None:
    plain = meta_regression(EFFECTS, ERRORS, [1, 2, 3, 4, 5])
    moved = meta_regression(EFFECTS, ERRORS, [shift + factor * x for x in (1, 2, 3, 4, 5)])
    assert moved.slope * factor == pytest.approx(plain.slope, rel=1e-6)
    assert moved.slope_p_value == pytest.approx(plain.slope_p_value, rel=1e-6)
    assert moved.intercept + moved.slope * shift == pytest.approx(plain.intercept, abs=1e-5)


def test_truncated_interval_is_never_narrower() -> None:
    normal, truncated = (
        meta_regression([0.1, 0.2, 0.3, 0.41], [0.3] * 4, [1, 2, 3, 4], interval=interval)
        for interval in ("normal", "truncated-knapp-hartung")
    )
    assert truncated.slope_standard_error == pytest.approx(normal.slope_standard_error)


@pytest.mark.parametrize(
    ("effects", "moderator", "reason"),
    [
        ([0.1, 0.2], [1, 2], "three studies"),
        ([0.1, 0.2, 0.3], [2000, 2000, 2000], "same in all studies"),
        ([0.1, 0.2, 0.3], [1, 2, 3], "exactly on a line"),
    ],
)
def test_what_says_nothing_is_refused(effects, moderator, reason: str) -> None:
    refused = meta_regression(effects, [0.1] * len(effects), moderator)
    assert isinstance(refused, Refusal)
    assert reason in refused.reason


@pytest.mark.parametrize(
    ("moderator", "interval", "named"),
    [([1, 2], "normal", "moderator"), ([1, 2, 3, 4, None], "normal", "moderator"), ([1, 2, 3, 4, 5], "t", "interval")],
)
def test_impossible_arguments_are_named(moderator, interval: str, named: str) -> None:
    with pytest.raises(ValueError, match=named):
        meta_regression(EFFECTS, ERRORS, moderator, interval=interval)
