"""Participles that say what is counted. Phrases of reports by common practice, no source; figures are invented."""

from __future__ import annotations

import pytest
from passageproof.numerals import FORMAT_1, read_numerals
from passageproof.printed.participles import read_participles


def of_whole(passage: str) -> dict[str, tuple[str, ...]]:
    """By number as printed the roles that say what it was counted from; the others left out."""
    tokens = read_numerals(passage, FORMAT_1)
    read_participles(passage, tokens, FORMAT_1)
    return {token.text: token.of_whole for token in tokens if token.of_whole}


@pytest.mark.parametrize(
    "passage",
    [
        "39 of 47 teeth treated by residents healed",
        "Healing was seen in 39 of 47 teeth treated with the new cement",
        "Healing was best in A (40/41), followed by B (39/47)",
        "39 of 47 teeth treated with the one and 22 of 41 treated with the other healed",
        "39 of 47 teeth followed for a minimum of 2 years had healed",
        "39 of 47 teeth examined between 12 and 36 months after repair were healed",
    ],
)
def test_a_participle_says_what_was_counted_from(passage: str) -> None:
    assert "39" in of_whole(passage)


@pytest.mark.parametrize(
    "passage",
    [
        "39 of 47 teeth were treated by residents",
        "39 of 47 teeth examined",
        "39 of 47 teeth were examined between 12 and 36 months",
        "Of 47 teeth treated by residents 39 were treated again",
        "39 of 47 teeth healed",
    ],
)
def test_a_verb_says_what_was_counted(passage: str) -> None:
    assert of_whole(passage) == {}
