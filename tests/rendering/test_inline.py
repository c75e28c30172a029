"""Lines as HTML: figures with their links, marked numbers, relative addresses, and no code that somebody typed."""

from __future__ import annotations

import re

import pytest
from passageproof.numerals import FORMAT_1
from passageproof.rendering.inline import Place, figure_target, href, line_html, typed_html, unit_after
from passageproof.results.values.figures import Figure
from passageproof.results.values.line import Line, Link, Marked, Span, line, plain_text
from rendering.sample_guide import sample_book

PAGE = Place("root-perforation/size/")


def figure(name: str) -> Figure:
    found = sample_book().quoted(f"marlow2019furcal/overall/{name}")
    assert found is not None
    return found


def computed(text: str, unit: str, value: str) -> Figure:
    book = sample_book()
    events = book.quoted("marlow2019furcal/overall/events")
    assert events is not None
    return book.computed("q/overall/x", text, value, unit, book.explain("x", "X", "as it is", inputs=(events,)))


def test_n_of_n_shares_one_link_to_its_passage() -> None:
    rate: Line = (figure("events"), " of ", figure("total"), " teeth")
    assert line_html(rate, PAGE) == (
        '<a href="../../sources/marlow2019furcal/#p-46-table-2">'
        '<data class="figure" data-figure="marlow2019furcal/overall/events" value="39">39</data> of '
        '<data class="figure" data-figure="marlow2019furcal/overall/total" value="47">47</data></a> teeth'
    )


def test_a_rate_with_its_unit_and_per_cent_is_one_link() -> None:
    rate: Line = (figure("events"), " of ", figure("total"), " teeth (", figure("success_rate"), "), over 3 mm")
    html = line_html(rate, PAGE)
    assert html.count("<a ") == 1
    assert html.endswith(">83</data>)</a>, over 3 mm")
    assert re.sub("<[^>]*>", "", html) == "39 of 47 teeth (83), over 3 mm"


def test_an_interval_beside_its_rate_is_in_the_same_link() -> None:
    level = Marked("convention", "95%")
    rate: Line = (
        "in ",
        figure("total"),
        " teeth (",
        figure("success_rate"),
        "), ",
        level,
        " CI ",
        figure("events"),
        "; all",
    )
    html = line_html(rate, PAGE)
    assert html.count("<a ") == 1
    assert html.endswith("</a>; all")
    assert '<span class="convention">95%</span> CI <data' in html


def test_an_interval_in_brackets_is_closed_in_the_link_of_its_ratio() -> None:
    level = Marked("convention", "95%")
    said: Line = (figure("success_rate"), " (", level, " CI ", figure("events"), " to ", figure("total"), "), crude")
    html = line_html(said, PAGE)
    assert html.count("<a ") == 1
    assert html.endswith(")</a>, crude")


def test_numbers_of_two_passages_have_two_links() -> None:
    mixed: Line = (figure("total"), " teeth (", computed("70%", "%", "70"), ")")
    html = line_html(mixed, PAGE)
    assert html.count("<a ") == 2
    assert html.endswith("</a>)")


def test_a_computed_figure_leads_to_its_workings_on_the_same_page() -> None:
    assert figure_target(computed("70%", "%", "70")) == "#workings-x"
    assert '<a href="#workings-x">' in line_html((computed("70%", "%", "70"),), PAGE)


def test_a_figure_inside_a_link_has_no_link_of_its_own() -> None:
    html = line_html((Link("gaps/", (figure("events"), " of them")),), PAGE)
    assert html.count("<a ") == 1
    assert 'href="../../gaps/"' in html


def test_typed_text_is_never_html() -> None:
    assert line_html(line("<script>alert()</script> & more"), PAGE) == "&lt;script&gt;alert()&lt;/script&gt; &amp; more"
    assert typed_html("<b>2 mm</b>") == '<span class="words">&lt;b&gt;2 mm&lt;/b&gt;</span>'


def test_an_attribute_cannot_be_left_by_a_quote() -> None:
    assert line_html((Marked("date", '1"x'),), PAGE) == '<data class="date" value="1&quot;x">1"x</data>'


@pytest.mark.parametrize(
    ("target", "place", "expected"),
    [
        ("", "", "./"),
        ("", "a/", "../"),
        ("urgent/", "", "urgent/"),
        ("a/b/#c", "a/", "../a/b/#c"),
        ("a/#c", "a/", "#c"),
        ("#c", "a/", "#c"),
        ("https://example.org/", "a/", "https://example.org/"),
        ("tel:112", "a/b/", "tel:112"),
    ],
)
def test_links_count_from_their_page(target: str, place: str, expected: str) -> None:
    assert href(target, Place(place)) == expected


def test_a_link_elsewhere_tells_nobody_where_the_reader_came_from() -> None:
    assert 'rel="noopener noreferrer"' in line_html((Link("https://doi.org/x", line("there")),), PAGE)


def test_a_date_is_a_time_element() -> None:
    assert line_html((Marked("date", "2026-10-30"),), PAGE) == ('<time class="date">2026-10-30</time>')


@pytest.mark.parametrize(
    ("text", "unit", "value", "expected"),
    [
        ("39", "tooth", "39", " teeth"),
        ("1", "tooth", "1", " tooth"),
        ("31", "month", "31", " months"),
        ("83%", "%", "83", ""),
        ("83", "%", "83", "%"),
        ("2.9", "hazard ratio", "2.9", ""),
        ("3", "mm", "3", " mm"),
        (".02", "P", "0.02", ""),
    ],
)
def test_the_unit_behind_a_number(text: str, unit: str, value: str, expected: str) -> None:
    assert unit_after(computed(text, unit, value), FORMAT_1.units) == expected


def test_the_plain_text_of_a_line_is_what_a_reader_hears() -> None:
    said = line("healed ", figure("events"), Span("quiet", line(" in all ")), Marked("date", "2026"))
    assert plain_text(said) == "healed 39 in all 2026"
