"""Honest claims from invented reports, printed in a dozen ways: nothing is found, and a wrong digit is."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest
import yaml
from passageproof.proof.proof import Audit

VOCABULARY = """\
factors:
  size:
    title: Size
    role: prognostic
    unit: mm
    levels: [{id: small, title: under 8 mm, range: under 8 mm}, {id: large, title: from 8 mm, range: from 8 mm}]
  lesion:
    title: Lesion
    role: prognostic
    levels: [{id: "yes", title: lesion, synonyms: [lesion present]},
             {id: "no", title: no lesion, synonyms: [lesion absent]}]
  material: {title: Material, role: treatment, levels: [{id: mta, title: MTA}, {id: ca, title: hydroxide}]}
  age:
    title: Age
    role: prognostic
    unit: year
    levels: [{id: young, title: up to 65 years, range: up to 65 years},
             {id: old, title: over 65 years, range: over 65 years}]
  operator:
    title: Operator
    role: prognostic
    levels: [{id: s, title: treated by students}, {id: e, title: treated by specialists}]
outcomes:
  healed: {title: healed, construct: success, strictness: strict, basis: film, threshold: normal, good: yes}
  failed: {title: failed, construct: success, strictness: lenient, basis: film, threshold: new space, good: no}
  unhealed: {title: not healed, construct: success, strictness: strict, basis: film, threshold: normal, good: no}
  healing: {title: healed or healing, construct: success, strictness: lenient, basis: film, threshold: less, good: yes}
  kept: {title: kept, construct: survival, strictness: not applicable, basis: seen, threshold: in place, good: yes}
"""


HEAD = (
    "id: s, species: human, design: cohort, selection: consecutive, population: {dentition: permanent}, "
    "setting: not reported, unit: tooth"
)
CASES = yaml.load((Path(__file__).parent / "ways_of_print.yaml").read_text("utf-8"), Loader=yaml.CBaseLoader)
WAYS = {case["way"]: case for case in CASES}


def files(way: dict[str, str], report_text: Callable[..., str]) -> dict[str, str]:
    """The compendium around one way of printing."""
    claims = re.sub(r"(?m)^(\s*- \{?)id: ", r"\1question: hole, id: ", way["claims"])
    claims = re.sub(r"(?m)^(\s*)- question: hole, id: ([\w-]+)$", r"\1- question: hole\n\1  id: \2", claims)
    passages = "\n".join(f"    {line}" for line in way["passages"].splitlines())
    return {
        "vocabulary.yaml": VOCABULARY,
        "claims/x.yaml": report_text("x", claims, "- " + way["study"].replace("HEAD", HEAD)),
        "sources/x.bib": f"@article{{x,\n  author = {{Marlow, Ines}}, title = {{T}}, journal = {{J}}, year = 2019,\n"
        f"  annotation = {{\n{passages}\n  }}\n}}\n",
    }


@pytest.mark.parametrize("name", WAYS)
def test_honest_claim_is_proved_and_nothing_is_asked(
    audited: Callable[..., Audit], report_text: Callable[..., str], name: str
) -> None:
    audit = audited(files(WAYS[name], report_text))
    assert [problem.message for problem in audit.problems] == []
    assert audit.unproved == 0 < len(audit.proofs)


@pytest.mark.parametrize("name", WAYS)
def test_wrong_digit_in_the_passage_is_found(
    audited: Callable[..., Audit], report_text: Callable[..., str], name: str
) -> None:
    typed = files(WAYS[name], report_text)
    lines = typed["sources/x.bib"].splitlines(keepends=True)
    slipped = []
    for proof in audited(typed).proofs.values():
        _, line, column = proof.position
        before = lines[line - 1]
        if not before[column - 1].isdigit():  # a number in words
            continue
        digit = str((int(before[column - 1]) + 4) % 10)
        lines[line - 1] = before[: column - 1] + digit + before[column:]
        if audited({**typed, "sources/x.bib": "".join(lines)}).passes:
            slipped.append(f"{proof.id}: {proof.text}")
        lines[line - 1] = before
    assert slipped == []
