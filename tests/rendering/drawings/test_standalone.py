"""A plot by itself: readable without its page, each number marked, nothing wider than the drawing."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ElementTree
from collections.abc import Iterator
from pathlib import Path

import pytest
from passageproof.rendering.drawings.png import png
from passageproof.rendering.drawings.standalone import ALONE, INK, LINE, PAPER, SLIDE, SOFT, TINT, Layout, drawing
from passageproof.rendering.faces import PRINT, SCREEN, Face
from passageproof.results.values.document import StudyRow, StudyRows, walk
from passageproof.results.values.drawings import TimePlot
from passageproof.results.values.figures import Figure
from passageproof.results.values.line import Marked, line
from passageproof.results.values.plots import PlotToTake
from rendering.sample_guide import sample_guide

MARK = "invented for demonstration"
SVG = "{http://www.w3.org/2000/svg}"
# Kinds of numbers that are no evidence, as docs name them for pages: an element of that class.
NO_EVIDENCE = frozenset(
    ("date", "locator", "step", "identifier", "reference", "passage", "words", "definition", "threshold", "visit",
     "scale", "convention", "instruction")
)  # fmt: skip


def plots() -> list[PlotToTake]:
    """Every drawing of the sample guide, as if it were taken along."""
    found = [item for page in sample_guide().pages for item in walk(page.blocks)]
    drawn = [item for item in found if isinstance(item, TimePlot) or (isinstance(item, StudyRows) and item.scale)]
    assert len(drawn) > 1, "the sample guide has both kinds"
    return [_taken(item) for item in drawn if isinstance(item, (TimePlot, StudyRows))]


def _taken(drawn: StudyRows | TimePlot) -> PlotToTake:
    return PlotToTake(
        "hole.size", line("A hole: its size"), drawn,
        (line("Certainty: low."), line(Marked("convention", "95%"), " CI.")),
        line("Fenwick. ", Marked("identifier", "Release 1.2.0"), "."), "hole/size/", line("Bar: an interval."),
    )  # fmt: skip


@pytest.fixture(params=[(ALONE, SCREEN), (ALONE, PRINT), (SLIDE, PRINT)], ids=["file", "picture", "slide"])
def way(request: pytest.FixtureRequest) -> tuple[Layout, Face]:
    found: tuple[Layout, Face] = request.param
    return found


def texts(svg: str) -> Iterator[ElementTree.Element]:
    return ElementTree.fromstring(svg).iter(f"{SVG}text")


def test_every_number_is_a_figure_or_is_marked_as_none(way: tuple[Layout, Face]) -> None:
    layout, face = way
    for plot in plots():
        figures = {item.id: item.text for item in walk(plot.drawn) if isinstance(item, Figure)}
        shown = {}
        for text in texts(drawing(plot, MARK, layout, face).svg):
            kinds = set((text.get("class") or "").split())
            if "figure" in kinds:
                shown[text.get("data-figure")] = text.text
            elif re.search(r"\d", text.text or ""):
                assert kinds & NO_EVIDENCE, text.text
        assert shown == figures, "each figure by its id, with its own text"


def test_nothing_leads_out_and_nothing_is_fetched(way: tuple[Layout, Face]) -> None:
    for plot in plots():
        svg = drawing(plot, MARK, *way).svg
        assert "<a" not in svg
        assert "href" not in svg
        assert set(re.findall(r"https?://[^\"<]+", svg)) == {"http://www.w3.org/2000/svg"}
        assert "var(" not in svg, "colours of a style sheet that is not there"


def test_title_caption_citation_and_mark_are_inside() -> None:
    for plot in plots():
        said = " ".join(text.text or "" for text in texts(drawing(plot, MARK).svg))
        for words in ("A hole: its size", "Certainty: low.", "Release 1.2.0", MARK):
            assert words in said
        slide = " ".join(text.text or "" for text in texts(drawing(plot, MARK, SLIDE, PRINT).svg))
        assert "Certainty" not in slide
        assert MARK in slide, "the mark stays where the caption does not"
        assert MARK not in drawing(plot, "").svg


def test_what_is_shown_is_also_said() -> None:
    for plot in plots():
        made = drawing(plot, MARK)
        root = ElementTree.fromstring(made.svg)
        assert root.get("role") == "img"
        told = root.find(f"{SVG}desc")
        assert told is not None
        assert told.text == made.says
        if isinstance(plot.drawn, StudyRows):
            assert all(row.name in made.says for row in plot.drawn.rows)


def ends(svg: str, face: Face) -> Iterator[tuple[float, float, str]]:
    """Left and right end of each text that stands in the drawing itself, as long as it is made to be."""
    for text in ElementTree.fromstring(svg).findall(f"{SVG}text"):
        left = float(text.get("x") or 0)
        yield left, left + float(text.get("textLength") or 0), text.text or ""


def long_plot() -> PlotToTake:
    name = "Working Group on Very Long Names of Bodies in Several Countries and Languages of the World 2019"
    row = StudyRow(
        name, line("at a time that takes many words to tell of, since it was counted in several ways"),
        line("fewer", ", and more that is to be known of it" * 6), (), 3.0, 1.0, 9.0,
    )  # fmt: skip
    scale = next(item.drawn.scale for item in plots() if isinstance(item.drawn, StudyRows))
    whole = StudyRows(line("W" * 300), "Long", (row,) * 30, scale)
    return _taken(whole)._replace(title=line("Words that go on " * 20))


def test_long_names_and_words_stay_inside(way: tuple[Layout, Face]) -> None:
    layout, face = way
    for plot in (long_plot(), *plots()):
        made = drawing(plot, MARK, layout, face)
        assert made.width == layout.width
        for left, right, text in ends(made.svg, face):
            assert left >= layout.edge - 0.1, text
            assert right <= layout.width - layout.edge + 0.1, text


def test_lines_of_a_row_do_not_lie_over_one_another() -> None:
    tops: dict[float, float] = {}
    for text in ElementTree.fromstring(drawing(long_plot(), MARK).svg).findall(f"{SVG}text"):
        tops[float(text.get("y") or 0)] = float(text.get("font-size") or 0)
    for (above, _), (below, size) in zip(sorted(tops.items()), sorted(tops.items())[1:], strict=False):
        assert below - above >= size, (above, below)


def test_no_letter_on_a_slide_is_smaller_than_18_points() -> None:
    for plot in plots():
        root = ElementTree.fromstring(drawing(plot, MARK, SLIDE, PRINT).svg)
        for inside in root.iter(f"{SVG}svg"):
            box = [float(number) for number in (inside.get("viewBox") or "0 0 1 1").split()]
            scale = float(inside.get("width") or 1) / box[2] if inside is not root and inside.get("viewBox") else 1
            sizes = [float(size) for text in inside.findall(f"{SVG}text") if (size := text.get("font-size"))]
            own = float(inside.get("font-size") or 18)
            assert min([*sizes, own * scale]) >= 18


def test_fewer_rows_where_a_slide_has_no_more_room() -> None:
    few = drawing(long_plot(), MARK, SLIDE, PRINT, at_most=4)
    assert few.height < drawing(long_plot(), MARK, SLIDE, PRINT).height
    assert few.says.count("Working Group") == 4


def test_colours_are_those_of_the_pages() -> None:
    tokens = (Path(__file__).parents[3] / "builder/theme/stylesheets/tokens.css").read_text("utf-8").split("@media")[0]
    assert re.findall(r"#\w+", tokens)[:5] == [PAPER, TINT, LINE, INK, SOFT]


def test_the_picture_is_as_wide_as_asked_and_the_same_each_time() -> None:
    made = drawing(plots()[0], MARK, ALONE, PRINT)
    once, again = png(made.svg, 1520), png(made.svg, 1520)
    assert once == again
    # PNG, third edition (W3C 2025), 11.2.1: width and height stand at bytes 16 to 23.
    assert once[:8] == b"\x89PNG\r\n\x1a\n"
    width, height = (int.from_bytes(once[at : at + 4], "big") for at in (16, 20))
    assert width == 1520
    assert height == pytest.approx(made.height * 2, abs=2)
    assert png(made.svg, 380) != once


def test_what_is_no_drawing_is_refused() -> None:
    with pytest.raises(RuntimeError):
        png("<svg", 100)
