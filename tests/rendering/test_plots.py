"""Drawings: well-formed, inside their frame, said in words and shapes and not by colour alone."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ElementTree

import pytest
from passageproof.guide.values.document import Line, Marked, Plot, PlotRow, line, walk
from passageproof.rendering.inline import Place
from passageproof.rendering.plots import WIDTH, Scale, plot_svg, text_width
from rendering.sample_guide import sample_book, sample_guide

PLACE = Place("root-perforation/size/")
PLOTS = [item for page in sample_guide().pages for item in walk(page.blocks) if isinstance(item, Plot)]
SVG = "{http://www.w3.org/2000/svg}"


def drawn(plot: Plot, mark: str = "invented for demonstration") -> ElementTree.Element:
    return ElementTree.fromstring(plot_svg(plot, PLACE, mark))


def plot_of(*rows: PlotRow, **more: object) -> Plot:
    given: dict[str, object] = {
        "scale_low": 0,
        "scale_high": 100,
        "ticks": ((0, "0"), (100, "100")),
        "axis": "per cent",
    }
    return Plot("intervals", "p", "A plot", line("said"), rows, **(given | more))  # type: ignore[arg-type]


def counts() -> Line:
    book = sample_book()
    events, total = (book.quoted(f"marlow2019furcal/overall/{name}") for name in ("events", "total"))
    assert events is not None
    assert total is not None
    return (events, " of ", total)


@pytest.mark.parametrize("plot", PLOTS, ids=lambda plot: plot.kind)
def test_a_drawing_is_well_formed_has_a_title_and_carries_the_mark(plot: Plot) -> None:
    root = drawn(plot)
    assert root.find(f"{SVG}title").text == plot.title  # type: ignore[union-attr]
    assert "invented for demonstration" in "".join(root.itertext())


@pytest.mark.parametrize("plot", PLOTS, ids=lambda plot: plot.kind)
def test_every_text_ends_inside_the_drawing(plot: Plot) -> None:
    for text in drawn(plot).iter(f"{SVG}text"):
        if "textLength" in text.attrib:
            assert float(text.attrib["x"]) + float(text.attrib["textLength"]) <= WIDTH


@pytest.mark.parametrize("plot", PLOTS, ids=lambda plot: plot.kind)
def test_no_drawing_brings_a_colour_or_a_style_of_its_own(plot: Plot) -> None:
    assert re.search(r'(fill|stroke|style)="', plot_svg(plot, PLACE, "")) is None


def test_a_figure_in_a_drawing_is_a_link_to_its_passage() -> None:
    root = drawn(plot_of(PlotRow(line("Marlow"), 83, 70, 91, counts())))
    link = root.find(f".//{SVG}a")
    assert link is not None
    assert link.attrib["href"] == "../../sources/marlow2019furcal/#p-46-table-2"
    assert link[0].attrib["data-figure"] == "marlow2019furcal/overall/events"


def test_a_label_too_long_for_its_figures_gives_them_a_line_of_their_own() -> None:
    def height(label: str) -> float:
        return float(drawn(plot_of(PlotRow(line(label), 83, 70, 91, counts()))).attrib["viewBox"].split()[3])

    assert height("A study with a name that fills the whole line") > height("Marlow")


def test_an_interval_beyond_the_scale_runs_off_the_rail() -> None:
    inside = plot_svg(plot_of(PlotRow(line("x"), 50, 10, 90, ())), PLACE, "")
    beyond = plot_svg(plot_of(PlotRow(line("x"), 50, -10, 190, ())), PLACE, "")
    assert inside.count('class="beyond"') == 0
    assert beyond.count('class="beyond"') == 2


def test_better_worse_and_level_differ_in_shape_and_not_by_colour() -> None:
    shapes = set()
    for shape in ("better", "worse", "level", "unstated"):
        plot = plot_of(PlotRow(line("x"), None, None, None, (), shape))._replace(kind="direction")
        shapes.add(re.sub(r'class="[^"]*"', "", plot_svg(plot, PLACE, "")))
    assert len(shapes) == 4


def test_a_log_scale_puts_equal_ratios_at_equal_distances() -> None:
    scale = Scale(plot_of(scale_low=0.1, scale_high=10, is_log=True))
    assert scale.x(1) - scale.x(0.5) == pytest.approx(scale.x(2) - scale.x(1), abs=0.1)


def test_icons_are_as_many_as_the_teeth_and_filled_as_many_as_the_events() -> None:
    plot = next(plot for plot in PLOTS if plot.kind == "icons")
    drawn_of = {group.get("class"): len(group) for group in drawn(plot).iter(f"{SVG}g")}
    assert drawn_of == {"unit filled": 39, "unit": 47 - 39}


def test_wide_letters_are_given_more_room_than_narrow_ones() -> None:
    assert text_width("mmm") > text_width("nnn") > text_width("iii")


def test_where_nothing_is_known_is_a_dotted_line_of_its_own() -> None:
    text = plot_svg(plot_of(PlotRow(line("no rate"), None, 24, 100, (), "gap")), PLACE, "")
    assert text.count('class="unstated"') == 1
    assert "band" not in text


def test_a_further_study_is_distinguished_from_an_interval_by_its_shape() -> None:
    text = plot_svg(plot_of(PlotRow(line("a further study"), None, 10, 90, (), "prediction")), PLACE, "")
    assert "band" not in text
    assert 'class="beyond"' in text


def test_the_line_of_no_difference_crosses_no_number() -> None:
    log = {"scale_low": 0.1, "scale_high": 10, "reference": 1.0, "is_log": True, "ticks": ((1, "1"),)}
    root = drawn(plot_of(PlotRow(line("Marlow"), 1, 0.5, 2, counts()), **log))
    (same,) = (path for path in root.iter(f"{SVG}path") if path.get("class") == "same")
    top = float(re.findall(r"[\d.]+", same.attrib["d"])[1])
    (row,) = (group for group in root.iter(f"{SVG}g") if group.get("class") == "row")
    shift = float(row.attrib["transform"].rstrip(")").split()[-1])
    figures = [text for text in root.iter(f"{SVG}text") if text.get("class") == "figure"]
    assert top > max(shift + float(text.get("y", 0)) for text in figures)


def test_numbers_of_one_passage_share_a_link_with_the_words_between_them() -> None:
    root = drawn(plot_of(PlotRow(line("Marlow"), 83, 70, 91, counts())))
    (link,) = root.iter(f"{SVG}a")
    assert [text.text for text in link] == ["39", "of", "47"]


def test_a_span_of_one_moment_is_wide_enough_to_be_seen() -> None:
    root = drawn(plot_of(PlotRow(line("x"), None, 18, 18, (), "span")))
    (band,) = root.iter(f"{SVG}rect")
    assert float(band.attrib["width"]) >= 8


def test_a_label_longer_than_the_drawing_goes_on_below() -> None:
    label = "Society for the Preservation of Teeth and Their Roots 2025, read in part"
    root = drawn(plot_of(PlotRow(line(Marked("reference", label)), 83, 70, 91, counts())), "")
    words = [text for text in root.iter(f"{SVG}text") if text.get("x") == "10" and "textLength" in text.attrib]
    assert [float(text.get("y", 0)) for text in words] == [0, 17]
    assert all(10 + float(text.attrib["textLength"]) <= WIDTH for text in words)
