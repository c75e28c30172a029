"""One mark for each unit: as many as there are, those that did well filled."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ElementTree

from passageproof.guide.values.document import walk
from passageproof.guide.values.drawings import Icons
from passageproof.rendering.icons import icons_svg
from rendering.sample_guide import sample_guide

(PLOT,) = {
    item.anchor: item for page in sample_guide().pages for item in walk(page.blocks) if isinstance(item, Icons)
}.values()
SVG = "{http://www.w3.org/2000/svg}"


def test_marks_are_as_many_as_the_teeth_and_filled_as_many_as_the_events() -> None:
    root = ElementTree.fromstring(icons_svg(PLOT, ""))
    assert {group.get("class"): len(group) for group in root.iter(f"{SVG}g")} == {"unit filled": 39, "unit": 47 - 39}


def test_it_is_well_formed_has_a_title_and_carries_the_mark() -> None:
    root = ElementTree.fromstring(icons_svg(PLOT, "invented for demonstration"))
    assert root.find(f"{SVG}title").text == PLOT.title  # type: ignore[union-attr]
    assert "invented for demonstration" in "".join(root.itertext())


def test_it_brings_no_colour_or_style_of_its_own() -> None:
    assert re.search(r'(fill|stroke|style)="', icons_svg(PLOT, "")) is None
