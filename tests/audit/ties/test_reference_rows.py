"""Tables of a model that print their reference in a row of its own, each with a wrong twin.

The layouts are common practice of reports, no source; all figures are invented.
"""

from __future__ import annotations

import pytest

from .conftest import Asked

OUTCOMES = """\
outcomes:
  lost:
    {title: tooth loss, construct: survival, strictness: not applicable, basis: chart, threshold: extracted, good: no,
     synonyms: [lost, extraction]}
"""
VOCABULARIES = {
    ("yes", "no"): "{id: a, title: 'yes', synonyms: [cuspal coverage]}, {id: b, title: 'no', synonyms: [no coverage]}",
    ("cuspal coverage", "no cuspal coverage"): "{id: a, title: cuspal coverage}, {id: b, title: no cuspal coverage}",
    ("present", "absent"): "{id: a, title: present, synonyms: ['yes']}, {id: b, title: absent, synonyms: ['no']}",
}
COX = (
    "Variable | HR | 95% CI\nCuspal coverage | |\n Yes | 1 (reference) | –\n No | 3.12 | 1.84–5.29\n"
    "Tooth type | |\n Anterior | 1 (reference) | –\n Molar | 1.46 | 0.88–2.42",
    "           HR (95% CI)        p\nCuspal coverage\n  Yes      1.00\n  No       3.12 (1.84–5.29)   <.001",
    "Variable | Category | HR | 95% CI\nCuspal coverage | Yes | Ref. |\n | No | 3.12 | 1.84–5.29",
    "Variable | HR | 95% CI\nCuspal coverage | |\n No | 3.12 | 1.84–5.29\n Yes | Reference |",
    "Variable | HR | 95% CI\nCuspal coverage | |\n Yes | – | –\n No | 3.12 | 1.84–5.29",
    "Variable | HR | 95% CI\nSex | |\n Female | 1 | –\n Male | 1.21 | 0.8–1.9\nCuspal coverage | |\n"
    " Yes (ref.) | |\n No | 3.12 | 1.84–5.29",
)


def ratio(
    level: str, reference: str, value: str = "3.12", interval: str = "1.84 to 5.29", factor: str = "cover"
) -> str:
    measure = "hazard ratio" if factor == "cover" else "odds ratio"
    return (
        f"outcome: lost\nfactor: {factor}\nknown_at: before\nreference: '{reference}'\n"
        f"contrast: {{measure: {measure}, value: {value}, interval: {interval}, level: '{level}', "
        f"reference: '{reference}', event: tooth loss, event_is: bad, adjusted_for: not reported}}\n"
    )


@pytest.mark.parametrize("names", VOCABULARIES)
@pytest.mark.parametrize("passage", COX)
def test_a_ratio_is_against_the_row_of_the_reference(
    open_problems: Asked, passage: str, names: tuple[str, str]
) -> None:
    levels = VOCABULARIES[names]
    factor = f"factors:\n  cover: {{title: Cuspal coverage, role: prognostic, levels: [{levels}]}}\n"
    files = {"vocabulary.yaml": factor + OUTCOMES}
    printed = f"Cox model, tooth loss\n{passage}"
    covered, bare = names
    assert open_problems(printed, ratio(bare, covered), files=files) == []
    found = open_problems(printed, ratio(covered, bare), files=files)
    assert {problem.rule for problem in found} == {"ratio-direction"}


LIMITS = {
    "vocabulary.yaml": "factors:\n  limit: {title: Apical limit, role: prognostic, levels: [{id: a, title: flush}, "
    "{id: b, title: short}, {id: c, title: long}]}\n" + OUTCOMES
}


@pytest.mark.parametrize(
    "passage",
    [
        "Limit | OR (95% CI)\nFlush | 1 (ref)\nShort | 1.44 (0.81–2.56)\nLong | 2.87 (1.43–5.75)",
        "Limit | OR (95% CI)\nShort | 1.44 (0.81–2.56)\nLong | 2.87 (1.43–5.75)\nFlush | 1.00",
        "Tooth loss; OR (95 % CI), reference: flush\nShort   1,44 (0,81–2,56)   p = 0,21\n"
        "Long   2,87 (1,43–5,75)   p = 0,003",
    ],
)
def test_of_three_levels_each_is_against_the_reference(open_problems: Asked, passage: str) -> None:
    short, long = ("1.44", "0.81 to 2.56", "limit"), ("2.87", "1.43 to 5.75", "limit")
    for level, figures in (("short", short), ("long", long)):
        assert open_problems(passage, ratio(level, "flush", *figures), files=LIMITS) == []
        found = open_problems(passage, ratio("flush", level, *figures), files=LIMITS)
        assert "ratio-direction" in {problem.rule for problem in found}
    found = open_problems(passage, ratio("long", "short", *long), files=LIMITS)
    assert "ratio-direction" in {problem.rule for problem in found}
