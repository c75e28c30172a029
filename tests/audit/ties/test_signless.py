"""Shares printed without a sign of their own, and several counts of one total.

The ways of print are common practice of reports, no source; all figures are invented.
"""

from __future__ import annotations

import pytest

from .conftest import Asked
from .test_levels import FILES, claim, swapped


def shares(first: str, second: str) -> str:
    rows = "".join(
        f"\n  - {{level: {level}, events: not reported, total: not reported, success_rate: {share}}}"
        for level, share in (("MTA", first), ("calcium hydroxide", second))
    )
    return f"factor: material\nknown_at: during\nreference: calcium hydroxide\nlevels:{rows}\n"


SHARES = (
    "Healing followed in 83.1 with MTA and 71.4% with calcium hydroxide.",
    "MTA and calcium hydroxide healed in 83.1 vs 71.4%.",
    "Healed: MTA vs calcium hydroxide, 83.1 vs 71.4%.",
    "Healing was seen in 83.1 (MTA) and 71.4% (calcium hydroxide).",
    "Healing was more frequent with MTA than with calcium hydroxide (83.1 v 71.4%).",
    "After MTA 83.1, after calcium hydroxide 71.4% healed.",
    "83.1 of MTA and 71.4% of calcium hydroxide teeth healed.",
    "The percentage healed was 83.1 with MTA and 71.4 with calcium hydroxide.",
    "Healed, %: MTA 83.1, calcium hydroxide 71.4.",
    "Healing: 83.1 (95% CI 70.2 to 91.5) with MTA and 71.4% (56.0 to 83.1) with calcium hydroxide.",
)


@pytest.mark.parametrize("passage", SHARES)
def test_a_share_without_its_sign_is_read(open_problems: Asked, passage: str) -> None:
    assert open_problems(passage, shares("83.1%", "71.4%"), files=FILES) == []


@pytest.mark.parametrize("passage", SHARES)
def test_shares_without_a_sign_exchanged_are_asked_about(open_problems: Asked, passage: str) -> None:
    assert "other-level" in {problem.rule for problem in open_problems(passage, shares("71.4%", "83.1%"), files=FILES)}


@pytest.mark.parametrize(
    "passage",
    [
        "The mean age was 83.1 with MTA and 71.4% healed with calcium hydroxide.",
        "The score was 83.1 with MTA. With calcium hydroxide 71.4% healed.",
        "Healing followed in 83.1 points with MTA and 71.4% with calcium hydroxide.",
        "The percentage was not told; the mean score was 83.1 with MTA and 71.4% healed with calcium hydroxide.",
    ],
)
def test_what_is_no_share_stays_none(open_problems: Asked, passage: str) -> None:
    assert open_problems(passage, shares("83.1%", "71.4%"), files=FILES)


THREE = [("MTA", "70", "100"), ("calcium hydroxide", "46", "100"), ("glass ionomer", "34", "100")]
COMING_TO_IT = [("MTA", "70", "100"), ("calcium hydroxide", "16", "100"), ("glass ionomer", "14", "100")]
OF_ONE_TOTAL = [
    (THREE, "70, 46 and 34 of 100 healed with MTA, calcium hydroxide and glass ionomer."),
    (THREE, "With MTA, calcium hydroxide and glass ionomer 70, 46 and 34 of 100 teeth healed, respectively."),
    (THREE, "Of 100 teeth in each group 70, 46 and 34 healed with MTA, calcium hydroxide and glass ionomer."),
    (THREE, "70 (MTA), 46 (calcium hydroxide) and 34 (glass ionomer) of 100 healed."),
    (THREE, "Groups of 100: healed in 70 (MTA), 46 (calcium hydroxide) and 34 (glass ionomer)."),
    (COMING_TO_IT, "70, 16 and 14 of 100 with MTA, calcium hydroxide and glass ionomer healed."),
    (COMING_TO_IT, "MTA, calcium hydroxide and glass ionomer: 70, 16 and 14 of 100 healed, respectively."),
]


@pytest.mark.parametrize(("levels", "passage"), OF_ONE_TOTAL)
def test_one_total_printed_once_is_that_of_each(
    open_problems: Asked, levels: list[tuple[str, str, str]], passage: str
) -> None:
    assert open_problems(passage, claim("material", *levels), files=FILES) == []


@pytest.mark.parametrize(("levels", "passage"), OF_ONE_TOTAL)
def test_counts_of_one_total_exchanged_are_asked_about(
    open_problems: Asked, levels: list[tuple[str, str, str]], passage: str
) -> None:
    problems = open_problems(passage, claim("material", *swapped(levels)), files=FILES)
    assert "other-level" in {problem.rule for problem in problems}


@pytest.mark.parametrize(
    "passage",
    [
        "14 of the 52 MTA teeth and 9 of the 88 calcium hydroxide teeth did not heal; the other 38 and 79 were healed.",
        "Not healed were 14 of 52 with MTA and 9 of 88 with calcium hydroxide; 38 and 79 had healed.",
        "Pain in 14 of 52 with MTA and 9 of 88 with calcium hydroxide; 38 of the former group and 79 of "
        "the latter were healed.",
    ],
)
def test_the_number_of_a_level_may_stand_beside_another_count(open_problems: Asked, passage: str) -> None:
    levels = [("MTA", "38", "52"), ("calcium hydroxide", "79", "88")]
    assert open_problems(passage, claim("material", *levels), files=FILES) == []
    assert open_problems(passage, claim("material", *swapped(levels)), files=FILES)


def test_a_count_of_which_something_else_is_said_is_asked_about(open_problems: Asked) -> None:
    passage = "Healed: 14 of 52 with MTA and 9 of 88 with calcium hydroxide; new vessels were found at 38 and 79 sites."
    levels = [("MTA", "38", "52"), ("calcium hydroxide", "79", "88")]
    assert "event-not-named" in {
        problem.rule for problem in open_problems(passage, claim("material", *levels), files=FILES)
    }
