"""What was answered on the page of a question stands beside the numbers of the pages below it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from guide.compendium import report, written
from passageproof.build import build_files
from passageproof.publishing import publish
from playwright.sync_api import Locator, Page, expect
from site_server import SiteServer, serving
from waiting import wait_until

pytestmark = pytest.mark.browser

UNKNOWN = "These numbers do not know your answer: "
LATE = "How soon did it stop bleeding? over 6 minutes"


def below(page: Page, server: SiteServer, question: str, answers: str, kind: str) -> None:
    """A page below a question, its parts open, after these answers were given on the question's own."""
    page.goto(f"{server.url}{question}/#{answers}")
    # A network that is idle says nothing of scripts: the answers are there once each stands by itself in the tab.
    wait_until(page, "Object.values(sessionStorage).some((kept) => kept.includes('[['))")
    page.goto(f"{server.url}{question}/{kind}/")
    page.locator("main > .guide > .carried", has_text="This case, answered at").wait_for()
    page.evaluate("for (const part of document.querySelectorAll('details.part')) part.open = true")


def told(page: Page, claim: str) -> Locator:
    return page.locator(".told", has=page.locator(f"#told-{claim}"))


def test_beside_a_number_of_the_sheet_stands_that_of_the_answer_or_that_it_is_not_known(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened()
    below(page, demo_server, "exposed-pulp", "pulp-bleeding=late", "patient")
    of_cap = told(page, "ilvermark2014cap-strict-12")
    said = " ".join(of_cap.inner_text().split())
    assert "97 of 118" in said
    assert "Your answer, Time until the pulp stops bleeding: over 6 minutes. 21 of 35 teeth in one study" in said
    assert "That is about 6 of every 10." in said
    assert "cut chosen from the data. Other patients, treated by direct cap or partial pulpotomy." in said
    assert "(certainty: very low)" in said
    assert UNKNOWN not in said
    # One answer at a time: the number of one that was not given stays away.
    assert of_cap.get_by_text("up to 6 minutes").count() == 0 or not of_cap.get_by_text("92 of 99").is_visible()
    assert "The same study, all who were in it." in told(page, "jorneby2019arms-strict-12").inner_text()
    for claim in ("ilvermark2022later-kept-5", "kvistmoen2021margin-sound-24"):
        said = told(page, claim).inner_text()
        assert f"{UNKNOWN}{LATE}." in said
        assert "21 of 35" not in said


def test_the_number_of_a_level_that_was_answered_is_marked_as_such(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened()
    below(page, demo_server, "root-perforation", "hole-size=middle", "patient")
    said = told(page, "dovrell2017crest-by-size").locator(".answer").all_inner_texts()
    assert [line.startswith("Your answer: ") for line in said] == [True, False]
    assert said[0].startswith("Your answer: up to 3 mm: 74 of 82 teeth")


@pytest.mark.parametrize("has_script", [True, False])
def test_nothing_stands_beside_a_number_where_nothing_was_answered(
    demo_server: SiteServer, opened: Callable[..., Page], has_script: bool
) -> None:
    page = opened(java_script_enabled=has_script)
    page.goto(f"{demo_server.url}exposed-pulp/patient/", wait_until="load")
    assert page.locator("[data-of]").count() > 0
    assert page.locator("[data-of]:not([hidden])").count() == 0
    assert page.get_by_text("Your answer: ").count() == 0


def test_the_page_of_a_factor_marks_the_rows_of_the_answer(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened()
    below(page, demo_server, "exposed-pulp", "pulp-bleeding=late", "pulp-bleeding")
    expect(page.get_by_text(f"Your answer is marked in the rows below: {LATE}.")).to_be_visible()
    page.evaluate("for (const part of document.querySelectorAll('details')) part.open = true")
    rows = page.locator(".studies:has([aria-label^='Levels side by side']) li")
    marked = [
        ("over 6" in said or "over 10" in said, "Your answer" in said)
        for said in rows.evaluate_all("(rows) => rows.map((row) => row.textContent)")
    ]
    assert len(marked) == 4
    assert [is_marked for _, is_marked in marked] == [False, True, True, True]
    # "up to 10 minutes" reaches over both bands of the guide.
    assert "Your answer and another" in (rows.nth(1).text_content() or "")


@pytest.mark.parametrize(
    ("kind", "said"),
    [
        ("over-time", "These numbers are of everybody counted, not of this case."),
        ("root-end", "No study below is of these answers."),
        ("conference", "What was found by these answers: Time until the pulp stops bleeding."),
    ],
)
def test_every_page_of_a_question_says_what_it_knows_of_the_case_and_leads_back_to_it(
    demo_server: SiteServer, opened: Callable[..., Page], kind: str, said: str
) -> None:
    page = opened()
    below(page, demo_server, "exposed-pulp", "pulp-bleeding=late", kind)
    expect(page.get_by_text("This case, answered at")).to_be_visible()
    assert said in page.locator("main").inner_text()
    page.get_by_role("link", name="My case").click()
    page.wait_for_url("**/exposed-pulp/#pulp-bleeding=late")
    assert page.locator("#known-pulp-bleeding-late").is_visible()


FOLLOW = "{from: repair, timing: at, at: 24 months, tolerance: 6 months, where: 'p. 2'}"
TIME = "[p. 2] at 24 months, give or take 6 months"


def by_size(
    key: str, *levels: tuple[str, int, int], study: str, treatment: str = "direct cap", more: str = ""
) -> dict[str, str]:
    """One report with a table by size."""
    rows = ", ".join(f"{{level: {name}, events: {events}, total: {total}}}" for name, events, total in levels)
    printed = "; ".join(f"{name}: {events} of {total} healed" for name, events, total in levels)
    claim = (
        f"- {{id: by-size, question: hole, outcome: healed, factor: size, known_at: before, where: 'p. 4', "
        f"reference: {levels[0][0]}, follow_up: {FOLLOW}, levels: [{rows}]}}"
    )
    return report(
        key,
        f"{claim}\n{more}",
        TIME,
        "[p. 3] 60 of 80 teeth healed",
        f"[p. 4] {printed}",
        study=study,
        treatment=treatment,
    )


ALL = f"- {{id: all, question: hole, outcome: healed, events: 60, total: 80, where: 'p. 3', follow_up: {FOLLOW}}}"
QUESTION = """\
id: hole
title: There is a hole
factors: [size]
situation: [{factor: size, ask: How wide?}]
options: [{id: cap, title: Cap, is: {factor: way, level: cap}}, {id: full, title: Full, is: {factor: way, level: full}}]
patient: {show: [marlow2019/all]}
"""


@pytest.fixture(scope="module")
def small(tmp_path_factory: pytest.TempPathFactory) -> Iterator[SiteServer]:
    """A level in which nobody failed, two studies of it, one of another way, and one whose level reaches over both."""
    folder: Path = tmp_path_factory.mktemp("beside")
    files = (
        by_size("marlow2019", ("up to 3 mm", 30, 30), ("over 3 mm", 30, 50), study="fenwick", more=ALL)
        | by_size("arden2020", ("up to 3 mm", 20, 40), ("over 3 mm", 4, 9), study="southquay")
        | by_size("tarn2021", ("up to 3 mm", 1, 10), ("over 3 mm", 2, 20), study="tarn", treatment="full pulpotomy")
        | by_size("quill2022", ("up to 2 mm", 7, 9), ("over 2 mm", 5, 8), study="quill")
    )
    written(files | {"questions/hole.yaml": QUESTION}, folder)
    built = build_files(folder)
    assert built.guide is not None, [str(problem) for problem in built.problems if problem.is_open]
    publish(folder, folder / "site", built)
    with serving(folder / "site") as server:
        yield server


def test_of_several_studies_none_is_the_example_and_none_of_another_way_is_told(
    small: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened()
    below(page, small, "hole", "size=small", "patient")
    shown = page.locator("[data-of]:not([hidden])").all_inner_texts()
    said = [" ".join(text.split()) for text in shown]
    assert len(said) == 3
    # Both studies of direct caps, the number's own among them; the one of full pulpotomy stays away.
    assert "healed in 20 of 40 teeth and 30 of 30 teeth, 2 studies." in said[0]
    assert "The study above is one of them" in said[0]
    # What reaches over this answer and another says so; of what lies in it as a whole nothing needs to be said.
    assert said[1].startswith("Your answer, Size of the hole: up to 3 mm. up to 2 mm: 7 of 9 teeth in one study")
    assert "over 2 mm (with over 3 mm): 5 of 8 teeth" in said[2]
    assert "of 10 teeth" not in " ".join(said)
    below(page, small, "hole", "size=large", "patient")
    wide = " ".join(page.locator("[data-of]:not([hidden])").all_inner_texts())
    assert "4 of 9 teeth and 30 of 50 teeth, 2 studies." in wide
    assert "over 2 mm (with up to 3 mm): 5 of 8 teeth" in wide
