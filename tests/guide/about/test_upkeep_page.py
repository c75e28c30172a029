"""What waits for people: dates as set, one reader only, own authors, nobody's signature."""

from __future__ import annotations

import re
from html import unescape

import pytest
from guide.compendium import COMPENDIUM, catalogue_of, html_of, nothing_named, report
from passageproof.guide.about.upkeep_page import upkeep_page
from passageproof.guide.about.waiting import waiting
from passageproof.problems import Position, Problem
from passageproof.results.findings.findings import Catalogue
from passageproof.results.findings.own_authors import is_same_person, own_work
from passageproof.results.values.document import Details, walk
from passageproof.results.values.line import Span, plain_text

QUESTION = "id: hole\ntitle: There is a hole\nsearched: {on: 2026-08-31, where: [a database], by: IM}\n"
CLAIM = "- {id: all, question: hole, outcome: healed, events: 39, total: 47, where: 'p. 3', follow_up: not reported}"
MARLOW = report("marlow2019", CLAIM, "[p. 3] healed: 39 of 47 teeth")
REVIEWED = COMPENDIUM + "review: {questions: 18 months, status: 1 month}\n"


LEANING = MARLOW | {
    "questions/hole.yaml": QUESTION + "answer: Most had healed ($marlow2019/all).\n",
    "status.yaml": "marlow2019: {state: retracted, on: 2026-10-20, by: hand}\n",
}


def section(files: dict[str, str], anchor: str) -> str:
    html = html_of(upkeep_page(catalogue_of({"questions/hole.yaml": QUESTION} | files), nothing_named))
    start = html.index(f'id="{anchor}"')
    following = re.search(r'\n(?:<section>\n<h2|<details class="part"|<dt )', html[start:])
    block = html[start : start + following.start()] if following else html[start:]
    parted = re.sub(r"</(td|th|p|li|dt|dd|caption|h\d|summary)>", " ", block)
    return " ".join(unescape(re.sub(r"<[^>]+>", "", parted)).split())


def test_review_is_due_a_set_time_after_the_search() -> None:
    # Eighteen months after the last day of August is the last day of February: the month is shorter.
    assert "review due 2028-02-29" in section({"compendium.yaml": REVIEWED}, "dates")


def test_day_of_the_next_status_check_follows_from_the_last() -> None:
    files = MARLOW | {
        "compendium.yaml": REVIEWED,
        "status.yaml": "marlow2019: {state: none found, on: 2026-10-20, by: hand}\n",
    }
    assert "All reports retractions and corrections: check due 2026-11-20 2026-10-20" in section(files, "dates")


def test_report_checked_before_the_others_is_listed() -> None:
    files = MARLOW | report("tove2021", CLAIM.replace("39", "30"), "[p. 3] healed: 30 of 47 teeth", study="other")
    status = "{}: {{state: none found, on: {}, by: hand}}\n"
    days = {"marlow2019": "2026-08-20", "tove2021": "2026-10-20"}
    files["status.yaml"] = "".join(status.format(*item) for item in days.items())
    text = section(files, "not-checked")
    assert "Marlow 2019 checked before the others 2026-08-20" in text
    assert "Tove" not in text


def test_of_what_nothing_waits_is_told_at_its_own_address_and_what_leans_on_a_withdrawn_report_stands_open() -> None:
    assert section(MARLOW, "withdrawn").startswith(
        'id="withdrawn">Relying on a withdrawn report No sentence and no basis'
    )
    page = upkeep_page(catalogue_of({"questions/hole.yaml": QUESTION} | LEANING), nothing_named)
    doors = {block.anchor: block for block in walk(page.blocks) if isinstance(block, Details) and block.anchor}
    assert [anchor for anchor, door in doors.items() if door.is_open] == ["dates", "withdrawn"]
    assert doors["withdrawn"].summary == "Relying on a withdrawn report"


def test_report_without_status_is_listed_as_not_checked() -> None:
    assert "Marlow 2019 not checked" in section(MARLOW, "not-checked")


def test_report_read_by_one_person_is_listed_until_it_was_re_read() -> None:
    assert "Marlow 2019 re-read by nobody yet 2026-02-03 Ines Marlow" in section(MARLOW, "one-reader")
    again = MARLOW["claims/marlow2019.yaml"].replace("studies:", "checked: {by: TO, on: 2026-02-10}\nstudies:")
    assert "Every report was re-read" in section(MARLOW | {"claims/marlow2019.yaml": again}, "one-reader")


def test_numbers_that_only_stand_in_their_passage_are_counted_of_all() -> None:
    # "healed" is said of the 39 alone.
    assert "Marlow 2019 1 of 2 numbers" in section(MARLOW, "located")


