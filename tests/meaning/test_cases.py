"""Two corpora of print, each written by somebody who had not seen the code: what is asked, what is refused.

The second was kept away from whoever wrote the readers until they were done.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import pytest
from meaning.cases import Answer, answer, read_cases

HERE = Path(__file__).parent
CORPORA = ("first", "second")


class Answered(NamedTuple):
    """A case and what the check says of it."""

    case: dict[str, str]
    answer: Answer


def answered(name: str) -> Iterator[Answered]:
    return (Answered(case, answer(case)) for case in read_cases(HERE / f"{name}.yaml"))


@pytest.mark.parametrize("corpus", CORPORA)
def test_a_wrong_claim_is_asked_about_where_it_is_typed(corpus: str) -> None:
    found = list(answered(f"wrong_{corpus}"))
    missed = [f"{each.case['kind']}: {each.case['case']}" for each in found if not each.answer.is_at_the_claim]
    assert 20 * len(missed) <= len(found), missed
    made = Counter(each.case["kind"] for each in found)
    assert len(made) >= 20
    assert min(made.values()) >= 4


@pytest.mark.parametrize("corpus", CORPORA)
def test_a_right_claim_is_not_refused_and_seldom_asked_about(corpus: str) -> None:
    found = list(answered(f"right_{corpus}"))
    refused = [each.case["case"] for each in found if each.answer.errors]
    asked = [each.case["case"] for each in found if each.answer.state != "clean"]
    assert 100 * len(refused) <= len(found), refused
    assert 20 * len(asked) <= len(found), asked
