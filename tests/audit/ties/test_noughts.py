"""Nought in words, percentages said again and counts of somebody else beside equal ones: right silent, wrong asked.

The ways of print are common practice of reports, no source; all figures are invented.
"""

from __future__ import annotations

import pytest

from .conftest import Asked

FILES = {
    "vocabulary.yaml": """\
outcomes:
  healed: {title: healed, construct: success, strictness: strict, basis: film, threshold: normal space, good: yes}
  fractured: {title: fractured, construct: complication, strictness: not applicable, basis: film, threshold: any,
    good: no, synonyms: [fracture]}
"""
}


@pytest.mark.parametrize(
    "passage",
    [
        "No fractures occurred in 210 teeth.", "There was no fracture among 210 teeth.",
        "Not one of 210 teeth fractured.",
        "A fracture never occurred in the 210 teeth.", "Fractures: none (210 teeth).", "Fractured: nil of 210.",
        "Among 210 teeth there were eight cracks and no fracture.",
    ],
)  # fmt: skip
def test_nought_in_words_proves_that_event_alone(open_problems: Asked, passage: str) -> None:
    claim = "outcome: {}\nevents: {}\ntotal: 210\n"
    assert open_problems(passage, claim.format("fractured", 0), files=FILES) == []
    assert open_problems(passage, claim.format("fractured", 1), files=FILES)
    assert open_problems(passage, claim.format("healed", 0), files=FILES)


@pytest.mark.parametrize(
    "passage",
    [
        "Insgesamt heilten 82,9 % der Zähne (healed: 58 of 70 teeth; 82,9%).",
        "Healing reached 82.9% overall (58 of 70 teeth, 82.9%).",
    ],
)
def test_percentage_said_twice_is_that_beside_its_counts(open_problems: Asked, passage: str) -> None:
    claim = "outcome: healed\nevents: 58\ntotal: 70\nrate: {}\n"
    assert open_problems(passage, claim.format("82.9%"), files=FILES) == []
    assert open_problems(passage, claim.format("81.9%"), files=FILES)


def test_percentage_of_two_sentences_stays_a_question(open_problems: Asked) -> None:
    passage = "Recall was 82.9%. Healed 58 of 70 teeth. At the start 82.9% had pain."
    (problem,) = open_problems(passage, "outcome: healed\nevents: 58\ntotal: 70\nrate: 82.9%\n", files=FILES)
    assert problem.rule == "figure-ambiguous"
