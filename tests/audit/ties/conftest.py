"""Small compendia with one report, for what a passage says of its numbers."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Callable, Mapping

import pytest
from passageproof.problems import Problem
from passageproof.proof.proof import Audit

Asked = Callable[..., list[Problem]]
STUDY = """\
- id: s
  species: human
  design: cohort
  selection: consecutive
  population: {dentition: permanent}
  setting: not reported
  unit: tooth
"""


@pytest.fixture
def open_problems(audited: Callable[..., Audit], report_text: Callable[..., str]) -> Asked:
    """What the check finds in one report: open_problems(passages, claims, study=..., files=...).

    passages: text of `annotation`, or the words of one passage, which is then "p. 2". claims: items of the list; an id
    and a question are added to one that has none, `where: p. 2` and `follow_up: not reported` too.
    """

    def find(passages: str, claims: str, study: str = STUDY, files: Mapping[str, str] | None = None) -> list[Problem]:
        annotation = passages if passages.startswith("[") else f"[p. 2] {passages}"
        entry = (
            "@article{x,\n  author = {Marlow, Ines}, title = {T}, journal = {J}, year = 2019,\n"
            f"  annotation = {{\n{annotation}\n  }}\n}}\n"
        )
        report = report_text("x", claims if claims.startswith("- ") else _item(claims), study)
        found = audited({"claims/x.yaml": report, "sources/x.bib": entry, **(files or {})})
        return [problem for problem in found.problems if problem.is_open]

    return find


def _item(fields: str) -> str:
    lines = ["- id: c", "question: hole"]
    for name, value in (("outcome", "healed"), ("where", "p. 2"), ("follow_up", "not reported")):
        if not any(line.startswith(f"{name}:") for line in fields.splitlines()):
            lines.append(f"{name}: {value}")
    return "\n  ".join([*lines, *fields.strip().splitlines()]) + "\n"


ENDINGS = """\
factors:
  material:
    {title: Material, role: treatment, levels: [{id: mta, title: MTA}, {id: ca, title: hydroxide}]}
outcomes:
  healed:
    {title: healed, construct: success, strictness: strict, basis: film, threshold: normal space, good: yes,
     synonyms: [success, complete healing, successful]}
  healing:
    {title: healed or healing, construct: success, strictness: lenient, basis: film, threshold: smaller, good: yes,
     lenient_of: healed, synonyms: [healed/healing]}
  unhealed: {title: not healed, construct: success, strictness: strict, basis: film, threshold: normal, good: no}
  failed:
    {title: failed, construct: success, strictness: lenient, basis: film, threshold: larger, good: no,
     synonyms: [failure, failures]}
  kept:
    {title: tooth kept, construct: survival, strictness: not applicable, basis: seen, threshold: in place, good: yes,
     synonyms: [survival, survived, retained]}
  lost:
    {title: tooth lost, construct: tooth loss, strictness: not applicable, basis: seen, threshold: gone, good: no,
     synonyms: [extraction, extracted]}
  vital: {title: vital, construct: pulp, strictness: not applicable, basis: test, threshold: any answer, good: yes}
  pain: {title: pain, construct: told, strictness: not applicable, basis: asked, threshold: any, good: no}
  extruded:
    {title: material extruded, construct: mishap, strictness: not applicable, basis: film, threshold: any, good: no}
  fracture: {title: root fracture, construct: mishap, strictness: not applicable, basis: film, threshold: any, good: no}
"""


@pytest.fixture
def problems(audited: Callable[..., Audit], report_text: Callable[..., str]) -> Callable[..., list[Problem]]:
    """What is found about one claim: problems(outcome, passage, more), numbers of the claim in braces."""

    def found(outcome: str, passage: str, more: str = "") -> list[Problem]:
        return list(audited(files(outcome, passage, report_text, more)).problems)

    return found


@pytest.fixture
def rules(problems: Callable[..., list[Problem]]) -> Callable[..., list[str]]:
    """The rules that one claim breaks, found as by `problems`."""
    return lambda *claim: [problem.rule for problem in problems(*claim)]


def files(outcome: str, passage: str, report_text: Callable[..., str], more: str = "") -> dict[str, str]:
    """A compendium of one claim and its passage."""
    marked = re.search(r"\{(?:(\d+) of (\d+)|([\d.]+%))\}", passage)
    assert marked is not None
    events, total, rate = marked.groups()
    rate_line = f"rate: {rate}" if rate else f"events: {events}\ntotal: {total}"
    if rate:
        rate_line += "\nevents: not reported\ntotal: not reported"
    claim = (
        f"id: a\nquestion: hole\noutcome: {outcome}\n{rate_line}\nwhere: p. 1\nfollow_up: not reported\n"
        f"{textwrap.dedent(more)}"
    )
    return one_claim(passage.replace("{", "").replace("}", ""), claim, report_text)


def one_claim(passage: str, claim: str, report_text: Callable[..., str]) -> dict[str, str]:
    """A compendium of one claim, fields as they stand in a file, and its passage."""
    return {
        "vocabulary.yaml": ENDINGS,
        "claims/x.yaml": report_text("x", "- " + textwrap.indent(claim, "  ").lstrip()),
        "sources/x.bib": f"@article{{x,\n  author = {{Marlow, Ines}}, title = {{T}}, journal = {{J}}, year = 2019,\n"
        f"  annotation = {{\n    [p. 1] {passage}\n  }}\n}}\n",
    }


@pytest.fixture
def rules_of(audited: Callable[..., Audit], report_text: Callable[..., str]) -> Callable[..., list[str]]:
    """The rules that one claim breaks: rules_of(passage, claim)."""

    def found(passage: str, claim: str) -> list[str]:
        return [problem.rule for problem in audited(one_claim(passage, claim, report_text)).problems]

    return found


CORNEAS = {
    "vocabulary.yaml": """\
factors:
  cement:
    {title: Cement, role: treatment, levels: [{id: resin, title: resin}, {id: silicate, title: silicate}]}
outcomes:
  clear:
    {title: clear cornea, construct: clarity, strictness: not applicable, basis: seen, threshold: any, good: yes,
     synonyms: [clear]}
  debonded:
    {title: debonded, construct: mishap, strictness: not applicable, basis: seen, threshold: any, good: no,
     synonyms: [debonding]}
"""
}
"""A vocabulary of a trade whose words for events the code does not know."""
