"""How a question was searched, item by item, and how its review is kept alive."""

from __future__ import annotations

import pytest
from guide.compendium import COMPENDIUM, catalogue_of, html_of, nothing_named
from passageproof.guide.about.waiting import waiting
from passageproof.guide.question.conference_page import conference_page
from passageproof.results.saying.review_date import review_due
from passageproof.results.saying.search_record import ITEMS, missing_of_search, search_rows
from passageproof.results.values.line import plain_text

HOLE = "id: hole\ntitle: There is a hole\n"
DAY = "searched:\n  on: 2026-08-31\n  where: [a database]\n"
WHOLE = DAY + "".join(f"  {field}: none\n" for field, _, _ in ITEMS)


def told(question: str, kind: str) -> list[str]:
    found = waiting(catalogue_of({"questions/hole.yaml": HOLE + question}), nothing_named)
    return [plain_text(item.what) for item in found if item.kind == kind]


def test_the_items_are_those_of_the_list_but_the_day_which_is_always_there() -> None:
    # Rethlefsen et al. 2021, Syst Rev 10:39, table 1: sixteen items; 13 is the dates of searches.
    assert [int(number) for _, number, _ in ITEMS] == [number for number in range(1, 17) if number != 13]


@pytest.mark.parametrize(
    ("question", "missing"),
    [
        ("", ["search not recorded"]),
        (DAY, ["not recorded: every item of a full record"]),
        (WHOLE, []),
        (WHOLE.replace("  limits: none\n", ""), ["not recorded: limits and restrictions"]),
        (WHOLE.replace("  where: [a database]\n", ""), ["not recorded: where was searched"]),
    ],
    ids=["nothing", "a day and a place", "whole", "one item less", "no place"],
)
def test_what_is_missing_of_a_search_waits(question: str, missing: list[str]) -> None:
    assert told(question, "search") == missing


def test_a_strategy_is_shown_as_it_was_run_and_what_is_missing_is_named() -> None:
    question = DAY + '  strategies: ["Index: perforat* AND 2 <b>"]\n'
    catalogue = catalogue_of({"questions/hole.yaml": HOLE + question})
    hole = catalogue.evidence.questions["hole"]
    assert [plain_text(said) for _, said in search_rows(hole)] == ["Index: perforat* AND 2 <b>"]
    assert len(missing_of_search(hole)) == len(ITEMS) - 1
    html = html_of(conference_page(catalogue, hole, nothing_named))
    assert "perforat* AND 2 &lt;b&gt;" in html
    assert "Not recorded: Databases, each with its platform; " in html


@pytest.mark.parametrize(
    ("living", "day"),
    [
        ("", "2028-02-29"),
        ("living: {status: living, schedule: 6 months}\n", "2027-02-28"),
        ("living: {status: retired}\n", "None"),
    ],
    ids=["the interval of all", "its own schedule", "retired"],
)
def test_a_review_is_due_by_its_own_schedule_and_never_once_it_was_retired(living: str, day: str) -> None:
    files = {
        "compendium.yaml": COMPENDIUM + "review: {questions: 18 months, status: 1 month}\n",
        "questions/hole.yaml": HOLE + DAY + living,
    }
    catalogue = catalogue_of(files)
    assert str(review_due(catalogue, catalogue.evidence.questions["hole"])) == day


@pytest.mark.parametrize(
    ("living", "missing"),
    [
        ("living: {status: living, schedule: 6 months, triggers: [a trial], retirement: no plan}\n", []),
        ("living: {status: retired}\n", []),
        (
            "living: {status: paused, schedule: 6 months, triggers: [a trial]}\n",
            ["not recorded: when it is no longer kept alive"],
        ),
    ],
    ids=["whole", "retired", "no end"],
)
def test_what_is_missing_of_a_living_review_waits(living: str, missing: list[str]) -> None:
    assert told(DAY + living, "living") == missing
