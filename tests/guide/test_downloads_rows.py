"""Rows to take along: each figure where it belongs, and nothing of what was withdrawn."""

from __future__ import annotations

import re

from guide.compendium import catalogue_of, report
from passageproof.guide.downloads_rows import claim_rows, outcome_rows, source_entries, study_rows
from passageproof.results.values.guide import CLAIM_WORDS, ClaimRow

QUESTION = {"questions/hole.yaml": "id: hole\ntitle: There is a hole\n"}
CLAIMS = """
- id: all
  question: hole
  outcome: healed
  events: 39
  total: 47
  where: p. 3
  follow_up: {from: repair, timing: at, at: 24 months, tolerance: 6 months, where: p. 2}
- id: by-size
  question: hole
  factor: size
  known_at: before
  outcome: healed
  reference: up to 3 mm
  levels:
    - {level: up to 3 mm, events: 32, total: 35}
    - {level: over 3 mm, events: 7, total: 12, direction: worse}
  where: p. 4
  follow_up: all
  note: seen by 2 examiners
"""
MARLOW = report(
    "marlow2019", CLAIMS, "[p. 2] at 24 months, give or take 6 months", "[p. 3] healed: 39 of 47 teeth",
    "[p. 4] up to 3 mm: 32 of 35 healed; over 3 mm: 7 of 12; 2 examiners",
)  # fmt: skip
RETRACTED = {"status.yaml": "marlow2019: {state: retracted, on: 2026-10-20, by: hand}\n"}


def rows_of(files: dict[str, str]) -> tuple[ClaimRow, ...]:
    return tuple(claim_rows(catalogue_of(files | QUESTION)))


def test_each_claim_has_a_row_and_each_level_one_below_it() -> None:
    assert [(row.claim, row.level) for row in rows_of(MARLOW)] == [
        ("all", ""), ("by-size", ""), ("by-size", "up-to-3-mm"), ("by-size", "over-3-mm"),
    ]  # fmt: skip


def test_figures_of_a_level_stand_in_its_row_by_field() -> None:
    row = rows_of(MARLOW)[3]
    found = {name: figure.id for name, figure in row.figures}
    assert found["events"] == "marlow2019/by-size/over-3-mm/events"
    assert found["level"] == "marlow2019/by-size/over-3-mm/level"


def test_follow_up_of_another_claim_is_named_and_stands_there_alone() -> None:
    rows = rows_of(MARLOW)
    assert dict(rows[1].words)["follow-up of"] == "all"
    assert dict(rows[0].figures)["follow_up/at"].id == "marlow2019/all/follow_up/at"
    assert not [name for row in rows[1:] for name, _ in row.figures if name.startswith("follow_up")]


def test_no_figure_stands_in_two_rows_and_no_words_of_a_claim_at_its_levels() -> None:
    rows = rows_of(MARLOW)
    held = [figure.id for row in rows for _, figure in row.figures]
    assert len(held) == len(set(held))
    assert {name for row in rows[2:] for name, _ in row.words} == {"level", "direction"}


def test_every_word_of_a_row_has_a_name_of_the_list() -> None:
    assert {name for row in rows_of(MARLOW) for name, _ in row.words} <= set(CLAIM_WORDS)


def test_every_proved_figure_of_a_claim_is_in_some_row() -> None:
    catalogue = catalogue_of(MARLOW | QUESTION)
    held = {figure.id for row in claim_rows(catalogue) for _, figure in row.figures}
    assert held == {name for name in catalogue.audit.proofs if "/studies/" not in name}


def test_report_that_nobody_checked_says_so_in_every_row() -> None:
    assert {row.state for row in rows_of(MARLOW)} == {"not checked"}


def test_retracted_report_keeps_its_rows_with_its_state() -> None:
    rows = rows_of(MARLOW | RETRACTED)
    assert [row.claim for row in rows] == ["all", "by-size", "by-size", "by-size"]
    assert {row.state for row in rows} == {"retracted"}


def test_retracted_report_gives_no_number_and_no_direction() -> None:
    rows = rows_of(MARLOW | RETRACTED)
    assert not [figure for row in rows for figure in row.figures]
    words = [(name, text) for row in rows for name, text in row.words]
    assert not [text for _, text in words if re.search(r"\d", text)]
    assert not [row.level for row in rows if re.search(r"\d", row.level)]
    assert "direction" not in {name for name, _ in words}


def test_words_quoted_from_a_passage_leave_with_their_report() -> None:
    words = "thirty-nine of forty-seven teeth"
    claims = CLAIMS.replace("  where: p. 3\n", f"  where: p. 3\n  in_words: {words}\n")
    quoted = report(
        "marlow2019", claims, "[p. 2] at 24 months, give or take 6 months", f"[p. 3] healed: {words}",
        "[p. 4] up to 3 mm: 32 of 35 healed; over 3 mm: 7 of 12; 2 examiners",
    )  # fmt: skip
    assert dict(rows_of(quoted)[0].words)["in words"] == words
    assert "in words" not in dict(rows_of(quoted | RETRACTED)[0].words)


def test_outcome_is_reported_on_its_four_axes() -> None:
    header, *rows = outcome_rows(catalogue_of(MARLOW | QUESTION))
    outcome = dict(zip(header, next(row for row in rows if row[0] == "healed"), strict=True))
    assert (outcome["construct"], outcome["strictness"], outcome["basis"], outcome["threshold"]) == (
        "success", "strict", "film", "normal space",
    )  # fmt: skip


def test_studies_are_those_of_reports_that_stand() -> None:
    header, *rows = study_rows(catalogue_of(MARLOW | QUESTION))
    assert header == ("study", "species", "design", "unit counted")
    assert {row[0] for row in rows} == {dict(row.words)["study"] for row in rows_of(MARLOW)[:2]}
    assert study_rows(catalogue_of(MARLOW | RETRACTED | QUESTION))[1:] == ()


def test_entry_is_given_as_typed_with_its_standing() -> None:
    catalogue = catalogue_of(MARLOW | RETRACTED | QUESTION)
    (entry,) = source_entries(catalogue)
    assert (entry.key, entry.is_retracted) == ("marlow2019", True)
    assert entry.raw == MARLOW["sources/marlow2019.bib"].strip()
