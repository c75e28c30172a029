"""What stands beside a number wherever it goes: other patients, few still followed, how groups differed, a chosen cut."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from demo import demo_built
from guide.cohorts import by_size, catalogue, cohort
from guide.compendium import nothing_named, report, said
from passageproof.build import Built
from passageproof.guide.factor.factor_page import factor_page
from passageproof.guide.question.conference_page import conference_page
from passageproof.guide.question.over_time import over_time_page
from passageproof.guide.question.patient_page import patient_page
from passageproof.guide.question.question_page import question_page
from passageproof.guide.sentences.prose import prose
from passageproof.guide.source.source_page import source_page
from passageproof.results.findings.findings import Catalogue
from passageproof.results.values.document import Section, walk
from passageproof.results.values.drawings import TimePlot

ROOT = Path(__file__).parents[3]
QUESTION = """\
id: hole
title: There is a hole
situation: [{factor: size, ask: How wide?}]
factors: [size]
"""


@pytest.fixture(scope="module")
def demo() -> Built:
    return demo_built()


def told(demo: Built, address: str) -> str:
    assert demo.guide is not None
    return said(demo.guide.pages[address])


def sentence(text: str, *files: dict[str, str]) -> str:
    return said(prose(text, catalogue(*files), nothing_named))


ARDEN, BEXLEY = cohort("arden2011", 60, 72), cohort("bexley2012", 50, 58)


def test_two_numbers_of_different_patients_in_one_sentence_say_so() -> None:
    found = sentence("Most healed ($arden2011/all), as after the other way ($bexley2012/all).", ARDEN, BEXLEY)
    assert found.count("other patients") == 1
    assert "as after the other way (50 of 58; other patients)." in found


@pytest.mark.parametrize(
    "text",
    [
        "Most healed ($arden2011/all). Elsewhere too ($bexley2012/all).",
        "Most healed ($arden2011/all) and, in other patients, most again ($bexley2012/all).",
        "Most healed ($arden2011/all), which is most ($arden2011/all).",
    ],
    ids=["two sentences", "said by the writer", "the same patients"],
)
def test_it_is_not_said_where_it_says_nothing(text) -> None:
    assert "other patients)" not in sentence(text, ARDEN, BEXLEY)


def test_the_answers_of_the_demo_say_where_numbers_are_of_other_patients(demo) -> None:
    for address in ("", "root-perforation/"):
        assert "In another series 71% of healed teeth were still healed after 10 years" in told(demo, address)
    for address in ("", "broken-instrument/"):
        assert "In other patients 27% of healed teeth had a lesion again within 10 years" in told(demo, address)


def sheet(show: str, *files: dict[str, str]) -> str:
    question = f"{QUESTION}patient: {{show: [{show}]}}\n"
    made = catalogue(*files, question=question)
    return said(patient_page(made, made.evidence.questions["hole"], nothing_named))


def test_numbers_of_different_patients_on_one_sheet_say_so() -> None:
    shown = sheet("arden2011/all, bexley2012/all", ARDEN, BEXLEY)
    assert shown.count("These are other patients than above.") == 1
    assert "other patients than" not in sheet("arden2011/all", ARDEN)


def test_a_study_that_comes_again_after_another_is_not_called_other_patients() -> None:
    again = cohort("corwen2013", 61, 72, study="arden2011", described=False, outcome="kept")
    shown = sheet("arden2011/all, bexley2012/all, corwen2013/all", ARDEN, BEXLEY, again)
    assert shown.count("These are other patients than above.") == 1
    assert "The study of “healed: initial” again, and not the one just above." in shown


def test_every_number_of_a_sheet_says_how_sure_it_is(demo) -> None:
    for question in ("root-perforation", "exposed-pulp", "broken-instrument"):
        shown = told(demo, f"{question}/patient/").partition("For you, not for the patient")[0]
        for number in re.finditer(
            r"of every 100[^.]*; [^.;]* of every 100 (?:not so|were not|with it|no longer)[.:]", shown
        ):
            beside = shown[number.end() :][:420]
            shared = "The same for each of these: When" in shown[number.end() :][:600]
            assert shared or "How sure: " in beside.partition(" of every ")[0], number.group()


def test_the_pulp_sheet_of_the_demo_lays_no_two_ways_of_different_patients_beside_each_other(demo) -> None:
    shown = told(demo, "exposed-pulp/patient/")
    # Each trial compares two ways in itself; the long watch of the caps stands on a sheet of its own.
    assert "98 of 107" not in shown
    assert shown.count("These are other patients than above.") == 1
    trials, apart, caps = shown.partition("97 of 118 teeth")
    assert apart
    assert "102 of 111 teeth" in trials
    assert "In one study of 138 teeth" in caps


LENIENT = """
- id: lenient
  question: hole
  outcome: better
  events: 66
  total: 72
  where: p. 6
  follow_up: all
