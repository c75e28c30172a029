"""A word of a role is bound to a number by structure; one that merely stands in the clause says nothing against it.

The phrases are common practice of clinical papers, no source; all figures are invented.
"""

from __future__ import annotations

import pytest
from passageproof.numerals import FORMAT_1
from passageproof.problems import Position
from passageproof.proof.proving.printed_passage import Reading
from passageproof.reading.report_model import Passage


def bound(text: str, number: str) -> set[str]:
    """The roles that are bound to the first number printed so."""
    reading = Reading(Passage("key", "p. 1", "p-1", text, Position("a.bib", 1, 1)), FORMAT_1)
    at = next(at for at, token in enumerate(reading.tokens) if token.text == number)
    return set(reading.bound(at))


@pytest.mark.parametrize(
    ("text", "number", "role"),
    [
        ("9 were followed for a year", "9", "examined"),
        ("9 of them were reviewed", "9", "examined"),
        ("71 treated, 62 examined", "71", "treated"),
        ("71 permanent teeth were treated", "71", "treated"),
        ("39 of 47 were examined", "39", "examined"),
        ("We examined 39 of 47 patients", "39", "examined"),
        ("Teeth examined: 62", "62", "examined"),
        ("Examined (n = 62)", "62", "examined"),
        ("Treated 71, examined 62, lost 9", "62", "examined"),
        ("lost to follow-up were 9", "9", "lost"),
        ("9 patients had withdrawn", "9", "discontinued"),
        ("12 women and 30 men", "12", "who"),
        ("a median of 31 months", "31", "median"),
        ("the median time to closure was 16 minutes", "16", "median"),
        ("median (range) 31 (12-60) months", "31", "median"),
        ("range, 12-60 months", "60", "range"),
        ("mean (SD) 31 (12) months", "12", "sd"),
        ("Step | A | B\nLost to follow-up | 4 | 6\nExamined | 52 | 49", "4", "lost"),
    ],
)
def test_word_said_of_the_number_itself_is_bound(text: str, number: str, role: str) -> None:
    assert role in bound(text, number)


@pytest.mark.parametrize(
    ("text", "number", "role"),
    [
        ("Flare-ups followed 9 of 88 single visits", "9", "examined"),
        ("Of those examined 62 had no pain", "62", "examined"),
        ("Teeth kept at 5 years: 61 of 66 examined", "61", "examined"),
        ("9 treated with the laser had pain", "9", "treated"),
        ("The median was 11 minutes in 48 treated in one visit and 16 minutes in 45 treated in two", "16", "treated"),
        ("The mean pain score in 48 canals was 2.1", "48", "mean"),
        ("39 of 47 teeth treated by residents were free of pain", "39", "treated"),
        ("Arm | Teeth treated with a laser | Teeth treated by hand\nPain | 12 | 15", "12", "treated"),
    ],
)
def test_word_of_something_else_in_the_clause_is_not(text: str, number: str, role: str) -> None:
    assert role not in bound(text, number)
