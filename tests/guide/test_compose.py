"""A guide is composed page by page: asked for alone, twice or out of turn, a page is the same."""

from __future__ import annotations

import random
from pathlib import Path

import pytest
from passageproof.build import compose
from passageproof.guide.values.document import figures_of
from passageproof.guide.values.guide import Guide

ROOT = Path(__file__).parent.parent.parent


@pytest.fixture(scope="module")
def guide() -> Guide:
    found, _ = compose(ROOT)
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


def test_a_head_is_its_page_without_the_blocks(guide: Guide) -> None:
    for page in guide.pages:
        assert guide.pages.heads[page.address] == page._replace(blocks=())
        assert page.blocks


def test_figures_of_an_address_are_those_that_stand_on_its_page(guide: Guide) -> None:
    for page in guide.pages:
        assert {figure.id for figure in guide.pages.figures(page.address)} == {item.id for item in figures_of(page)}
