"""Rules that every page of a built site keeps, read from its HTML; of the demo, of another trade's, of one by hand."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from pathlib import Path
from typing import get_args

import pytest
from passageproof.reading.page_kinds import PageKind
from site_html import NUMBER, Site

PAGE_KINDS = frozenset(get_args(PageKind))
QUIET_PLACES = frozenset(("h1", "h2", "h3", "h4", "h5", "h6", "summary", "label", "button", "option"))


@pytest.fixture(scope="session", params=["sample_site", "demo_site", "graft_site"])
def site(request: pytest.FixtureRequest) -> Site:
    return Site(request.getfixturevalue(request.param))


def faults(site: Site, of_page: Callable[[str], list[str]]) -> list[str]:
    """What is wrong on each page, with the page's path in front."""
    return [f"{path}: {fault}" for path in site.pages for fault in of_page(path)]


def test_every_page_says_what_kind_it_is(site: Site) -> None:
    assert {page.body.get("data-page") for page in site.pages.values()} <= PAGE_KINDS


def test_every_kind_of_page_is_there(site: Site) -> None:
    assert {page.body.get("data-page") for page in site.pages.values()} == PAGE_KINDS


def test_no_number_stands_outside_figures_and_marked_kinds(site: Site) -> None:
    assert faults(site, lambda path: site.pages[path].unmarked) == []


def test_no_figure_stands_in_a_heading_summary_label_button_or_option(site: Site) -> None:
    def quiet(path: str) -> list[str]:
        return [shown.id for shown in site.pages[path].figures if shown.inside & QUIET_PLACES]

    assert faults(site, quiet) == []


def test_numbers_in_titles_and_attributes_repeat_marked_text_of_their_page(site: Site) -> None:
    def alone(path: str) -> list[str]:
        page = site.pages[path]
        said = [page.title, page.metas.get("description", ""), *page.attributes]
        marked = {number for text in page.marked for number in NUMBER.findall(text)}
        return [text for text in said if set(NUMBER.findall(text)) - marked]

    assert faults(site, alone) == []


def test_numbers_in_the_search_index_repeat_marked_text_of_their_page(site: Site) -> None:
    index = json.loads((site.folder / "search" / "search_index.json").read_text("utf-8"))
    alone = []
    for doc in index["docs"]:
        page = site.pages[f"{doc['location']}index.html"]
        marked = {number for text in page.marked for number in NUMBER.findall(text)}
        if set(NUMBER.findall(f"{doc['title']} {doc['text']}")) - marked:
            alone.append(doc["location"])
    assert alone == []


def lines_found(site: Site) -> list[tuple[str, str, str]]:
    """Page, anchor and text of every line that the search knows."""
    told = json.loads((site.folder / "search" / "lines.json").read_text("utf-8"))
    assert told["left_out"] == []
    return [(f"{address}index.html", anchor, text) for address, *parts in told["pages"] for anchor, *texts in parts
            for text in texts]  # fmt: skip


def test_numbers_in_the_lines_of_the_search_repeat_marked_text_of_their_page(site: Site) -> None:
    alone = []
    for path, _, text in lines_found(site):
        marked = {number for said in site.pages[path].marked for number in NUMBER.findall(said)}
        if set(NUMBER.findall(text)) - marked:
            alone.append((path, text))
    assert alone == []


def test_a_line_of_the_search_leads_to_a_place_of_its_page_and_stands_there(site: Site) -> None:
    lines = lines_found(site)
    assert lines
    lost = [line for line in lines if line[1] and line[1] not in site.pages[line[0]].ids]
    assert lost == []

    def plain(text: str) -> str:
        return re.sub(r"\W+", "", text)

    texts = {path: plain(page.text) for path, page in site.pages.items()}
    # What a line has gaps for is told on its page alone; choices of a situation stand there one by one.
    elsewhere = [
        (path, piece)
        for path, anchor, text in lines
        if not anchor.startswith("ask-")
        for piece in text.split("…")
        if plain(piece) not in texts[path]
    ]
    assert elsewhere == []


def test_the_search_index_has_one_entry_a_page(site: Site) -> None:
    index = json.loads((site.folder / "search" / "search_index.json").read_text("utf-8"))
    locations = [doc["location"] for doc in index["docs"]]
    assert sorted(locations) == sorted({location.partition("#")[0] for location in locations})


def test_no_link_or_anchor_is_broken(site: Site) -> None:
    assert site.broken_links() == []