"""


def with_lenient(files: dict[str, str], key: str) -> dict[str, str]:
    """The same report with its lenient count too."""
    bib, claims = f"sources/{key}.bib", f"claims/{key}.yaml"
    more = "".join(f"  {text}\n" for text in LENIENT.strip("\n").split("\n"))
    return {
        bib: files[bib].replace("\n}}", "\n[p. 6] better or healed: 66 of 72 teeth\n}}"),
        claims: files[claims] + more.replace("id: lenient", "id: lenient"),
    }


def test_strict_and_lenient_of_different_patients_are_not_stacked() -> None:
    from guide.compendium import VOCABULARY

    words = {
        "vocabulary.yaml": VOCABULARY.rstrip("\n")
        + "\n  better: {title: better or healed, construct: success, strictness: lenient, basis: film, "
        "threshold: smaller space, good: yes, lenient_of: healed}\n"
    }
    own = with_lenient(ARDEN, "arden2011")
    stacked = sheet("bexley2012/all, arden2011/lenient", own, BEXLEY, words)
    assert "66 of 72" not in stacked.partition("For you, not for the patient")[0]
    assert "it counts other patients by another definition than a number already on the sheet" in stacked
    both = sheet("arden2011/all, arden2011/lenient", own, words)
    assert re.search(r"Counted\s*66 of 72 teeth", both)


def headings(demo: Built, question: str) -> list[str]:
    assert demo.guide is not None
    page = demo.guide.pages[f"{question}/patient/"]
    return [part.title for part in walk(page.blocks) if isinstance(part, Section) and part.kind == "told"]


def test_no_two_headings_of_a_sheet_read_the_same(demo) -> None:
    for question in ("root-perforation", "exposed-pulp", "broken-instrument"):
        found = headings(demo, question)
        assert len(set(found)) == len(found) >= 2, found
    assert "healed: initial, another study" in sheet("arden2011/all, bexley2012/all", ARDEN, BEXLEY)


def test_two_levels_on_a_sheet_differ_by_so_many_of_a_hundred_and_not_by_points(demo) -> None:
    shown = told(demo, "root-perforation/patient/")
    assert re.search(r"more than chance alone usually gives \(\d+ to \d+ fewer of every 100\)", shown)
    sheets = shown.partition("For you, not for the patient")[0]
    assert not re.search(r"\d points?\b", sheets)


def test_a_way_that_others_are_compared_with_stands_beside_its_own_study(demo) -> None:
    refer = told(demo, "root-perforation/").partition("the films, with the time of the accident")[0]
    assert (
        "specialists: 41 of 50 teeth (82%); in the same study residents: 30 of 42 teeth (71%), when last seen, 24 to 96 "
        "months (median 50 months) after repair; at the start the groups differed: residents were given the easier teeth"
    ) in refer


def test_a_page_of_rates_says_of_whom_nothing_later_is_known(demo) -> None:
    shown = told(demo, "root-perforation/over-time/")
    assert "later than that, of all who were treated: none in people in this guide, searched" in shown
    assert "What became of those who had done well is counted from there, below." in shown


def test_the_sheet_of_the_demo_stacks_no_lenient_count_on_a_strict_one(demo) -> None:
    shown = told(demo, "root-perforation/patient/")
    # What each result was computed from is listed by outcome, and stacks nothing.
    before_workings = shown.partition("Studies by direction")[0]
    assert "healed or healing at the site" not in before_workings
    assert "These are other patients than above." in shown


def test_no_sheet_of_the_demo_speaks_the_words_of_the_file(demo) -> None:
    for question in ("root-perforation", "exposed-pulp", "broken-instrument"):
        sheets = told(demo, f"{question}/patient/").partition("For you, not for the patient")[0]
        assert "in one study: " in sheets
        assert not re.search(r"\b(strict|lenient)", sheets), question


def estimated(at_risk: int) -> Catalogue:
    claim = f"""
    - id: kept
      question: hole
      outcome: kept
      follow_up: not applicable
      estimate: {{kind: survival, at: 10 years, value: 47%, interval: 21% to 70%, starting: 85, at_risk: {at_risk}, from: repair}}
      where: p. 3
    """
    passage = f"[p. 3] 85 teeth at the start; 47% still there at 10 years (95% CI 21 to 70), {at_risk} at risk"
    return catalogue(report("arden2011", claim, passage), question=f"{QUESTION}patient: {{show: [arden2011/kept]}}\n")


@pytest.mark.parametrize(
    ("at_risk", "words"),
    [(8, "8 still at risk (fewer than ten still followed)"), (0, "0 still at risk (nobody still followed)")],
)
def test_fewer_than_ten_still_followed_is_said_beside_the_number(at_risk, words) -> None:
    made = estimated(at_risk)
    question = made.evidence.questions["hole"]
    for page in (over_time_page, conference_page):
        told_there = said(page(made, question, nothing_named))
        count, _, few = words.partition(" still at risk ")
        assert few in told_there, page
        assert re.search(rf"\b{count} (still followed then|still at risk)", told_there), page
    assert words in said(source_page(made, "arden2011", nothing_named))
    patient = said(patient_page(made, question, nothing_named))
    assert "Fewer than ten: this number may be far off." in patient


def test_ten_still_followed_are_not_few() -> None:
    made = estimated(10)
    assert "fewer than ten still followed" not in said(
        over_time_page(made, made.evidence.questions["hole"], nothing_named)
    )


def test_nothing_is_drawn_where_nobody_is_followed() -> None:
    def marks(at_risk: int) -> int:
        made = estimated(at_risk)
        page = over_time_page(made, made.evidence.questions["hole"], nothing_named)
        return sum(len(plot.steps) for plot in walk(page.blocks) if isinstance(plot, TimePlot))

    assert marks(1) == 1
    assert marks(0) == 0


def test_few_still_followed_in_the_demo_are_said_to_be_few(demo) -> None:
    for address in ("root-perforation/over-time/", "root-perforation/hole-size/", "root-perforation/"):
        text = told(demo, address)
        for found in re.finditer(r"(?<!\d)([0-9]) still at risk(?: at that time)?(.{0,32})", text):
            assert "still followed)" in found[2], (address, found[0])


DIFFERENT = "  differ_in: [wide holes were mostly in molars]\n      cut: chosen from the data\n"


def test_how_groups_differed_and_a_chosen_cut_stand_at_the_comparison_on_every_page() -> None:
    steps = (
        "steps: [{words: Wide holes healed less often., basis: {kind: study, claim: arden2011/by-size}}]\n"
        "answer: Wide holes healed less often ($arden2011/by-size).\npatient: {show: [arden2011/by-size]}\n"
    )
    made = catalogue(by_size("arden2011", (14, 25), (60, 69), more=DIFFERENT), question=QUESTION + steps)
    question = made.evidence.questions["hole"]
    pages = {
        "question": said(question_page(made, question, nothing_named)),
        "factor": said(factor_page(made, question, "size", nothing_named)),
        "conference": said(conference_page(made, question, nothing_named)),
        "patient": said(patient_page(made, question, nothing_named)),
        "source": said(source_page(made, "arden2011", nothing_named)),
        "answer": said(prose(question.answer.text, made, nothing_named)) if question.answer else "",
    }
    for name, text in pages.items():
        assert "wide holes were mostly in molars" in text, name
        assert re.search(r"cut (?:was )?chosen from the data|where the data fitted best", text), name
    # In the situation, below the step and in the answer.
    assert pages["question"].count("at the start the groups differed: wide holes were mostly in molars") >= 3


def test_residents_and_the_easier_teeth_stand_together_in_the_demo(demo) -> None:
    for address in ("root-perforation/repair-operator/", "root-perforation/conference/"):
        assert "residents were given the easier teeth" in told(demo, address)
    text = told(demo, "exposed-pulp/")
    for found in re.finditer(r"over 6 minutes: 21 of 35", text):
        assert "chosen from the data" in text[found.start() : found.start() + 400]


@pytest.mark.parametrize(
    ("role", "known_at", "words"),
    [
        ("prognostic", "before", "It is something found, not chosen."),
        ("prognostic", "during", "Studies looked at it."),
        ("treatment", "before", "It is chosen by whoever treats."),
    ],
)
def test_only_what_is_there_beforehand_is_something_found(role, known_at, words) -> None:
    from guide.compendium import VOCABULARY

    files = by_size("arden2011", (14, 25), (60, 69))
    files["claims/arden2011.yaml"] = files["claims/arden2011.yaml"].replace("known_at: before", f"known_at: {known_at}")
    vocabulary = {"vocabulary.yaml": VOCABULARY.replace("role: prognostic", f"role: {role}", 1)}
    made = catalogue(files, vocabulary, question=QUESTION)
    assert words in said(factor_page(made, made.evidence.questions["hole"], "size", nothing_named))


def test_a_way_to_go_on_is_never_something_found() -> None:
    option = "options: [{id: wide, title: Widen it, is: {factor: size, level: large}}]\n"
    made = catalogue(by_size("arden2011", (14, 25), (60, 69)), question=QUESTION + option)
    text = said(factor_page(made, made.evidence.questions["hole"], "size", nothing_named))
    assert "It can be chosen, and is one of the ways to go on." in text
    assert "something found" not in text


def test_when_to_repair_is_something_that_is_done(demo) -> None:
    assert "It is chosen by whoever treats." in told(demo, "root-perforation/repair-delay/")


def test_no_share_of_all_stands_in_the_headline_for_a_comparison(demo) -> None:
    for address in ("", "broken-instrument/"):
        assert "Whether leaving the fragment or removing it does better is not known." in told(demo, address)


def test_what_a_withdrawn_study_found_speaks_for_nothing_any_more(demo) -> None:
    text = told(demo, "exposed-pulp/")
    assert "A second trial pointed the same way" not in text
    after = text.partition("Counts no longer")[2]
    assert after.strip().startswith("An entry: the study it rested on was withdrawn (2017-06-02).")
    for lead in ("Speaks for it", "Speaks against it"):
        for part in text.split(lead)[1:]:
            assert "was withdrawn" not in part.partition("Counts no longer")[0].partition("Have ready")[0]


def test_an_adjustment_that_is_known_is_told_as_it_is(demo) -> None:
    assert demo.guide is not None
    for page in demo.guide.pages:
        assert "crude or not reported" not in said(page), page.address


def test_no_prediction_interval_stands_without_its_level(demo) -> None:
    assert demo.guide is not None
    for page in demo.guide.pages:
        for found in re.finditer(r"a further study would lie between \S+ and \S+ (.{0,26})", said(page)):
            assert found[1].startswith("(95% prediction interval)"), page.address


def test_the_same_teeth_by_two_ways_of_counting_are_said_to_be_the_same(demo) -> None:
    assert "stand here by two ways of counting" in told(demo, "root-perforation/")
    assert "by two ways of counting" not in told(demo, "exposed-pulp/")


def test_a_way_shows_no_share_that_rests_on_few_where_a_better_one_stands(demo) -> None:
    ways = told(demo, "exposed-pulp/").partition("Counts are crude.")[2].partition("Basis: ")[0]
    assert "91% still so" in ways
    assert "fewer than ten still followed" not in ways


def test_a_ledger_says_where_who_judged_it_wrote_a_report_of_it(demo) -> None:
    ledger = told(demo, "root-perforation/hole-size/").partition("Ledger of a prognostic factor")[2]
    assert "(Bram Nettlefold, author of Ehlvik 2019)" in ledger
    assert ", author of " not in told(demo, "exposed-pulp/exposure-size/")
