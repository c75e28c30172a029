"""Back from the scale of analysis."""

from math import exp, inf

import pytest
from hypothesis import given, strategies as st
from passageproof.synthesis import pooled_effect
from passageproof.synthesis.pooled import expit

EFFECTS, ERRORS = [0.2, 0.5, 0.9], [0.2, 0.3, 0.4]


def test_log_comes_back_as_a_ratio() -> None:
    pooled = pooled_effect(EFFECTS, ERRORS, scale="log")
    estimate, interval, prediction = pooled.natural()
    assert estimate == pytest.approx(exp(pooled.estimate))
    assert interval == pytest.approx([exp(limit) for limit in pooled.interval])
    assert prediction == pytest.approx([exp(limit) for limit in pooled.prediction_interval])


def test_logit_comes_back_as_a_proportion() -> None:
    natural = pooled_effect(EFFECTS, ERRORS, scale="logit").natural()
    assert 0 < natural.interval.low < natural.estimate < natural.interval.high < 1


def test_difference_stays_as_it_is() -> None:
    pooled = pooled_effect(EFFECTS, ERRORS, scale="difference")
    assert pooled.natural() == (pooled.estimate, pooled.interval, pooled.prediction_interval)


def test_prediction_interval_that_is_not_there_stays_away() -> None:
    assert pooled_effect(EFFECTS[:2], ERRORS[:2]).natural().prediction_interval is None


def test_ratio_too_large_for_a_float_is_infinite() -> None:
    assert pooled_effect([700.0, 720.0], [1.0, 1.0], interval="normal").natural().interval.high == inf


@given(st.floats(-700, 700))
def test_expit_mirrors(value: float) -> None:
    assert expit(value) + expit(-value) == pytest.approx(1)
