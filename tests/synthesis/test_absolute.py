"""Ratios made absolute."""

import pytest
from hypothesis import given, strategies as st
from passageproof.synthesis import Refusal, absolute_from_ratio

RISKS = st.floats(0, 1)


@pytest.mark.parametrize(
    ("measure", "ratio", "baseline", "risk"),
    [
        # worked by hand from the formula of the Cochrane Handbook 5.1, section 12.5.4
        ("odds ratio", 2, 0.05, 0.0952),
        ("odds ratio", 2, 0.14, 0.2456),
        ("odds ratio", 2, 0.20, 0.3333),
        ("odds ratio", 2, 0.50, 0.6667),
        ("odds ratio", 0.5, 0.05, 0.0256),
        ("odds ratio", 0.5, 0.14, 0.0753),
        ("odds ratio", 0.5, 0.20, 0.1111),
        ("odds ratio", 0.5, 0.50, 0.3333),
        # Nawal 2023, J Conserv Dent 26:122-133: OR 2.15 (1.57 to 2.96), at a success of .75
        ("odds ratio", 2.15, 0.75, 0.8658),
        ("odds ratio", 1.57, 0.75, 0.8249),
        ("odds ratio", 2.96, 0.75, 0.8988),
        # Gorni 2022, J Endod 48:1092-1099: HR 3.3 and 4.1 at .30, a whole-cohort risk, so for arithmetic only
        ("hazard ratio", 3.3, 0.30, 0.6918),
        ("hazard ratio", 4.1, 0.30, 0.7683),
    ],
)
def test_worked_values(measure: str, ratio: float, baseline: float, risk: float) -> None:
    assert absolute_from_ratio(measure, ratio, baseline) == pytest.approx(risk, abs=5e-5)


def test_handbook_worked_example_per_thousand() -> None:
    # Cochrane Handbook 5.1, section 12.5.4: RR .92 at .3 is 24 fewer in 1000, OR .73 at .3 is 62 fewer (61.697)
    assert 1000 * (0.3 - absolute_from_ratio("risk ratio", 0.92, 0.3)) == pytest.approx(24)
    assert 1000 * (0.3 - absolute_from_ratio("odds ratio", 0.73, 0.3)) == pytest.approx(61.697, abs=5e-4)
    # the same section: from 4 % to 3 % is a risk ratio of .75, a relative reduction of 25 %
    assert absolute_from_ratio("risk ratio", 0.75, 0.04) == pytest.approx(0.03)


@pytest.mark.parametrize("measure", ["odds ratio", "hazard ratio"])
@pytest.mark.parametrize("baseline", [0, 1])
def test_certain_baseline_gives_itself_back(measure: str, baseline: float) -> None:
    assert absolute_from_ratio(measure, 3.3, baseline) == baseline


@given(st.floats(0.01, 100), RISKS, st.sampled_from(("odds ratio", "hazard ratio")))
def test_risk_stays_between_0_and_1(ratio: float, baseline: float, measure: str) -> None:
    assert 0 <= absolute_from_ratio(measure, ratio, baseline) <= 1


@given(st.floats(0.01, 100), st.floats(0.001, 0.999))
def test_inverted_event_inverts_the_odds_ratio(ratio: float, baseline: float) -> None:
    risk = absolute_from_ratio("odds ratio", ratio, baseline)
    assert absolute_from_ratio("odds ratio", 1 / ratio, 1 - baseline) == pytest.approx(1 - risk, abs=1e-12)


def test_risk_above_one_is_refused_with_a_reason() -> None:
    refused = absolute_from_ratio("risk ratio", 3, 0.4)
    assert isinstance(refused, Refusal)
    assert "above 1" in refused.reason
    assert absolute_from_ratio("risk ratio", 5, 0.2) == 1


@pytest.mark.parametrize(
    ("measure", "ratio", "baseline", "named"),
    [
        ("rate ratio", 2, 0.1, "measure"),
        ("odds ratio", 0, 0.1, "ratio"),
        ("odds ratio", -2, 0.1, "ratio"),
        ("odds ratio", float("inf"), 0.1, "ratio"),
        ("odds ratio", 2, 1.1, "baseline_risk"),
        ("odds ratio", 2, -0.1, "baseline_risk"),
        ("odds ratio", 2, "30%", "baseline_risk"),
    ],
)
def test_impossible_arguments_are_named(measure, ratio, baseline, named: str) -> None:
    with pytest.raises(ValueError, match=named):
        absolute_from_ratio(measure, ratio, baseline)
