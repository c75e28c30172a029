"""A number of which the passage says what no vocabulary knows, beside one of the outcome, and its right twin.

The phrasings are common practice of reports, no source; all figures are invented.
"""

from __future__ import annotations

import pytest

from .conftest import CORNEAS, Asked

RULE = "event-not-named"
SAID_OF_EACH = (
    "At one year 41 of 50 corneas were iridescent, whereas 33 of 50 were clear.",
    "At one year 33 of 50 corneas were clear; 41 of 50 had glimmered.",
    "Glimmering was noted in 41 of 50 corneas. Thirty-three of 50 were clear at one year.",
    "At one year 33 of 50 corneas were clear; glimmering in 41 of 50.",
    "Of 50 corneas, 33 were clear and 41 glimmering at one year.",
    "Of 50 corneas, glimmering (n = 41) and a clear cornea (n = 33) were the findings at one year.",
    "Of 50 corneas, 41 attended the one-year visit. Of the 41, 33 were clear.",
    "Glimmering was commoner: 41 of 50 corneas. A clear cornea was seen in 33 of 50 at one year.",
)


def clear(events: int, more: str = "") -> str:
    return (
        f"outcome: clear\nevents: {events}\ntotal: 50\n{more}follow_up: {{from: treatment, timing: at, at: 1 year}}\n"
    )


@pytest.mark.parametrize("passage", SAID_OF_EACH)
def test_a_number_of_which_something_else_is_said_is_asked_about(open_problems: Asked, passage: str) -> None:
    found = open_problems(passage, clear(41), files=CORNEAS)
    assert RULE in {problem.rule for problem in found}
    assert all(problem.severity == "ask" for problem in found)


@pytest.mark.parametrize("passage", SAID_OF_EACH)
def test_the_number_of_the_outcome_is_not(open_problems: Asked, passage: str) -> None:
    assert RULE not in {problem.rule for problem in open_problems(passage, clear(33), files=CORNEAS)}


def test_both_readings_are_told_and_the_words_answer_it(open_problems: Asked) -> None:
    problem = open_problems(SAID_OF_EACH[0], clear(41), files=CORNEAS)[0]
    assert 'says "were iridescent" of it, and "clear" of 33, the claim counts "clear cornea"' in problem.message
    assert 'as: "were iridescent"' in problem.hint
    assert open_problems(SAID_OF_EACH[0], clear(41, 'as: "were iridescent"\n'), files=CORNEAS) == []


def by_cement(one: int, other: int) -> str:
    return (
        "outcome: debonded\nfactor: cement\nknown_at: during\nreference: resin\nlevels:\n"
        f"  - {{level: silicate, events: {one}, total: 40}}\n  - {{level: resin, events: {other}, total: 40}}\n"
    )


@pytest.mark.parametrize(
    "passage",
    [
        "Debonding was seen in 9 of 40 posts with silicate and in 4 of 40 luted with resin.",
        "Nine of 40 posts luted with silicate (22.5%) and 4 of 40 held by resin (10%) had debonded.",
        "With silicate 9 of 40 posts debonded; with resin the figures were 4 of 40.",
        "Debonding befell 9 of 40 posts that had received silicate and 4 of 40 that had received resin.",
        "As against resin (4/40), debonding was commoner with silicate (9/40).",
        "Debonding was likelier where silicate had been used (9 of 40) than where resin had (4 of 40).",
    ],
)
def test_two_levels_of_one_outcome_are_not(open_problems: Asked, passage: str) -> None:
    assert RULE not in {problem.rule for problem in open_problems(passage, by_cement(9, 4), files=CORNEAS)}


def contrast(value: str, interval: str) -> str:
    return (
        "outcome: debonded\nfactor: cement\nknown_at: during\nreference: resin\n"
        "contrast: {measure: hazard ratio, event: debonding, event_is: bad, level: silicate, reference: resin, "
        f"value: {value}, interval: {interval}, adjusted_for: not reported}}\n"
    )


@pytest.mark.parametrize(
    "passage",
    [
        "For silicate against resin the hazard ratio was 2.2 (95% CI 1.3 to 3.7) for chipping and 1.4 (95% CI 0.6 to "
        "2.8) for debonding.",
        "Silicate against resin: chipping, HR 2.2 (95% CI 1.3 to 3.7); debonding, HR 1.4 (95% CI 0.6 to 2.8).",
    ],
)
def test_a_ratio_for_something_else_is_asked_about(open_problems: Asked, passage: str) -> None:
    rules = [problem.rule for problem in open_problems(passage, contrast("2.2", "1.3 to 3.7"), files=CORNEAS)]
    assert RULE in rules
    right = [problem.rule for problem in open_problems(passage, contrast("1.4", "0.6 to 2.8"), files=CORNEAS)]
    assert RULE not in right
