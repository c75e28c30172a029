"""Bare counts of patients typed as teeth, where a heading or the words before them say what they count.

The ways of print are common practice of reports, no source; all figures are invented.
"""

from __future__ import annotations

import pytest

from .conftest import ENDINGS, STUDY, Asked

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
    "own label": "Patients 30/40 healed, teeth 39/47 healed",
    "own described label": "Healed patients 30/40, teeth 39/47",
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


@pytest.mark.parametrize(
    "passage", ["Patients 39/47 healed, teeth 70/101 healed", "Healed patients 39/47, teeth 70/101"]
)
def test_a_label_before_a_pair_says_what_it_counts(open_problems: Asked, passage: str) -> None:
    assert {each.rule for each in open_problems(passage, "events: 39\ntotal: 47\n")} == {"other-unit"}
    assert open_problems(passage, "events: 70\ntotal: 101\n") == []


def test_counts_of_two_arms_below_one_heading_are_asked_about(open_problems: Asked) -> None:
    levels = (
        "factor: size\nknown_at: before\nreference: up to 3 mm\nlevels:\n"
        "  - {level: over 3 mm, events: 18, total: 60}\n  - {level: up to 3 mm, events: 9, total: 58}\n"
    )
    passage = "{} healed: over 3 mm 18 of 60; up to 3 mm 9 of 58"
    assert {each.rule for each in open_problems(passage.format("Patients"), levels)} == {"other-unit"}
    assert open_problems(passage.format("Teeth"), levels) == []


@pytest.mark.parametrize(
    ("teeth", "patients"),
    [
        ("On the level of the tooth, 119 of 143 healed", "on the level of the patient, counting the worst, 95 of 118"),
        ("At tooth level 119 of 143 healed", "at patient level 95 of 118"),
        ("By tooth, 119 of 143 healed", "by patient, 95 of 118"),
        ("The tooth-level success was 119 of 143", "the patient-level success 95 of 118"),
        ("Success per tooth was 119/143", "success per patient 95/118"),
        ("Success was 119/143 on a tooth basis", "it was 95/118 on a patient basis"),
        ("With the tooth as the unit of analysis 119 of 143 healed", "with the patient as the unit, 95 of 118"),
        ("Unit of analysis | healed/n\n Tooth | 119/143", "Patient | 95/118"),
    ],
)
def test_a_count_on_another_level_of_analysis_is_asked_about(open_problems: Asked, teeth: str, patients: str) -> None:
    passage = f"{teeth}\n {patients}" if "|" in teeth else f"{teeth}; {patients}."
    of_teeth, of_patients = "events: 119\ntotal: 143\n", "events: 95\ntotal: 118\n"
    assert {each.rule for each in open_problems(passage, of_patients)} == {"other-unit"}
    assert {each.rule for each in open_problems(passage, of_teeth, PATIENTS)} == {"other-unit"}
    assert open_problems(passage, of_teeth) == []
    assert open_problems(passage, of_patients, PATIENTS) == []


HELD = [
    "Success was seen in 39 of 44 grafts (88.6%). The grafts were those of 37 patients, seven of whom had two.",
    "Healing was seen in 39 of 44 grafts (37 patients).",
    "44 grafts were placed in 21 patients. 39 of 44 grafts healed.",
    "Twenty-one patients received 44 grafts. After 6 months 39 of the 44 grafts had healed.",
    "Among 37 patients 44 grafts were placed; 39 of 44 grafts healed.",
]
NOT_HELD = [
    "44 grafts in 44 patients were placed. 39 of 44 grafts healed.",
    "44 patients were seen. 39 of 44 cases healed.",
    "39 of 44 smokers (20 patients had stopped) healed.",
]


@pytest.mark.parametrize("passage", HELD)
def test_things_that_no_vocabulary_declares_are_asked_about_where_fewer_patients_had_them(
    open_problems: Asked, passage: str
) -> None:
    (asked,) = open_problems(passage, "events: 39\ntotal: 44\n", PATIENTS)
    assert (asked.rule, asked.severity, asked.position.line) == ("other-unit", "ask", 17)
    assert "counts grafts" in asked.message


@pytest.mark.parametrize("passage", NOT_HELD)
def test_things_of_which_each_patient_had_one_are_not(open_problems: Asked, passage: str) -> None:
    assert "other-unit" not in {each.rule for each in open_problems(passage, "events: 39\ntotal: 44\n", PATIENTS)}


def test_a_pair_in_another_unit_is_asked_about_where_its_total_stands_bare_elsewhere(open_problems: Asked) -> None:
    passage = "Healed: 9/155 canals (5.8%). Reviewed: 2/155. The canals were in 98 patients."
    asked = open_problems(passage, "events: 9\ntotal: 155\n", PATIENTS)
    assert [each.rule for each in asked] == ["figure-means-something-else"]
    by_patients = "155 teeth were treated. Pain was recorded by 9 patients (5.8%)."
    claim = "events: 9\ntotal: 155\nrate: 5.8%\noutcome: pain\n"
    assert open_problems(by_patients, claim, files={"vocabulary.yaml": ENDINGS}) == []


FINDINGS = ("22 of 34 lesions had healed.", "Healing was complete in 22 of 34 lesions.", "Of 34 lesions, 22 healed.")


@pytest.mark.parametrize("passage", FINDINGS)
def test_a_finding_is_counted_for_what_has_it(open_problems: Asked, passage: str) -> None:
    claim = "events: 22\ntotal: 34"
    assert open_problems(f"[p. 1] Lesions of 40 teeth were filmed.\n[p. 2] {passage}", claim) == []
    assert open_problems(f"[p. 1] The 34 lesions were of 28 teeth.\n[p. 2] {passage}", claim) != []


NAMED_BEFORE = [
    "The 77 molars had 163 roots. Healing was recorded at 24 of the 163.",
    "There were 163 roots in 77 teeth; 24 of these 163 healed.",
    "In all, 163 roots were filled. Of 77 teeth none was lost. Healing was seen at 24 of the 163.",
]


@pytest.mark.parametrize("passage", NAMED_BEFORE)
def test_a_whole_that_was_named_before_counts_what_it_counted_there(open_problems: Asked, passage: str) -> None:
    claim = "events: 24\ntotal: 163\n"
    assert {each.rule for each in open_problems(passage, claim)} == {"other-unit"}
    assert open_problems(passage, claim, STUDY.replace("unit: tooth", "unit: root")) == []
    of_teeth = passage.replace("163 roots", "163 teeth").replace("77 teeth", "77 patients").replace("77 molars", "77")
    assert open_problems(of_teeth, claim) == []


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
        "seconds of working, mean (SD)\nrotary (n = 30): 124 (31)\nhand files (n = 30): 189 (44)",
        "seconds to the end of working were 124 (SD 31) with rotary (n = 30), 189 (SD 44) with hand files (n = 30)",
    ],
)
def test_means_in_another_unit_are_asked_about(open_problems: Asked, passage: str) -> None:
    files = {"vocabulary.yaml": VOCABULARY}
    assert "other-measure" in {each.rule for each in open_problems(passage, MEANS.format("minute"), files=files)}
    assert "other-measure" not in {each.rule for each in open_problems(passage, MEANS.format("seconds"), files=files)}
    minutes = passage.replace("seconds", "minutes")
    assert "other-measure" not in {each.rule for each in open_problems(minutes, MEANS.format("minute"), files=files)}
