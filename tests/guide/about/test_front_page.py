"""The front page: which question it is, where a case begins, each question's answer, and whom to call."""

from __future__ import annotations

from guide.compendium import catalogue_of, nothing_named, said
from passageproof.guide.about.front_page import DOORS, front_page
from passageproof.results.values.document import Items, Page, Section

QUESTION = """\
id: hole
title: There is a hole
answer: It is not known.
"""


def page_of(**questions: str) -> Page:
    return front_page(catalogue_of({f"questions/{name}.yaml": text for name, text in questions.items()}), nothing_named)


def sections(page: Page) -> dict[str, Section]:
    return {block.anchor: block for block in page.blocks if isinstance(block, Section)}


def test_every_door_of_the_bar_is_a_part_of_the_page_with_and_without_questions():
    for page in (page_of(hole=QUESTION), page_of()):
        assert {door.removeprefix("#") for door in DOORS} <= set(sections(page))


def test_what_to_do_now_begins_with_which_question_it_is():
    first = page_of(hole=QUESTION).blocks[0]
    assert isinstance(first, Section)
    assert first.title == "Do now: which question is it?"
    assert "There is a hole" in said(tuple(block for block in first.blocks if isinstance(block, Items)))


def test_where_nothing_is_asked_yet_the_page_says_so():
    assert "No question has been written yet." in said((sections(page_of())["questions"],))


def test_it_says_where_a_case_begins():
    assert "A case begins on the page of its question" in said((sections(page_of(hole=QUESTION))["my-case"],))
