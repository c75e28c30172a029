"""Which lines a page is found by: what people wrote, where it stands, and no number of the evidence."""

from __future__ import annotations

import pytest
from passageproof.reading.page_kinds import PageKind
from passageproof.results.values.document import (
    AdviceList,
    Block,
    Choice,
    ChoiceField,
    Details,
    Entry,
    Facts,
    Items,
    Page,
    Paragraph,
    Section,
    Sheet,
    Situation,
    Table,
)
from passageproof.results.values.figures import Figure
from passageproof.results.values.line import Line, Marked, Span, line
from passageproof.results.values.page_lines import page_lines

FIGURE = Figure("a-rate", "94 of 110", "94", "tooth", None)


def lines(*blocks: Block, kind: PageKind = "question") -> list[tuple[str, str]]:
    return list(page_lines(Page("some-question/", kind, "A page", blocks)))


@pytest.mark.parametrize(
    ("written", "told"),
    [
        (line("Do not blow air on the hole."), "Do not blow air on the hole."),
        (line("Most had healed (", FIGURE, "), and some had not."), "Most had healed …, and some had not."),
        (line("Later ", FIGURE, " of ", FIGURE, " were lost"), "Later … were lost"),
        (line("It is wider than ", Marked("definition", "3 mm"), " across"), "It is wider than 3 mm across"),
        (line("Read it in ", Marked("reference", "Marlow 2019"), " and ask"), "Read it in … and ask"),
        (line("Most of them healed.", Span("below", line("by film alone, in a clinic"))), "Most of them healed."),
        (line("Most of them healed.", Span("invented", line(" invented for demonstration"))), "Most of them healed."),
    ],
    ids=["words", "bracket", "figures in a row", "marked number", "reference", "line below", "mark of the demo"],
)
def test_a_line_is_told_without_the_numbers_that_need_their_proof(written: Line, told: str) -> None:
    assert lines(Paragraph(written)) == [("", told)]


def test_every_line_has_the_place_it_stands_in() -> None:
    steps = AdviceList((Entry(line("Put the dam on."), line("no source"), line("Not on a loose tooth."), ()),), "steps")
    closed = Details("Something that is closed", (Paragraph(line("It is opened on the way.")),), anchor="inner")
    assert lines(Section("This visit, step by step", "steps", (steps, closed))) == [
        ("steps", "This visit, step by step"),
        ("steps", "Put the dam on."),
        ("steps", "Not on a loose tooth."),
        ("inner", "Something that is closed"),
        ("inner", "It is opened on the way."),
    ]


def test_a_field_of_the_situation_is_found_by_its_question_and_its_answers() -> None:
    field = ChoiceField(
        "hole-size", "How wide is the hole?", (Choice("small", "small", ()), Choice("", "can't tell", ()))
    )
    assert lines(Situation((field,))) == [("ask-hole-size", "How wide is the hole? small; can't tell")]


def test_what_says_little_or_says_it_of_something_else_is_left_out() -> None:
    assert lines(
        Paragraph(line("healed")),
        Paragraph(line(FIGURE, " teeth at the site")),
        Paragraph(line("Studies, numbers and how sure"), "more"),
        Paragraph(line("All of these are common practice"), "basis"),
        Items(((Marked("words", "$marlow2019furcal/healed by its name"),),)),
        Sheet("Tray card", "tray", (Paragraph(line("What the page says already")),)),
    ) == []  # fmt: skip


def test_cells_and_what_is_said_of_a_term_are_lines() -> None:
    table = Table((), (line("a"), line("b")), ((line("Bleeding had settled first"), line("yes")),), "Of a table")
    facts = Facts(((line("Who"), line("treated by one specialist")),))
    assert lines(table, facts) == [("", "Bleeding had settled first"), ("", "treated by one specialist")]


def test_a_line_that_stands_twice_is_found_where_it_stands_first() -> None:
    said = Paragraph(line("Stop and call for help"))
    assert lines(said, Section("Further down the page", "further", (said,)))[0] == ("", "Stop and call for help")
    assert len(lines(said, said)) == 1


def test_pages_for_those_who_write_are_found_by_their_titles() -> None:
    assert lines(Paragraph(line("Open the repository in the browser")), kind="contribute") == []
