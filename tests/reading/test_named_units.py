"""A unit that nobody declared: what is told of it, with the line that declares it."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from passageproof.reading.named_units import unit_as_typed

Told = Callable[[dict[str, str | bytes]], list[str]]

REPORT = """\
source: a2001word
read: {by: IM, on: 2026-02-03, depth: full text}
studies:
  - {id: a-study, unit: UNIT}
claims: []
nothing_claimed: it only describes
"""
NO_LIST = "is not one of: tooth, root, canal, lesion, patient, arm, specimen [not-in-list]"
BLOCK = "    or type a block: {unit: …, per: …, rule: …}"


@pytest.mark.parametrize(
    ("typed", "line"),
    [
        ("eye", "eye: {one: eye, many: eyes}"),
        ("eyes", "eyes: {one: eye, many: eyes}"),
        ("biopsy", "biopsy: {one: biopsy, many: biopsies}"),
        ("biopsies", "biopsies: {one: biopsy, many: biopsies}"),
        ("box", "box: {one: box, many: boxes}"),
    ],
)
def test_the_line_that_declares_it_is_ready_to_paste(problems_of: Told, typed: str, line: str) -> None:
    assert problems_of({"claims/a2001word.yaml": REPORT.replace("UNIT", typed)}) == [
        f'evidence/claims/a2001word.yaml:4:25: "{typed}" {NO_LIST}\n'
        f"    declare it under `units` of evidence/vocabulary.yaml:\n      {line}\n{BLOCK}"
    ]
    declared = {"vocabulary.yaml": f"units:\n  {line}\n", "claims/a2001word.yaml": REPORT.replace("UNIT", typed)}
    assert problems_of(declared) == []


def test_words_that_are_no_id_are_given_one(problems_of: Told) -> None:
    (problem,) = problems_of({"claims/a2001word.yaml": REPORT.replace("UNIT", "Corneal graft")})
    assert "units` of evidence/vocabulary.yaml and type `unit: corneal-graft` here:" in problem
    assert "corneal-graft: {one: Corneal graft, many: Corneal grafts}" in problem


@pytest.mark.parametrize(
    ("typed", "meant"),
    [("teeth", "tooth"), ("person", "patient"), ("Patients", "patient"), ("nt reported", "not reported")],
)
def test_another_word_of_a_known_unit_means_that_unit(problems_of: Told, typed: str, meant: str) -> None:
    assert problems_of({"claims/a2001word.yaml": REPORT.replace("UNIT", typed)}) == [
        f'evidence/claims/a2001word.yaml:4:25: "{typed}" {NO_LIST}\n    did you mean {meant}?\n{BLOCK}'
    ]


@pytest.mark.parametrize("typed", ["study", "3 mm"])
def test_what_no_unit_can_be_called_is_given_no_line(problems_of: Told, typed: str) -> None:
    assert problems_of({"claims/a2001word.yaml": REPORT.replace("UNIT", typed)}) == [
        f'evidence/claims/a2001word.yaml:4:25: "{typed}" {NO_LIST}\n{BLOCK}'
    ]


def test_a_word_in_s_that_is_one_is_not_cut() -> None:
    assert unit_as_typed("abscess")[1:3] == ("abscess", "abscesses")
    assert unit_as_typed("thrombus")[1:3] == ("thrombus", "thrombuses")
