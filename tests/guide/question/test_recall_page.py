"""The recall page: visits of the plan, states of our own, two scores only where the plan asks for them."""

from __future__ import annotations

import pytest
from guide.compendium import catalogue_of, nothing_named, said
from passageproof.guide.question.recall_page import recall_page, separate_scores
from passageproof.results.values.document import Page, RecallForm, Sheet, walk


def page_of(*lines: str) -> Page:
    catalogue = catalogue_of({"questions/hole.yaml": "\n".join(["id: hole", "title: There is a hole", *lines]) + "\n"})
    return recall_page(catalogue, catalogue.evidence.questions["hole"], nothing_named)


def form_of(page: Page) -> RecallForm:
    return next(item for item in walk(page.blocks) if isinstance(item, RecallForm))


PLAN = (
    "recall: {from: treatment, visits: [2 weeks, 6 months, 5 years, 12 months], "
    "record: [tenderness, the site and the root end judged apart], failing: [new swelling]}"
)


def test_visits_become_months_in_order_of_time():
    assert form_of(page_of(PLAN)).visits == ((6, "6 months"), (12, "12 months"), (60, "5 years"))


def test_whose_plan_it_is_and_what_holds_of_work_not_finished_stand_before_the_days():
    blocks = page_of(PLAN).blocks
    before = said(blocks[: next(index for index, block in enumerate(blocks) if isinstance(block, RecallForm))])
    assert before.startswith("Not finished today? The next visit is within days")
    assert "The plan is this programme's own; not yet ratified." in before


def test_visit_in_weeks_is_left_to_be_counted_by_hand():
    assert "count these by hand: 2 weeks" in said(page_of(PLAN).blocks)


def test_record_and_failing_signs_are_the_plans_own():
    form = form_of(page_of(PLAN))
    assert form.record == ("tenderness", "the site and the root end judged apart")
    assert form.failing == ("new swelling",)


@pytest.mark.parametrize(
    "state", ["as wanted", "failing", "too early to say", "not seen", "extracted, related", "extracted, other"]
)
def test_states_a_visit_may_end_in_are_named(state: str):
    assert state in said(page_of(PLAN).blocks)


def test_too_early_to_say_has_an_end():
    assert "the next visit of this plan at the latest" in said(page_of(PLAN).blocks)


def test_site_and_root_end_have_two_blanks_where_the_plan_judges_them_apart():
    sheet = next(block for block in walk(page_of(PLAN).blocks) if isinstance(block, Sheet))
    assert "at the site ____, at the root end ____" in said(sheet)


def test_no_second_score_is_invented():
    page = page_of("recall: {from: treatment, visits: [6 months], record: [film of the site], failing: []}")
    assert "two scores" not in said(page.blocks)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("the site and the root end judged apart", ("the site", "the root end")),
        ("Site and apex, each on its own film", ("Site", "apex")),
        ("a score for the graft and the lens, scored separately", ("the graft", "the lens")),
        ("film with the root end", None),
        ("pain and swelling", None),
        ("probing at the site", None),
    ],
)
def test_record_asks_for_two_scores(text: str, expected: tuple[str, str] | None):
    assert separate_scores(text) == expected


def test_without_a_plan_the_page_says_so_and_keeps_the_states():
    page = page_of()
    assert "No recall plan has been written" in said(page.blocks)
    assert "too early to say" in said(page.blocks)


def test_plan_nobody_ratified_says_so():
    assert "not yet ratified" in said(page_of(PLAN).blocks)


def test_criteria_are_those_faculty_set_a_threshold_for():
    page = page_of("thresholds: [{outcome: kept, at: 5 years, at_least: 80%, agreed: 2026-09-01, by: IM}]")
    assert "tooth there: in place, by seen" in said(page.blocks)


GUIDELINE = "basis: {kind: guideline, source: council2021, where: p. 5}"


def test_a_guideline_that_the_question_rests_on_stands_beside_the_plan_once():
    files = {
        "questions/hole.yaml": f"id: hole\ntitle: There is a hole\n{PLAN}\n"
        f"stop: [{{words: Do not go on., {GUIDELINE}}}]\ncall: [{{words: It bleeds., {GUIDELINE}}}]\n",
        "sources/council2021.bib": "@techreport{council2021,\n author = {{Council of Teeth}}, title = {Advice},\n"
        " institution = {Council}, year = 2021, annotation = {\n[p. 5] seen again every year\n}}\n",
        "claims/council2021.yaml": "source: council2021\nread: {by: IM, on: 2026-02-03, depth: full text}\n"
        "studies: []\nclaims: []\nnothing_claimed: advice without figures\n",
    }
    catalogue = catalogue_of(files)
    shown = said(recall_page(catalogue, catalogue.evidence.questions["hole"], nothing_named).blocks)
    assert shown.count("A guideline that this question rests on may ask for other visits: ") == 1
    assert "may ask for other visits" not in said(page_of(PLAN).blocks)
