"""The chart of teeth: numbers of two digits, what follows from them, and the order in which they stand."""

from __future__ import annotations

import pytest
from passageproof.reading.fdi_chart import CHART_FACTORS, NUMBERS, chart_levels, consecutive_number


# ISO 3950:2016 (from memory): the first digit is the quadrant, clockwise from the patient's upper right; the second
# counts from the midline.
@pytest.mark.parametrize(
    ("tooth", "kind", "arch"),
    [
        ("11", "incisor", "maxillary"),
        ("23", "canine", "maxillary"),
        ("34", "premolar", "mandibular"),
        ("48", "molar", "mandibular"),
    ],
)
def test_type_and_arch_follow_from_two_digits(tooth: str, kind: str, arch: str):
    assert chart_levels(tooth) == {"tooth-type": kind, "arch": arch}


# Common practice, no source: the consecutive notation runs from the upper right third molar, 1, to the lower one, 32.
@pytest.mark.parametrize(
    ("tooth", "number"), [("18", 1), ("11", 8), ("21", 9), ("28", 16), ("38", 17), ("31", 24), ("41", 25), ("48", 32)]
)
def test_the_other_notation_counts_through(tooth: str, number: int):
    assert consecutive_number(tooth) == number


@pytest.mark.parametrize("number", ["", "10", "19", "51", "4", "460", "xx"])
def test_what_is_no_permanent_tooth_is_refused(number: str):
    with pytest.raises(ValueError, match="not a permanent tooth"):
        chart_levels(number)


def test_each_tooth_stands_once_and_beside_its_neighbour():
    assert sorted(map(consecutive_number, NUMBERS)) == list(range(1, 33))
    upper, lower = NUMBERS[:16], NUMBERS[16:]
    # Seen from the front: the patient's right on the left, the midline in the middle, lower teeth below upper ones.
    assert upper[7:9] == ("11", "21")
    assert lower[7:9] == ("41", "31")
    assert [number[1] for number in upper] == [number[1] for number in lower]


def test_every_level_that_a_number_sets_is_a_level_of_its_factor():
    for number in NUMBERS:
        for factor, level in chart_levels(number).items():
            assert level in CHART_FACTORS[factor].levels
