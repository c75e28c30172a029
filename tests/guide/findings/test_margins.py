"""A printed interval beside a margin fixed beforehand, and cuts that were chosen from the data."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from demo import demo_built
from guide.cohorts import by_size, catalogue, ratio
from guide.compendium import nothing_named, said
from passageproof.guide.factor.factor_page import factor_page
from passageproof.guide.question.conference_page import conference_page
from passageproof.guide.question.question_page import question_page
from passageproof.guide.source.source_page import source_page
from passageproof.results.findings.margins import margin_verdict
from passageproof.results.values.document import StudyRows, walk

ROOT = Path(__file__).parents[3]

QUESTION = """\
id: hole
title: There is a hole
situation: [{factor: size, ask: How wide?}]
factors: [size]
"""
CHOSEN = "cut chosen from the data"


def with_margin(measure: str, event: str, value: str, interval: str, margin: str, sides: str = ""):
    more = f", interval: {interval}, margin: {{value: {margin}, by: the protocol{sides}}}"
    printed = f" (95% CI {interval}); the margin was {margin}"
    return catalogue(ratio("arden2011", measure, event, value, more=more, printed=printed))


@pytest.mark.parametrize(
    ("measure", "event", "value", "interval", "margin", "sides", "verdict"),
    [
        ("risk ratio", "reversal, bad", "1.02", "0.91 to 1.14", "1.25", "", "within"),
        ("risk ratio", "reversal, bad", "0.70", "0.50 to 0.98", "1.25", "", "within"),
        ("risk ratio", "reversal, bad", "1.12", "0.91 to 1.38", "1.25", "", "not shown within"),
        ("risk ratio", "reversal, bad", "1.00", "0.80 to 1.25", "1.25", "", "not shown within"),
        ("risk ratio", "reversal, bad", "1.80", "1.31 to 2.47", "1.25", "", "beyond"),
        ("risk ratio", "healing, good", "0.97", "0.86 to 1.09", "0.80", "", "within"),
        ("risk ratio", "healing, good", "0.90", "0.74 to 1.09", "0.80", "", "not shown within"),
        ("risk ratio", "healing, good", "0.60", "0.49 to 0.73", "0.80", "", "beyond"),
        ("risk ratio", "reversal, bad", "0.70", "0.50 to 0.98", "1.25", ", sides: two", "not shown within"),
        ("risk ratio", "reversal, bad", "1.02", "0.91 to 1.14", "1.25", ", sides: two", "within"),
        ("risk ratio", "reversal, bad", "0.60", "0.49 to 0.73", "1.25", ", sides: two", "beyond"),
        ("risk difference", "reversal, bad", "2%", "-3% to 7%", "10%", "", "within"),
        ("risk difference", "healing, good", "-8%", "-17% to 1%", "10%", "", "not shown within"),
    ],
)
def test_where_an_interval_lies_beside_its_margin(measure, event, value, interval, margin, sides, verdict) -> None:
    found = with_margin(measure, event, value, interval, margin, sides)
    (finding,) = found.of_claim("arden2011/ratio")
    assert margin_verdict(finding) == verdict


def test_margin_who_fixed_it_and_where_the_interval_lies_stand_beside_the_ratio() -> None:
    found = with_margin("risk ratio", "reversal, bad", "1.12", "0.91 to 1.38", "1.25")
    shown = (
        "; margin 1.25, fixed beforehand (the protocol), one-sided: that it is worse by more than that is not ruled out"
    )
    assert shown in said(source_page(found, "arden2011", nothing_named))
    assert shown in said(factor_page(found, found.evidence.questions["hole"], "size", nothing_named))
    two = with_margin("risk ratio", "reversal, bad", "1.02", "0.91 to 1.14", "1.25", ", sides: two")
    assert "two-sided: similar, neither better nor worse by more than that" in said(
        source_page(two, "arden2011", nothing_named)
    )


@pytest.mark.parametrize(
    ("value", "unit", "expected"),
    [
        ("2", "percentage points", "risk difference 2 percentage points (95% CI -3 to 7)"),
        ("0.02", "", "risk difference 0.02 (95% CI -0.03 to 0.07)"),
        ("2%", "percentage points", "risk difference 2% (95% CI -3% to 7%)"),
    ],
    ids=["typed", "proportion", "its own sign"],
)
def test_a_difference_of_risks_and_its_margin_carry_their_unit(value: str, unit: str, expected: str) -> None:
    interval = expected.partition("CI ")[2].rstrip(")")
    margin = value.replace("2", "1")
    typed = f", unit: {unit}" if unit else ""
    words = f" {unit}" if unit and "%" not in value else ""
    more = f", interval: {interval}, margin: {{value: {margin}}}{typed}"
    printed = f"{words} (95% CI {interval}); the margin was {margin}{words}"
    found = catalogue(ratio("arden2011", "risk difference", "reversal, bad", value, more=more, printed=printed))
    for page in (
        source_page(found, "arden2011", nothing_named),
        factor_page(found, found.evidence.questions["hole"], "size", nothing_named),
    ):
        assert expected in said(page)
        assert f"; margin {margin}{words}, fixed beforehand" in said(page)


def test_without_an_interval_or_a_side_nothing_is_judged() -> None:
    bare = catalogue(
        ratio(
            "arden2011", "risk ratio", "reversal, bad", "1.12", more=", margin: {value: 1.25}", printed=", margin 1.25"
        )
    )
    (finding,) = bare.of_claim("arden2011/ratio")
    assert margin_verdict(finding) is None
    assert "one-sided: its interval says nothing of it" in said(source_page(bare, "arden2011", nothing_named))


def test_cut_chosen_from_the_data_stands_wherever_the_comparison_does() -> None:
    files = by_size("arden2011", (7, 12), (32, 35))
    chosen = {
        name: re.sub(r"( +)known_at: before", rf"\g<0>\n\1cut: {CHOSEN[4:]}", text) for name, text in files.items()
    }
    assert chosen != files
    for reports, expected in ((files, False), (chosen, True)):
        found = catalogue(reports, question=QUESTION)
        question = found.evidence.questions["hole"]
        pages = {
            "source": source_page(found, "arden2011", nothing_named),
            "factor": factor_page(found, question, "size", nothing_named),
            "question": question_page(found, question, nothing_named),
            "conference": conference_page(found, question, nothing_named),
        }
        assert {name: CHOSEN in said(page) for name, page in pages.items()} == dict.fromkeys(pages, expected)


@pytest.mark.parametrize(
    ("measure", "event", "value", "interval", "margin", "sides", "drawn"),
    [
        ("risk ratio", "reversal, bad", "1.02", "0.91 to 1.14", "1.25", "", (1.25,)),
        ("risk ratio", "healing, good", "0.90", "0.74 to 1.09", "0.80", "", (0.8,)),
        ("risk ratio", "reversal, bad", "1.02", "0.91 to 1.14", "1.25", ", sides: two", (0.8, 1.25)),
    ],
)
def test_a_margin_is_drawn_on_the_side_of_harm_or_on_both(
    measure, event, value, interval, margin, sides, drawn
) -> None:
    made = with_margin(measure, event, value, interval, margin, sides)
    page = factor_page(made, made.evidence.questions["hole"], "size", nothing_named)
    (row,) = (row for item in walk(page.blocks) if isinstance(item, StudyRows) for row in item.rows if row.margins)
    assert row.margins == pytest.approx(drawn)
    (scale,) = (item.scale for item in walk(page.blocks) if isinstance(item, StudyRows) and row in item.rows)
    assert scale is not None
    assert all(scale.low <= place <= scale.high for place in row.margins)


def test_what_was_held_against_a_margin_is_drawn_as_it_was_printed(demo_factor) -> None:
    rows = [row for item in walk(demo_factor.blocks) if isinstance(item, StudyRows) for row in item.rows if row.margins]
    assert next((row.point, row.low, row.high, row.margins) for row in rows) == (-2.0, -9.6, 5.6, (-10.0,))


@pytest.fixture(scope="module")
def demo_factor():
    built = demo_built()
    assert built.guide is not None
    return built.guide.pages["exposed-pulp/pulp-treatment/"]