def test_numbers_that_a_second_person_has_read_are_counted_together() -> None:
    again = MARLOW["claims/marlow2019.yaml"].replace("studies:", "checked: {by: TO, on: 2026-02-10}\nstudies:")
    told = section(MARLOW | {"claims/marlow2019.yaml": again}, "located")
    assert "In reports that a second person re-read: 1 of 2 numbers" in told
    assert "Marlow" not in told


def test_report_read_as_an_abstract_is_listed() -> None:
    files = MARLOW | {"claims/marlow2019.yaml": MARLOW["claims/marlow2019.yaml"].replace("full text", "abstract")}
    assert "Marlow 2019, read as an abstract only abstract" in section(files, "not-in-full")


@pytest.mark.parametrize(
    ("name", "author", "expected"),
    [
        ("Ines Marlow", "Marlow, Ines", True),
        ("Ines Marlow", "Marlow, I.", True),
        ("Ines Marlow", "I. Marlow", True),
        ("Ines von der Marlow", "von der Marlow, Ines", True),
        ("Ines Marlow", "Marlow, Tam", False),
        ("Ines Marlow", "Okafor, Ines", False),
        ("Ines Marlow", "Marlow", False),
        ("Ines Marlow", "Low, Ines", False),
    ],
)
def test_person_and_author_are_matched_by_family_name_and_first_letter(name: str, author: str, expected: bool) -> None:
    assert is_same_person(name, author) is expected


def own(question: str) -> list[tuple[str, str, str, str]]:
    files = {name: text.replace("Marlow, Ada", "Marlow, Ines") for name, text in MARLOW.items()}
    return [tuple(work) for work in own_work(catalogue_of(files | {"questions/hole.yaml": question}))]


def test_author_who_read_their_own_report_is_seen() -> None:
    assert own(QUESTION) == [("IM", "read it", "marlow2019", "")]


def ledger_by(person: str) -> str:
    steps = f"[{{for: bias, down: 1, reason: small, by: {person}}}]"
    return f"certainty: [{{outcome: healed, start: low, steps: {steps}, final: very low}}]\n"


def test_author_who_judged_how_sure_their_own_report_is_is_seen() -> None:
    assert ("IM", "judged how sure it is", "marlow2019", "hole") in own(QUESTION + ledger_by("IM"))


BY_SIZE = """
    - {id: by-size, question: hole, outcome: healed, factor: size, known_at: before, reference: up to 3 mm, where: 'p. 3',
       follow_up: not reported,
       levels: [{level: up to 3 mm, events: 11, total: 12}, {level: over 3 mm, events: 6, total: 8}]}
"""
SIZED = report("marlow2019", BY_SIZE, "[p. 3] up to 3 mm: 11 of 12 healed; over 3 mm: 6 of 8")


def test_each_comparison_without_a_ledger_is_listed_beside_a_question_that_has_one() -> None:
    # GRADE is by outcome, never by question: Guyatt et al. 2011, J Clin Epidemiol 64:383-394 (from memory).
    judged = {"questions/hole.yaml": QUESTION + ledger_by("TO")}
    assert "Size of the hole: over 3 mm: healed" in section(SIZED | judged, "not-judged")


def test_an_outcome_of_all_without_a_ledger_is_listed() -> None:
    assert "of all: healed" in section(MARLOW, "not-judged")
    judged = {"questions/hole.yaml": QUESTION + ledger_by("TO")}
    assert "Every comparison and every outcome has its ledger" in section(MARLOW | judged, "not-judged")


def test_somebody_else_who_judged_is_not_named() -> None:
    assert {person for person, *_ in own(QUESTION + ledger_by("TO"))} == {"IM"}


ENTRY = "steps:\n  - {{words: Dry it first., basis: {{kind: common practice}}{ratified}}}\n"


@pytest.mark.parametrize(
    ("entry", "question", "is_listed"),
    [
        ("", "", True),
        (", ratified: {by: [IM], on: 2026-10-01}", "", False),
        ("", "ratified: {by: [IM], on: 2026-10-01}\n", False),
    ],
    ids=["nobody", "its own", "the question's"],
)
def test_entry_is_listed_while_nobody_stands_behind_it(entry: str, question: str, is_listed: bool) -> None:
    text = section({"questions/hole.yaml": QUESTION + question + ENTRY.format(ratified=entry)}, "not-ratified")
    assert ("steps: Dry it first." in text) is is_listed


