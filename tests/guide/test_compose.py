"""A guide is composed page by page: asked for alone, twice or out of turn, a page is the same."""

from __future__ import annotations

import random
import re
import shutil
from pathlib import Path

import pytest
from demo import before_demo, demo_built, demo_evidence
from passageproof.audit.whole import audit
from passageproof.build import compose
from passageproof.guide.compose import ComposedPages, Maker
from passageproof.guide.one_page import compose_page
from passageproof.reading.evidence import ReadBefore, read_evidence
from passageproof.reading.page_kinds import PAGES
from passageproof.results.values.document import Page, figures_of
from passageproof.results.values.figures import FigureBook
from passageproof.results.values.guide import Guide

ROOT = Path(__file__).parent.parent.parent


@pytest.fixture(scope="module")
def guide() -> Guide:
    found = demo_built().guide
    assert found is not None
    return found


def test_pages_asked_for_out_of_turn_are_those_that_all_the_others_came_before(guide: Guide) -> None:
    other, _ = compose(ROOT)
    assert other is not None
    addresses = list(guide.pages.heads)
    random.Random(3).shuffle(addresses)
    for address in addresses:
        assert other.pages[address] == guide.pages[address], address
        assert other.pages[address] == guide.pages[address], f"{address}, asked twice"


def test_a_page_without_the_others_is_the_page_of_the_whole_guide(guide: Guide) -> None:
    before, evidence = before_demo().read, demo_evidence()
    found = audit(evidence, before_demo().proved)
    addresses = list(guide.pages.heads)
    alone = 0
    for address in random.Random(5).sample(addresses, 25):
        pages = compose_page(evidence, found, before.texts, addresses, address)
        if pages is not None:
            alone += 1
            assert len(pages.heads) < len(addresses)
            assert pages[address] == guide.pages[address], address
    assert alone > 18


def test_a_page_without_the_others_holds_what_texts_elsewhere_compute_of_its_question(tmp_path: Path) -> None:
    shutil.copytree(ROOT / "evidence", tmp_path / "evidence")
    question = tmp_path / "evidence" / "questions" / "broken-instrument.yaml"
    text = question.read_text("utf-8")
    named = "($root-perforation/overall/unseen-bounds; $root-perforation/hole-size/direction; $root-perforation/overall/teeth)"
    question.write_text(text.replace("answer: ", f"answer: {named} ", 1), "utf-8")
    before = ReadBefore()
    evidence = read_evidence(tmp_path, before)
    found = audit(evidence)
    whole, _ = compose(tmp_path)
    assert whole is not None
    addresses = list(whole.pages.heads)
    for address in (
        "broken-instrument/",
        "broken-instrument/over-time/",
        "root-perforation/",
        "root-perforation/hole-size/",
    ):
        pages = compose_page(evidence, found, before.texts, addresses, address)
        assert pages is not None, address
        assert pages[address] == whole.pages[address], address
    shown = {working.name for working in whole.pages.workings("broken-instrument/")}
    assert any(name.startswith("root-perforation-") for name in shown)


def test_a_page_that_may_rest_on_all_others_is_not_told_without_them(guide: Guide) -> None:
    before, evidence = before_demo().read, demo_evidence()
    found = audit(evidence, before_demo().proved)
    addresses = list(guide.pages.heads)
    for address in ("", "gaps/", "upkeep/", "sources/", "nowhere/"):
        assert compose_page(evidence, found, before.texts, addresses, address) is None, address


def test_a_head_is_its_page_without_the_blocks(guide: Guide) -> None:
    for page in guide.pages:
        assert guide.pages.heads[page.address] == page._replace(blocks=())
        assert page.blocks


def test_figures_of_an_address_are_those_that_stand_on_its_page(guide: Guide) -> None:
    for page in guide.pages:
        assert {figure.id for figure in guide.pages.figures(page.address)} == {item.id for item in figures_of(page)}


def test_two_pages_at_one_address_are_refused_and_none_is_lost() -> None:
    pages = [Page("glossary/", "question", "Glossary", ()), Page("glossary/", "gaps", "Words", ())]
    with pytest.raises(ValueError, match='"glossary/": two pages want it, of the kinds question and gaps'):
        ComposedPages((Maker(lambda page=page: page) for page in pages), FigureBook({}))


def test_every_page_stands_where_the_table_of_pages_says(guide: Guide) -> None:
    rows = {
        f"{row.kind} {row.address}": re.compile(re.sub(r"\{\w+\}", "[^/]+", row.address))
        for row in PAGES
        if row.kind != "written"
    }
    found = set()
    for page in guide.pages.heads.values():
        fitting = {name for name, at in rows.items() if name.startswith(f"{page.kind} ") and at.fullmatch(page.address)}
        assert fitting, f"{page.kind} at {page.address}: no row of reading/page_kinds.py"
        found |= fitting
    assert found == set(rows)
