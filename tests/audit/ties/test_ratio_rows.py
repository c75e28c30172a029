"""The ratio of another row of a table, or of another comparison of a list, and its right twin.

Layouts of several factors in one model by common practice, no source; all figures are invented.
"""

from __future__ import annotations

import pytest

from .conftest import Asked

FILES = {
    "vocabulary.yaml": """\
factors:
  crown: {title: Crown, role: prognostic, levels: [{id: none, title: no crown}, {id: crown, title: crown}]}
  filling:
    {title: Length of root filling, role: prognostic, levels: [{id: short, title: short}, {id: flush, title: flush}]}
  lesion:
    title: Apical lesion
    role: prognostic
    levels:
      - {id: "yes", title: lesion, synonyms: [present, "yes"]}
      - {id: "no", title: no lesion, synonyms: [absent, "no"]}
  sealer:
    title: Sealer
    role: treatment
    levels: [{id: epoxy, title: epoxy resin}, {id: zoe, title: ZOE}, {id: mta, title: tricalcium silicate}]
  group: {title: Tooth group, role: prognostic, levels: [{id: molar, title: molars}, {id: front, title: front teeth}]}
  age:
    title: Age
    role: prognostic
    unit: year
    levels: [{id: young, title: under 40, range: under 40 years}, {id: old, title: from 40, range: from 40 years}]
outcomes:
  failed:
    {title: failed, construct: failure, strictness: strict, basis: film, threshold: any, good: no, synonyms: [failure]}
"""
}
CROWN, FILLING, LESION = (
    ("crown", "no crown", "crown"),
    ("filling", "short", "flush"),
    ("lesion", "lesion", "no lesion"),
)
EPOXY, SILICATE = ("sealer", "epoxy resin", "ZOE"), ("sealer", "tricalcium silicate", "ZOE")


def ratio(of: tuple[str, str, str], value: str, adjusted_for: str = "[age]", more: str = "") -> str:
    """A claim of one odds ratio of failure. of: its factor, level and reference."""
    factor, level, reference = of
    contrast = (
        f"{{measure: odds ratio, event_is: bad, level: {level}, reference: {reference}, value: {value}, "
        f"adjusted_for: {adjusted_for}}}"
    )
    return (
        f"outcome: failed\nfactor: {factor}\nknown_at: before\nreference: {reference}\ncontrast: {contrast}\n{more}"
    )  # fmt: skip


PRINTED = [
    "No crown vs. crown 2.64; short vs. flush 1.39.",
    "No crown vs crown had an OR of failure of 2.64 and short vs flush one of 1.39.",
    "Odds ratios of failure: no crown vs crown, 2.64; short vs flush, 1.39; sex 1.12.",
    "The odds ratios of failure were 2.64 for no crown vs crown and 1.39 for short vs flush.",
    "Odds ratios of failure: 2.64 (no crown vs crown), 1.39 (short vs flush).",
    "Odds ratios of failure for no crown vs crown and short vs flush were 2.64 and 1.39, respectively.",
    "OR of failure: no crown (vs crown) 2.64 (95% CI 1.20-5.81); short (vs flush) 1.39 (95% CI 0.80-2.41).",
    "Failure went with no crown (OR 2.64, reference: crown) and with a short filling (OR 1.39, reference: flush).",
    "Odds ratios of failure: crown 1 (reference), no crown 2.64; flush 1 (reference), short 1.39.",
    "Compared with a crown, no crown gave an OR of failure of 2.64. Compared with flush, short gave 1.39.",
    "OR of failure\nNo crown vs. crown | 2.64\nShort vs. flush | 1.39",
    "Factor | OR (95% CI) | P\nNo crown vs crown | 2.64 (1.20 to 5.81) | .016\n"
    "Short vs flush | 1.39 (0.80 to 2.41) | .24",
    "Factor | OR of failure\nCrown | 1 (ref)\nNo crown | 2.64\nFlush | Reference\nShort | 1.39",
    "Factor | OR of failure | 95% CI\nRestoration | |\nCrown | 1.00 |\nNo crown | 2.64 | 1.20-5.81\n"
    "Length | |\nFlush | 1.00 |\nShort | 1.39 | 0.80-2.41",
    "Variable        OR      95% CI\nCrown\n  Yes           1\n  No            2.64    1.20-5.81\n"
    "Length of root filling\n  Flush         1\n  Short         1.39    0.80-2.41",
    "Variable | Univariable OR | Multivariable OR\nNo crown vs crown | 2.90 | 2.64\nShort vs flush | 1.51 | 1.39",
    "Predictor | Level | aOR of failure\nCrown | no crown | 2.64\n | crown | 1.00\n"
    "Length of root filling | short | 1.39\n | flush | 1.00",
    "| No crown vs crown | Short vs flush\nOR of failure | 2.64 | 1.39",
    "OR of failure:\nNo crown vs crown: 2.64\nShort vs flush: 1.39",
    "OR of failure\nNo crown (ref. crown): 2.64\nShort (ref. flush): 1.39",
    "No crown vs crown\nOR: 2.64\n95% CI: 1.20 to 5.81\nShort vs flush\nOR: 1.39\n95% CI: 0.80 to 2.41",
]


