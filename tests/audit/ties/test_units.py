"""Bare counts of patients typed as teeth, where a heading or the words before them say what they count.

The ways of print are common practice of reports, no source; all figures are invented.
"""

from __future__ import annotations

import pytest

from .conftest import STUDY, Asked

PATIENTS = STUDY.replace("unit: tooth", "unit: patient")

OF_PATIENTS = {
    "of so many": "Of 47 patients, 39 healed",
    "among so many": "Among 47 patients seen, 39 healed",
    "heading": "Patients healed: 39 of 47",
    "number of": "Number of patients: 39 healed, 8 not",
    "healed heading": "Healed patients: 39 of 47",
    "column": "Outcome | Patients\n healed | 39\n lost | 8",
}
OF_TEETH = {
    "own word in the clause": "Of 52 patients with 47 teeth, 39 of the 47 teeth healed",
    "own word behind": "Among the 52 patients 39 of 47 healed teeth were seen",
    "own heading": "Teeth healed: 39 of 47",
    "own described heading": "Healed teeth: 39 of 47",
    "a sentence about patients": "Patients were seen by residents: 39 of 47 healed",
    "a level of the table": "Lesion: 39 of 47",
}


@pytest.mark.parametrize("passage", OF_PATIENTS.values(), ids=OF_PATIENTS)
def test_a_bare_count_of_patients_typed_as_teeth_is_asked_about(open_problems: Asked, passage: str) -> None:
    claim = "events: 39\ntotal: not reported\n"
    (asked,) = open_problems(passage, claim)
    assert (asked.rule, asked.severity, asked.position.line) == ("other-unit", "ask", 17)
    assert "counts patients" in asked.message
    assert "the claim teeth" in asked.message
    assert open_problems(passage, claim, PATIENTS) == []
    one_each = STUDY.replace("unit: tooth", "unit: {unit: tooth, per: patient, rule: each}")
    assert open_problems(passage, claim, one_each) == []


@pytest.mark.parametrize("passage", OF_TEETH.values(), ids=OF_TEETH)
def test_a_count_of_teeth_is_not(open_problems: Asked, passage: str) -> None:
    assert "other-unit" not in {each.rule for each in open_problems(passage, "events: 39\ntotal: 47\n")}


def test_counts_of_two_arms_below_one_heading_are_asked_about(open_problems: Asked) -> None:
    levels = (
        "factor: size\nknown_at: before\nreference: up to 3 mm\nlevels:\n"
        "  - {level: over 3 mm, events: 18, total: 60}\n  - {level: up to 3 mm, events: 9, total: 58}\n"
    )
    passage = "{} healed: over 3 mm 18 of 60; up to 3 mm 9 of 58"
    assert {each.rule for each in open_problems(passage.format("Patients"), levels)} == {"other-unit"}
    assert open_problems(passage.format("Teeth"), levels) == []


VOCABULARY = """\
factors:
  file: {title: File, role: treatment, levels: [{id: rotary, title: rotary}, {id: hand, title: hand files}]}
outcomes:
  effort: {title: working time, construct: effort, strictness: not applicable, basis: clock, threshold: none, good: no}
"""
DIFFERENCE = (
    "outcome: effort\nfactor: file\nknown_at: during\nreference: hand files\n"
    "contrast: {{measure: mean difference, level: rotary, reference: hand files, value: -95, interval: -140 to -50, "
    "unit: {}, adjusted_for: none}}\n"
)
MEANS = (
    "outcome: effort\nfactor: file\nknown_at: during\nreference: hand files\nunit: {}\nlevels:\n"
    "  - {{level: rotary, mean: 124, sd: 31, total: 30}}\n  - {{level: hand files, mean: 189, sd: 44, total: 30}}\n"
)


@pytest.mark.parametrize(
    ("printed", "typed"),
    [
        ("seconds", "minute"),
        ("mm", "minute"),
        ("weeks", "days"),
        ("minutes", "mm"),
        ("s", "minute"),
    ],
)
def test_a_difference_in_another_unit_is_asked_about(open_problems: Asked, printed: str, typed: str) -> None:
    passage = f"Working time: crude mean difference -95 {printed} (95% CI -140 to -50), rotary against hand files."
    files = {"vocabulary.yaml": VOCABULARY}
    asked = {each.rule for each in open_problems(passage, DIFFERENCE.format(typed), files=files)}
    assert "other-measure" in asked
    found = {each.rule for each in open_problems(passage, DIFFERENCE.format(printed), files=files)}
    assert "other-measure" not in found


@pytest.mark.parametrize(
    "passage",
    [
        "Working time (mean ± SD, seconds): rotary 124 ± 31 (n = 30), hand files 189 ± 44 (n = 30).",
        "Working time in seconds (mean ± SD): rotary 124 ± 31 (n = 30), hand files 189 ± 44 (n = 30).",
        "File | Working time, seconds, mean (SD) | n\n rotary | 124 (31) | 30\n hand files | 189 (44) | 30",
    ],
)
def test_means_in_another_unit_are_asked_about(open_problems: Asked, passage: str) -> None:
    files = {"vocabulary.yaml": VOCABULARY}
    assert "other-measure" in {each.rule for each in open_problems(passage, MEANS.format("minute"), files=files)}
    assert "other-measure" not in {each.rule for each in open_problems(passage, MEANS.format("seconds"), files=files)}
    minutes = passage.replace("seconds", "minutes")
    assert "other-measure" not in {each.rule for each in open_problems(minutes, MEANS.format("minute"), files=files)}
