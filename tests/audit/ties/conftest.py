"""Small compendia with one report, for what a passage says of its numbers."""

from __future__ import annotations

from collections.abc import Callable, Mapping

import pytest
from passageproof.audit.proof import Audit
from passageproof.problems import Problem

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
