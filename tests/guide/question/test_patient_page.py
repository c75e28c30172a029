"""The patient page: chosen numbers alone, one factor at a time, one format a sheet, nothing withdrawn."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from demo import demo_built, demo_evidence
from guide.compendium import catalogue_of, figures, html_of, nothing_named, report, said
from passageproof.guide.question.patient_page import patient_page
from passageproof.results.values.document import Details, Page, Sheet, walk
from passageproof.results.values.drawings import Icons

ROOT = Path(__file__).parents[3]
AT = "{from: repair, timing: at, at: 24 months, tolerance: 6 months, where: 'p. 2'}"
TIME = "[p. 2] at 24 months, give or take 6 months"
LARGE = f"- {{id: all, question: hole, outcome: healed, events: 94, total: 110, where: 'p. 3', follow_up: {AT}}}"
SMALL = f"- {{id: all, question: hole, outcome: healed, events: 17, total: 20, where: 'p. 3', follow_up: {AT}}}"
BY_SIZE = (
    "- {id: by-size, question: hole, outcome: healed, factor: size, known_at: before, reference: up to 3 mm, "
    f"where: 'p. 4', follow_up: {AT}, differ_in: [wide holes were older], "
    "levels: [{level: up to 3 mm, events: 11, total: 12}, {level: over 3 mm, events: 6, total: 8}]}"
)
LARGE_REPORT = report("marlow2019", LARGE, TIME, "[p. 3] 94 of 110 teeth")
SMALL_REPORT = report(
    "arden2021", f"{SMALL}\n{BY_SIZE}", TIME, "[p. 3] 17 of 20 teeth",
    "[p. 4] up to 3 mm: 11 of 12 healed; over 3 mm: 6 of 8; wide holes were older", study="southquay",
)  # fmt: skip


def question(*lines: str) -> dict[str, str]:
    return {"questions/hole.yaml": "\n".join(["id: hole", "title: There is a hole", *lines]) + "\n"}


def page_of(files: dict[str, str]) -> Page:
    catalogue = catalogue_of(files)
    return patient_page(catalogue, catalogue.evidence.questions["hole"], nothing_named)


def sheets(page: Page) -> dict[str, str]:
    return {sheet.title: said(sheet) for sheet in walk(page.blocks) if isinstance(sheet, Sheet)}


def show(*references: str) -> str:
    chosen = ", ".join(references)
    return f"patient: {{show: [{chosen}], chair: [There is a hole.], afterwards: [Tell when it was found.]}}"


def test_without_a_choice_the_sheet_has_no_number_and_says_so():
    page = page_of(question() | LARGE_REPORT)
    assert "This sheet has no number." in sheets(page)["Before treatment"]
    assert not figures(page.blocks)


def test_the_words_for_the_chair_come_first_and_the_numbers_last():
    page = page_of(question(show("marlow2019/all")) | LARGE_REPORT)
    assert [sheet.kind for sheet in walk(page.blocks) if isinstance(sheet, Sheet)] == ["chair", "afterwards", "before"]


def test_each_sheet_has_its_door_at_the_head_of_the_page():
    page = page_of(question(show("marlow2019/all", "arden2021/all")) | LARGE_REPORT | SMALL_REPORT)
    html = html_of(page)
    doors = re.findall(r'href="#([a-z-]+)">', html.partition('class="sheet')[0])
    assert doors == re.findall(r'<article class="sheet [a-z]+" id="([a-z-]+)"', html)
    assert doors[0] == "during-treatment"
    assert len(set(doors)) == 4


def test_beside_a_number_stand_its_counts_time_hands_and_certainty_and_the_rest_is_one_tap_away():
    page = page_of(question(show("marlow2019/all")) | LARGE_REPORT)
    (behind,) = (
        block for block in walk(page.blocks) if isinstance(block, Details) and block.summary == "What this rests on"
    )
    stands = sheets(page)["Before treatment"].replace(said(behind.blocks), "")
    for wanted in (
        "94 of 110 teeth",
        "85 of every 100; 15 of every 100 not so",
        "24 months after repair, give or take 6 months",
        "treated by residents",
        "not judged",
    ):
        assert wanted in stands
    for wanted in ("normal space, by film", "probably between", "One mark for each of a hundred"):
        assert wanted in said(behind.blocks)
        assert wanted not in stands


def test_only_chosen_claims_give_numbers():
    page = page_of(question(show("marlow2019/all")) | LARGE_REPORT | SMALL_REPORT)
    quoted = {figure.id.split("/")[0] for figure in figures(page.blocks).values() if figure.is_quoted}
    assert quoted == {"marlow2019"}


def test_large_and_small_studies_stand_on_two_sheets_each_in_its_format():
    page = page_of(question(show("marlow2019/all", "arden2021/all")) | LARGE_REPORT | SMALL_REPORT)
    shown = sheets(page)
    assert "of 100 teeth" not in shown["Before treatment: small groups"]
    assert "17 of 20 teeth in one study" in shown["Before treatment: small groups"]
    assert "94 of 110 teeth in one study: healed. That is 85 of every 100" in shown["Before treatment"]


def test_every_number_has_period_criteria_setting_and_how_sure():
    shown = sheets(page_of(question(show("marlow2019/all")) | LARGE_REPORT))["Before treatment"]
    for wanted in (
        "24 months after repair, give or take 6 months",
        "normal space, by film",
        "treated by residents",
        "not judged yet",
        "94 of 110 teeth",
    ):
        assert wanted in shown


def judged(at: str) -> str:
    steps = "[{for: bias, down: 2, reason: few, by: IM}]"
    return f"certainty: [{{outcome: healed, at: {at}, start: high, steps: {steps}, final: low}}]"


def test_certainty_is_said_in_plain_words_where_it_was_judged():
    shown = sheets(page_of(question(show("marlow2019/all"), judged("24 months")) | LARGE_REPORT))["Before treatment"]
    assert "it may be some way off (certainty: low)" in shown


def test_certainty_of_another_time_is_not_borrowed():
    shown = sheets(page_of(question(show("marlow2019/all"), judged("5 years")) | LARGE_REPORT))["Before treatment"]
    assert "not judged yet" in shown


def test_certainty_of_a_time_is_not_lent_to_a_share_when_last_seen():
    last = LARGE.replace("timing: at, at: 24 months, tolerance: 6 months", "timing: last recall, minimum: 24 months")
    files = report("marlow2019", last, "[p. 2] last seen after 24 months or more", "[p. 3] 94 of 110 teeth")
    shown = sheets(page_of(question(show("marlow2019/all"), judged("24 months")) | files))["Before treatment"]
    assert "not judged yet" in shown


def test_factor_is_reported_alone_and_says_so():
    shown = sheets(page_of(question(show("arden2021/by-size")) | SMALL_REPORT))["Before treatment"]
    assert "This looks at size of the hole alone, and at nothing else about the tooth" in shown
    assert "The groups also differed at the start: wide holes were older" in shown


def test_fewer_than_ten_are_told_and_not_drawn():
    page = page_of(question(show("arden2021/by-size")) | SMALL_REPORT)
    drawn = [plot.total for plot in walk(page.blocks) if isinstance(plot, Icons)]
    assert drawn == [12]
    assert "6 of 8 teeth" in said(page.blocks)


WITHDRAWN = {"status.yaml": "marlow2019: {state: retracted, on: 2026-10-20, by: hand, notice: {on: 2025-05-04}}\n"}


def test_withdrawn_number_disappears():
    page = page_of(question(show("marlow2019/all")) | LARGE_REPORT | WITHDRAWN)
    assert "This sheet has no number." in sheets(page)["Before treatment"]
    assert not figures(page.blocks)
    assert "94" not in html_of(page)


def test_withdrawal_is_reported_to_the_clinician_with_its_day():
    page = page_of(question(show("marlow2019/all")) | LARGE_REPORT | WITHDRAWN)
    assert "one report chosen for this page was withdrawn (2025-05-04)" in said(page.blocks[-1])


def test_sentence_that_leaned_on_a_withdrawn_report_disappears_from_its_sheet():
    words = "patient: {show: [], chair: [There is a hole., Most heal ($marlow2019/all).], afterwards: []}"
    page = page_of(question(words) | LARGE_REPORT | WITHDRAWN)
    assert "Most heal" not in said(page.blocks)
    assert "There is a hole." in sheets(page)["During treatment"]


REVERSAL = report(
    "zeller2024",
    "- {id: back, question: hole, outcome: lost, where: 'p. 3', follow_up: not applicable, estimate: "
    "{kind: cumulative incidence, at: 10 years, value: 26%, interval: 17% to 39%, starting: 94, at_risk: 30, "
    "from: healing}}",
    "[p. 3] of 94 healed teeth 26% had lost it at 10 years (95% CI 17 to 39), 30 at risk",
    described=False,
)  # fmt: skip


def test_reversal_stands_on_the_sheet_of_the_rate_it_takes_back():
    shown = sheets(page_of(question(show("marlow2019/all")) | LARGE_REPORT | REVERSAL))["Before treatment"]
    assert (
        "Later, in the same study: 10 years after healing: of these 94 teeth, about 74 of every 100 still so: healed; "
        "26 of every 100 no longer: healing lost."
    ) in shown


@pytest.mark.parametrize(
    ("starting", "base"),
    [(94, "of these 94 teeth, about 74"), (90, "of 90 teeth, which are not the 94 above, about 74")],
)
def test_what_takes_a_rate_back_says_of_whom_it_is_where_they_are_not_those_above(starting: int, base: str):
    files = {name: text.replace("94", str(starting)) for name, text in REVERSAL.items()}
    shown = sheets(page_of(question(show("marlow2019/all")) | LARGE_REPORT | files))["Before treatment"]
    assert f"10 years after healing: {base} of every 100 still so: healed;" in shown


def test_of_levels_that_several_studies_counted_alike_the_one_chosen_is_not_their_example():
    other = report(
        "quill2022", BY_SIZE.replace("events: 11, total: 12", "events: 9, total: 10"), TIME,
        "[p. 4] up to 3 mm: 9 of 10 healed; over 3 mm: 6 of 8; wide holes were older", study="quill",
    )  # fmt: skip
    shown = question(show("arden2021/by-size"))
    both = sheets(page_of(shown | SMALL_REPORT | other))["Before treatment"]
    said_of_all = (
        "From the lowest to the highest of all studies that counted so: up to 3 mm: 9 of 10 teeth to 11 of 12 teeth"
    )
    assert said_of_all in both
    assert "From the lowest" not in sheets(page_of(shown | SMALL_REPORT))["Before treatment"]


def test_units_that_were_kept_are_still_there_and_nothing_does_well():
    claims = LARGE.replace("outcome: healed", "outcome: kept")
    shown = sheets(
        page_of(question(show("marlow2019/all")) | report("marlow2019", claims, TIME, "[p. 3] 94 of 110 teeth"))
    )
    assert (
        "94 of 110 teeth in one study were still there. That is 85 of every 100; 15 of every 100 were not."
        in shown["Before treatment"]
    )
    assert "did well" not in " ".join(shown.values())


def test_a_level_that_is_told_in_words_alone_is_left_out_and_the_reason_said():
    claim = (
        "- {id: by-size, question: hole, outcome: healed, factor: size, known_at: before, reference: up to 3 mm, "
        f"where: 'p. 4', follow_up: {AT}, levels: [{{level: up to 3 mm, events: 11, total: 12}}, "
        "{level: over 3 mm, direction: worse, stated: words only}]}"
    )
    files = report("arden2021", claim, TIME, "[p. 4] up to 3 mm: 11 of 12 healed; over 3 mm did worse")
    page = page_of(question(show("arden2021/by-size")) | files)
    assert "healed, over 3 mm: it is stated in words only" in said(page.blocks[-1])
    assert "11 of 12 teeth" in sheets(page)["Before treatment"]
    assert "over 3 mm" not in sheets(page)["Before treatment"]


OPTIONS = (
    "options: [{id: cap, title: Cap it, is: {factor: way, level: cap}, for: [], against: []}, "
    "{id: full, title: Take it away, is: {factor: way, level: full}, for: [], against: []}]"
)


def test_ways_that_nobody_counted_alike_have_nothing_comparable():
    shown = sheets(page_of(question(show("marlow2019/all"), OPTIONS) | LARGE_REPORT))["Before treatment"]
    assert "no numbers on this sheet" in shown


def test_ways_counted_alike_at_the_same_time_stand_beside_each_other():
    files = report("marlow2019", LARGE, TIME, "[p. 3] 94 of 110 teeth", treatment="direct cap") | report(
        "arden2021",
        LARGE.replace("94", "66"),
        TIME,
        "[p. 3] 66 of 110 teeth",
        study="southquay",
        treatment="full pulpotomy",
    )
    shown = sheets(page_of(question(show("marlow2019/all", "arden2021/all"), OPTIONS) | files))["Before treatment"]
    assert "Cap it: 24 months after repair, give or take 6 months: 94 of 110 teeth in one study" in shown
    assert "Take it away: 24 months after repair, give or take 6 months: 66 of 110 teeth in one study" in shown
    assert "the difference may lie in who was treated" in shown


def test_two_studies_of_one_way_are_two_sentences():
    files: dict[str, str] = {}
    for key, events, study, way in (
        ("marlow2019", "94", "northquay", "direct cap"),
        ("arden2021", "66", "southquay", "direct cap"),
        ("quill2020", "77", "eastquay", "full pulpotomy"),
    ):
        claims, passage = LARGE.replace("94", events), f"[p. 3] {events} of 110 teeth"
        files |= report(key, claims, TIME, passage, study=study, treatment=way)
    chosen = question(show("marlow2019/all", "arden2021/all", "quill2020/all"), OPTIONS)
    shown = sheets(page_of(chosen | files))["Before treatment"]
    assert "Cap it: 24 months after repair, give or take 6 months: 66 of 110 teeth in one study" in shown
    beside = shown.partition("Cap it: ")[2]
    assert beside.count(" in one study: healed.") == beside.count("How sure: not judged yet.") == 3
    assert ".;" not in shown


BOTH_WAYS = (
    "- {id: both, question: hole, outcome: healed, factor: way, known_at: during, reference: direct cap, "
    f"where: 'p. 4', follow_up: {AT}, "
    "levels: [{level: direct cap, events: 52, total: 66}, {level: full pulpotomy, events: 61, total: 68}]}"
)


def test_what_one_study_laid_side_by_side_stands_together_and_a_cohort_apart_from_it():
    files = report("marlow2019", LARGE, TIME, "[p. 3] 94 of 110 teeth", treatment="direct cap") | report(
        "arden2021", BOTH_WAYS, TIME, "[p. 4] direct cap: 52 of 66 healed; full pulpotomy: 61 of 68", study="southquay",
    )  # fmt: skip
    chosen = question(show("arden2021/both", "marlow2019/all"), OPTIONS)
    shown = sheets(page_of(chosen | files))["Before treatment: the ways compared"]
    beside = shown.partition("Side by side in one study:")[2]
    trial, _, cohort = beside.partition("Of other patients, so not to be compared with those above:")
    counts = ("52 of 66", "61 of 68", "94 of 110")
    assert [count in trial for count in counts] == [True, True, False]
    assert [count in cohort for count in counts] == [False, False, True]


def test_comparison_that_nobody_planned_says_so_on_the_sheet():
    text = "Nobody had planned beforehand to compare these groups."
    by_size = BY_SIZE.replace("reference: up to", "planned: {}, reference: up to")
    for planned, is_said in (("no", True), ("yes", False), ("unclear", False)):
        files = report(
            "arden2021", by_size.replace("planned: {}", f"planned: {planned}"), TIME,
            "[p. 4] up to 3 mm: 11 of 12 healed; over 3 mm: 6 of 8; wide holes were older",
        )  # fmt: skip
        shown = sheets(page_of(question(show("arden2021/by-size")) | files))["Before treatment"]
        assert (text in shown) is is_said


def test_sheets_of_the_demo_say_it_where_its_evidence_does():
    built = demo_built()
    assert built.guide is not None
    evidence = demo_evidence()
    unplanned = 0
    for name, asked in evidence.questions.items():
        shown = said(built.guide.pages[f"{name}/patient/"])
        chosen = [word.text.partition("/") for word in asked.patient.show] if asked.patient else []
        claims = [claim for key, _, own in chosen if (claim := evidence.reports[key].claim(own)) is not None]
        wanted = sum(claim.planned is not None and claim.planned.text == "no" for claim in claims if claim.factor)
        assert shown.count("Nobody had planned beforehand") == wanted
        unplanned += wanted
    assert unplanned


def test_ways_counted_at_another_time_do_not_stand_beside_each_other():
    later = LARGE.replace("94", "66").replace("24 months, tol", "48 months, tol")
    files = report("marlow2019", LARGE, TIME, "[p. 3] 94 of 110 teeth", treatment="direct cap") | report(
        "arden2021", later, "[p. 2] at 48 months, give or take 6 months", "[p. 3] 66 of 110 teeth", study="southquay",
        treatment="full pulpotomy",
    )  # fmt: skip
    shown = sheets(page_of(question(show("marlow2019/all", "arden2021/all"), OPTIONS) | files))["Before treatment"]
    assert (
        "Cap it; Take it away. Side by side, at the same time and by the same criteria: no numbers on this sheet."
        in shown
    )


@pytest.mark.parametrize("title", ["Before treatment", "During treatment", "Afterwards"])
def test_every_sheet_says_that_it_is_no_consent_form(title: str):
    shown = sheets(page_of(question(show("marlow2019/all")) | LARGE_REPORT))[title]
    assert "This is no consent form. Local law and the indemnifier decide" in shown


def test_sheets_of_a_demonstration_are_crossed_out_for_patients():
    html = html_of(page_of(question(show("marlow2019/all")) | LARGE_REPORT))
    assert html.count("not for use with a patient") == 3
    assert "invented for demonstration" in html


@pytest.mark.parametrize(
    ("status", "words"),
    [
        ("", "not checked for a retraction"),
        ("marlow2019: {state: unknown, on: 2026-10-20, by: hand}\n", "not checked for a retraction"),
        ("marlow2019: {state: concern, on: 2026-10-20, by: hand}\n", "under an expression of concern"),
        ("marlow2019: {state: corrected, on: 2026-10-20, by: hand}\n", "corrected by its journal"),
    ],
)
def test_standing_that_is_not_clean_stands_beside_the_number(status: str, words: str):
    files = LARGE_REPORT | ({"status.yaml": status} if status else {})
    assert words in sheets(page_of(question(show("marlow2019/all")) | files))["Before treatment"]


def test_clean_report_carries_no_flag():
    status = {"status.yaml": "marlow2019: {state: none found, on: 2026-10-20, by: hand}\n"}
    shown = sheets(page_of(question(show("marlow2019/all")) | LARGE_REPORT | status))["Before treatment"]
    assert "not checked" not in shown


ELSEWHERE = report(
    "bexley2015",
    "- {id: by-size, question: hole, outcome: healed, factor: size, known_at: before, reference: under 2 mm, "
    f"where: 'p. 4', follow_up: {AT}, levels: [{{level: under 2 mm, events: 52, total: 61}}, "
    "{level: from 2 mm, events: 19, total: 31}]}",
    TIME, "[p. 4] under 2 mm: 52 of 61 healed; from 2 mm: 19 of 31", study="northquay",
)  # fmt: skip


@pytest.mark.parametrize(("other", "is_told"), [(ELSEWHERE, True), ({}, False)])
def test_a_study_that_drew_its_line_through_a_level_says_so_on_the_sheet(other: dict[str, str], is_told: bool):
    shown = sheets(page_of(question(show("arden2021/by-size")) | SMALL_REPORT | other))
    said_so = "Another study drew the line elsewhere, healed: from 2 mm 19 of 31 teeth; under 2 mm 52 of 61 teeth."
    assert (said_so in shown["Before treatment"]) is is_told


def test_ways_that_one_study_compared_come_before_those_of_different_people():
    way = (
        "options: [{id: now, title: Now, is: {factor: size, level: large}, "
        "for: [{words: It is seen., basis: {kind: common practice}}]}]"
    )
    both = show("arden2021/all", "arden2021/by-size")
    alone, apart = (list(sheets(page_of(question(*lines, both) | SMALL_REPORT))) for lines in ((), (way,)))
    assert alone[2:] == ["Before treatment"]
    assert apart[2:] == ["Before treatment: the ways compared", "Before treatment"]


def test_where_one_way_is_known_for_years_and_another_is_not_the_sheet_says_so():
    both = question(show("marlow2019/all", "arden2021/all"))
    told = sheets(page_of(both | LARGE_REPORT | SMALL_REPORT | REVERSAL))
    assert "What became of these teeth later is not known." in told["Before treatment: small groups"]
    assert "later is not known" not in told["Before treatment"]
