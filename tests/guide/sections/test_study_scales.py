"""Ticks of the scales that studies are drawn on: equal steps, read right without the drawing."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from guide.cohorts import by_size, catalogue
from guide.compendium import nothing_named, report, said
from hypothesis import given, strategies as st
from passageproof.guide.factor.factor_page import factor_page
from passageproof.guide.sections.study_rows import ratio_scale
from passageproof.results.values.document import Page, Section, StudyRows, walk
from passageproof.results.values.drawings import StudyScale

ENDS = ("fewer", "more")


def labels(scale: StudyScale) -> list[str]:
    return [label for _, label in scale.ticks]


# Lewis, Clarke 2001, BMJ 322:1479-1480 (from memory): ratios stand on a logarithmic scale, half and double equally far
# from one; the labels of a drawing of studies are therefore 0.25, 0.5, 1, 2, 4 and the like.
@pytest.mark.parametrize(
    ("values", "expected", "step"),
    [
        ([0.4, 0.8, 2.2], ["0.25", "0.5", "1", "2", "4"], "doubles"),
        ([0.07, 1.5], ["0.25", "1", "4"], "four times"),
    ],
)
def test_ticks_of_a_ratio_stand_at_equal_ratios_and_the_axis_names_them(
    values: list[float], expected: list[str], step: str
) -> None:
    scale = ratio_scale(values, ENDS)
    assert labels(scale) == expected
    assert step in scale.axis


@given(st.lists(st.floats(0.01, 100), min_size=1, max_size=6))
def test_neighbouring_ticks_of_a_ratio_have_one_ratio_and_one_is_among_them(values: list[float]) -> None:
    ticks = [tick for tick, _ in ratio_scale(values, ENDS).ticks]
    steps = {round(math.log2(high / low), 6) for low, high in pairwise(ticks)}
    assert len(steps) == 1
    assert 1.0 in ticks


def page(*files: dict[str, str]) -> Page:
    made = catalogue(*files)
    return factor_page(made, made.evidence.questions["hole"], "size", nothing_named)


def scales(found: Page) -> list[StudyScale]:
    return [block.scale for block in walk(found.blocks) if isinstance(block, StudyRows) and block.scale is not None]


def test_ticks_of_a_difference_are_signed_and_at_equal_steps_to_both_sides() -> None:
    scale = next(
        scale for scale in scales(page(by_size("arden2011", (7, 12), (32, 35)))) if scale.axis == "points of a hundred"
    )
    at = [tick for tick, _ in scale.ticks]
    assert len({round(high - low, 6) for low, high in pairwise(at)}) == 1
    assert 0.0 in at
    for value, label in scale.ticks:
        assert label == ("same" if not value else f"{value:+.0f}".replace("-", "\u2212"))


MINUTES = """
    - {id: by-size, question: hole, outcome: healed, factor: size, known_at: before, planned: yes, reference: up to 3 mm,
       where: 'p. 3', follow_up: not applicable, contrast: {measure: mean difference, event: time spent, event_is: bad,
       level: over 3 mm, reference: up to 3 mm, value: -14, interval: -21 to -7, unit: minute, adjusted_for: none}}
"""


def test_a_difference_of_minutes_is_on_a_scale_of_minutes_and_on_none_of_ratios() -> None:
    files = report("arden2011", MINUTES, "[p. 3] time spent, over 3 mm against up to 3 mm: -14 minutes (-21 to -7)")
    found = page(files)
    assert {scale.axis for scale in scales(found)} == {"minutes"}
    titles = [block.summary for block in found.blocks if hasattr(block, "summary")]
    assert "Differences, as reported" in titles
    assert "Ratios" not in titles


SILENT = """
    - {id: by-size, question: hole, outcome: healed, factor: size, known_at: before, where: 'p. 3',
       reference: not reported, follow_up: not reported, levels: [{level: up to 3 mm, direction: not stated, stated: words only},
       {level: over 3 mm, direction: not stated, stated: words only}]}
"""


def test_a_test_without_numbers_is_told_once_of_all_levels_and_called_neither_crude_nor_adjusted() -> None:
    files = report("arden2011", SILENT, "[p. 3] over 3 mm and up to 3 mm: not significant")
    found = page(files)
    ways = next(block for block in found.blocks if isinstance(block, Section) and block.anchor == "directions")
    assert len([block for block in walk(ways) if isinstance(block, StudyRows)]) == 1
    text = said(found.blocks)
    assert "against the others" in text
    assert "its reference" not in text.replace("with its reference level", "")
    assert "adjusted or not: not reported" in text
    assert "crude" not in said([row for block in walk(ways) if isinstance(block, StudyRows) for row in block.rows])
    assert "every count or ratio here is crude" not in text