def test_every_page_of_the_guide_is_linked_from_the_page_that_finds_things(site: Site) -> None:
    search = "search/index.html"
    linked = {site.resolved(search, link.partition("#")[0]) for link in site.pages[search].links}
    own = {path for path, page in site.pages.items() if page.body.get("data-page") not in ("front", "written")}
    assert own - linked == set()


def test_no_id_stands_twice_on_a_page(site: Site) -> None:
    def twice(path: str) -> list[str]:
        ids = site.pages[path].ids
        return sorted({name for name in ids if ids.count(name) > 1})

    assert faults(site, twice) == []


def test_a_quoted_figure_leads_to_its_passage_and_a_computed_one_to_its_workings(site: Site) -> None:
    rows = ledger(site.folder)

    def lost(path: str) -> list[str]:
        out = []
        for shown in site.pages[path].figures:
            proof = rows[shown.id]["proof"]
            if shown.href is None:
                # On a source page the mark stands in the passage; in workings a result stands at its own target.
                continue
            if proof is not None and not re.search(rf"sources/{re.escape(proof['source'])}/#|^#", shown.href):
                out.append(f"{shown.id} -> {shown.href}")
            if proof is None and not shown.href.startswith("#workings-"):
                out.append(f"{shown.id} -> {shown.href}")
        return out

    assert faults(site, lost) == []


def test_every_figure_of_a_page_is_in_the_ledger_with_its_text(site: Site) -> None:
    rows = ledger(site.folder)

    def unknown(path: str) -> list[str]:
        return [
            f"{shown.id}: {shown.text}"
            for shown in site.pages[path].figures
            if shown.id not in rows or rows[shown.id]["text"] != shown.text or path not in rows[shown.id]["shown_on"]
        ]

    assert faults(site, unknown) == []


def test_every_figure_of_the_ledger_stands_on_the_pages_it_names(site: Site) -> None:
    missing = [
        f"{name} on {path}"
        for name, row in ledger(site.folder).items()
        for path in row["shown_on"]
        # Drawings that are taken along: tests/test_ledger_and_pages.py.
        if path.endswith(".html") and all(shown.id != name for shown in site.pages[path].figures)
    ]
    assert missing == []


def test_no_script_or_style_stands_inside_a_page(site: Site) -> None:
    assert faults(site, lambda path: site.pages[path].inline) == []


def test_every_page_brings_a_policy_that_lets_nothing_in_from_elsewhere(site: Site) -> None:
    policies = {page.metas.get("Content-Security-Policy", "") for page in site.pages.values()}
    assert len(policies) == 1
    assert policies.pop().startswith("default-src 'none'; script-src 'self'; style-src 'self'; ")


def test_a_demonstration_says_so_on_every_page_and_asks_not_to_be_indexed(site: Site) -> None:
    silent = [
        path
        for path, page in site.pages.items()
        if "invented for demonstration" not in page.text or "noindex" not in page.metas.get("robots", "")
    ]
    assert silent == []


def test_the_door_to_the_urgent_page_is_the_first_link_of_every_page(site: Site) -> None:
    for path, page in site.pages.items():
        links = [link for link in page.links if not re.search(r"\.(css|js|svg|png|webmanifest|xml)$|^https?:", link)]
        assert site.resolved(path, links[0].lstrip("/")) == "urgent/index.html", path


def test_every_page_says_whom_to_call_or_that_nobody_said(site: Site) -> None:
    assert [
        path
        for path, page in site.pages.items()
        if "contact not set by this programme" not in page.text and "Call here:" not in page.text
    ] == []


def test_no_page_holds_a_way_of_this_machine(site: Site) -> None:
    for file in site.folder.rglob("*"):
        if file.is_file() and file.suffix in (".html", ".json", ".jsonl", ".js", ".xml", ".csv", ".bib"):
            text = file.read_text("utf-8")
            assert str(site.folder.parent) not in text, file.name


@pytest.mark.parametrize("name", ["reading", "question"])
def test_a_style_sheet_of_reading_pages_is_at_most_eight_kilobytes(site: Site, name: str) -> None:
    assert len((site.folder / "stylesheets" / f"{name}.css").read_bytes()) <= 8192


def ledger(folder: Path) -> dict[str, dict[str, object]]:
    """Rows of figures.jsonl by id."""
    lines = (folder / "data" / "figures.jsonl").read_text("utf-8").splitlines()
    return {row["id"]: row for row in map(json.loads, lines)}
