"""Levels whose names hold a number in words, in any of their wordings, and levels by the word of what may be counted.

The ways of print are common practice of reports, no source; all figures are invented.
"""

from __future__ import annotations

import pytest

from .conftest import Asked
from .test_levels import claim, swapped

FILES = {
    "vocabulary.yaml": """\
factors:
  visits:
    title: Number of visits
    role: treatment
    levels:
      - {id: one, title: one visit, synonyms: [single visit, single-visit]}
      - {id: two, title: two visits, synonyms: [two-visit, multiple visits]}
  lesion:
    title: Lesion
    role: prognostic
    levels:
      - {id: "yes", title: lesion, synonyms: [lesion present]}
      - {id: "no", title: no lesion, synonyms: [lesion absent]}
outcomes:
  healed: {title: healed, construct: success, strictness: strict, basis: film, threshold: normal space, good: yes,
    synonyms: [success, healing]}
"""
}
VISITS = [("one visit", "39", "47"), ("two visits", "30", "45")]
LESIONS = [("lesion", "39", "47"), ("no lesion", "30", "45")]
CASES = [
    ("visits", VISITS, "In the one-visit group 39 of 47 healed, in the two-visit group 30 of 45."),
    ("visits", VISITS, "Single-visit: 39 of 47 healed; multiple visits: 30 of 45 healed."),
    ("visits", VISITS, "Healing was seen in 39 of 47 in one visit and in 30 of 45 in two visits."),
    ("lesion", LESIONS, "Lesion present (n = 47): 39 healed. Lesion absent (n = 45): 30 healed."),
    ("lesion", LESIONS, "Lesion present (n = 47) | Lesion absent (n = 45)\n  Healed 39 | 30"),
    ("lesion", LESIONS, "Lesions present: 39 of 47 healed; lesions absent: 30 of 45."),
]


@pytest.mark.parametrize(("factor", "levels", "passage"), CASES)
def test_levels_in_words_are_no_figures(
    open_problems: Asked, factor: str, levels: list[tuple[str, str, str]], passage: str
) -> None:
    assert open_problems(passage, claim(factor, *levels), files=FILES) == []


@pytest.mark.parametrize(("factor", "levels", "passage"), CASES)
def test_levels_in_words_exchanged_are_asked_about(
    open_problems: Asked, factor: str, levels: list[tuple[str, str, str]], passage: str
) -> None:
    problems = open_problems(passage, claim(factor, *swapped(levels)), files=FILES)
    assert "other-level" in {problem.rule for problem in problems}


@pytest.mark.parametrize(
    "words",
    [
        "for one visit over two visits", "in favour of one visit over two visits", "for one-visit over two-visit care",
        "for single-visit against two-visit treatment", "for a single visit compared with multiple visits",
    ],
)  # fmt: skip
def test_level_over_another_is_no_bound(open_problems: Asked, words: str) -> None:
    passage = f"The crude OR of success was 1.94 (95% CI 1.10 to 3.42) {words}."
    text = (
        "factor: visits\nknown_at: before\nreference: {1}\ncontrast: {{measure: odds ratio, event: success, event_is: "
        "good, level: {0}, reference: {1}, value: 1.94, interval: 1.10 to 3.42, adjusted_for: none}}\n"
    )
    assert open_problems(passage, text.format("one visit", "two visits"), files=FILES) == []
    problems = open_problems(passage, text.format("two visits", "one visit"), files=FILES)
    assert "ratio-direction" in {problem.rule for problem in problems}


def test_number_of_a_level_that_is_named_nowhere_stays_unproved(open_problems: Asked) -> None:
    passage = "At recall 39 of 47 and 30 of 45 had healed."
    problems = open_problems(passage, claim("visits", *VISITS), files=FILES)
    assert "figure-not-in-passage" in {problem.rule for problem in problems}
