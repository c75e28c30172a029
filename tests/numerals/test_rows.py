"""Rows as people type them into a passage. Layouts by common practice, no source; figures are invented."""

from __future__ import annotations

import pytest
from passageproof.numerals import FORMAT_1, read_numerals
from passageproof.numerals.rows import labels_in, layout_of, rows_of


@pytest.mark.parametrize(
    ("text", "layout"),
    [
        ("Molars | 48/63", "bars"),
        ("Tooth    Healed\nMolars   48/63", "blanks"),
        ("Tooth\tHealed\nMolars\t48/63", "blanks"),
        ("Molars: 48/63\nPremolars: 39/44", "labels"),
        ("Molars – 48/63\nPremolars – 39/44", "labels"),
        ("Molars .... 48/63\nPremolars .... 39/44", "labels"),
        ("Short vs flush: OR 1.39 (95% CI 0.80 to 2.41)\nNo crown vs crown: OR 2.64", "labels"),
        ("Healed at 2 years: 48 of 63", ""),
        ("Healed: 48 of 63 teeth,\nand of the premolars 39", ""),
        ("Of the teeth  examined 48\nhealed", ""),
        ("They healed.  Others\ndid not.  None was lost", ""),
        ("Methods: 120 teeth were closed. All were seen.\nResults: 48 of them had healed. None was lost.", ""),
        ("at 1 - 2 years\nor 2 - 3 years", ""),
    ],
)
def test_how_columns_are_parted(text: str, layout: str) -> None:
    assert layout_of(text) == layout


def test_a_label_and_its_value() -> None:
    text = "Healed at 2 years:\nUnder 40: 48/63\n 1 - 2 roots: 39/44 (89%)"
    assert [(text[slice(*label)], text[slice(*value)]) for label, value in labels_in(text)] == [
        ("Under 40", "48/63"),
        ("1 - 2 roots", "39/44 (89%)"),
    ]


def test_rows_end_at_semicolons_between_bars() -> None:
    text = "A | 1; B | 2\nC | 3, so; so"
    assert [text[start:end].strip() for start, end in rows_of(text)] == ["A | 1", "B | 2", "C | 3, so; so"]


def test_no_number_is_of_a_total_in_another_row() -> None:
    tokens = read_numerals("Seen: 24\nOf 61 healed: 48", FORMAT_1)
    assert [token.pair for token in tokens if token.value == 24] == [-1]
