"""Four corpora of print, each written by somebody who had not seen the code: what is asked, what is refused.

The one called "apart" was kept away from whoever wrote the readers until they were done. The one called "unread" was
written after that, and nobody has mended with it; those before it are among the used ones.
"""

from __future__ import annotations

import fcntl
import os
import pickle
from collections import Counter
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import NamedTuple

import pytest
from meaning.cases import Answer, answer, read_cases
from passageproof.guide.about.measured import MEASURED, Measured

HERE = Path(__file__).parent
CORPORA = ("used", "attack", "apart", "unread")


class Answered(NamedTuple):
    """A case and what the check says of it."""

    case: dict[str, str]
    answer: Answer


Ask = Callable[[str], list[Answered]]


@pytest.fixture(scope="session")
def answered(tmp_path_factory: pytest.TempPathFactory) -> Ask:
    """Every case of one corpus; what one process of a run has asked, the others of that run read."""
    is_shared = "PYTEST_XDIST_WORKER" in os.environ
    folder = tmp_path_factory.getbasetemp().parent if is_shared else tmp_path_factory.getbasetemp()

    @cache
    def ask(name: str) -> list[Answered]:
        with (folder / f"answered-{name}").open("a+b") as file:
            fcntl.flock(file, fcntl.LOCK_EX)
            file.seek(0)
            held = file.read()
            found: list[Answered] = pickle.loads(held) if held else _asked(name)
            if not held:
                file.write(pickle.dumps(found))
            return found

    return ask


def _asked(name: str) -> list[Answered]:
    return [Answered(case, answer(case)) for case in read_cases(HERE / f"{name}.yaml")]


@pytest.mark.parametrize(("corpus", "stated"), list(zip(CORPORA, MEASURED, strict=True)), ids=CORPORA)
def test_what_the_guide_and_the_readme_state_is_what_is_measured(corpus: str, stated: Measured, answered: Ask) -> None:
    wrong, right = answered(f"wrong_{corpus}"), answered(f"right_{corpus}")
    measured = stated._replace(
        wrong=len(wrong),
        asked=sum(each.answer.is_at_the_claim for each in wrong),
        right=len(right),
        silent=sum(each.answer.state == "clean" for each in right),
        refused=sum(bool(each.answer.errors) for each in right),
    )
    assert stated == measured
    cells = (
        f"{stated.wrong - stated.asked} of {stated.wrong}",
        f"{stated.right - stated.silent} of {stated.right}",
        f"{stated.refused} of {stated.right}",
    )
    assert f"| {stated.kept} | {' | '.join(cells)} |" in (HERE.parents[1] / "README.md").read_text("utf-8")


def test_a_wrong_claim_is_asked_about_where_it_is_typed(answered: Ask) -> None:
    found = answered("wrong_used")
    missed = [f"{each.case['kind']}: {each.case['case']}" for each in found if not each.answer.is_at_the_claim]
    assert 20 * len(missed) <= len(found), missed
    made = Counter(each.case["kind"] for each in found)
    # Kinds that one corpus alone tells apart have three cases each, and are asked about as one.
    assert sum(number >= 4 for number in made.values()) >= 20


def test_a_right_claim_is_not_refused_and_seldom_asked_about(answered: Ask) -> None:
    found = answered("right_used")
    refused = [each.case["case"] for each in found if each.answer.errors]
    asked = [each.case["case"] for each in found if each.answer.state != "clean"]
    assert 100 * len(refused) <= len(found), refused
    assert 20 * len(asked) <= len(found), asked
