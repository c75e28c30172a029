"""Arguments out of range."""

import numpy as np
import pytest
from passageproof.synthesis.ranges import counts, number, positive, proportion, same_length, whole


def test_numbers_of_other_libraries_are_taken() -> None:
    assert counts(np.int64(3), np.float64(4.0)) == (3, 4)
    assert number("x", np.float32(0.5)) == 0.5


@pytest.mark.parametrize("value", ["3", b"3", None, True, float("nan"), float("inf"), 10**400, [3], object()])
def test_what_is_no_finite_number_is_named(value) -> None:
    with pytest.raises(ValueError, match="the count must be a"):
        number("the count", value)


def test_bounds_stand_in_the_message() -> None:
    with pytest.raises(ValueError, match="events must be from 0 to 4, not 5"):
        counts(5, 4)
    with pytest.raises(ValueError, match="total must be at least 1, not 0"):
        counts(0, 0)
    with pytest.raises(ValueError, match="must be a whole number"):
        whole("n", 1.5, 0)
    with pytest.raises(ValueError, match="must be above 0"):
        positive("ratio", 0)
    with pytest.raises(ValueError, match="must be from 0 to 1"):
        proportion("risk", 1.2)


def test_unequal_and_empty_sequences_are_named() -> None:
    with pytest.raises(ValueError, match="one item a study each: 1 and 2"):
        same_length("events", [1], "totals", [1, 2])
    with pytest.raises(ValueError, match="there is no study"):
        same_length("events", [], "totals", [])