def test_sentence_that_leans_on_a_withdrawn_report_is_listed_with_its_title_and_its_line_in_small() -> None:
    text = section(LEANING, "withdrawn")
    assert "There is a hole the answer: Marlow 2019, Report of fenwick, withdrawn (2026-10-20)" in text
    assert "39" not in text
    page = upkeep_page(catalogue_of(LEANING), nothing_named)
    small = [part for part in walk(page.blocks) if isinstance(part, Span) and part.kind == "below"]
    assert [plain_text((part,)).partition(":")[0] for part in small] == ["evidence/questions/hole.yaml"]


def test_passage_that_proves_nothing_is_listed() -> None:
    files = report("marlow2019", CLAIM, "[p. 3] healed: 39 of 47 teeth", "[p. 9] 12 canals were curved")
    assert "Marlow 2019: p. 1, Methods; p. 9" in section(files, "unused-passages")


def test_page_of_an_empty_guide_is_whole() -> None:
    page = upkeep_page(catalogue_of({}), nothing_named)
    assert "No question has been written yet." in html_of(page)
    assert "contact not set by this programme" in html_of(page)


def test_a_sentence_that_is_long_to_hear_is_listed_with_what_its_number_counts() -> None:
    long = "answer: Most were healed ($marlow2019/all) " + "and so on " * 14 + "to the end.\n"
    text = section(MARLOW | {"questions/hole.yaml": QUESTION + long}, "long-sentences")
    assert text.startswith(
        'id="long-sentences">Sentences that are long to hear There is a hole, answer, over forty words: '
    )
    assert "Most were healed (39 of 47) and so on" in text
    assert (
        "39 of 47 teeth (95% CI 70% to 91%, computed; how many were due is not reported): healed (stricter definition), when is not reported"
        in text
    )
    assert "No sentence is longer than forty words or has more than two numbers." in section(MARLOW, "long-sentences")


def test_two_reports_that_were_said_to_be_of_other_people_are_listed() -> None:
    twin = report("tove2021", CLAIM.replace("39", "38"), "[p. 3] healed: 38 of 47 teeth", study="other")
    catalogue = catalogue_of(MARLOW | twin | {"questions/hole.yaml": QUESTION})
    asked = Problem(
        Position("evidence/claims/tove2021.yaml", 4, 5), "looks-like-one-cohort", "ask", "may be the same people",
        printed="fenwick and other", place="tove2021", with_key="marlow2019", acknowledged="two clinics of one name",
    )  # fmt: skip
    answered = Catalogue(catalogue.evidence, catalogue.audit._replace(problems=(asked,)))
    told = [item for item in waiting(answered, nothing_named) if item.kind in ("overlap", "asked")]
    assert [(item.kind, plain_text(item.where)) for item in told] == [("overlap", "Tove 2021 and Marlow 2019")]
    assert "two clinics of one name" in plain_text(told[0].what)


def test_an_outcome_that_nothing_names_is_listed() -> None:
    assert "the vocabulary outcome: tooth there" in section(MARLOW, "unused")


def test_a_report_that_nothing_rests_on_is_listed_until_a_basis_names_it() -> None:
    bare = {name: text.partition("claims:")[0] + "nothing_claimed: a letter\nclaims: []\n" if name.startswith("claims/") else text
            for name, text in MARLOW.items()}  # fmt: skip
    assert "Marlow 2019 no claim was drawn, and nothing rests on it: a letter" in section(bare, "no-claim")
    steps = "steps: [{words: Dry it., basis: {kind: guideline, source: marlow2019}}]\n"
    assert "Marlow" not in section(bare | {"questions/hole.yaml": QUESTION + steps}, "no-claim")


def test_a_question_without_a_guideline_is_listed() -> None:
    assert "There is a hole no entry rests on a guideline" in section(MARLOW, "no-guideline")
    steps = "steps: [{words: Dry it., basis: {kind: guideline, source: marlow2019}}]\n"
    files = MARLOW | {"questions/hole.yaml": QUESTION + steps}
    assert "Every question rests on a guideline somewhere." in section(files, "no-guideline")


def test_a_search_that_nobody_recorded_is_listed() -> None:
    assert "There is a hole search not recorded" in section(
        {"questions/hole.yaml": "id: hole\ntitle: There is a hole\n"}, "search"
    )


def test_more_of_a_kind_than_are_read_at_a_look_stand_by_their_page() -> None:
    steps = "".join(
        f"  - {{words: Dry it {'again ' * number}., basis: {{kind: common practice}}}}\n" for number in range(30)
    )
    page = upkeep_page(catalogue_of({"questions/hole.yaml": QUESTION + "steps:\n" + steps}), nothing_named)
    doors = {block.anchor: block for block in walk(page.blocks) if isinstance(block, Details) and block.anchor}
    assert [block.summary for block in doors["not-ratified"].blocks] == ["There is a hole"]
