"""Why nothing was pooled is told in full once a page, and so is the way to a report."""

from __future__ import annotations

from pathlib import Path

import pytest
from demo import demo_built
from guide.compendium import said
from passageproof.results.findings import comparable
from passageproof.results.saying import reasons_once
from passageproof.results.saying.reasons_once import told_once
from passageproof.results.values.document import Items, Paragraph, StudyRow, StudyRows
from passageproof.results.values.drawings import StudyScale
from passageproof.results.values.line import Link, line

ROOT = Path(__file__).parents[3]
FEW = "fewer than five studies agree on what they count"
TREATED = "the people treated differ"


def test_second_telling_names_the_reasons_and_keeps_those_that_are_new() -> None:
    first = Paragraph(line("one: not pooled: ", FEW, "; ", TREATED, "; the rest lies apart."))
    second = Items((line("two: not pooled: ", FEW, "; ", TREATED, "; the operators differ."),))
    one, two = told_once((first, second))
    assert said(one) == said(first)
    assert said(two) == "two: not pooled: the operators differ; as told above: too few that agree, people."


def test_the_way_to_a_report_stands_in_the_first_row_of_it() -> None:
    way = line("Report: ", Link("sources/marlow2019/", line("Marlow"), "reference"))
    read = Paragraph(line(*way, ": full text"))
    rows = [
        StudyRow("Marlow", line("most of them"), line(), (opened, Paragraph(line("When: at once"))))
        for opened in (Paragraph(way), Paragraph(way), read)
    ]
    (first,), (second, third) = (item.rows for item in told_once(_lists(rows)))  # type: ignore[union-attr]
    assert [said(block) for block in first.opened] == ["Report: Marlow", "When: at once"]
    assert [said(block) for block in second.opened] == ["When: at once"]
    assert [said(block) for block in third.opened] == ["Report: Marlow: full text", "When: at once"]


@pytest.mark.parametrize(
    ("name", "further"),
    [("Marlow, not checked for retraction", ("When: at once",)), ("Marlow", ())],
)
def test_it_stays_where_it_says_how_the_report_stands_or_nothing_else_is_opened(
    name: str, further: tuple[str, ...]
) -> None:
    way = Paragraph(line("Report: ", Link("sources/marlow2019/", line(name), "reference")))
    row = StudyRow("Marlow", line("most of them"), line(), (way, *(Paragraph(line(text)) for text in further)))
    assert told_once(_lists([row, row])) == _lists([row, row])


def _lists(rows: list[StudyRow]) -> tuple[StudyRows, StudyRows]:
    return StudyRows(line("a"), "a", tuple(rows[:1])), StudyRows(line("b"), "b", tuple(rows[1:]))


def test_what_is_told_once_stays_as_it_is() -> None:
    blocks = (Paragraph(line("not pooled: ", FEW, ".")), Paragraph(line("not pooled: a single study.")))
    assert [said(block) for block in told_once(blocks)] == [said(block) for block in blocks]


def test_words_that_are_no_line_are_not_run_together() -> None:
    scale = StudyScale(0.0, 1.0, ((0.0, "not pooled: x"),), "axis", 0.0, ("fewer", "more"))
    (kept,) = told_once((scale,))  # type: ignore[arg-type]
    assert kept == scale


def test_every_reason_of_an_axis_has_its_short_name() -> None:
    reasons = {*comparable._WORDS.values(), *comparable._MISSING_WORDS.values()}
    assert reasons <= set(reasons_once._SHORT)


@pytest.mark.parametrize("kind", ["over-time", "factor", "conference"])
def test_pages_of_the_demo_tell_no_reason_in_full_twice(kind: str) -> None:
    built = demo_built()
    assert built.guide is not None
    pages = [page for page in built.guide.pages if page.kind == kind]
    assert pages
    refused = 0
    for page in pages:
        told = reasons_once._REFUSED.findall(said(page.blocks))
        reasons = [reason for each in told for reason in each.split("; ")]
        refused += len(reasons)
        assert len(reasons) == len(set(reasons)), page.address
    assert refused
