"""Labels hold no number: what would be one is spelled."""

from __future__ import annotations

import pytest
from passageproof.results.saying.labels import without_digits


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("at 24 months", "at twenty-four months"),
        ("over 3 mm", "over three mm"),
        ("up to 0.5 mm", "up to zero point five mm"),
        ("10 of 19, 40", "ten of nineteen, forty"),
        ("120 days", "one two zero days"),
        ("no number", "no number"),
    ],
)
def test_numbers_of_a_label_are_spelled(text: str, expected: str):
    assert without_digits(text) == expected
