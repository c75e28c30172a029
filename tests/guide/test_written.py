"""Hand-written pages: references become lines, everything else stays as typed."""

from __future__ import annotations

import pytest
from guide.compendium import catalogue_of, figures, nothing_named, report
from passageproof.guide.written import written_pages, written_parts
from passageproof.reading.model import Page
from passageproof.results.values.line import Line, plain_text

CLAIM = "- {id: all, question: hole, outcome: healed, events: 39, total: 47, where: 'p. 3', follow_up: not reported}"
FILES = report("marlow2019", CLAIM, "[p. 3] healed: 39 of 47 teeth") | {
    "questions/hole.yaml": "id: hole\ntitle: There is a hole\n"
}


def text_of(parts: tuple[str | Line, ...]) -> str:
    return "".join(part if isinstance(part, str) else plain_text(part) for part in parts)


BELOW = "39 of 47 teeth (95% CI 70% to 91%, computed; how many were due is not reported): healed (stricter definition), when is not reported; Marlow 2019"


def test_named_claim_becomes_its_count_and_below_it_what_it_counts() -> None:
    parts = written_parts("Most healed: $marlow2019/all.\n", catalogue_of(FILES), nothing_named)
    assert text_of(parts) == f"Most healed: 39 of 47.{BELOW}\n"
    assert {"marlow2019/all/events", "marlow2019/all/total"} < set(figures(parts))


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("One ($marlow2019/all),\nand on.\n\nTwo.\n", "One (39 of 47),\nand on.{}\n\nTwo.\n"),
        ("- one $marlow2019/all\n- two\n", "- one 39 of 47{}\n- two\n"),
        ("1. one $marlow2019/all\n2. two\n", "1. one 39 of 47{}\n2. two\n"),
        ("| a | b |\n|---|---|\n| $marlow2019/all | c |\n", "| a | b |\n|---|---|\n| 39 of 47{} | c |\n"),
        ("One $marlow2019/all\n# Two\n", "One 39 of 47{}\n# Two\n"),
        ("One $marlow2019/all", "One 39 of 47{}"),
        ("$marlow2019/all/events of them, `x`\n\n```\ny\n```\n", "39 of them, `x`{}\n\n```\ny\n```\n"),
    ],
    ids=["paragraph", "list", "numbered list", "table", "heading", "end of the page", "field and code"],
)
def test_what_a_number_counts_stands_at_the_end_of_its_paragraph(text: str, shown: str) -> None:
    assert text_of(written_parts(text, catalogue_of(FILES), nothing_named)) == shown.replace("{}", BELOW)


def test_markdown_around_a_reference_stays_as_typed() -> None:
    text = "# About\n\n- *one* $$five\n- [two](x.md)\n"
    assert text_of(written_parts(text, catalogue_of({}), nothing_named)) == text.replace("$$", "$")


def test_code_stays_as_typed() -> None:
    text = "Write `$key/claim` for a figure, `$$` for a dollar.\n\n```\n$marlow2019/all\n```\n"
    assert text_of(written_parts(text, catalogue_of(FILES), nothing_named)) == text


def test_withdrawn_report_leaves_its_number_behind() -> None:
    status = {"status.yaml": "marlow2019: {state: retracted, on: 2026-10-20, by: hand}\n"}
    parts = written_parts("Most healed: $marlow2019/all.", catalogue_of(FILES | status), nothing_named)
    assert text_of(parts) == "Most healed: withdrawn (2026-10-20)."


def test_computed_result_is_asked_for_by_name() -> None:
    asked: list[str] = []

    def named(text: str) -> tuple[str, ...]:
        asked.append(text)
        return ("four in five",)

    parts = written_parts("About $hole/overall/rate.", catalogue_of(FILES), named)
    assert asked == ["hole/overall/rate"]
    assert text_of(parts) == "About four in five."


def test_page_stands_at_its_path_below_the_folder() -> None:
    catalogue = catalogue_of({})
    pages = (Page("site_src/talks/one.md", "Hello"), Page("site_src/about.md", "Us"))
    catalogue.evidence = catalogue.evidence._replace(pages=pages)
    assert [page.path for page in written_pages(catalogue, nothing_named)] == ["about.md", "talks/one.md"]
