"""Two means of one study."""

from math import sqrt

import pytest
from hypothesis import assume, given, strategies as st
from passageproof.synthesis import MeanDifference, Measured, Refusal, mean_difference
from scipy.stats import ttest_ind_from_stats
from statsmodels.stats.weightstats import CompareMeans, DescrStatsW

MEANS = st.floats(-100, 100).map(lambda value: round(value, 2))
GROUPS = st.builds(Measured, MEANS, st.floats(0.01, 50).map(lambda value: round(value, 2)), st.integers(2, 300))


def found(group: Measured, reference: Measured, confidence: float = 0.95) -> MeanDifference:
    result = mean_difference(group, reference, confidence)
    assert isinstance(result, MeanDifference)
    return result


def test_difference_by_hand() -> None:
    # Welch 1947 (formula from memory): 1.1^2/38 + 1.0^2/37, freedom by Satterthwaite 1946
    parts = 1.1**2 / 38, 1.0**2 / 37
    result = found(Measured(2.6, 1.1, 38), Measured(1.9, 1.0, 37))
    assert result.estimate == pytest.approx(0.7)
    assert result.standard_error == pytest.approx(sqrt(sum(parts)))
    assert result.degrees_of_freedom == pytest.approx(sum(parts) ** 2 / (parts[0] ** 2 / 37 + parts[1] ** 2 / 36))


@given(GROUPS, GROUPS, st.sampled_from([0.9, 0.95, 0.99]))
def test_interval_is_that_of_scipy(group: Measured, reference: Measured, confidence: float) -> None:
    result = found(group, reference, confidence)
    other = ttest_ind_from_stats(*group, *reference, equal_var=False)
    # scipy gives no interval for summaries: its t and P lead to the same error and the same freedom.
    assert result.estimate / result.standard_error == pytest.approx(float(other.statistic), abs=1e-9)
    half = (result.interval.high - result.interval.low) / 2
    edge = Measured(half, group.sd, group.total), Measured(0, reference.sd, reference.total)
    assert float(ttest_ind_from_stats(*edge[0], *edge[1], equal_var=False).pvalue) == pytest.approx(1 - confidence)


@given(st.lists(MEANS, min_size=3, max_size=30), st.lists(MEANS, min_size=3, max_size=30))
def test_interval_is_that_of_statsmodels(values: list[float], reference_values: list[float]) -> None:
    first, second = DescrStatsW(values), DescrStatsW(reference_values)
    assume(first.std_mean > 1e-3 and second.std_mean > 1e-3)
    summary, reference = (
        Measured(float(each.mean), float(each.std_mean) * sqrt(each.nobs), int(each.nobs)) for each in (first, second)
    )
    low, high = CompareMeans(first, second).tconfint_diff(usevar="unequal")
    assert found(summary, reference).interval == pytest.approx((float(low), float(high)), rel=1e-6, abs=1e-6)


@given(GROUPS, GROUPS)
def test_groups_exchanged_turn_the_difference(group: Measured, reference: Measured) -> None:
    one, other = found(group, reference), found(reference, group)
    assert one.estimate == -other.estimate
    assert one.interval == pytest.approx((-other.interval.high, -other.interval.low))
    assert one.interval.low < one.estimate < one.interval.high


@given(GROUPS)
def test_a_group_differs_from_itself_by_nothing(group: Measured) -> None:
    result = found(group, group)
    assert result.estimate == 0
    assert result.interval.low == pytest.approx(-result.interval.high)
    # Equal groups: Welch's freedom is that of Student's pooled t.
    assert result.degrees_of_freedom == pytest.approx(2 * group.total - 2)


@pytest.mark.parametrize(
    ("group", "reference", "reason"),
    [
        (Measured(2.6, 1.1, 1), Measured(1.9, 1.0, 37), "of a single one no spread is known"),
        (Measured(2.6, 1.1, 38), Measured(1.9, 1.0, 1), "of a single one no spread is known"),
        (Measured(2.6, 0, 38), Measured(1.9, 0, 37), "neither group has any spread"),
    ],
)
def test_without_a_spread_there_is_no_interval(group: Measured, reference: Measured, reason: str) -> None:
    assert mean_difference(group, reference) == Refusal(reason)


@pytest.mark.parametrize(
    "group", [Measured(2.6, -0.1, 38), Measured(float("inf"), 1, 38), Measured(2.6, 1.1, 0), Measured(2.6, 1.1, 3.5)]
)
def test_impossible_values_are_refused(group: Measured) -> None:
    with pytest.raises(ValueError, match="group"):
        mean_difference(group, Measured(1.9, 1.0, 37))
