"""How hard it is to follow our own sentences on what a patient reads; those of faculty are a matter of the check."""

from __future__ import annotations

from pathlib import Path

import pytest
import textstat
from demo import demo_built
from passageproof.guide.question.patient_page import NOT_A_FORM
from passageproof.results.values.document import Items, Page, Paragraph, Sheet, walk
from passageproof.results.values.line import plain_text

ROOT = Path(__file__).parents[2]

# Both give a grade of school in the United States from lengths of words and sentences alone, so that no dictionary has
# to be fetched: Smith & Senter 1967, AMRL-TR-66-220 (automated readability index); Coleman & Liau 1975, J Appl Psychol
# 60:283-284. Sixth grade, eleven to twelve years: common practice for what patients are given, no source.
SIXTH = 6.0


@pytest.fixture(scope="module")
def patient_pages() -> list[Page]:
    guide = demo_built().guide
    assert guide is not None
    return [page for page in guide.pages if page.kind == "patient"]


def told(page: Page) -> list[str]:
    """Our sentences around the numbers of the first sheets."""
    sheets = [block for block in walk(page.blocks) if isinstance(block, Sheet) and block.kind == "before"]
    return [
        plain_text(block.line)
        for block in walk(tuple(sheets))
        if isinstance(block, Paragraph) and block.kind == "answer"
    ]


def grades(text: str) -> tuple[float, float]:
    return textstat.automated_readability_index(text), textstat.coleman_liau_index(text)


def test_our_own_sentences_around_the_numbers_are_for_a_sixth_grader_at_most(patient_pages: list[Page]) -> None:
    texts = {page.address: " ".join(told(page)) for page in patient_pages if told(page)}
    assert texts
    for address, text in texts.items():
        assert max(grades(text)) <= SIXTH, (address, grades(text))


def test_the_measure_tells_hard_words_from_easy_ones() -> None:
    assert (
        min(grades("Postoperative complications necessitate interdisciplinary re-evaluation of periradicular tissues."))
        > 12
    )


def test_at_the_chair_three_sentences_come_first(patient_pages: list[Page]) -> None:
    first: dict[str, Items] = {}
    for page in patient_pages:
        (sheet,) = [block for block in walk(page.blocks) if isinstance(block, Sheet) and block.kind == "chair"]
        first.update((page.address, block) for block in sheet.blocks[::-1] if isinstance(block, Items))
    assert first
    for address, said in first.items():
        assert len(said.items) <= 3, address


def test_no_sheet_passes_for_a_consent_form(patient_pages: list[Page]) -> None:
    for page in patient_pages:
        for sheet in (block for block in walk(page.blocks) if isinstance(block, Sheet)):
            assert NOT_A_FORM in [plain_text(block.line) for block in sheet.blocks if isinstance(block, Paragraph)]
