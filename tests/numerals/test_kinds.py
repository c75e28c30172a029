"""A pattern over kinds is written with their names."""

from __future__ import annotations

import re

import pytest
from passageproof.numerals import FORMAT_1
from passageproof.numerals.kinds import Kind, pattern
from passageproof.numerals.printed import Printed

N_OF_N = re.compile(pattern("events:NUMBER [UNIT ROLE]{0,2} (OF|SLASH) total:NUMBER", "n_of_n"))


@pytest.mark.parametrize("text", ["39 of 47", "39/47", "39 teeth of 47", "39 healed teeth of 47"])
def test_a_pattern_reads_kinds_by_name(text: str) -> None:
    kinds = Printed(text, FORMAT_1).kinds
    match = N_OF_N.fullmatch(kinds)
    assert match is not None
    assert [kinds[match.start(f"n_of_n_{name}")] for name in ("events", "total")] == [Kind.NUMBER, Kind.NUMBER]


def test_a_pattern_does_not_match_other_kinds() -> None:
    assert N_OF_N.search(Printed("39 to 47 teeth", FORMAT_1).kinds) is None


def test_a_name_that_is_no_kind_is_refused() -> None:
    with pytest.raises(KeyError, match="NUMBRE"):
        pattern("NUMBRE OF NUMBER")
