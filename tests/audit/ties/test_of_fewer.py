"""A figure of some beside one of more for the same outcome, level and time, in whatever words, and its right twin.

The phrasings are common practice of reports, no source; all figures are invented.
"""

from __future__ import annotations

import pytest

from .conftest import CORNEAS, Asked

RULE = "figure-of-fewer"
OF_SOME = (
    "At four years 70 of 92 corneas were clear. The 25 of welders fared worse: 16 of 25 were clear.",
    "At four years 70 of 92 corneas were clear. Left-handed people came off worse, for 16 of 25 were clear.",
    "Sixteen of 25 corneas were clear where a suture had been left; 70 of 92 were clear at four years.",
    "Seventy of 92 corneas were clear at four years; once the centre had moved, 16 of 25 were clear.",
)


def clear(events: int, total: int, more: str = "") -> str:
    return (
        f"outcome: clear\nevents: {events}\ntotal: {total}\n{more}"
        "follow_up: {from: treatment, timing: at, at: 4 years}\n"
    )


def rules(found: list[object]) -> set[str]:
    return {problem.rule for problem in found}  # type: ignore[attr-defined]


@pytest.mark.parametrize("passage", OF_SOME)
def test_a_figure_of_some_is_asked_about(open_problems: Asked, passage: str) -> None:
    assert rules(open_problems(passage, clear(16, 25), files=CORNEAS)) & {RULE, "figure-of-a-part"}
    assert RULE not in rules(open_problems(passage, clear(70, 92), files=CORNEAS))


def test_what_is_typed_of_whose_it_is_answers_it(open_problems: Asked) -> None:
    problem = open_problems(OF_SOME[1], clear(16, 25), files=CORNEAS)[0]
    assert problem.rule == RULE
    assert 'has "70 of 92" for the same, of more' in problem.message
    assert "given: WHOSE" in problem.hint
    assert open_problems(OF_SOME[1], clear(16, 25, "given: WHOSE\n"), files=CORNEAS) == []


@pytest.mark.parametrize(
    "passage",
    [
        "At two years 70 of 92 corneas were clear; at four years 16 of 25 were clear.",
        "At 2 and 4 years 70 of 92 and 16 of 25 corneas were clear.",
        "A trial from the north had 70 of 92 clear; in our series 16 of 25 corneas were clear at four years.",
        "Clear at | 2 years | 4 years\nAll corneas | 70/92 | 16/25",
    ],
)
def test_of_another_time_or_another_report_there_is_more(open_problems: Asked, passage: str) -> None:
    assert RULE not in rules(open_problems(passage, clear(16, 25), files=CORNEAS))


def by_cement(one: str, other: str, more: str = "") -> str:
    return (
        f"outcome: clear\nfactor: cement\nknown_at: during\nreference: resin\n{more}levels:\n"
        f"  - {{level: silicate, {one}}}\n  - {{level: resin, {other}}}\n"
    )


def test_two_figures_of_one_level_are_asked_about(open_problems: Asked) -> None:
    passage = (
        "Of those entered, 33 of 41 eyes with silicate and 31 of 40 eyes with resin were clear; of the conscientious, "
        "30 of 36 eyes with silicate and 28 of 33 eyes with resin were clear."
    )
    some = by_cement("events: 30, total: 36", "events: 28, total: 33")
    assert RULE in rules(open_problems(passage, some, files=CORNEAS))
    every = by_cement("events: 33, total: 41", "events: 31, total: 40")
    assert open_problems(passage, every, files=CORNEAS) == []


def test_the_sum_of_the_levels_is_no_other_figure(open_problems: Asked) -> None:
    passage = "A cornea was clear in 61 of 81 eyes: 30 of 41 with silicate and 31 of 40 with resin."
    claim = by_cement("events: 30, total: 41", "events: 31, total: 40")
    assert RULE not in rules(open_problems(passage, claim, files=CORNEAS))


@pytest.mark.parametrize(
    "passage",
    [
        "16 (64%), 22 (73%) and 31 (78%) of the 25, 30 and 40 corneas were clear at four years, respectively.",
        "At four years 16 of 25 corneas were clear; 12 of 40 were clear in the north.",
    ],
)
def test_what_cannot_hold_the_figure_is_no_figure_of_more(open_problems: Asked, passage: str) -> None:
    assert RULE not in rules(open_problems(passage, clear(16, 25), files=CORNEAS))
