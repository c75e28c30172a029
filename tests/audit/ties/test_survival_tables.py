"""Tables whose cells hold a share, its interval and the number at risk, with the names of the columns in words.

The layouts are common practice of reports, no source; all figures are invented.
"""

from __future__ import annotations

import pytest

from .conftest import Asked

FILES = {
    "vocabulary.yaml": """\
factors:
  valve: {title: Valve, role: treatment, levels: [{id: a, title: mechanical}, {id: b, title: biological}]}
  screw: {title: Fixation, role: treatment, levels: [{id: a, title: one screw}, {id: b, title: two screws}]}
outcomes:
  kept:
    {title: kept, construct: survival, strictness: not applicable, basis: seen, threshold: in place, good: yes,
     synonyms: [survival]}
  lost:
    {title: lost, construct: loss, strictness: not applicable, basis: seen, threshold: gone, good: no,
     synonyms: [repeat procedure]}
"""
}
CELLS = (
    "Survival, % (95% CI), at risk\n"
    "                1 year                    10 years\n"
    "Mechanical      94.1 (91.0–96.2), 309     71.8 (66.0–76.8), 140\n"
    "Biological      92.7 (89.5–95.0), 322     64.0 (57.9–69.5), 118",
    "Survival\nValve | 1 year, % (95% CI); at risk | 10 years, % (95% CI); at risk\n"
    "Mechanical | 94.1 (91.0–96.2); 309 | 71.8 (66.0–76.8); 140\n"
    "Biological | 92.7 (89.5–95.0); 322 | 64.0 (57.9–69.5); 118",
    "Survival, % (95% CI) [number at risk]\n | 1 year | 10 years\n"
    "Mechanical | 94.1 (91.0–96.2) [309] | 71.8 (66.0–76.8) [140]\n"
    "Biological | 92.7 (89.5–95.0) [322] | 64.0 (57.9–69.5) [118]",
    "Survival, % (95% CI)/at risk\n                1 year                    10 years\n"
    "Mechanical      94.1 (91.0–96.2)/309     71.8 (66.0–76.8)/140\n"
    "Biological      92.7 (89.5–95.0)/322     64.0 (57.9–69.5)/118",
)
ONE_TIME = (
    "Survival at 10 years: per cent (95% CI), no. at risk\nMechanical: 71.8 (66.0–76.8), 140\n"
    "Biological: 64.0 (57.9–69.5), 118",
    "Survival (%), 95% CI and number at risk at 10 years\nMechanical: 71.8 (66.0 to 76.8), n = 140\n"
    "Biological: 64.0 (57.9 to 69.5), n = 118",
)


def survival(one: int, other: int) -> str:
    return (
        "outcome: kept\nfactor: valve\nknown_at: during\nreference: mechanical\nlevels:\n"
        "  - {level: mechanical, estimate: {kind: survival, at: 10 years, value: 71.8%, interval: 66.0% to 76.8%, "
        f"at_risk: {one}}}}}\n"
        "  - {level: biological, estimate: {kind: survival, at: 10 years, value: 64.0%, interval: 57.9% to 69.5%, "
        f"at_risk: {other}}}}}\nfollow_up: not applicable\n"
    )


@pytest.mark.parametrize("passage", [*CELLS, *ONE_TIME])
def test_each_figure_of_a_cell_has_its_own_words_of_the_heading(open_problems: Asked, passage: str) -> None:
    assert open_problems(passage, survival(140, 118), files=FILES) == []
    found = open_problems(passage, survival(118, 140), files=FILES)
    assert {problem.rule for problem in found} == {"other-level"}


@pytest.mark.parametrize("passage", CELLS)
def test_those_at_risk_at_another_time_are_asked_about(open_problems: Asked, passage: str) -> None:
    found = open_problems(passage, survival(309, 322), files=FILES)
    assert {problem.rule for problem in found} == {"other-time"}


def test_shares_may_be_told_below_the_table(open_problems: Asked) -> None:
    passage = (
        "Valve | 1 year | 10 years\nMechanical | 94.1 (91.0–96.2) | 71.8 (66.0–76.8)\n"
        "Biological | 92.7 (89.5–95.0) | 64.0 (57.9–69.5)\nSurvival, % (95% CI)"
    )
    claim = survival(140, 118).replace(", at_risk: 140", "").replace(", at_risk: 118", "")
    assert open_problems(passage, claim, files=FILES) == []


SCREWS = (
    "                    One screw           Two screws\nTeeth               57                  54\n"
    "Lost                9                   4\n% (95% CI)          15.8 (7.5–27.9)     7.4 (2.1–17.9)",
    "Outcome | One screw (n = 57) | Two screws (n = 54)\nLost, n | 9 | 4\n"
    "Lost, % (95% CI) | 15.8 (7.5–27.9) | 7.4 (2.1–17.9)",
)


@pytest.mark.parametrize("passage", SCREWS)
def test_a_number_in_words_may_begin_the_name_of_a_column(open_problems: Asked, passage: str) -> None:
    levels = ("one screw", "9, total: 57, rate: 15.8%, interval: 7.5% to 27.9%, confidence: 95%"), (
        "two screws", "4, total: 54, rate: 7.4%, interval: 2.1% to 17.9%, confidence: 95%",
    )  # fmt: skip
    for names, rules in ((("one screw", "two screws"), set()), (("two screws", "one screw"), {"other-level"})):
        rows = "".join(
            f"  - {{level: {name}, events: {figures}}}\n" for name, (_, figures) in zip(names, levels, strict=True)
        )
        claim = f"outcome: lost\nfactor: screw\nknown_at: during\nreference: {names[1]}\nlevels:\n{rows}"
        assert {each.rule for each in open_problems(passage, claim, files=FILES)} >= rules
        assert bool(open_problems(passage, claim, files=FILES)) == bool(rules)


@pytest.mark.parametrize(
    "passage",
    [
        "The cumulative incidence of a repeat procedure at 10 years was 18.4% (95% CI 14.9–22.2).",
        "Repeat procedure at 10 years: cumulative incidence 18.4% (95% CI 14.9–22.2)",
    ],
)
def test_a_repeat_procedure_at_a_time_is_no_time_between_two(open_problems: Asked, passage: str) -> None:
    claim = (
        "outcome: lost\nestimate: {kind: cumulative incidence, at: 10 years, value: 18.4%, interval: 14.9% to 22.2%}\n"
        "follow_up: not applicable\n"
    )
    assert open_problems(passage, claim, files=FILES) == []
