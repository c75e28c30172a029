"""One mark for each unit: as many as there are, those that did well filled."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ElementTree

import pytest
from passageproof.rendering.icons import icons_svg
from passageproof.results.values.document import walk
from passageproof.results.values.drawings import Icons
from rendering.sample_guide import sample_guide

(PLOT,) = {
    item.anchor: item for page in sample_guide().pages for item in walk(page.blocks) if isinstance(item, Icons)
}.values()
SVG = "{http://www.w3.org/2000/svg}"


def test_marks_are_as_many_as_the_teeth_and_filled_as_many_as_the_events() -> None:
    places = drawn_places(PLOT)
    assert {kind: len(found) for kind, found in places.items()} == {"unit filled": 39, "unit": 47 - 39}
    assert [at for found in places.values() for at in found] == [
        (14 + 28 * (index % 10), 8 + 28 * (index // 10)) for index in range(47)
    ]


def drawn_places(plot: Icons) -> dict[str, list[tuple[int, int]]]:
    """Where each unit is drawn, by its kind; a row of ten is drawn once and used."""
    root = ElementTree.fromstring(icons_svg(plot, ""))
    named = {found.get("id"): found for found in root.iter() if found.get("id")}
    places: dict[str, list[tuple[int, int]]] = {}
    for group in (found for found in root.iter(f"{SVG}g") if found.get("class")):
        for use in group:
            x, y = int(use.get("x", 0)), int(use.get("y", 0))
            shape = named[use.get("href", "").removeprefix("#")]
            inner = [int(part.get("x", 0)) for part in shape] if shape.tag == f"{SVG}g" else [0]
            places.setdefault(str(group.get("class")), []).extend((x + shift, y) for shift in inner)
    return places


@pytest.mark.parametrize(("filled", "total"), [(0, 7), (72, 100), (100, 100), (5, 30), (0, 100)])
def test_rows_of_ten_leave_no_unit_out(filled: int, total: int) -> None:
    places = drawn_places(PLOT._replace(filled=filled, total=total))
    assert len(places.get("unit filled", [])) == filled
    assert [at for found in places.values() for at in found] == [
        (14 + 28 * (index % 10), 8 + 28 * (index // 10)) for index in range(total)
    ]


def test_it_is_well_formed_has_a_title_and_carries_the_mark() -> None:
    root = ElementTree.fromstring(icons_svg(PLOT, "invented for demonstration"))
    assert root.find(f"{SVG}title").text == PLOT.title  # type: ignore[union-attr]
    assert "invented for demonstration" in "".join(root.itertext())


def test_it_brings_no_colour_or_style_of_its_own() -> None:
    assert re.search(r'(fill|stroke|style)="', icons_svg(PLOT, "")) is None
