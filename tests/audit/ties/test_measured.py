"""A difference of a measured outcome whose sign is in words: "faster", "shortened by". Common practice, no source."""

from __future__ import annotations

import pytest

from .conftest import Asked
from .words_for_ratios import FILES, HYDROXIDE, SILICATE, ratio

VOCABULARY = FILES["vocabulary.yaml"] + (
    "  minutes: {title: working time, construct: effort, strictness: not applicable, basis: clock, threshold: none, "
    "good: no, synonyms: [time needed]}\n"
)
FIRST_LESS_SECOND = (
    ("Silicate cement was faster than calcium hydroxide: mean difference -6.5 minutes.", "-6.5"),
    (
        "Teeth were closed sooner with silicate cement than with calcium hydroxide: mean difference -6.5 minutes.",
        "-6.5",
    ),
    ("Silicate cement took less time than calcium hydroxide: mean difference -6.5 minutes.", "-6.5"),
    (
        "Working time was shorter with silicate cement than with calcium hydroxide (mean difference -6.5 minutes).",
        "-6.5",
    ),
    ("Compared with calcium hydroxide, silicate cement shortened the work (mean difference -6.5 minutes).", "-6.5"),
    ("Silicate cement was slower than calcium hydroxide: mean difference 6.5 minutes.", "6.5"),
    ("Silicate cement was 6.5 minutes slower than calcium hydroxide.", "6.5"),
    ("Compared with calcium hydroxide, silicate cement prolonged the work by 6.5 minutes.", "6.5"),
    ("Compared with calcium hydroxide, work with silicate cement took 6.5 minutes longer.", "6.5"),
    ("Mean difference, silicate cement minus calcium hydroxide: 6.5 minutes in smaller holes.", "6.5"),
    ("Silicate cement against calcium hydroxide in smaller holes: mean difference 6.5 minutes.", "6.5"),
)
SECOND_LESS_FIRST = (
    "Silicate cement was 6.5 minutes faster than calcium hydroxide.",
    "Silicate cement was quicker than calcium hydroxide by 6.5 minutes.",
    "Silicate cement needed 6.5 minutes less than calcium hydroxide.",
    "Compared with calcium hydroxide, silicate cement shortened the work by 6.5 minutes.",
    "Compared with calcium hydroxide, work with silicate cement was 6.5 minutes shorter.",
    "Silicate cement saved 6.5 minutes compared with calcium hydroxide.",
    "Silicate cement cut working time by 6.5 minutes compared with calcium hydroxide.",
    "Work took 6.5 minutes less with silicate cement compared with calcium hydroxide.",
)
UNSURE = (
    "Silicate cement was more efficient than calcium hydroxide: mean difference 6.5 minutes.",
    "Silicate cement was better than calcium hydroxide: mean difference 6.5 minutes.",
    "Silicate cement outperformed calcium hydroxide by 6.5 minutes.",
)
POINTS = (
    ("Compared with calcium hydroxide, silicate cement lowered pain by 12%.", "pain", "bad", False),
    ("Compared with calcium hydroxide, silicate cement raised healing by 12%.", "healed", "good", True),
)


def rules(open_problems: Asked, passage: str, value: str, *, is_first: bool) -> list[str]:
    level, reference = (SILICATE, HYDROXIDE) if is_first else (HYDROXIDE, SILICATE)
    claim = ratio(level, reference, value, measure="mean difference", outcome="minutes")
    files = {**FILES, "vocabulary.yaml": VOCABULARY}
    claim = claim.replace("unit: points", "unit: minutes")
    return [problem.rule for problem in open_problems(passage, claim, files=files)]


@pytest.mark.parametrize(("passage", "value"), FIRST_LESS_SECOND)
def test_the_sign_agrees_with_the_words(open_problems: Asked, passage: str, value: str) -> None:
    assert rules(open_problems, passage, value, is_first=True) == []
    assert rules(open_problems, passage, value, is_first=False) == ["ratio-direction"]


@pytest.mark.parametrize("passage", SECOND_LESS_FIRST)
def test_a_difference_without_its_sign_has_it_from_the_words(open_problems: Asked, passage: str) -> None:
    assert rules(open_problems, passage, "6.5", is_first=False) == []
    assert rules(open_problems, passage, "6.5", is_first=True) == ["ratio-direction"]


@pytest.mark.parametrize("passage", UNSURE)
@pytest.mark.parametrize("is_first", [True, False])
def test_words_that_tell_no_sign_are_silent(open_problems: Asked, passage: str, *, is_first: bool) -> None:
    assert rules(open_problems, passage, "6.5", is_first=is_first) == []


@pytest.mark.parametrize(("passage", "outcome", "event_is", "is_first"), POINTS)
def test_a_risk_difference_too(
    open_problems: Asked, passage: str, outcome: str, event_is: str, *, is_first: bool
) -> None:
    def found(level: str, reference: str) -> list[str]:
        claim = ratio(level, reference, "12%", measure="risk difference", outcome=outcome, event_is=event_is)
        return [problem.rule for problem in open_problems(passage, claim, files=FILES)]

    names = (SILICATE, HYDROXIDE) if is_first else (HYDROXIDE, SILICATE)
    assert found(*names) == []
    assert found(*names[::-1]) == ["ratio-direction"]
