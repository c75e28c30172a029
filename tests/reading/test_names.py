"""Names that no id may take: those that format 1 reserves, whatever the table of pages makes of them."""

from __future__ import annotations

from typing import get_args

from passageproof.reading.names import (
    PAGES_OF_A_QUESTION,
    PAGES_OF_THE_GUIDE,
    RESERVED_ADDRESSES,
    RESERVED_CLAIMS,
    RESERVED_FACTORS,
)
from passageproof.reading.page_kinds import PAGES, PageKind


def test_format_1_reserves_these_for_questions_and_keys() -> None:
    assert {
        "urgent", "gaps", "changes", "upkeep", "methods", "contribute", "data", "sources", "search", "assets", "index",
        "404", "latest", "stylesheets", "javascripts",
    } == RESERVED_ADDRESSES  # fmt: skip


def test_format_1_reserves_these_for_factors_and_claims() -> None:
    assert {"overall", "over-time", "patient", "recall", "conference"} == RESERVED_FACTORS
    assert {"studies"} == RESERVED_CLAIMS


def test_every_page_at_an_address_of_its_own_is_reserved() -> None:
    for page in PAGES:
        steps = page.address.split("/")
        assert page.kind == "front" or steps[0] in PAGES_OF_THE_GUIDE or steps[0] == "{question}"
        assert steps[0] != "{question}" or steps[1] in ("", "{factor}") or steps[1] in PAGES_OF_A_QUESTION


def test_the_table_has_every_kind_of_page_and_each_in_one_list() -> None:
    assert {page.kind for page in PAGES} == set(get_args(PageKind))
    assert len({page.address for page in PAGES}) == len(PAGES)
    groups = {(page.kind, page.group) for page in PAGES}
    assert len(groups) == len({kind for kind, _ in groups})
    assert {page.kind for page in PAGES if not page.group} == {"front", "written"}
