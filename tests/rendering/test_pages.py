"""Whole pages as Markdown: front matter, one block of HTML, nothing that Markdown would read."""

from __future__ import annotations

import markdown
import yaml
from passageproof.rendering.pages import page_markdown, written_title
from passageproof.results.values.document import Page, PageKind, Paragraph, Raw
from passageproof.results.values.line import line, typed
from rendering.sample_guide import sample_guide

GUIDE = sample_guide()


def page(*typed_texts: str, title: str = "A page", kind: PageKind = "gaps") -> Page:
    return Page("gaps/", kind, title, tuple(Paragraph((typed(text),)) for text in typed_texts))


def shown(text: str) -> str:
    """The page's Markdown without front matter, as MkDocs' Markdown makes HTML of it."""
    return markdown.markdown(text.split("\n---\n", 1)[1], extensions=["tables", "attr_list"])


def test_what_a_clinician_types_is_never_read_as_markdown() -> None:
    texts = ("2019. A year", "# 1 in 10", "+ 5", "a | b", "[10.1, 14.5](see)", "a*b*c", "p<0.05", "<y> & <z>", "**9**")
    html = shown(page_markdown(page(*texts), GUIDE, str))
    for tag in ("<li>", "<h1>1", "<em>", "<strong>", "<table>", '<a href="see">', "<y>"):
        assert tag not in html
    assert "[10.1, 14.5](see)" in html


def test_blank_lines_in_a_box_for_copying_stay_as_they_are() -> None:
    guide_page = Page(
        "gaps/", "gaps", "A page", (Raw("@article{x,\n\n\n  a = {1}\n}", "BibTeX"), Paragraph(line("after")))
    )
    html = shown(page_markdown(guide_page, GUIDE, str))
    assert "@article{x,\n\n\n  a = {1}\n}" in html
    assert html.rstrip().endswith("</div>")


def test_a_title_may_hold_whatever_yaml_would_trip_over() -> None:
    title = 'Stop: "now" - #1 {or} not? \\ %'
    front = page_markdown(page(title=title), GUIDE, str).split("\n---\n", 1)[0].removeprefix("---\n")
    assert yaml.safe_load(front)["title"] == title


def test_pages_for_contributors_use_the_theme_and_all_others_do_not() -> None:
    templates = {
        item.kind: page_markdown(item, GUIDE, str).split('template: "', 1)[1].split('"')[0] for item in GUIDE.pages
    }
    assert {kind for kind, name in templates.items() if name == "main.html"} == {"contribute", "data", "upkeep"}
    assert set(templates.values()) == {"main.html", "reading.html"}


def test_a_hand_written_page_calls_itself_by_its_title_its_heading_or_its_name() -> None:
    assert written_title('---\ntitle: "About us"\n---\n# Other\n', "about.md") == "About us"
    assert written_title("# About this\n\nText", "about.md") == "About this"
    assert written_title("Text alone", "how-we-read.md") == "How we read"


def test_a_page_is_printed_whole() -> None:
    assert page_markdown(page("nothing yet"), GUIDE, str) == (
        '---\ntitle: "A page"\nkind: "gaps"\ntemplate: "reading.html"\n---\n\n'
        '<div class="guide" data-search-exclude>\n<h1>A page</h1>\n<p>nothing yet</p>\n</div>\n'
    )
