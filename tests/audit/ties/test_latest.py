"""What is made of the same values is made once, and again when it was let go of."""

from __future__ import annotations

from passageproof.proof.ties.latest import latest


def test_it_is_made_once_for_the_very_same_values_as_long_as_it_is_held() -> None:
    made: list[str] = []

    def make(first: list[str], second: str) -> list[str]:
        made.append(first[0] + second)
        return [first[0] + second]

    of_last, of_two = latest(make), latest(make, 2)
    one, other, third, with_all = ["a"], ["a"], ["c"], "x"
    assert of_last(one, with_all) is of_last(one, with_all)
    assert of_last(one, with_all) is not of_last(other, with_all)  # equal, and not the same
    first = of_two(one, with_all)
    assert of_two(other, with_all) is not first
    assert of_two(one, with_all) is first
    of_two(third, with_all)
    made.clear()
    of_two(third, with_all)
    assert made == []
    assert of_two(one, with_all) == ["ax"]
    assert made == ["ax"]
