"""A difference printed without its sign. Wordings: common practice of reports, no source; figures are invented."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal

import pytest
from passageproof.proof.proof import Audit

VOCABULARY = """\
factors:
  material:
    {title: Material, role: treatment, levels: [{id: mta, title: MTA}, {id: ca, title: calcium hydroxide}]}
outcomes:
  score: {title: pain score, construct: told, strictness: not applicable, basis: asked, threshold: none, good: no}
"""
CLAIM = """\
- id: c
  question: hole
  outcome: score
  factor: material
  known_at: during
  reference: calcium hydroxide
  levels:
    - {{level: MTA, direction: not stated, stated: words only}}
  contrast:
    {{measure: mean difference, level: MTA, reference: calcium hydroxide, value: {0}, adjusted_for: not reported,
     unit: points{1}}}
  where: p. 2
  follow_up: not reported
"""
LESS = (
    "Pain was reduced by 1.2 points with MTA compared with calcium hydroxide (95% CI 0.4 to 2.0).",
    "The pain score was 1.2 points lower (95% CI 0.4 to 2.0) with MTA than with calcium hydroxide.",
    "MTA reduced the pain score by 1.2 points (95% CI 0.4 to 2.0) compared with calcium hydroxide.",
    "Compared with calcium hydroxide, MTA was followed by a reduction of the score of 1.2 points (95% CI, 0.4-2.0).",
    "The mean pain score was lower by 1.2 points (95% CI 0.4 to 2.0) in the MTA than in the calcium hydroxide group.",
)
Found = Callable[[str, str, str], Audit]


@pytest.fixture
def found(audited: Callable[..., Audit], report_text: Callable[..., str]) -> Found:
    def find(passage: str, value: str, more: str = "") -> Audit:
        entry = (
            "@article{x,\n  author = {Marlow, Ines}, title = {T}, journal = {J}, year = 2019,\n"
            f"  annotation = {{\n[p. 2] {passage}\n  }}\n}}\n"
        )
        report = report_text("x", CLAIM.format(value, more))
        return audited({"vocabulary.yaml": VOCABULARY, "claims/x.yaml": report, "sources/x.bib": entry})

    return find


@pytest.mark.parametrize("passage", LESS)
def test_words_for_less_prove_a_negative_difference(found: Found, passage: str) -> None:
    audit = found(passage, "-1.2", ", interval: -2.0 to -0.4")
    assert [problem for problem in audit.problems if problem.is_open] == []
    shown = {id_.rpartition("contrast/")[2]: proof for id_, proof in audit.proofs.items() if "contrast/" in id_}
    assert {name: (proof.value, proof.text) for name, proof in shown.items() if "confidence" not in name} == {
        "value": (Decimal("-1.2"), "−1.2"),
        "interval/low": (Decimal("-2.0"), "−2.0"),
        "interval/high": (Decimal("-0.4"), "−0.4"),
    }


@pytest.mark.parametrize(
    "passage",
    [
        "Pain was increased by 1.2 points with MTA compared with calcium hydroxide.",
        "Pain differed by 1.2 points between MTA and calcium hydroxide.",
    ],
)
def test_a_minus_that_no_words_tell_is_not_in_the_passage(found: Found, passage: str) -> None:
    rules = {problem.rule for problem in found(passage, "-1.2", "").problems if problem.is_open}
    assert "figure-not-in-passage" in rules
