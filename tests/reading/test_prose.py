"""Figures named in sentences."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st
from passageproof.reading.prose import Reference, split_references


def test_reference_ends_before_a_full_stop_or_bracket() -> None:
    assert split_references("Most healed ($a2019word/overall). See $a2019word/by-size/over-3-mm/success_rate.") == [
        "Most healed (",
        Reference("a2019word/overall", 13),
        "). See ",
        Reference("a2019word/by-size/over-3-mm/success_rate", 38),
        ".",
    ]


@pytest.mark.parametrize("text", ["$a/b/", "$a/b-", "$a/b,", "$a/b*", "$a/b]", "$a/b…"])
def test_reference_ends_before_what_cannot_belong_to_it(text: str) -> None:
    assert split_references(text) == [Reference("a/b", 0), text[4:]]


@pytest.mark.parametrize(
    ("text", "plain"), [("5 $$", "5 $"), ("$5", "$5"), ("$a", "$a"), ("$ a/b", "$ a/b"), ("$$a/b", "$a/b")]
)
def test_dollar_without_a_reference_is_text(text: str, plain: str) -> None:
    assert split_references(text) == [plain]


def test_steps_are_the_parts_between_the_slashes() -> None:
    assert Reference("a/b/c", 0).steps == ("a", "b", "c")


def test_nothing_has_no_parts() -> None:
    assert split_references("") == []


@given(st.text("ab/-_$. \n", max_size=40))
def test_parts_put_together_are_the_text(text: str) -> None:
    parts = split_references(text)
    joined = "".join(part.replace("$", "$$") if isinstance(part, str) else f"${part.text}" for part in parts)
    assert joined.replace("$$", "$") == text.replace("$$", "$")
    for part in parts:
        if isinstance(part, Reference):
            assert text.startswith(f"${part.text}", part.offset)
