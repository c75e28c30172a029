"""The search finds what residents type: a place, a material's class, an author, also with a slip of the keyboard."""

from __future__ import annotations

import gzip
import json
import re
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect
from site_server import SiteServer

pytestmark = pytest.mark.browser

HOLE = "There is a hole in the root or the pulp floor"


@pytest.fixture
def box(demo_server: SiteServer, opened: Callable[..., Page]) -> Page:
    page = opened()
    page.goto(f"{demo_server.url}search/", wait_until="load")
    return page


@pytest.mark.parametrize(
    ("typed", "found"),
    [
        ("furcation", HOLE),
        ("furcal", HOLE),
        ("hole in the floor", HOLE),
        ("perforation", HOLE),
        ("strip", HOLE),
        ("hydraulic silicate", HOLE),
        ("calcium silicate cement", HOLE),
        ("broken file", "An instrument has broken in a canal"),
        ("fragment", "An instrument has broken in a canal"),
        ("pulpotomy", "The pulp of a permanent tooth lies open"),
        # Slips: a letter too few, two turned round, one too many.
        ("perforaton", HOLE),
        ("firagment", "An instrument has broken in a canal"),
        ("pulpotmoy", "The pulp of a permanent tooth lies open"),
    ],
)
def test_what_residents_type_leads_to_the_question(box: Page, typed: str, found: str) -> None:
    box.get_by_role("searchbox").fill(typed)
    expect(box.locator(".results").get_by_role("link", name=found, exact=True)).to_be_visible()


@pytest.mark.parametrize("typed", ["Brandhöff", "brandhoff", "BRANDHÖFF", "brandhof", "Brandhoeff"])
def test_an_author_is_found_with_and_without_accents(box: Page, typed: str) -> None:
    box.get_by_role("searchbox").fill(typed)
    expect(box.locator('.results a[href*="sources/brandhoff2018volume/"]')).to_be_visible()


def test_a_page_below_a_question_says_which_question(box: Page) -> None:
    box.get_by_role("searchbox").fill("words for the patient")
    expect(box.locator(".results li", has_text=f"{HOLE}: Words for the patient")).to_be_visible()


def test_what_nobody_wrote_is_said_to_be_unknown(box: Page) -> None:
    box.get_by_role("searchbox").fill("zyxwvut")
    expect(box.locator(".results")).to_have_text("Nothing in this guide has that name.")


def test_only_titles_authors_answers_and_synonyms_are_indexed(demo_site: Path) -> None:
    index = json.loads((demo_site / "search" / "search_index.json").read_text("utf-8"))
    by_address = {doc["location"]: doc["text"] for doc in index["docs"]}
    assert "Most holes that residents sealed had healed" in by_address["root-perforation/"]
    assert "Do not put a file" not in " ".join(by_address.values())
    assert "$" not in " ".join(by_address.values())


def test_what_is_kept_for_offline_is_at_most_a_megabyte_compressed(demo_site: Path) -> None:
    worker = (demo_site / "service-worker.js").read_text("utf-8")
    found = re.search(r"const KEPT = (\[.*\]);", worker)
    assert found is not None
    files = [demo_site / path / "index.html" if path.endswith("/") or not path else demo_site / path
             for path in json.loads(found[1])]  # fmt: skip
    assert len(files) > 100
    size = sum(len(gzip.compress(file.read_bytes(), 6)) for file in files)
    assert size <= 1024 * 1024, size
