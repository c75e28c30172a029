"""A small compendium around the lines that a test is about."""

from __future__ import annotations

import textwrap
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest
from passageproof.audit.whole import audit, check, find_within_report
from passageproof.problems import Problem, in_order
from passageproof.proof.proof import Audit
from passageproof.reading.evidence import read_evidence
from passageproof.reading.model import Evidence

COMPENDIUM = """\
format: 1
title: A guide
programme: A programme
demonstration: yes
evidence: {date: 2026-10-30, release: 1.0.0}
licences: {text: CC-BY-4.0, data: CC0-1.0}
people: {IM: {name: Ines Marlow, interests: none declared}, TO: {name: Tam Okafor, interests: none declared}}
"""

VOCABULARY = """\
factors:
  size:
    title: Size of the hole
    role: prognostic
    unit: mm
    levels: [{id: small, title: up to 3 mm, range: up to 3 mm}, {id: large, title: over 3 mm, range: over 3 mm}]
  roots:
    title: Number of roots
    role: prognostic
    levels: [{id: one, title: one}, {id: many, title: more than one, synonyms: [two or more]}]
outcomes:
  healed: {title: healed, construct: success, strictness: strict, basis: film, threshold: normal space, good: yes}
  diseased: {title: diseased, construct: success, strictness: strict, basis: film, threshold: normal space, good: no}
  reversed:
    title: failed after healing
    construct: reversal
    strictness: strict
    basis: film
    threshold: a new space
    good: no
    reverses: healed
  kept: {title: kept, construct: survival, strictness: not applicable, basis: seen, threshold: in place, good: yes}
"""

QUESTION = "id: hole\ntitle: There is a hole\n"

STUDY = """\
- id: fenwick
  species: human
  design: cohort
  selection: consecutive
  population: {dentition: permanent}
  setting: {operators: residents}
  unit: tooth
  where: p. 1
"""


def _report_text(key: str, claims: str, study: str = STUDY, top: str = "") -> str:
    """A whole claim file. claims: list items as they stand below `claims:`, at any depth."""
    return (
        f"source: {key}\nread: {{by: IM, on: 2026-02-03, depth: full text}}\n{top}"
        f"studies:\n{textwrap.indent(textwrap.dedent(study).strip(), '  ')}\n"
        f"claims:\n{textwrap.indent(textwrap.dedent(claims).strip(), '  ')}\n"
    )


@pytest.fixture
def report_text() -> Callable[..., str]:
    """A whole claim file as text: report_text(key, claims, study, top)."""
    return _report_text


Write = Callable[..., Path]


@pytest.fixture
def compendium(tmp_path: Path) -> Write:
    """Writes a compendium and gives its root. files: text by path below evidence/, "claims/x.yaml": ..."""

    def write(files: dict[str, str] | None = None, *, only: bool = False) -> Path:
        base = {"compendium.yaml": COMPENDIUM}
        if not only:
            base |= {"vocabulary.yaml": VOCABULARY, "questions/hole.yaml": QUESTION}
        for name, text in (base | (files or {})).items():
            path = tmp_path / "evidence" / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, "utf-8")
        return tmp_path

    return write


Reckon = Callable[..., list[Problem]]


@pytest.fixture
def reckoned(compendium: Write) -> Reckon:
    """What is asked about the figures of one report, whether they are proved or not."""

    def problems(claims: str, study: str = STUDY) -> list[Problem]:
        evidence = read_evidence(compendium({"claims/x.yaml": _report_text("x", claims, study)}))
        assert not evidence.problems, evidence.problems
        return in_order(
            find_within_report(evidence.reports["x"], evidence.vocabulary.outcomes, evidence.vocabulary.units)
        )

    return problems


@pytest.fixture
def asked(reckoned: Reckon) -> Callable[..., list[str]]:
    """The same as texts, "rule: printed"."""
    return lambda claims, study=STUDY: [f"{each.rule}: {each.printed}" for each in reckoned(claims, study)]


@pytest.fixture
def audited(compendium: Write) -> Callable[..., Audit]:
    """The whole audit of a compendium; `check`, which leaves out what only pages show, must find the same."""

    def find(files: Mapping[str, str] | None = None, only: bool = False) -> Audit:
        evidence = read_evidence(compendium(files, only=only))
        found = audit(evidence)
        assert check(evidence).problems == found.problems
        return found

    return find


@pytest.fixture
def evidence_of(compendium: Write) -> Callable[..., Evidence]:
    """The evidence of a compendium."""
    return lambda files=None: read_evidence(compendium(files))
