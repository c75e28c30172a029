"""Bounds for those due and not seen."""

import pytest
from hypothesis import given, strategies as st
from passageproof.synthesis import loss_bounds


@pytest.mark.parametrize(
    ("events", "examined", "due", "low", "high"),
    [
        (18, 21, 26, 0.692, 0.885),  # Mente 2010: 18 of 21 seen is .857
        (66, 90, 128, 0.516, 0.813),  # Krupp 2013: 66 of 90 seen is .733
        (5, 5, 5, 1.0, 1.0),
        (0, 0, 4, 0.0, 1.0),
    ],
)
def test_worst_and_best_case(events: int, examined: int, due: int, low: float, high: float) -> None:
    assert loss_bounds(events, examined, due) == pytest.approx((low, high), abs=5e-4)


@given(st.lists(st.integers(0, 500), min_size=3, max_size=3).map(sorted).filter(lambda counts: counts[1] > 0))
def test_share_of_those_seen_lies_between_the_bounds(counts: list[int]) -> None:
    events, examined, due = counts
    low, high = loss_bounds(events, examined, due)
    assert low <= events / examined + 1e-12
    assert events / examined <= high + 1e-12


@pytest.mark.parametrize("counts", [(3, 2, 5), (2, 6, 5), (0, 0, 0), (-1, 2, 5), ("1", 2, 5)])
def test_impossible_counts_are_named(counts) -> None:
    with pytest.raises(ValueError, match=r"events|examined|due"):
        loss_bounds(*counts)