@pytest.mark.parametrize("passage", PRINTED)
def test_the_ratio_of_another_factor_is_asked_about(passage: str, open_problems: Asked) -> None:
    for of, own, other in ((CROWN, "2.64", "1.39"), (FILLING, "1.39", "2.64")):
        assert open_problems(passage, ratio(of, own), files=FILES) == []
        found = open_problems(passage, ratio(of, other), files=FILES)
        assert [problem.severity for problem in found] == ["ask"]
        assert found[0].rule in ("other-row", "ratio-direction")


@pytest.mark.parametrize(
    ("passage", "of", "own", "other"),
    [
        ("Odds ratios against ZOE: epoxy resin 1.39; tricalcium silicate 2.64.", EPOXY, "1.39", "2.64"),
        ("Odds ratios against ZOE: epoxy resin 1.39; tricalcium silicate 2.64.", SILICATE, "2.64", "1.39"),
        ("Women vs men 2.64; short vs flush 1.39; diabetes, yes vs no 1.88.", FILLING, "1.39", "1.88"),
        (
            "Factor | aOR of failure\nSmoking, yes vs no | 2.64\nApical lesion, yes vs no | 3.10",
            LESION, "3.10", "2.64",
        ),
        (
            "Factor | Level | aOR (95% CI)\nApical lesion | absent | 1\n | present | 3.10 (1.61-5.97)\n"
            "Smoking | no | 1\n | yes | 2.64 (1.20-5.81)",
            LESION, "3.10", "2.64",
        ),
    ],
)  # fmt: skip
def test_one_of_several_levels_or_a_factor_unknown_to_the_vocabulary(
    passage: str, of: tuple[str, str, str], own: str, other: str, open_problems: Asked
) -> None:
    assert open_problems(passage, ratio(of, own), files=FILES) == []
    assert [problem.severity for problem in open_problems(passage, ratio(of, other), files=FILES)] == ["ask"]


@pytest.mark.parametrize(
    "passage",
    [
        "Odds ratios of failure: age (per 10 years) 1.12; short vs flush 1.39.",
        "Failure went with age (OR 1.12 per 10 years) and with a short rather than flush filling (OR 1.39).",
        "Variable | aOR of failure (95% CI)\nAge (per 10 years) | 1.12 (0.94-1.33)\nShort vs flush | 1.39 (0.80-2.41)",
    ],
)
def test_the_ratio_of_a_measured_factor_is_its_own(passage: str, open_problems: Asked) -> None:
    for value, expected in (("1.12", []), ("1.39", ["other-row"])):
        contrast = f"{{measure: odds ratio, event_is: bad, per: 10 years, value: {value}, adjusted_for: not reported}}"
        claim = f"outcome: failed\nfactor: age\nknown_at: before\nreference: not reported\ncontrast: {contrast}"
        assert [problem.rule for problem in open_problems(passage, claim, files=FILES)] == expected


@pytest.mark.parametrize(
    "passage",
    [
        "Short vs flush | OR\nFailure | 1.39\nPain | 2.64",
        "Outcome: OR, short vs flush\nFailure: 1.39\nPain: 2.64",
        "Short vs flush | OR of failure\nCrude | 1.51\nModel 1 | 1.44\nModel 2 | 1.39",
        "Short vs flush: OR 1.51. With lesion vs no lesion (OR 3.10) in the model, it was 1.39.",
        "OR of failure, short vs flush: crude 1.51; with a lesion vs no lesion in the model 1.22; with age too 1.39.",
        "OR of failure, short vs flush: 1.51 at 1 year and 1.39 at 2 years.",
        "Time | OR of failure, short vs flush\n1 year | 1.51\n2 years | 1.39",
        "Group | OR of failure, short vs flush\nAll | 1.39\nMolars | 1.61\nFront teeth | 1.12",
        "Study | OR of failure (short vs flush)\nAhlm 2001 | 1.51\nBerg 2004 | 1.22\nPooled | 1.39",
        "Filling | OR\nUnderfilled vs flush | 1.39\nLesion vs no lesion | 3.10",
        "Length of root filling | OR of failure\nToo short | 1.39\nToo long vs short | 1.12",
        "Short vs flush: failure OR 1.39; pain OR 2.64; swelling vs none OR 1.2",
    ],
)
def test_rows_of_one_comparison_are_its_own(passage: str, open_problems: Asked) -> None:
    assert open_problems(passage, ratio(FILLING, "1.39"), files=FILES) == []


def test_the_ratio_of_a_subgroup_has_its_own_row(open_problems: Asked) -> None:
    passage = "OR of failure, short vs flush\nAll: 1.39\nMolars: 1.61\nLesion vs no lesion, molars: 3.10"
    within = "within: [{factor: group, level: molars}]"
    assert open_problems(passage, ratio(FILLING, "1.61", more=within), files=FILES) == []


def test_both_rows_stand_in_the_question(open_problems: Asked) -> None:
    passage = "Factor | OR of failure\nNo crown vs crown | 2.64\nShort vs flush | 1.39"
    (found,) = open_problems(passage, ratio(FILLING, "2.64"), files=FILES)
    assert 'has it beside "No crown vs crown", the claim for "short" against "flush"; which is meant?' in found.message
    assert 'type the ratio beside "Short vs flush"' in found.hint
