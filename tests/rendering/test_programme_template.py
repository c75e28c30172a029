"""A programme's own template: its look and places, and what is said of a file that is none."""

from __future__ import annotations

import io
from functools import cache
from pathlib import Path

import pptx
from demo import demo_built
from passageproof.reading.slide_template import FILE, LAYOUTS, read_slide_template, template_problem
from passageproof.rendering.slides.deck import deck
from passageproof.rendering.slides.own_template import ROOMS
from passageproof.results.values.talk import slides_path
from pptx.util import Pt
from slides import read_deck


@cache
def own() -> bytes:
    """Slides of ours, which are a template with slides in it."""
    return b"".join(demo_built().files.pieces(slides_path("exposed-pulp")))


def written(root: Path, content: bytes) -> str:
    path = root / FILE
    path.parent.mkdir(exist_ok=True)
    path.write_bytes(content)
    return str(path)


def changed(edit: object) -> bytes:
    presentation = pptx.Presentation(io.BytesIO(own()))
    edit(presentation)  # type: ignore[operator]
    out = io.BytesIO()
    presentation.save(out)
    return out.getvalue()


def moved(presentation: pptx.presentation.Presentation) -> None:
    for layout in presentation.slide_layouts:
        for shape in layout.placeholders:
            if shape.placeholder_format.idx == 0:
                shape.left = Pt(100)


def test_slides_stand_in_the_places_of_the_template_and_its_own_are_gone(tmp_path: Path) -> None:
    written(tmp_path, changed(moved))
    template = read_slide_template(tmp_path)
    guide = demo_built().guide
    assert template is not None
    assert guide is not None
    made = deck(guide, "root-perforation", frozenset({"hole-size=large"}), template=template)
    assert made == deck(guide, "root-perforation", frozenset({"hole-size=large"}), template=template)
    shown = pptx.Presentation(io.BytesIO(made))
    first = shown.slides[0].shapes.title
    assert first is not None
    assert first.text == "There is a hole in the root or the pulp floor"
    assert first.left == Pt(100)
    found = read_deck(made)
    assert 7 <= len(found.main) <= 9
    assert len([name for name in found.parts if name.startswith("ppt/slides/slide")]) == len(found.slides)
    assert all(slide.shape("Mark") for slide in found.slides)


def test_a_template_of_another_shape_and_a_file_that_is_none_are_told(tmp_path: Path) -> None:
    out = io.BytesIO()
    pptx.Presentation().save(out)  # 4 to 3, with other layouts
    wide = pptx.Presentation()
    wide.slide_width, wide.slide_height = 12192000, 6858000
    others = io.BytesIO()
    wide.save(others)
    said = []
    for content in (b"no zip", out.getvalue(), others.getvalue()):
        problem = template_problem(written(tmp_path, content))
        assert problem is not None
        assert problem.rule == "slide-template"
        assert problem.position.file == FILE
        assert read_slide_template(tmp_path) is None
        said.append(problem.message)
    assert said[0] == "evidence/slides.pptx cannot be read as a presentation"
    assert said[1] == "evidence/slides.pptx has slides of another shape than 16 to 9"
    assert all(f'no layout is called "{name}"' in said[2] for name in LAYOUTS)


def test_a_layout_without_a_place_is_told(tmp_path: Path) -> None:
    def without_picture(presentation: pptx.presentation.Presentation) -> None:
        for layout in presentation.slide_layouts:
            if layout.name == "Plot":
                for shape in list(layout.placeholders):
                    if shape.placeholder_format.idx == 13:
                        shape._element.getparent().remove(shape._element)

    problem = template_problem(written(tmp_path, changed(without_picture)))
    assert problem is not None
    assert problem.message == 'evidence/slides.pptx: the layout "Plot" has no place for picture'


def test_our_own_slides_are_such_a_template(tmp_path: Path) -> None:
    assert template_problem(written(tmp_path, own())) is None
    assert set(LAYOUTS) == set(ROOMS)
