"""Numbers that a sentence types in words are figures without a proof; words for one thing or a choice are none."""

from __future__ import annotations

import pytest
from passageproof.audit.typed_words import number_in_words
from passageproof.numerals.format_units import FORMAT_1

QUESTION = "id: hole\ntitle: There is a hole\n"
FIGURES = {
    "Three in four healed.": "Three in four",
    "It happens in one in every ten.": "one in every ten",
    "Nine of ten teeth healed.": "Nine of ten",
    "Nine of the ten teeth healed.": "Nine of the ten",
    "Seven out of ten heal.": "Seven out of ten",
    "Nine times out of ten it heals.": "Nine times out of ten",
    "2 in three fail.": "2 in three",
    "Half of them healed.": "Half of them",
    "About half the teeth were kept.": "half the teeth",
    "Two thirds of the teeth healed.": "Two thirds of the teeth",
    "Most healed; a quarter failed.": "a quarter failed",
    "Twice as many failed.": "Twice as many",
    "The risk is three times as likely to rise.": "three times as likely",
    "It was one in 7.": "one in 7",
    "A tenfold risk of fracture.": "A tenfold risk",
    "Five per cent fail.": "Five per cent",
    "25 of every thirty heal.": "25 of every thirty",
    "Some 30 in forty heal.": "30 in forty",
    "Twenty-five per cent fail.": "Twenty-five per cent",
}
NO_FIGURES = (
    "Half a year later look again.",
    "Ring one of the two numbers.",
    "One of the three ways is open.",
    "Close it in two visits.",
    "Do both in one visit, or two in one day.",
    "Half of the crown is gone.",
    "Fill the lower third of the root.",
    "Four of the teeth in that arch.",
    "Rinse two in ten minutes.",
    "At visit one of two, dress the tooth.",
    "Look at one in each canal.",
    "Wait twice as long.",
    "Most teeth heal.",
)


@pytest.mark.parametrize("sentence", FIGURES)
def test_a_number_in_words_is_found(sentence: str) -> None:
    assert number_in_words(sentence, FORMAT_1) == FIGURES[sentence]


@pytest.mark.parametrize("sentence", NO_FIGURES)
def test_words_for_one_thing_or_a_choice_are_no_figure(sentence: str) -> None:
    assert number_in_words(sentence, FORMAT_1) == ""


def test_the_check_names_it_on_its_line(audited) -> None:
    text = f"{QUESTION}answer: Three in four healed.\npatient:\n  chair:\n    - Half of them keep the tooth.\n"
    problems = audited({"questions/hole.yaml": text}).problems
    assert [(each.rule, each.position.line, each.message.split(" is typed")[0]) for each in problems] == [
        ("number-typed", 3, '"Three in four"'),
        ("number-typed", 6, '"Half of them"'),
    ]


def test_a_hand_written_page_is_read_too(compendium, audited) -> None:
    root = compendium()
    (root / "site_src").mkdir()
    (root / "site_src" / "about.md").write_text("# About\n\nIn this clinic nine of ten teeth heal.\n", "utf-8")
    (problem,) = audited().problems
    assert (str(problem.position), problem.rule) == ("site_src/about.md:3:16", "number-typed")
