"""Passages behind their brackets."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given, strategies as st
from passageproof.reading.model import Evidence
from passageproof.reading.passages import doubtful_brackets, locate, page_ranges, pages_named

ProblemsOfText = Callable[[str], list[str]]


@pytest.mark.parametrize(
    "bracket",
    [
        "p. 46",
        "pp. 46-47, Table 2",
        "P. 4",
        "abstract",
        "Abstract",
        "introduction",
        "first page",
        "page 3",
        "Table 2, row 3",
        "tab. 2",
        "Figure 1",
        "fig. 1",
        "methods",
        "Results, p. 4",
        "discussion",
        "conclusion",
        "supplement, table S1",
        "Appendix A",
        "registration",
        "letter",
        "notice",
    ],
)
def test_locator_word_begins_a_passage(bracket: str) -> None:
    (found,) = locate(f"a remark [{bracket}] 39 of 47")
    assert (found.bracket, found.text_end - found.text_start) == (bracket, 8)


@pytest.mark.parametrize(
    "bracket", ["62, 80", "p.46", "p. 0", "p. x", "tables 2", "tab 2", "95% CI 1 to 2", "see p. 4", ""]
)
def test_other_bracket_is_text_of_its_passage(bracket: str) -> None:
    assert len(locate(f"[p. 1] a [{bracket}] b")) == 1


def test_only_a_bracket_with_a_letter_in_front_and_a_digit_is_asked_about() -> None:
    assert doubtful_brackets("[p. 1] a [62, 80] [a3] [sic] [Table 2] [12a] [p.46]") == [(18, "a3"), (45, "p.46")]


def test_export_that_joins_lines_loses_nothing(read: Callable[[dict[str, str]], Evidence]) -> None:
    typed = "@misc{%s, title={x}, annotation={\n  [p. 44,\n   Methods] 58 treated\n  [p. 46, Table 2] 39 of 47\n}}"
    joined = " ".join(typed.split())
    sources = read({"sources/a.bib": typed % "a", "sources/b.bib": joined % "b"}).sources
    assert [(p.bracket, p.text) for p in sources["a"].passages] == [(p.bracket, p.text) for p in sources["b"].passages]
    assert [p.bracket for p in sources["b"].passages] == ["p. 44, Methods", "p. 46, Table 2"]


def test_annote_is_read_like_annotation(read: Callable[[dict[str, str]], Evidence]) -> None:
    source = read({"sources/a.bib": "@misc{a, title={x}, ANNOTE={[p. 5] z 1}}"}).sources["a"]
    assert [(p.bracket, p.text, p.position.column) for p in source.passages] == [("p. 5", "z 1", 36)]


@pytest.mark.parametrize(
    ("annotation", "expected"),
    [
        (
            "[p. 1] a [p. 1] b",
            "1:42: [p. 1] is used twice in a (also in line 1) [bracket-twice]"
            "\n    join the two passages, or add a word to this one: [p. 1, Table 2]",
        ),
        (
            "[p. 1] a [p. 2]",
            "1:42: no words follow [p. 2] [empty-passage]\n    type what the report says there, or delete [p. 2]",
        ),
        (
            "[p. 99] a",
            "1:33: [p. 99] names page 99, but a has the pages 1--20 [locator-outside-pages]"
            "\n    correct the page here, or `pages` at evidence/sources/all.bib:1",
        ),
        (
            "[pp. 19-21] a",
            "1:33: [pp. 19-21] names page 21, but a has the pages 1--20 [locator-outside-pages]"
            "\n    correct the page here, or `pages` at evidence/sources/all.bib:1",
        ),
        (
            "[p. 1, a] a [p. 1: A] b",
            '1:45: [p. 1: A] and [p. 1, a] have the same short name "p-1-a" in a [same-short-name]'
            "\n    add a word to one of the two",
        ),
        (
            "[p. 1] a [b2] c",
            "1:42: [b2] is not read as a locator: was a passage meant to begin here? [doubtful-bracket]\n"
            "    a locator begins with p., Table, Figure, Abstract or the like, such as [p. 2]\n"
            "    if it is text of the report, answer:\n"
            '    acknowledged:\n      - {rule: doubtful-bracket, printed: "[b2]", by: YOUR INITIALS, reason: "WHY"}',
        ),
    ],
)
def test_doubtful_passage_is_reported_at_its_bracket(of_entry: ProblemsOfText, annotation: str, expected: str) -> None:
    assert of_entry(f"@misc{{a, title={{x}}, annotation={{{annotation}}}, pages={{1--20}}}}") == [expected]


@pytest.mark.parametrize(
    ("pages", "ranges"),
    [
        ("41--52", [(41, 52)]),
        ("41-52", [(41, 52)]),
        ("41–52", [(41, 52)]),
        ("201-14", [(201, 214)]),
        ("7", [(7, 7)]),
        ("1--4, 9", [(1, 4), (9, 9)]),
        ("e41", None),
        ("S3--S9", None),
        ("", None),
    ],
)
def test_pages_of_an_entry_are_ranges_where_they_are_numbers(pages: str, ranges: object) -> None:
    assert page_ranges(pages) == ranges


@pytest.mark.parametrize(("bracket", "pages"), [("p. 46, Table 2", [46]), ("pp. 46-7", [46, 47]), ("Table 2", [])])
def test_pages_of_a_locator(bracket: str, pages: list[int]) -> None:
    assert pages_named(bracket) == pages


@given(st.text("[]p. 12able,\n-", max_size=80))
def test_passages_lie_behind_each_other_inside_the_text(text: str) -> None:
    end = 0
    for found in locate(text):
        assert end <= found.start < found.text_start <= found.text_end <= len(text)
        end = found.text_end
    doubtful_brackets(text)
