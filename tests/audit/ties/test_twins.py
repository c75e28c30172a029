"""A wrong claim of each kind is asked about, and its right twin is not. Common practice of reports, no source."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
import yaml

from .conftest import ENDINGS, STUDY, Asked

GROUPS = yaml.safe_load((Path(__file__).parent / "twins.yaml").read_text("utf-8"))
RULES = {
    "recruitment": {"years-of-something-else"},
    "whose": {"result-of-others", "result-assumed"},
    "event": {"event-opposite", "event-denied", "event-other"},
    "negation": {"event-opposite", "event-denied"},
    "start": {"result-at-start"},
    "assumption": {"result-assumed"},
    "unit": {"other-unit", "passage-of-another-species"},
    "survival": {"other-statistic", "result-assumed"},
    "yearly": {"other-statistic"},
    "confidence": {"interval-level"},
    "se": {"other-statistic"},
    "controls": {"figure-of-controls"},
    "time": {"other-time"},
}


def found(group: dict[str, Any], passage: str, open_problems: Asked) -> set[str]:
    study = STUDY.replace("unit: tooth", f"unit: {group['unit']}")
    if "recruited" in group:
        setting = f"setting: {{operators: residents, recruited: {group['recruited']}}}"
        study = study.replace("setting: not reported", setting)
        passage = f"[Methods] {passage}\n[p. 2] 26 of 32 teeth healed"
    return {problem.rule for problem in open_problems(passage, group["claim"], study, {"vocabulary.yaml": ENDINGS})}


def cases(kind: str) -> list[Any]:
    return [pytest.param(group, text, id=f"{group['of']}: {text}") for group in GROUPS for text in group[kind]]


@pytest.mark.parametrize(("group", "passage"), cases("wrong"))
def test_a_claim_that_means_another_thing_is_asked_about(
    open_problems: Asked, group: dict[str, Any], passage: str
) -> None:
    assert not RULES[group["of"]].isdisjoint(found(group, passage, open_problems))


@pytest.mark.parametrize(("group", "passage"), cases("right"))
def test_its_right_twin_is_not(open_problems: Asked, group: dict[str, Any], passage: str) -> None:
    assert found(group, passage, open_problems) == set()
