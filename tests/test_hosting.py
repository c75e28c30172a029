"""Whose site it is, and what of it stays the site's own."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import material
import mkdocs
import pytest
from passageproof.hosting import (
    STANDS_OVER,
    Place,
    merged_search,
    nav_of_host,
    place_of_guide,
    refuse_shared,
    sitemap_without_guide,
    taken_in_host,
    theme_fault,
    write_search,
)

GUEST = Place("evidence/", False)
OURS = [{"Questions": "evidence/index.md"}, {"Methods": "evidence/methods/index.md"}]


@pytest.fixture
def root(tmp_path: Path) -> Path:
    for folder in ("evidence/claims", "site_src", "docs/css", "handbook"):
        (tmp_path / folder).mkdir(parents=True)
    (tmp_path / "docs" / "css" / "house.css").write_text("", "utf-8")
    (tmp_path / "handbook" / "index.md").write_text("# Welcome", "utf-8")
    (tmp_path / "site_src" / "about.md").write_text("# About", "utf-8")
    (tmp_path / "evidence" / "README.md").write_text("# Notes", "utf-8")
    return tmp_path


@pytest.mark.parametrize(
    ("docs", "at", "expected"),
    [
        ("site_src", None, Place("", True)),
        ("evidence", None, Place("", True)),
        ("evidence/claims", None, Place("", True)),
        ("docs", None, Place("", True)),
        ("handbook", None, GUEST),
        ("handbook", "learning/papers", Place("learning/papers/", False)),
        ("handbook", "/papers/", Place("papers/", False)),
        ("docs", "papers/", Place("papers/", False)),
    ],
    ids=[
        "our pages",
        "no pages",
        "inside evidence",
        "files alone",
        "pages of its own",
        "deeper",
        "slashes",
        "asked for",
    ],
)
def test_where_the_guide_stands(root: Path, docs: str, at: str | None, expected: Place) -> None:
    assert place_of_guide(at, root / docs, root) == expected


@pytest.mark.parametrize("at", ["", "/", "../up", "a//b", ".hidden", "templates/a", "a b", "https://example.org"])
def test_address_that_cannot_be_is_told_with_one_that_can(root: Path, at: str) -> None:
    with pytest.raises(ValueError, match="write one such as evidence/"):
        place_of_guide(at, root / "handbook", root)


def test_guide_is_no_guest_beside_its_own_hand_written_pages(root: Path) -> None:
    with pytest.raises(ValueError, match="site_src/ holds the guide's own hand-written pages"):
        place_of_guide("evidence/", root / "site_src", root)


@pytest.mark.parametrize(
    ("nav", "expected"),
    [
        (["index.md"], ["index.md", {"A guide": OURS}]),
        (["index.md", {"Papers": "evidence/"}, "b.md"], ["index.md", {"Papers": OURS}, "b.md"]),
        ([{"Learn": ["club.md", {"Papers": "evidence"}]}, "b.md"], [{"Learn": ["club.md", {"Papers": OURS}]}, "b.md"]),
        (["index.md", "evidence/"], ["index.md", {"A guide": OURS}]),
        ([{"One": "evidence/methods/index.md"}], [{"One": "evidence/methods/index.md"}]),
        ([], [{"A guide": OURS}]),
    ],
    ids=["not placed", "placed", "deeper", "without a name", "a single page", "empty"],
)
def test_navigation_stays_the_sites_own(nav: list[object], expected: list[object]) -> None:
    before = json.dumps(nav)
    assert nav_of_host(nav, OURS, "A guide", GUEST) == expected
    assert json.dumps(nav) == before


@pytest.mark.parametrize("written", ["evidence/sources/", "evidence/sources", "evidence/sources/index.md"])
def test_page_of_the_guide_may_be_named_by_its_address(written: str) -> None:
    pages = {"evidence/index.md", "evidence/sources/index.md"}
    nav = ["index.md", {"Read": [{"What we read": written}]}]
    expected = ["index.md", {"Read": [{"What we read": "evidence/sources/index.md"}]}]
    assert nav_of_host(nav, OURS, "A guide", GUEST, pages) == expected
    # The guide's own address stays what it was: the place of the whole section.
    assert nav_of_host(["evidence/"], OURS, "A guide", GUEST, pages) == [{"A guide": OURS}]


@pytest.mark.parametrize("at", ["search/", "assets/", "assets/images/"])
def test_folder_of_the_theme_or_the_search_is_no_place_for_the_guide(at: str) -> None:
    with pytest.raises(ValueError, match=f'the option "at" is "{at}", a folder that'):
        refuse_shared(Place(at, False), THEME_FOLDERS)


@pytest.mark.parametrize("at", ["", "evidence/", "search-results/", "assets/papers/"])
def test_any_other_folder_is(at: str) -> None:
    refuse_shared(Place(at, at == ""), THEME_FOLDERS)


def test_search_holds_the_sites_entries_and_the_guides() -> None:
    theirs = [
        {"location": "", "title": "Welcome", "text": "hello"},
        {"location": "club/#when", "title": "When", "text": ""},
    ]
    made_of_ours = [
        {"location": "evidence/", "title": "x", "text": "y"},
        {"location": "evidence/#a", "title": "a", "text": ""},
    ]
    index = json.dumps({"config": {"lang": ["en"]}, "docs": [*theirs, *made_of_ours], "index": {"computed": 1}})
    entries = [{"location": "", "title": "Questions", "text": ""}, {"location": "q/", "title": "Q", "text": "word"}]
    merged = json.loads(merged_search(index, entries, GUEST, ["evidence/", "evidence/q/"]))
    assert merged == {
        "config": {"lang": ["en"]},
        "docs": [
            *theirs,
            {"location": "evidence/", "title": "Questions", "text": ""},
            {"location": "evidence/q/", "title": "Q", "text": "word"},
        ],
    }


def test_guides_own_search_works_in_a_site_without_any(tmp_path: Path) -> None:
    (tmp_path / "evidence" / "search").mkdir(parents=True)
    write_search(tmp_path, GUEST, [{"location": "q/", "title": "Q", "text": ""}], [])
    own = json.loads((tmp_path / "evidence" / "search" / "search_index.json").read_text("utf-8"))
    assert own == {"docs": [{"location": "q/", "title": "Q", "text": ""}]}


def test_sitemap_without_the_guide_keeps_every_page_of_the_site() -> None:
    # Sitemaps XML format (sitemaps.org, protocol 0.9): one <url> with its <loc> for each page.
    rows = {
        path: f"  <url>\n    <loc>https://example.org/a/{path}</loc>\n    <lastmod>2026-01-01</lastmod>\n  </url>"
        for path in ("", "evidence/", "evidence/urgent/", "evidence-of-work/")
    }
    text = "<urlset>\n" + "\n".join(rows.values()) + "\n</urlset>"
    kept = "<urlset>\n" + rows[""] + "\n" + rows["evidence-of-work/"] + "\n</urlset>"
    assert sitemap_without_guide(text, "https://example.org/a/", GUEST) == kept
    assert sitemap_without_guide(text, "https://example.org/a", GUEST) == kept


def test_address_that_both_want_names_both() -> None:
    ours = ["evidence/index.html", "evidence/urgent/index.html"]
    theirs = {"index.html": "handbook/index.md", "evidence/Urgent/index.html": "handbook/evidence/Urgent.md"}
    (problem,) = taken_in_host(ours, theirs)
    assert str(problem.position) == "handbook/evidence/Urgent.md:1:1"
    assert problem.message == "this file of the site and the guide both want the address /evidence/Urgent/"
    assert 'the option "at"' in problem.hint


THEME_FOLDERS = [str(Path(material.__file__).parent / "templates"), str(Path(mkdocs.__file__).parent / "templates")]


def test_installed_theme_has_every_file_that_ours_stand_over() -> None:
    assert theme_fault("material", THEME_FOLDERS) == ""


@pytest.mark.parametrize("name", STANDS_OVER)
def test_theme_without_one_of_them_is_told_with_its_release(name: str, tmp_path: Path) -> None:
    for other in STANDS_OVER:
        if other != name:
            (tmp_path / other).parent.mkdir(parents=True, exist_ok=True)
            shutil.copy(Path(THEME_FOLDERS[0]) / other, tmp_path / other)
    fault = theme_fault("material", [str(tmp_path)])
    assert f"has no {name}, over which" in fault
    # The distribution's own number, and those that are known to work.
    assert fault.startswith("mkdocs-material 9.")
    assert fault.endswith("known to work (9.5.0 to 9.8.2)")


def test_other_theme_is_told_what_to_write() -> None:
    assert 'mkdocs.yml names "readthedocs": write theme: material' in theme_fault("readthedocs", [])
