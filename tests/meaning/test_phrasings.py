"""One thing printed in many ways is read without a question; the same typed wrongly, in few of them, is asked about."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest
from meaning.cases import answer, read_cases

CASES = [case for path in sorted(Path(__file__).parent.glob("phrasings*.yaml")) for case in read_cases(path)]


@pytest.mark.parametrize("case", CASES, ids=[case["case"] for case in CASES])
def test_what_is_printed_so_is_read_as_it_is_meant(case: Mapping[str, str]) -> None:
    found = answer(case)
    told = [problem.message for problem in (*found.errors, *found.asks)]
    assert bool(told) == case["case"].startswith("wrong"), told
