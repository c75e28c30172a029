"""One row a study as HTML: a name that opens it, its figures beside it, and a drawing that words say too."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ElementTree

import pytest
from passageproof.rendering.blocks import Setting, blocks_html
from passageproof.rendering.inline import Place
from passageproof.results.values.document import Paragraph, StudyRow, StudyRows, walk
from passageproof.results.values.drawings import StudyScale
from passageproof.results.values.line import line
from rendering.sample_guide import sample_guide

SCALE = StudyScale(-75, 25, ((-50, "50"), (0, "same")), "points of a hundred", 0.0, ("fewer", "more"))
SAMPLE = next(item for page in sample_guide().pages for item in walk(page.blocks) if isinstance(item, StudyRows))
OPENED = (Paragraph(line("all of it")),)


def html(block: StudyRows, *, is_demonstration: bool = True) -> str:
    return blocks_html((block,), Setting(Place("root-perforation/size/"), is_demonstration, lambda text: text))


def one(scale: StudyScale | None = SCALE, **more: object) -> str:
    given: dict[str, object] = {"name": "Marlow", "first": line("counts"), "said": line("fewer"), "opened": OPENED}
    row = StudyRow(**(given | more))  # type: ignore[arg-type]
    return html(StudyRows(line("healed"), "Studies", (row,), scale))


def test_the_name_opens_the_row_and_holds_no_figure() -> None:
    text = html(SAMPLE)
    assert '<summary class="reference">Marlow</summary>' in text
    for summary in re.findall("<summary[^>]*>(.*?)</summary>", text):
        assert "data-figure" not in summary
    assert text.count("<li>") == len(SAMPLE.rows)


def test_the_figures_of_a_row_are_links_outside_of_what_is_closed() -> None:
    text = re.sub("<details>.*?</details>", "", html(SAMPLE), flags=re.DOTALL)
    assert text.count('data-figure="marlow2019furcal/overall/events"') == 3


def test_the_mark_of_a_demonstration_stands_once_in_a_list() -> None:
    assert html(SAMPLE).count("invented for demonstration") == 1
    assert "invented" not in html(SAMPLE, is_demonstration=False)


def test_the_drawing_is_not_heard_since_words_and_figures_say_the_same() -> None:
    assert all(
        'aria-hidden="true"' in found for found in re.findall("<svg [^>]*>", one(point=-20.0)) if "x=" not in found
    )


def test_a_bar_a_mark_and_the_strip_lie_on_one_scale() -> None:
    text = one(point=-50.0, low=-75.0, high=-25.0)
    assert '<line x1="0%" y1="50%" x2="50%" y2="50%"/>' in text
    assert '<rect class="notch" x="25%"/>' in text
    assert text.count('<rect class="same" x="75%"/>') == 2


@pytest.mark.parametrize(
    ("shape", "marked"),
    [("open", '<rect class="notch" x'), ("filled", '<rect class="notch filled" x'), ("dot", "<circle ")],
)
def test_crude_adjusted_and_a_rate_by_itself_differ_in_shape(shape: str, marked: str) -> None:
    assert marked in one(point=-20.0, shape=shape)


def test_a_bar_that_decides_nothing_is_broken() -> None:
    assert '<line class="broken"' in one(point=-20.0, low=-40.0, high=1.0, is_broken=True)


MARGIN = StudyScale(-25, 50, ((-25, "25"), (0, "same"), (25, "25"), (50, "50")), "points", 0.0, ("fewer", "more"))


def test_a_margin_is_a_thin_mark_in_its_row_and_a_word_below_the_list() -> None:
    found = one(MARGIN, point=-2.0, low=-9.6, high=5.6, margins=(-10.0,))
    assert found.count('<svg x="20%"><path class="beyond broken"') == 1
    assert '<text class="scale" x="20%" y="13" text-anchor="end">margin</text>' in found
    # Its word and that of no difference end and begin where they lie, and a tick in its way is left out.
    assert 'text-anchor="start">same</text>' in found
    assert found.count(">25</text>") == 1


def test_a_margin_to_the_other_side_has_its_word_there() -> None:
    found = one(MARGIN, point=2.0, low=-5.0, high=8.0, margins=(10.0,))
    assert 'text-anchor="start">margin</text>' in found
    assert 'text-anchor="end">same</text>' in found


def test_without_a_margin_no_word_of_it_stands_below_the_list() -> None:
    assert "margin" not in one(MARGIN, point=-2.0, low=-9.6, high=5.6)


def test_an_interval_beyond_the_scale_runs_off_it() -> None:
    assert one(point=-20.0, low=-60.0, high=20.0).count('class="beyond"') == 0
    assert one(point=-20.0, low=-90.0, high=40.0).count('class="beyond"') == 2


def test_a_log_scale_puts_equal_ratios_at_equal_distances() -> None:
    scale = StudyScale(0.1, 10.0, (), "ratio", 1.0, ("less often", "more often"), True)
    assert '<line x1="25%" y1="50%" x2="75%" y2="50%"/>' in one(scale, low=10**-0.5, high=10**0.5)


def test_without_a_scale_nothing_is_drawn() -> None:
    assert "<svg" not in one(None)


def test_a_row_with_nothing_behind_it_is_no_door() -> None:
    text = one(opened=())
    assert "<details" not in text
    assert "<b>Marlow</b>" in text


def test_it_brings_no_colour_or_style_of_its_own_and_is_well_formed() -> None:
    text = html(SAMPLE)
    assert re.search(r'(fill|stroke|style)="', text) is None
    ElementTree.fromstring(text)
