"""What the search is handed: lines of pages, as long as somebody on bad wi-fi can wait for them."""

from __future__ import annotations

import json
import random
import string

import pytest
from passageproof.reading.page_kinds import PageKind
from passageproof.rendering import search
from passageproof.rendering.search import search_entries, search_lines
from passageproof.results.values.document import Page, Paragraph
from passageproof.results.values.guide import Guide, Pages, WrittenPage
from passageproof.results.values.line import line
from rendering.sample_guide import sample_guide


def guide_of(*pages: Page, written: tuple[WrittenPage, ...] = ()) -> Guide:
    return sample_guide()._replace(pages=Pages(pages), written=written)


def page(address: str, kind: PageKind, *texts: str) -> Page:
    return Page(address, kind, address, tuple(Paragraph(line(text)) for text in texts))


def test_lines_stand_below_their_page_and_their_place() -> None:
    told = json.loads(search_lines(sample_guide()))
    assert told["left_out"] == []
    assert ["urgent/", ["irrigant-extruded", "Irrigant has gone beyond the root"]] in [
        [address, parts[0][:2]] for address, *parts in told["pages"]
    ]


def test_a_line_on_many_pages_is_found_on_none() -> None:
    many = [
        page(f"question-{name}/", "question", "Ask whoever is there", f"But {name} alone says this")
        for name in "abcdefg"
    ]
    texts = search_lines(guide_of(*many))
    assert "But a alone says this" in texts
    assert "Ask whoever is there" not in texts
    assert "Ask whoever is there" in search_lines(guide_of(*many[:6]))


def test_paragraphs_of_hand_written_pages_are_found_as_they_are_read() -> None:
    text = "---\ntitle: x\n---\n# About this guide\n\nWe *read* [prints](x.md).\n\n- one item here\n1. another item\n"
    told = json.loads(search_lines(guide_of(written=(WrittenPage("about.md", (text,)),))))
    assert told["pages"] == [
        ["about/", ["", "About this guide", "We read prints.", "one item here"]],
    ]  # fmt: skip


def test_where_there_are_too_many_reports_their_lines_are_left_out_and_this_is_said(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    rng = random.Random(5)

    def noise() -> str:
        return " ".join("".join(rng.choices(string.ascii_lowercase, k=7)) for _ in range(60))

    guide = guide_of(page("q/", "question", "What to do is said first"), page("sources/a/", "source", noise()))
    monkeypatch.setattr(search, "ROOM", len(json.dumps(search_entries(guide))) + 250)
    told = json.loads(search_lines(guide))
    assert told["left_out"] == ["source"]
    assert [address for address, *_ in told["pages"]] == ["q/"]
