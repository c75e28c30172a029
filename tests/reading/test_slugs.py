"""The short name of a wording."""

from __future__ import annotations

import re

import pytest
from hypothesis import given, strategies as st
from passageproof.reading.slugs import slug


@pytest.mark.parametrize(
    ("wording", "expected"),
    [
        ("p. 46, Table 2", "p-46-table-2"),
        ("over 3 mm", "over-3-mm"),
        ("< 3 mm", "under-3-mm"),
        ("<3 mm", "under-3-mm"),
        ("≤ 3 mm", "up-to-3-mm"),
        ("> 3 mm", "over-3-mm"),
        ("≥3 mm", "from-3-mm"),
        ("vitality +", "vitality-plus"),
        ("+ margin", "plus-margin"),
        ("vitality -", "vitality-minus"),
        ("−5 to 5", "minus-5-to-5"),
        ("multi-rooted", "multi-rooted"),
        ("a+b", "a-b"),
        ("over 50%", "over-50-percent"),
        ("  More than ONE (root)  ", "more-than-one-root"),
        ("Größe", "größe"),
        ("a_b", "a-b"),
        ("...", ""),
    ],
)
def test_slug_spells_signs_out_and_joins_with_hyphens(wording: str, expected: str) -> None:
    assert slug(wording) == expected


@given(st.text())
def test_slug_has_letters_digits_and_single_hyphens_between_them(wording: str) -> None:
    assert re.fullmatch(r"([^\W_]+(-[^\W_]+)*)?", slug(wording))


@given(st.text())
def test_slug_of_a_slug_is_itself(wording: str) -> None:
    assert slug(slug(wording)) == slug(wording)
