"""A text falls into numbers, words and signs, each of one kind."""

from __future__ import annotations

import pytest
from passageproof.numerals import FORMAT_1
from passageproof.numerals.kinds import Kind
from passageproof.numerals.pieces import read_pieces


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("39 of 47 eyes", "NUMBER OF NUMBER WORD"),
        ("83% healed", "NUMBER PERCENT ROLE"),
        ("no more than 3 mm", "COMPARATOR NUMBER UNIT"),
        ("no more of 3", "LABEL ADJECTIVE OF NUMBER"),
        ("3 mm or more", "NUMBER UNIT OR_MORE"),
        ("3 or more than 5", "NUMBER WORD COMPARATOR NUMBER"),
        ("none of twenty one", "NUMBER OF NUMBER"),
        ("none yet", "WORD WORD"),
        (r"P \leq .05", "P_SIGN COMPARATOR NUMBER"),
        ("P < = .05", "P_SIGN COMPARATOR EQUALS NUMBER"),
        ("P <= .05", "P_SIGN COMPARATOR NUMBER"),
        ("OR or 2", "MEASURE WORD NUMBER"),
        ("two-year", "NUMBER UNIT"),
        ("two thirds", "WORD WORD"),
        ("one-third", "ADJECTIVE"),
        ("12-65", "NUMBER DASH NUMBER"),
        ("to -5", "TO NUMBER"),
        ("3.1 | -5.0 to 11.2", "NUMBER NUMBER TO NUMBER"),
        ("3.1  -5.0", "NUMBER NUMBER"),
        ("3.1\t–5.0", "NUMBER NUMBER"),
        ("3.1|–5.0", "NUMBER NUMBER"),
        ("3.1 – 5.0", "NUMBER DASH NUMBER"),
        ("", ""),
    ],
)
def test_pieces_have_kinds(text: str, expected: str) -> None:
    pieces = read_pieces(text, FORMAT_1)
    assert " ".join(Kind(kind).name for kind, _ in pieces.meanings) == expected
    assert len(pieces.spans) == len(pieces.meanings)


@pytest.mark.parametrize("text", ["12,5", "88.4992.34", "3D", "OR2.15", "12 -65"])
def test_a_number_that_may_be_another_is_destroyed(text: str) -> None:
    pieces = read_pieces(text, FORMAT_1)
    assert pieces.destroyed
    assert pieces.destroyed <= set(pieces.values)


@pytest.mark.parametrize("blank", ["~", "$", "{", " "])
def test_blanks_before_nothing_part_nothing(blank: str) -> None:
    few, many = (read_pieces(f"5{blank * count}* 6{blank * count}", FORMAT_1) for count in (2, 80_000))
    assert few.meanings == many.meanings
    assert few.values == many.values
