"""The drawing of rates over time: well-formed, inside its frame, said in words and shapes and not by colour alone."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ElementTree

import pytest
from passageproof.rendering.faces import SCREEN
from passageproof.rendering.inline import Place
from passageproof.rendering.time_plot import time_plot_svg
from passageproof.results.values.document import walk
from passageproof.results.values.drawings import TimePlot, TimePoint, TimeSteps
from passageproof.results.values.line import line
from rendering.sample_guide import sample_guide

PLACE = Place("root-perforation/size/")
(PLOT,) = {
    item.anchor: item for page in sample_guide().pages for item in walk(page.blocks) if isinstance(item, TimePlot)
}.values()
SVG = "{http://www.w3.org/2000/svg}"


def drawn(plot: TimePlot, mark: str = "invented for demonstration") -> ElementTree.Element:
    text = time_plot_svg(plot, PLACE, mark)
    return ElementTree.fromstring(text.replace("<svg ", '<svg xmlns="http://www.w3.org/2000/svg" ', 1))


def test_it_is_well_formed_has_a_title_and_carries_the_mark() -> None:
    root = drawn(PLOT)
    assert root.find(f"{SVG}title").text == PLOT.title  # type: ignore[union-attr]
    assert "invented for demonstration" in "".join(root.itertext())


def test_it_brings_no_colour_or_style_of_its_own() -> None:
    assert re.search(r'(fill|stroke|style)="', time_plot_svg(PLOT, PLACE, "")) is None


def test_a_figure_in_it_is_a_link_to_its_passage() -> None:
    links = {link.attrib["href"] for link in drawn(PLOT).iter(f"{SVG}a")}
    assert links == {"../../sources/marlow2019furcal/#p-46-table-2"}
    for link in drawn(PLOT).iter(f"{SVG}a"):
        assert link[0].attrib["class"] == "figure"
        assert link[0].attrib["data-figure"].startswith("marlow2019furcal/overall/")


def test_numbers_of_one_passage_share_a_link_with_the_words_between_them() -> None:
    link = next(link for link in drawn(PLOT).iter(f"{SVG}a") if len(link) > 1)
    assert [text.text for text in link] == ["39", "of", "47"]


def test_every_place_across_lies_inside() -> None:
    for part in drawn(PLOT).iter():
        for name in ("x", "x1", "x2", "cx"):
            place = part.attrib.get(name, "")
            if place.endswith("%"):
                assert 0 <= float(place[:-1]) <= 100


def test_a_higher_share_stands_higher() -> None:
    plot = PLOT._replace(points=(TimePoint(12, 90), TimePoint(24, 30)), brackets=(), steps=(), spans=())
    high, low = (float(part.attrib["cy"]) for part in drawn(plot).iter(f"{SVG}circle"))
    assert high < low


def test_where_the_knowledge_ends_lines_of_equal_shares_end_and_that_is_said() -> None:
    root = drawn(PLOT._replace(steps=(), points=(TimePoint(12, 90),), known_to=42))
    ends = {part.attrib["x2"] for part in root.iter(f"{SVG}line") if part.attrib.get("class") == "axis"}
    assert ends == {"55%", "99%"}
    assert "nothing known" in "".join(root.itertext())
    # What is empty is seen to be unknown.
    (unknown,) = (part for part in root.iter(f"{SVG}rect") if part.attrib["class"] == "unknown")
    assert (unknown.attrib["x"], unknown.attrib["width"]) == ("55%", "44%")


def test_where_nothing_has_a_stated_time_no_room_is_left_for_shares() -> None:
    bare = drawn(PLOT._replace(points=(), brackets=(), steps=(), known_to=0))
    words = "".join(bare.itertext())
    assert "50%" not in words
    assert "nothing known" in words
    with_shares = drawn(PLOT._replace(brackets=(), steps=(), points=(TimePoint(12, 90),), known_to=12))
    assert float(bare.attrib["height"]) < float(with_shares.attrib["height"]) - 100
    # All that is drawn is moved up together, and stands within the drawing.
    (moved,) = bare.findall(f"{SVG}g")
    up = float(moved.attrib["transform"].removeprefix("translate(0 ").removesuffix(")"))
    heights = [float(part.attrib["y"]) + up for part in moved.iter(f"{SVG}text")]
    assert 0 < min(heights) < max(heights) < float(bare.attrib["height"])


@pytest.mark.parametrize(("thin_from", "broken"), [(2, 0), (1, 1), (0, 2)])
def test_below_ten_still_followed_an_estimate_is_broken(thin_from: int, broken: int) -> None:
    steps = TimeSteps("Arden", (TimePoint(36, 71), TimePoint(60, 40)), (), thin_from)
    text = time_plot_svg(PLOT._replace(steps=(steps,)), PLACE, "")
    assert text.count('class="same broken"') == broken
    assert text.count('<rect class="same') == 2


def test_a_share_when_last_seen_is_drawn_below_the_axis() -> None:
    root = drawn(PLOT._replace(points=(), brackets=(), steps=(), known_to=0))
    axis = next(part for part in root.iter(f"{SVG}line") if part.attrib.get("class") == "axis")
    (span,) = (part for part in root.iter(f"{SVG}line") if "class" not in part.attrib)
    assert float(span.attrib["y1"]) > float(axis.attrib["y1"])


def test_the_words_of_a_bracket_stand_below_what_lies_near_it() -> None:
    near = PLOT._replace(points=(TimePoint(30, 60, 40, 80),), steps=())
    root = drawn(near)
    text = next(part for part in root.iter(f"{SVG}text") if part.text == "47" and part.attrib["class"] == "figure")
    low = max(
        float(part.attrib["y1"]) for part in root.iter(f"{SVG}line") if part.attrib.get("x1") == part.attrib["x2"]
    )
    assert float(text.attrib["y"]) > low


def test_a_bracket_leads_to_the_list_of_its_studies_and_is_as_large_as_a_fingertip() -> None:
    links = list(drawn(PLOT._replace(opens="every-healed", steps=(), points=())).iter(f"{SVG}a"))
    (bracket,) = (link for link in links if link.attrib["href"] == "#every-healed")
    assert bracket.attrib["aria-label"] == "Every study at this time"
    # WCAG 2.2, success criterion 2.5.5: 44 by 44 pixels.
    assert float(bracket[0].attrib["r"]) >= 22
    assert "data-figure" not in ElementTree.tostring(bracket, "unicode")


def test_words_beside_a_late_mark_stand_before_it() -> None:
    late = PLOT.brackets[0]._replace(at=80)
    text = next(part for part in drawn(PLOT._replace(brackets=(late,))).iter(f"{SVG}text") if part.text == "47")
    assert float(text.attrib["x"]) < 0


def test_wide_letters_are_given_more_room_than_narrow_ones() -> None:
    assert SCREEN.width("mmm") > SCREEN.width("nnn") > SCREEN.width("iii")


def test_an_estimate_without_numbers_at_risk_is_drawn_all_the_same() -> None:
    steps = TimeSteps("Arden", (TimePoint(36, 71),), (), 1)
    assert "Arden" in "".join(drawn(PLOT._replace(steps=(steps,))).itertext())
    assert line() == ()
