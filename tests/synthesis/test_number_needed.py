"""Numbers needed to treat."""

import pytest
from hypothesis import given, strategies as st
from passageproof.synthesis import Refusal, absolute_from_ratio, number_needed_to_treat


def test_handbook_worked_examples() -> None:
    # Cochrane Handbook 5.1, section 12.5.4: RR .92 at .3 needs 42 (1 / .024 rounded up), OR .73 at .3 needs 17 (16.208)
    by_risk_ratio = absolute_from_ratio("risk ratio", 0.92, 0.3) - 0.3
    by_odds_ratio = absolute_from_ratio("odds ratio", 0.73, 0.3) - 0.3
    assert number_needed_to_treat(by_risk_ratio) == (42, "benefit")
    assert number_needed_to_treat(by_odds_ratio) == (17, "benefit")


def test_twenty_against_twenty_five_percent_needs_twenty() -> None:
    assert number_needed_to_treat(20 / 100 - 25 / 100) == (20, "benefit")
    assert number_needed_to_treat(0.20 - 0.25) == (20, "benefit")


@pytest.mark.parametrize(
    ("difference", "event_is", "direction"),
    [(-0.1, "bad", "benefit"), (0.1, "bad", "harm"), (0.1, "good", "benefit"), (-0.1, "good", "harm")],
)
def test_side_depends_on_what_the_event_is(difference: float, event_is: str, direction: str) -> None:
    assert number_needed_to_treat(difference, event_is) == (10, direction)


@given(st.integers(1, 500))
def test_reciprocal_of_a_whole_number_is_not_rounded_up(count: int) -> None:
    assert number_needed_to_treat(-1 / count).number == count


@given(st.floats(0.001, 1))
def test_number_is_rounded_up(difference: float) -> None:
    found = number_needed_to_treat(difference).number
    assert found - 1 < 1 / difference <= found + 1e-9 * found


def test_equal_risks_are_refused_with_a_reason() -> None:
    refused = number_needed_to_treat(0.0)
    assert isinstance(refused, Refusal)
    assert "equal" in refused.reason


@pytest.mark.parametrize(("difference", "event_is"), [(1.1, "bad"), ("5%", "bad"), (0.1, "neutral")])
def test_impossible_arguments_are_named(difference, event_is: str) -> None:
    with pytest.raises(ValueError, match=r"risk_difference|event_is"):
        number_needed_to_treat(difference, event_is)
