"""Pools without one study, and as studies arrive."""

import pytest
from passageproof.synthesis import Refusal, cumulative, leave_one_out, pooled_effect

EFFECTS, ERRORS = [0.2, 0.9, -0.1, 0.4], [0.2, 0.3, 0.25, 0.4]


def test_each_study_is_left_out_in_turn() -> None:
    results = leave_one_out(EFFECTS, ERRORS)
    assert [result.left_out for result in results] == [(0,), (1,), (2,), (3,)]
    without_second = pooled_effect([0.2, -0.1, 0.4], [0.2, 0.25, 0.4], interval="normal")
    assert results[1].estimate == without_second.estimate
    assert results[1].interval == without_second.interval


def test_what_is_left_has_the_interval_of_the_whole_where_it_is_asked_for() -> None:
    # IntHout, Ioannidis, Borm 2014, BMC Med Res Methodol 14:25: t with k - 1 degrees of freedom, here of the three that
    # are left, so that a study fewer does not seem to say more; truncated as in Roever, Knapp, Friede 2015.
    without_second = leave_one_out(EFFECTS, ERRORS, interval="truncated-knapp-hartung")[1]
    alone = pooled_effect([0.2, -0.1, 0.4], [0.2, 0.25, 0.4], interval="truncated-knapp-hartung")
    assert without_second.interval == alone.interval
    by_normal_curve = leave_one_out(EFFECTS, ERRORS)[1]
    assert without_second.estimate == by_normal_curve.estimate
    # 4.302653: Student's t at two degrees of freedom, .975 (printed tables).
    half = without_second.interval.high - without_second.estimate
    assert half == pytest.approx(4.302653 * without_second.standard_error, rel=1e-6)
    assert half > by_normal_curve.interval.high - by_normal_curve.estimate


def test_an_interval_of_no_known_name_is_refused() -> None:
    with pytest.raises(ValueError, match="interval must be one of"):
        leave_one_out(EFFECTS, ERRORS, interval="wald")


def test_leaving_one_of_two_is_refused() -> None:
    results = leave_one_out(EFFECTS[:2], ERRORS[:2])
    assert [isinstance(result, Refusal) for result in results] == [True, True]


def test_studies_arrive_in_the_order_given() -> None:
    results = cumulative(EFFECTS, ERRORS, [2, 0, 3, 1])
    assert [result.studies for result in results] == [1, 2, 3, 4]
    assert (results[0].estimate, results[0].standard_error) == (-0.1, pytest.approx(0.25))
    assert results[1].estimate == pooled_effect([-0.1, 0.2], [0.25, 0.2], interval="normal").estimate


def test_last_of_the_cumulative_pools_is_the_whole() -> None:
    whole = pooled_effect(EFFECTS, ERRORS, interval="normal")
    assert cumulative(EFFECTS, ERRORS, [3, 1, 0, 2])[-1].estimate == pytest.approx(whole.estimate)


@pytest.mark.parametrize("order", [[0, 0], [0, 4], [-1], [0.5]])
def test_impossible_orders_are_named(order) -> None:
    with pytest.raises(ValueError, match="order"):
        cumulative(EFFECTS, ERRORS, order)
