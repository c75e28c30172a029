"""A paper's level that lies in two bands of the guide stands with both, says so, and counts in neither."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from demo import demo_built
from guide.compendium import VOCABULARY, catalogue_of, nothing_named, report, said
from passageproof.guide.factor.factor_page import factor_page
from passageproof.guide.question.situation import situation
from passageproof.results.findings.direction import compared
from passageproof.results.findings.findings import Catalogue
from passageproof.results.values.document import ChoiceField, Paragraph, walk

ROOT = Path(__file__).parents[3]
THREE = VOCABULARY.replace(
    "levels: [{id: small, title: up to 3 mm, range: up to 3 mm}, {id: large, title: over 3 mm, range: over 3 mm}]",
    "levels: [{id: small, title: up to 1 mm, range: up to 1 mm}, {id: middle, title: 1 mm to 3 mm, range: 1 mm to 3 mm},"
    " {id: large, title: over 3 mm, range: over 3 mm}]",
)
QUESTION = "id: hole\ntitle: There is a hole\nsituation: [{factor: size, ask: How wide?}]\nfactors: [size]\n"


def table(key: str, level: str, counts: tuple[int, int], reference: str, others: tuple[int, int]) -> dict[str, str]:
    claim = f"""
    - id: by-size
      question: hole
      factor: size
      known_at: before
      outcome: healed
      reference: {reference}
      levels:
        - {{level: {reference}, events: {others[0]}, total: {others[1]}}}
        - {{level: {level}, events: {counts[0]}, total: {counts[1]}}}
      where: p. 3
      follow_up: not reported
    """
    passage = f"[p. 3] {reference}: {others[0]} of {others[1]} teeth; {level}: {counts[0]} of {counts[1]} teeth"
    return report(key, claim, passage, study=key)


def made(*files: dict[str, str]) -> Catalogue:
    out = {"vocabulary.yaml": THREE, "questions/hole.yaml": QUESTION}
    for each in files:
        out |= each
    return catalogue_of(out)


KIND = table("arden2011", "1 mm to 3 mm", (33, 37), "up to 1 mm", (36, 38))
OVER = table("bexley2012", "from 2 mm", (19, 31), "under 2 mm", (52, 61))
WIDE = table("corwen2013", "over 3 mm", (16, 23), "up to 1 mm", (30, 33))


def answers(found: Catalogue) -> dict[str, str]:
    fields = situation(found, found.evidence.questions["hole"], nothing_named).fields
    return {choice.value: said(choice.summary) for choice in fields[0].choices}


CUT_ACROSS = "from 2 mm, part of this answer and of another, in one study"


def test_it_stands_as_large_as_what_counts() -> None:
    found = made(KIND, OVER, WIDE)
    fields = situation(found, found.evidence.questions["hole"], nothing_named).fields
    for choice in fields[0].choices[1:3]:
        lines = [part for part in walk(choice.summary) if isinstance(part, Paragraph)]
        (line,) = (each for each in lines if CUT_ACROSS in said(each))
        (own,) = (each for each in lines if "one study: fewer" in said(each) and each != line)
        assert line.kind == own.kind == ""


def test_cant_tell_says_which_way_it_lies() -> None:
    told = answers(made(KIND, OVER, WIDE))[""]
    way = "from 2 mm, part of this answer and of another: fewer healed, more than chance alone usually gives"
    assert told.count(way) == 2


def test_it_stands_with_both_answers_and_says_so() -> None:
    told = answers(made(KIND, OVER, WIDE))
    for level in ("middle", "large"):
        assert f"{CUT_ACROSS}: fewer healed, more than chance alone usually gives" in told[level]
        assert "from 2 mm: 19 of 31 teeth; under 2 mm: 52 of 61 teeth" in told[level]
    assert "19 of 31" not in told["small"]


def test_it_counts_in_neither() -> None:
    found = made(KIND, OVER, WIDE)
    for level in ("middle", "large"):
        (item,) = compared(found, "hole", "size", level)
        assert [side.finding.key for side in item.reaching] == ["bexley2012"]
        assert "bexley2012" not in {side.finding.key for side in (*item.sides, *item.crude, *item.adjusted)}
        assert item.count("worse") == 1


def test_an_answer_that_only_such_a_level_touches_says_that_nothing_is_known_of_it_alone() -> None:
    told = answers(made(OVER))
    for level in ("middle", "large"):
        assert "healed: of this answer alone nothing." in told[level]
        assert CUT_ACROSS in told[level]
        assert "19 of 31 teeth" in told[level]
    page = said(factor_page(made(OVER), made(OVER).evidence.questions["hole"], "size", nothing_named))
    assert "no study of this level alone" in page


@pytest.mark.parametrize(
    ("level", "bands"),
    [
        ("over 3 mm", ("large",)),
        ("1 mm to 3 mm", ("middle",)),
        ("2 mm to 3 mm", ("middle",)),
        ("over 2 mm", ("middle", "large")),
        ("from 3 mm", ("large",)),
        ("0.5 mm to 2 mm", ("small", "middle")),
    ],
)
def test_a_band_that_a_level_only_meets_in_one_point_is_none_of_its_own(level, bands) -> None:
    found = made(table("arden2011", level, (14, 25), "up to 0.4 mm", (60, 69)))
    shown = [
        name
        for name in ("small", "middle", "large")
        for item in compared(found, "hole", "size", name)
        if item.sides or item.reaching
    ]
    assert tuple(shown) == bands


def test_the_tables_of_the_factor_say_it_in_the_row() -> None:
    page = said(factor_page(made(KIND, OVER), made(KIND, OVER).evidence.questions["hole"], "size", nothing_named))
    assert page.count("it reaches over two levels of this guide and counts in neither") == 2


def test_the_two_millimetre_hole_of_the_demo_is_told_with_the_harder_series_too() -> None:
    built = demo_built()
    assert built.guide is not None
    page = built.guide.pages["root-perforation/"]
    told = said(page)
    assert told.count(f"{CUT_ACROSS}: fewer healed, more than chance alone usually gives") == 2
    assert told.count("its crude counts: from 2 mm: 19 of 31 teeth (61%); under 2 mm: 52 of 61 teeth (85%)") == 2
    assert "fewer healed at the site in 6 of 6 studies that state a side" in told


def test_a_study_with_its_limit_elsewhere_is_a_row_that_counts_in_neither() -> None:
    # A cut at 2 mm says nothing of a band that ends at 1 mm: Altman, Royston 2006, BMJ 332:1080 (cuts, from memory).
    two = VOCABULARY.replace("up to 3 mm", "up to 1 mm").replace("over 3 mm", "over 1 mm")
    found = catalogue_of(
        {"vocabulary.yaml": two, "questions/hole.yaml": QUESTION}
        | table("arden2011", "over 1 mm", (27, 37), "up to 1 mm", (70, 81))
        | table("bexley2012", "over 2 mm", (26, 29), "up to 2 mm", (21, 23))
    )
    page = factor_page(found, found.evidence.questions["hole"], "size", nothing_named)
    text = said(page.blocks)
    assert "1 study: fewer healed" in text
    assert "fewer; too few to tell, up to 2 mm: over both levels, counts in neither" in text
    assert "A second study" not in text


def test_what_is_clear_leads_where_the_answer_alone_is_not_and_a_better_looking_rate_is_no_third_number() -> None:
    told = answers(made(KIND, OVER, table("dunmere2014", "over 3 mm", (16, 23), "up to 3 mm", (60, 69))))["middle"]
    first, second = told.index(CUT_ACROSS), told.index("of this answer alone, one study: fewer healed; too few")
    assert first < second
    assert "33 of 37" in told[second:]
    # The answer is a part of what over 3 mm is compared with: said, without that rate.
    assert told.count("A part of this answer is what others are compared with.") == 1
    assert "60 of 69" not in told


def test_what_people_judged_leads_although_it_is_less_clear() -> None:
    judged = QUESTION + (
        "certainty: [{outcome: healed, factor: size, level: middle, start: low, final: low, "
        "steps: [{for: exploratory study, down: 0, reason: planned before it began, by: IM}]}]\n"
    )
    told = answers(made(KIND, OVER, {"questions/hole.yaml": judged}))["middle"]
    assert told.index("one study: fewer healed; too few to tell") < told.index(CUT_ACROSS)


def test_of_several_that_reach_over_none_is_the_example() -> None:
    told = answers(made(KIND, OVER, table("eskdale2015", "over 2 mm", (20, 30), "up to 2 mm", (50, 60))))["middle"]
    assert told.count("part of this answer and of another, in one study") == 2
    # What each had on both sides of its line is told of all of them, above; none is the example below.
    first, below = told.split(" (Eskdale 2015). ", 1)
    assert first.startswith("Studies drew the line inside this answer")
    assert "19 of 31" in first
    assert "20 of 30" in first
    assert "19 of 31" not in below
    assert "20 of 30" not in below


def test_demo_tells_of_a_hole_of_two_millimetres_where_a_study_drew_its_line_and_what_its_sheet_tells() -> None:
    built = demo_built()
    assert built.guide is not None
    page = built.guide.pages["root-perforation/"]
    (field,) = (part for part in walk(page) if isinstance(part, ChoiceField) and part.field == "hole-size")
    (told,) = (said(choice.summary) for choice in field.choices if choice.label == "1 mm to 3 mm")
    compared_with = re.findall(r"\d+ of \d+ teeth \(\d+%\); [a-z ]+[\d ]+mm: \d+ of \d+ teeth", told)
    assert [found.partition(" teeth")[0] for found in compared_with] == ["19 of 31", "33 of 37"]
    # First what five studies counted of it together with narrower holes, and from which the sheet has its number.
    lowest = "up to 3 mm: 60 of 69 teeth (87%) to 38 of 42 teeth (90%)"
    # Whoever has tapped it cannot know on which side of that line the hole lies.
    inside = "A study drew the line inside this answer, so the case may lie on either side: healed at the site: "
    assert told.startswith(f"{inside}under 2 mm 52 of 61 teeth (85%), from 2 mm 19 of 31 teeth (61%), when last seen")
    assert told.removeprefix(inside).partition("healed at the site: ")[2].startswith(lowest)
    assert len(re.findall(r"\d+ of \d+ teeth", told)) == 8
    assert f"all studies that counted so: {lowest}" in said(built.guide.pages["root-perforation/patient/"])


def test_a_line_that_a_study_drew_inside_an_answer_is_the_first_thing_said_of_it() -> None:
    told = answers(made(KIND, OVER, WIDE))
    first = (
        "A study drew the line inside this answer, so the case may lie on either side: "
        "healed: under 2 mm 52 of 61 teeth, from 2 mm 19 of 31 teeth, follow-up not reported (Bexley 2012)."
    )
    assert told["middle"].startswith(first)
    # Above 3 mm nobody drew a line.
    assert "drew the line inside" not in told["large"]
    assert "drew the line inside" not in told["small"]
