"""What waits for people: dates as set, one reader only, own authors, nobody's signature."""

from __future__ import annotations

import re
from html import unescape

import pytest
from guide.compendium import COMPENDIUM, catalogue_of, html_of, nothing_named, report
from passageproof.guide.about.upkeep_page import upkeep_page
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
    following = re.search(r'\n(?:<section>\n<h2|<details class="part")', html[start:])
    block = html[start : start + following.start()] if following else html[start:]
    parted = re.sub(r"</(td|th|p|li|caption|h\d|summary)>", " ", block)
    return " ".join(unescape(re.sub(r"<[^>]+>", "", parted)).split())


def test_review_is_due_a_set_time_after_the_search() -> None:
    # Eighteen months after the last day of August is the last day of February: the month is shorter.
    assert "review due 2028-02-29" in section({"compendium.yaml": REVIEWED}, "by-date")


def test_day_of_the_next_status_check_follows_from_the_last() -> None:
    files = MARLOW | {
        "compendium.yaml": REVIEWED,
        "status.yaml": "marlow2019: {state: none found, on: 2026-10-20, by: hand}\n",
    }
    assert "status checked on 2026-10-20; check due 2026-11-20." in section(files, "by-date")


def test_report_checked_before_the_others_is_listed() -> None:
    files = MARLOW | report("tove2021", CLAIM.replace("39", "30"), "[p. 3] healed: 30 of 47 teeth", study="other")
    status = "{}: {{state: none found, on: {}, by: hand}}\n"
    days = {"marlow2019": "2026-08-20", "tove2021": "2026-10-20"}
    files["status.yaml"] = "".join(status.format(*item) for item in days.items())
    text = section(files, "not-checked")
    assert "Marlow 2019: status checked on 2026-08-20, before the others" in text
    assert "Tove" not in text


def test_a_door_says_in_its_title_where_nothing_waits_and_what_leans_on_a_withdrawn_report_stands_open() -> None:
    assert section(MARLOW, "withdrawn").startswith('id="withdrawn">Relying on a withdrawn report: none')
    page = upkeep_page(catalogue_of({"questions/hole.yaml": QUESTION} | LEANING), nothing_named)
    doors = {block.anchor: block for block in walk(page.blocks) if isinstance(block, Details) and block.anchor}
    assert [anchor for anchor, door in doors.items() if door.is_open] == ["withdrawn"]
    assert doors["withdrawn"].summary == "Relying on a withdrawn report"


def test_report_without_status_is_listed_as_not_checked() -> None:
    assert "Marlow 2019: not checked" in section(MARLOW, "not-checked")


def test_report_read_by_one_person_is_listed_until_it_was_re_read() -> None:
    assert "Marlow 2019: read by Ines Marlow" in section(MARLOW, "one-reader")
    again = MARLOW["claims/marlow2019.yaml"].replace("studies:", "checked: {by: TO, on: 2026-02-10}\nstudies:")
    assert "Every report was re-read" in section(MARLOW | {"claims/marlow2019.yaml": again}, "one-reader")


def test_numbers_that_only_stand_in_their_passage_are_counted_of_all() -> None:
    # "healed" is said of the 39 alone.
    assert "Marlow 2019: 1 of 2 numbers" in section(MARLOW, "located")


def test_numbers_that_a_second_person_has_read_are_counted_together() -> None:
    again = MARLOW["claims/marlow2019.yaml"].replace("studies:", "checked: {by: TO, on: 2026-02-10}\nstudies:")
    told = section(MARLOW | {"claims/marlow2019.yaml": again}, "located")
    assert "In reports that a second person re-read: 1 of 2 numbers" in told
    assert "Marlow 2019:" not in told


def test_report_read_as_an_abstract_is_listed() -> None:
    files = MARLOW | {"claims/marlow2019.yaml": MARLOW["claims/marlow2019.yaml"].replace("full text", "abstract")}
    assert "Marlow 2019, read as an abstract only" in section(files, "not-in-full")


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
    assert "There is a hole, the answer: Marlow 2019, Report of fenwick, withdrawn (2026-10-20)" in text
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
