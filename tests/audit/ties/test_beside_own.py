"""A figure under other words where another stands under the outcome's own, and its right twin.

Layouts are common practice of reports, no source; all figures are invented.
"""

from __future__ import annotations

import pytest

from .conftest import Asked

FILES = {
    "vocabulary.yaml": """\
factors:
  motion:
    {title: Motion, role: treatment, levels: [{id: a, title: reciprocation}, {id: b, title: rotation}]}
outcomes:
  fracture:
    {title: fractured, construct: mishap, strictness: not applicable, basis: seen, threshold: any, good: no,
     synonyms: [fracture]}
  healed:
    {title: healed, construct: success, strictness: strict, basis: film, threshold: normal space, good: yes,
     synonyms: [complete healing]}
"""
}
UNDER_OTHERS = (
    "Motion   N   Intact   Deformed   Fractured\nReciprocation   64   57   5   2\nRotation   64   46   11   7",
    "Motion | N | Fractured | Deformed | Intact\nReciprocation | 64 | 2 | 5 | 57\nRotation | 64 | 7 | 11 | 46",
    " | Reciprocation (n = 64) | Rotation (n = 64)\nIntact | 57 | 46\nDeformed | 5 | 11\nFractured | 2 | 7",
    "Motion | n | Fractures n (%) | Unchanged n (%)\nReciprocation | 64 | 2 (3.1) | 57 (89.1)\n"
    "Rotation | 64 | 7 (10.9) | 46 (71.9)",
    "Reciprocation (n = 64): intact 57, deformed 5, fractured 2\nRotation (n = 64): intact 46, deformed 11, "
    "fractured 7",
    "Reciprocation, 64: 57 intact, 5 deformed, 2 fractured. Rotation, 64: 46 intact, 11 deformed, 7 fractured.",
    "Motion | Fracture: yes | Fracture: no | Total\nReciprocation | 2 | 57 | 64\nRotation | 7 | 46 | 64",
    " | Fracture |\nMotion | Yes | No | Total\nReciprocation | 2 | 57 | 64\nRotation | 7 | 46 | 64",
)


def by_motion(one: int, other: int) -> str:
    return (
        "outcome: fracture\nfactor: motion\nknown_at: during\nreference: rotation\nlevels:\n"
        f"  - {{level: reciprocation, events: {one}, total: 64}}\n  - {{level: rotation, events: {other}, total: 64}}\n"
    )


@pytest.mark.parametrize("passage", UNDER_OTHERS)
def test_a_figure_under_other_words_is_asked_about(open_problems: Asked, passage: str) -> None:
    assert open_problems(passage, by_motion(2, 7), files=FILES) == []
    found = open_problems(passage, by_motion(57, 46), files=FILES)
    assert "event-in-other-place" in {problem.rule for problem in found}
    assert all(problem.severity == "ask" for problem in found)


def test_both_places_are_told(open_problems: Asked) -> None:
    message = open_problems(UNDER_OTHERS[0], by_motion(57, 46), files=FILES)[0].message
    assert 'under "Intact", and another figure under "Fractured", the claim of "fractured"' in message


def healed(events: int, total: int) -> str:
    return f"events: {events}\ntotal: {total}\n"


def test_none_in_a_list_of_grades_is_no_event(open_problems: Asked) -> None:
    passage = "Fracture: none 57, small 5, large 2 (N = 64)"
    claim = "outcome: fracture\nevents: {}\ntotal: 64\n"
    assert "event-in-other-place" in {each.rule for each in open_problems(passage, claim.format(57), files=FILES)}


HONEST = (
    "Technique | Enrolled | Seen | Healed | Percentage\nAll | 52 | 47 | 30 | 63.8",
    "Status | Teeth\nSuccesses (healed) | 30\nFailures | 17\nTotal | 47",
    "Healed (two readers)\nYes | No | All\n30 | 17 | 47",
    "Result | n = 47\nSuccess (healed) | 30\nTooth lost | 2\nPain at any time | 4",
    "Of 47 teeth, 30 had healed, 5 were painful and 2 lost.",
    "Recall: n = 47, complete healing n = 30, extraction n = 2",
    "Upper 14/22, lower 16/25, healed in all 30/47",
    "Healed 30 of 47, seen again 47 of 52",
)


@pytest.mark.parametrize("passage", HONEST)
def test_the_outcomes_own_figure_is_not(open_problems: Asked, passage: str) -> None:
    assert open_problems(passage, healed(30, 47), files=FILES) == []


def test_a_title_that_speaks_of_healing_makes_no_healed_column_a_looser_one(open_problems: Asked) -> None:
    passage = "Healing by arm, two years\nArm | Teeth | Healed, n (%)\nAll, both sides (n = 47) | 47 | 30 (64)"
    assert open_problems(passage, healed(30, 47), files=FILES) == []


def test_healing_in_a_column_beside_healed_is_not_complete(open_problems: Asked) -> None:
    passage = "Arm | Teeth | Healed | Healing | Not healed\nAll | 47 | 30 | 9 | 8"
    assert open_problems(passage, healed(30, 47), files=FILES) == []
    assert {each.rule for each in open_problems(passage, healed(9, 47), files=FILES)} == {"event-strictness"}


def test_words_in_the_vocabulary_answer_it(open_problems: Asked) -> None:
    files = {"vocabulary.yaml": FILES["vocabulary.yaml"].replace("[fracture]", "[fracture, intact]")}
    assert open_problems(UNDER_OTHERS[0], by_motion(57, 46), files=files) == []
