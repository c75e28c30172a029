"""Levels exchanged where totals stand in one list and counts in another, shares in square brackets, groups by letter.

The ways of print are common practice of reports, no source; all figures are invented.
"""

from __future__ import annotations

import pytest

from .conftest import Asked
from .test_levels import FILES, LESIONS, TWO, claim, swapped

OF_LESIONS = (
    "The 47 teeth without a lesion and the 45 with a lesion had healed in 39 and 30 instances, respectively.",
    "Of 47 teeth without a lesion and 45 with a lesion, 39 and 30 healed.",
    "Of the 47 teeth with no lesion and the 45 teeth with a lesion, 39 and 30 had healed, respectively.",
    "47 teeth without a lesion and 45 with a lesion were seen again; 39 and 30 had healed, respectively.",
    "In the 47 teeth without a lesion and in the 45 with a lesion, healing was found 39 and 30 times.",
)
OF_MATERIALS = (
    "Of 47 teeth repaired with MTA and 45 repaired with calcium hydroxide, 39 and 30 healed, respectively.",
    "The 47 MTA teeth and the 45 calcium hydroxide teeth had healed in 39 and 30 cases, respectively.",
    "MTA outperformed calcium hydroxide with respect to healing (83% [39/47] vs. 67% [30/45]).",
    "More healed with MTA than with calcium hydroxide (39/47 [83%] vs 30/45 [67%]).",
    "More healed with MTA than with calcium hydroxide (39/47 [83%] vs 30/45 [67%]; difference, 16% [95% CI, 1 to 31]).",
    "More healed with MTA than with calcium hydroxide [39/47 (83%) versus 30/45 (67%)].",
    "Compared with calcium hydroxide, more teeth healed with MTA (83% [39/47] vs 67% [30/45]).",
    "MTA was used in 47 teeth (group A) and calcium hydroxide in 45 (group B). Healed: group A 39, group B 30.",
    "Group A was closed with MTA (n = 47) and group B with calcium hydroxide (n = 45). "
    "At recall 39 teeth of group A and 30 of group B had healed.",
    "Teeth had MTA (group A, n = 47) or calcium hydroxide (group B, n = 45). Healing: 39 in A, 30 in B.",
)
CASES = [
    *(("lesion", LESIONS, passage) for passage in OF_LESIONS),
    *(("material", TWO, passage) for passage in OF_MATERIALS),
]


@pytest.mark.parametrize(("factor", "levels", "passage"), CASES)
def test_levels_as_printed_are_silent(
    open_problems: Asked, factor: str, levels: list[tuple[str, str, str]], passage: str
) -> None:
    assert open_problems(passage, claim(factor, *levels), files=FILES) == []


@pytest.mark.parametrize(("factor", "levels", "passage"), CASES)
def test_levels_exchanged_are_asked_about(
    open_problems: Asked, factor: str, levels: list[tuple[str, str, str]], passage: str
) -> None:
    problems = open_problems(passage, claim(factor, *swapped(levels)), files=FILES)
    assert "other-level" in {problem.rule for problem in problems}


@pytest.mark.parametrize(("factor", "levels", "passage"), CASES)
def test_events_alone_exchanged_are_asked_about(
    open_problems: Asked, factor: str, levels: list[tuple[str, str, str]], passage: str
) -> None:
    (first, one, total), (second, other, whole) = levels
    problems = open_problems(passage, claim(factor, (first, other, total), (second, one, whole)), files=FILES)
    assert {"other-level", "figure-pair"} & {problem.rule for problem in problems}
