"""Counts and their wholes: of some, of those with the event, of several events, of a footnote, of an earlier step.

The phrasings are common practice of reports, no source; all figures are invented.
"""

from __future__ import annotations

import pytest

from .conftest import CORNEAS, Asked

BY_CEMENT = (
    "outcome: debonded\nfactor: cement\nknown_at: during\nreference: not reported\nlevels:\n"
    "  - {level: resin, events: 13, total: TOTAL}\n"
)


def clear(events: int, total: int, more: str = "") -> str:
    return f"outcome: clear\nevents: {events}\ntotal: {total}\n{more}follow_up: not reported\n"


def rules(found: list[object]) -> set[str]:
    return {problem.rule for problem in found}  # type: ignore[attr-defined]


@pytest.mark.parametrize(
    "passage",
    [
        "Of 92 corneas, 70 were clear; of the 25 in which a suture had broken, 16.",
        "70 of 92 corneas were clear, but only 16 of the 25 that had been regrafted.",
        "70 of 92 corneas were clear. Where a suture had broken, 16 of 25 were clear.",
        "70 of 92 corneas were clear. In a few a suture had broken: among these 25 corneas, 16 were clear.",
    ],
)
def test_a_figure_of_some_in_so_many_words_is_asked_about(open_problems: Asked, passage: str) -> None:
    asked = rules(open_problems(passage, clear(16, 25), files=CORNEAS))
    assert asked & {"figure-of-some", "figure-of-fewer", "figure-of-a-part"}
    assert open_problems(passage, clear(70, 92), files=CORNEAS) == []


def test_what_restricts_nothing_restricts_nothing(open_problems: Asked) -> None:
    passage = "At two years 70 of 92 corneas were clear. Of the 25 corneas that came at four years, 16 were clear."
    assert "figure-of-some" not in rules(open_problems(passage, clear(16, 25), files=CORNEAS))


@pytest.mark.parametrize(
    "passage",
    [
        "Of 210 people screened 96 were enrolled; 8 corneas were clear.",
        "We assessed 210 corneas for eligibility and enrolled 96, of which 8 were clear.",
        "210 corneas were invited and 96 took part; 8 were clear.",
        "Of 210 corneas treated 96 attended the recall, and 8 were clear.",
    ],
)
def test_a_total_of_an_earlier_step_is_asked_about(open_problems: Asked, passage: str) -> None:
    assert "total-of-earlier-step" in rules(open_problems(passage, clear(8, 210), files=CORNEAS))
    assert "total-of-earlier-step" not in rules(open_problems(passage, clear(8, 96), files=CORNEAS))


def test_whoever_is_named_again_behind_the_step_is_the_whole(open_problems: Asked) -> None:
    passage = "Of 210 corneas screened 96 were enrolled. Clear, counted in all, were 8 of 210."
    assert "total-of-earlier-step" not in rules(open_problems(passage, clear(8, 210), files=CORNEAS))


@pytest.mark.parametrize(
    "passage",
    [
        "Clear 17*, hazy 6, of 60 corneas.\n* n = 57",
        "Clear 17 ᵃ, hazy 6, of 60 corneas.\nᵃ Counted in the 57 who came.",
    ],
)
def test_a_footnote_says_of_how_many(open_problems: Asked, passage: str) -> None:
    assert "total-in-footnote" in rules(open_problems(passage, clear(17, 60), files=CORNEAS))
    assert "total-in-footnote" not in rules(open_problems(passage, clear(17, 57), files=CORNEAS))


@pytest.mark.parametrize(
    ("passage", "is_asked"),
    [
        ("A good result in 44 of 58 teeth: 36 had healed and 8 were healing.", True),
        ("Favourable†: 44 of 58 teeth.\n† Healed 36, reduced in size 8.", True),
        ("Healed: 44 of 58 teeth (20 upper, 24 lower).", False),
    ],
)
def test_a_count_of_several_events_is_asked_about(open_problems: Asked, passage: str, is_asked: bool) -> None:
    asked = rules(open_problems(passage, "events: 44\ntotal: 58\n"))
    assert bool(asked & {"count-of-several-events", "event-strictness", "event-not-named"}) == is_asked


@pytest.mark.parametrize(
    "passage",
    [
        "Of the 38 debonded corneas 13 were fixed with resin, of 74.",
        "13 of the 38 debonded corneas were fixed with resin, of 74.",
        "Debonded (n = 38): resin 13, of 74; silicate 25.",
        " | Debonded (n = 38) | All\n    resin | 13 | 74\n    silicate | 25 | 90",
    ],
)
def test_those_with_the_event_are_not_all_of_a_level(open_problems: Asked, passage: str) -> None:
    claim = BY_CEMENT.replace("TOTAL", "38")
    assert "total-with-the-event" in rules(open_problems(passage, claim, files=CORNEAS))


@pytest.mark.parametrize("passage", ["Debonded were 13 of 38 with resin.", "Of 38 fixed with resin 13 debonded."])
def test_all_of_a_level_are_its_total(open_problems: Asked, passage: str) -> None:
    claim = BY_CEMENT.replace("TOTAL", "38")
    assert "total-with-the-event" not in rules(open_problems(passage, claim, files=CORNEAS))


def test_a_pair_in_words_and_again_in_digits_is_one(open_problems: Asked) -> None:
    assert open_problems("Not one of the 26 teeth healed (0 of 26).", "events: 0\ntotal: 26\n") == []


def test_who_was_lost_to_follow_up_befell_nothing(open_problems: Asked) -> None:
    passage = "17 of 130 corneas were lost to follow-up, and 6 of 130 had debonded."
    claim = "outcome: debonded\nevents: {}\ntotal: 130\n"
    assert "event-other" in rules(open_problems(passage, claim.format(17), files=CORNEAS))
    assert open_problems(passage, claim.format(6), files=CORNEAS) == []


@pytest.mark.parametrize("time", ["604 eye-years", "604 cornea-years"])
def test_time_under_observation_counts_nobody(open_problems: Asked, time: str) -> None:
    passage = f"In 148 corneas watched for {time} 12 were clear."
    assert "other-unit" in rules(open_problems(passage, clear(12, 604), files=CORNEAS))
    assert "other-unit" not in rules(open_problems(passage, clear(12, 148), files=CORNEAS))
