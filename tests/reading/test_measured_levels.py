"""Means and medians by level: what must stand beside them, and what must not."""

from __future__ import annotations

from collections.abc import Callable

import pytest

ProblemsOfText = Callable[[str], list[str]]

HEAD = "factor: size\nknown_at: before\nreference: small\nunit: mm\n"


def levels(first: str, second: str = "{level: small, mean: 1.9, sd: 1.0, total: 37}") -> str:
    return f"levels:\n  - {first}\n  - {second}"


@pytest.mark.parametrize(
    "lines",
    [
        HEAD + levels("{level: large, mean: 2.6, sd: 1.1, total: 38}"),
        HEAD + levels("{level: large, median: 3, iqr: 1 to 5, total: 38}"),
        HEAD + levels("{level: large, mean: -0.4, sd: not reported, total: not reported, direction: worse}"),
        HEAD + levels('{level: large, mean: 2.6, sd: 1.1, total: {candidates: [38, 39], reason: "both stand there"}}'),
        HEAD.replace("mm", "points on a scale of 0 to 10") + levels("{level: large, mean: 2, sd: 1, total: 38}"),
        HEAD.replace("mm", "not reported") + levels("{level: large, mean: 2, sd: 1, total: 38}"),
    ],
    ids=["mean", "median", "spread not reported", "candidates", "unit in words", "unit not reported"],
)
def test_measured_levels_are_read(of_claim: ProblemsOfText, lines: str) -> None:
    assert of_claim(lines) == []


@pytest.mark.parametrize(
    ("lines", "expected"),
    [
        (
            HEAD.replace("unit: mm\n", "") + levels("{level: large, mean: 2.6, sd: 1.1, total: 38}"),
            "6:5: a claim with means or medians needs what they are measured in (`unit`): mm, minute or words, or not "
            "reported [missing-field]" "\n    unit: mm",
        ),
        (
            HEAD + levels("{level: large, mean: 2.6, total: 38}"),
            '16:9: the level "large" has a `mean` without its standard deviation (`sd`): type it, or not reported '
            "[missing-field]" "\n    sd: not reported",
        ),
        (
            HEAD + levels("{level: large, median: 2.6, sd: 1.1, iqr: 1 to 4, total: 38}"),
            '16:9: the level "large" has `sd` without the `mean` it belongs to: type it, or not '
            "reported [missing-field]" "\n    mean: not reported",
        ),
        (
            HEAD + levels("{level: large, median: 2.6, total: 38}"),
            '16:9: the level "large" has a `median` without its interquartile range (`iqr`): type it, or not reported '
            "[missing-field]" "\n    iqr: not reported",
        ),
        (
            HEAD + levels("{level: large, mean: 2.6, sd: 1.1}"),
            '16:9: the level "large" is measured without the number that were measured (`total`): type it, or not '
            "reported [missing-field]" "\n    total: not reported",
        ),
        (
            HEAD + levels("{level: large, events: 7, mean: 2.6, sd: 1.1, total: 38}"),
            '16:32: the level "large" has both `mean` and `events`: what was measured and what was counted are two '
            "claims [field-not-here]" "\n    move `events` into a claim of its own",
        ),
        (
            HEAD + levels("{level: large, events: 7, total: 38}", "{level: small, events: 9, total: 37}"),
            "6:5: a claim has `unit` without a mean or median of a level; what was counted is the `unit` of the study, "
            "and the unit of a difference stands in its `contrast` [field-not-here]"
            "\n    delete it, or move it into the contrast",
        ),
        (
            HEAD + levels("{level: large, mean: 2.6, sd: -1.1, total: 38}"),
            '16:39: "-1.1" is not a standard deviation such as 1.1, not below zero [not-a-number]'
            "\n    where the paper gives none, type not reported",
        ),
        (
            HEAD + levels("{level: large, median: 3, iqr: 5 to 1, total: 38}"),
            '16:40: "5 to 1": the lower end comes first [interval-reversed]'
            "\n    look at the paper again; did you mean 1 to 5?",
        ),
    ],
    ids=[
        "no unit", "no deviation", "no mean", "no quartiles", "no total", "counts too", "unit of nothing",
        "below zero", "quartiles reversed",
    ],
)  # fmt: skip
def test_what_does_not_fit_is_said_once(of_claim: ProblemsOfText, lines: str, expected: str) -> None:
    assert of_claim(lines) == [expected]


def test_a_mean_that_cannot_be_read_is_not_missing_as_well(of_claim: ProblemsOfText) -> None:
    (problem,) = of_claim(
        HEAD + levels("{level: large, mean: 2·6, sd: 1.1, total: 38}", "{level: s, events: 1, total: 2}")
    )
    assert problem.startswith('16:30: "2·6" is not a number')
