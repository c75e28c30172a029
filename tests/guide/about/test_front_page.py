"""The front page: which question it is, where a case begins, each question's answer, and whom to call."""

from __future__ import annotations

import re
from pathlib import Path

from demo import demo_built
from guide.compendium import catalogue_of, html_of, nothing_named, said
from passageproof.guide.about.front_page import DOORS, front_page
from passageproof.results.values.document import Items, Page, Section

URGENT = """\
irrigant:
  title: Irrigant beyond the root
  signs: [pain]
  until_help: [{words: Stop., basis: {kind: common practice}}]
bleeding:
  title: Bleeding in beats
  signs: [blood in beats]
  until_help: [{words: Press., basis: {kind: common practice}}]
"""

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


def test_answers_of_several_questions_are_not_to_be_read_against_each_other():
    several = said(page_of(hole=QUESTION, root=QUESTION.replace("hole", "root")).blocks)
    assert "compare no number with another question's" in several
    assert "compare no number" not in said(page_of(hole=QUESTION).blocks)


ROOT = Path(__file__).parents[3]
FIGURE = re.compile(r'data-figure="([^"]+)"')


def test_no_number_of_the_demonstration_stands_on_the_front_that_its_question_does_not_answer_with():
    files = demo_built().files
    front = re.split(r"<h2 id=", files["index.md"])
    answered = 0
    for part in front:
        question = re.match(r'"question-([\w-]+)"', part)
        if question is None:
            assert not FIGURE.findall(part)
            continue
        short = files[f"{question[1]}/index.md"].partition('id="in-short"')[2].partition("</section>")[0]
        shown = FIGURE.findall(part)
        assert shown
        assert shown == FIGURE.findall(short)
        answered += 1
    assert answered == 3


def test_every_count_of_the_demonstration_s_front_says_whom_when_and_how_many_were_seen_of_those_due():
    front = demo_built().files["index.md"]
    below = [re.sub(r"<[^>]+>", "", line) for line in re.findall(r"<small>(.*?)</small>", front, re.DOTALL)]
    assert len(below) >= 6
    for line in below:
        assert re.search(r"due were seen|still followed|due is not reported", line), line
        assert re.search(r"\b(?:months|years)\b", line), line
        assert re.search(r"\bteeth\b", line), line
        assert "certainty: " in line, line


def test_every_emergency_is_one_tap_from_the_front_by_its_own_name():
    shown = html_of(front_page(catalogue_of({"urgent.yaml": URGENT}), nothing_named))
    for name, title in (("irrigant", "Irrigant beyond the root"), ("bleeding", "Bleeding in beats")):
        assert re.search(rf'<a class="target danger" href="[^"]*urgent/#{name}">[^/]*{title}', shown)
    assert "emergency, by its name" not in html_of(front_page(catalogue_of({}), nothing_named))
