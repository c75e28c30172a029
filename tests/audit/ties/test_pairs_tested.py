"""The P value of one pair of three levels is no P value of another pair."""

from __future__ import annotations

import pytest

from .conftest import Asked

VOCABULARY = """\
factors:
  f:
    title: Irrigation
    role: treatment
    levels: [{id: a, title: sonic}, {id: b, title: ultrasonic}, {id: c, title: syringe}]
outcomes:
  pain: {title: pain, construct: told, strictness: not applicable, basis: asked, threshold: any, good: no}
"""
COUNTS = "Pain: sonic 7 of 48, ultrasonic 9 of 50, syringe 18 of 49."
PASSAGES = [
    f"{COUNTS} Pairwise tests: sonic v syringe, P = .02; sonic v ultrasonic, P = .79; ultrasonic v syringe, P = .04",
    f"{COUNTS} Sonic against syringe gave P = .02, sonic against ultrasonic P = .79 and ultrasonic against syringe "
    "P = .04.",
    f"{COUNTS}\n sonic vs syringe | P = .02\n sonic vs ultrasonic | P = .79\n ultrasonic vs syringe | P = .04",
    f"{COUNTS} P values: .02 (sonic/syringe), .79 (sonic/ultrasonic), .04 (ultrasonic/syringe).",
    f"{COUNTS} Sonic differed from syringe (P = .02) but not from ultrasonic (P = .79); ultrasonic differed from "
    "syringe (P = .04).",
    f"{COUNTS} The P values of sonic versus syringe, sonic versus ultrasonic and ultrasonic versus syringe were .02, "
    ".79 and .04.",
    f"{COUNTS} The three groups differed (P < .001); sonic and ultrasonic did not (P = .79), whereas sonic differed "
    "from syringe (P = .02) and ultrasonic from syringe (P = .04).",
]
OWN = {"sonic, ultrasonic": ".79", "sonic, syringe": ".02", "ultrasonic, syringe": ".04"}


def _rules(open_problems: Asked, passage: str, pair: str, p: str) -> list[str]:
    claim = (
        "outcome: pain\nfactor: f\nknown_at: during\nreference: syringe\nlevels:\n"
        "  - {level: sonic, events: 7, total: 48}\n  - {level: ultrasonic, events: 9, total: 50}\n"
        f"  - {{level: syringe, events: 18, total: 49}}\ntest: {{between: [{pair}], p: {p}, method: not reported}}"
    )
    return [problem.rule for problem in open_problems(passage, claim, files={"vocabulary.yaml": VOCABULARY})]


@pytest.mark.parametrize("passage", PASSAGES)
@pytest.mark.parametrize("pair", OWN)
def test_a_pair_has_the_p_value_of_its_own(open_problems: Asked, passage: str, pair: str):
    for of, p in OWN.items():
        assert _rules(open_problems, passage, pair, p) == ([] if of == pair else ["other-test"]), (of, p)


@pytest.mark.parametrize(
    "passage",
    [
        "Sonic, ultrasonic and syringe irrigation differed (P = .02). " + COUNTS,
        COUNTS + " The difference between sonic, ultrasonic and syringe had P = .02.",
    ],
)
def test_a_p_value_of_all_three_is_of_no_pair(open_problems: Asked, passage: str):
    assert _rules(open_problems, passage, "sonic, ultrasonic, syringe", ".02") == []
