"""Figures that were really printed: what has to be asked is asked, and everything else stays silent.

The arithmetic behind tests/published/expected.yaml was worked out by hand and with R (metafor 3.8-1), report by report,
from abstracts and single tables; its README says what was seen and what is recalled. Nothing here says that anybody did
wrong.
"""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml
from passageproof.audit.whole import audit, find_between_reports, find_within_report
from passageproof.problems import Problem
from passageproof.reading.evidence import read_evidence

PUBLISHED = Path(__file__).parent.parent / "published"
EXPECTED = yaml.load((PUBLISHED / "expected.yaml").read_text("utf-8"), Loader=yaml.CBaseLoader)
ASKS = [each for each in EXPECTED["checks"] if each["audit"] == "ask"]
SILENT = [each for each in EXPECTED["checks"] if each["audit"] == "silent"]
RIGHTLY = [*ASKS, *EXPECTED["further"]]


@pytest.fixture(scope="module")
def asked() -> list[Problem]:
    """Every question about the figures as they are typed, proved or not."""
    evidence = read_evidence(PUBLISHED)
    found = [
        each
        for report in evidence.reports.values()
        for each in find_within_report(report, evidence.vocabulary.outcomes, evidence.vocabulary.units)
    ]
    return [
        each for each in (*found, *find_between_reports(evidence.reports, evidence.sources)) if each.severity == "ask"
    ]


def belongs(problem: Problem, check: dict) -> bool:
    """True where a question is one that the item speaks of."""
    key, _, place = problem.place.partition("/")
    return key in (check["report"], check.get("with")) and place in check["claim"] and problem.rule in check["rule"]


def name(check: dict) -> str:
    return f"{check['report']}-{check.get('check', 'further')}-{check.get('kind', '')}"


def test_items_are_as_many_as_were_worked_out():
    assert (len(ASKS), len(SILENT)) == (15, 51)


@pytest.mark.parametrize("check", RIGHTLY, ids=name)
def test_figures_that_do_not_agree_are_asked(asked, check):
    messages = " ".join(each.message for each in asked if belongs(each, check))
    assert messages
    assert all(text in messages for text in check.get("printed", ()))
    assert "one_of" not in check or any(text in messages for text in check["one_of"])


@pytest.mark.parametrize("check", SILENT, ids=name)
def test_figures_that_fit_are_silent(asked, check):
    places = {f"{check['report']}/{claim}" for claim in check["claim"]}
    here = [each for each in asked if each.place in places]
    assert [each.message for each in here if not any(belongs(each, other) for other in RIGHTLY)] == []


def test_nothing_else_is_asked(asked):
    assert [each.message for each in asked if not any(belongs(each, check) for check in RIGHTLY)] == []


def test_every_printed_figure_is_proved_and_no_question_is_lost_on_the_way(asked):
    whole = audit(read_evidence(PUBLISHED))
    assert [each.message for each in whole.problems if each.severity == "error"] == []
    assert whole.unproved == 0
    assert {(each.place, each.rule, each.printed) for each in whole.problems} == {
        (each.place, each.rule, each.printed) for each in asked
    }


def test_questions_never_accuse(asked):
    assert asked
    for problem in asked:
        assert problem.message.endswith(", ask")
        assert problem.message.startswith(f'"{problem.printed}"')
        assert not {"wrong", "error", "mistake", "false", "fraud"} & set(
            problem.message.lower().replace(",", " ").split()
        )
