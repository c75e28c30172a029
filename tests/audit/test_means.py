"""A printed difference of means beside the means, and the side that was typed for a level."""

from __future__ import annotations

from collections.abc import Callable

import pytest

Asked = Callable[..., list[str]]


def claim(value: str = "0.7", adjusted: str = "none", direction: str = "better", outcome: str = "healed") -> str:
    return (
        f"- id: a\n  question: hole\n  outcome: {outcome}\n  factor: roots\n  known_at: before\n  reference: one\n"
        "  unit: mm\n  levels:\n    - {level: one, mean: 1.9, sd: 1.0, total: 37}\n"
        f"    - {{level: more than one, mean: 2.6, sd: 1.1, total: 38, direction: {direction}}}\n"
        f"  contrast: {{measure: mean difference, value: {value}, level: more than one, adjusted_for: {adjusted}}}\n"
        "  where: p. 2\n  follow_up: not reported\n"
    )


# Each number stands for all that round to it (arithmetic): 2.6 - 1.9 is from 0.6 to 0.8, and 0.84 rounds from 0.835.
@pytest.mark.parametrize("value", ["0.7", "0.6", "0.8", "0.75", "0.65", "1"])
def test_a_difference_that_the_means_give_is_honest(asked: Asked, value: str) -> None:
    assert asked(claim(value)) == []


@pytest.mark.parametrize("value", ["0.9", "0.5", "0.81", "7", "-0.4"])
def test_a_difference_that_the_means_do_not_give_is_asked(asked: Asked, value: str) -> None:
    assert asked(claim(value)) == [f"ratio-against-table: {value} beside more than one 2.6, one 1.9"]


def test_a_difference_the_other_way_round_is_asked_in_words(reckoned: Callable[..., list]) -> None:  # type: ignore[type-arg]
    (problem,) = reckoned(claim("-0.7"))
    assert problem.rule == "event-direction"
    assert "which level does the paper subtract from which" in problem.message


@pytest.mark.parametrize("adjusted", ["[age]", "not reported"])
def test_an_adjusted_difference_need_not_follow(asked: Asked, adjusted: str) -> None:
    assert asked(claim("1.4", adjusted)) == []


@pytest.mark.parametrize(
    ("direction", "outcome", "count"),
    [("better", "healed", 0), ("worse", "healed", 1), ("worse", "diseased", 0), ("better", "diseased", 1),
     ("no clear difference", "healed", 1), ("not stated", "healed", 0)],
)  # fmt: skip
def test_a_typed_side_is_that_of_the_means(asked: Asked, direction: str, outcome: str, count: int) -> None:
    found = asked(claim(direction=direction, outcome=outcome))
    assert found == ["direction-disagrees: 2.6 against 1.9"] * count
