"""Cases of print: a passage as a journal has it, and what somebody typed from it, rightly or wrongly.

A file of cases has `vocabularies`, texts by name, and `cases`, a list of {case, vocabulary, passages, study, claims},
the last three texts as they stand in evidence/; a bare list of cases whose vocabularies are texts is read too. A wrong
case has `kind`, `wrong` (the id of the claim that means another thing than the passage, or "study") and `why`. All
figures are invented, and all passages are written for this corpus.

    python tests/meaning/cases.py FILE [--kind KIND] [--case NAME]     what the check says of each
"""

from __future__ import annotations

import argparse
import re
import sys
import tempfile
import textwrap
from collections import Counter
from collections.abc import Mapping
from pathlib import Path
from typing import NamedTuple

import yaml
from passageproof.audit.whole import check
from passageproof.problems import Problem, as_text
from passageproof.reading.evidence import read_evidence

CLAIMS = "evidence/claims/x.yaml"
COMPENDIUM = """\
format: 1
title: Cases of print
programme: Fenwick Graduate Endodontics
demonstration: yes
evidence: {date: 2026-10-30, release: 1.0.0}
licences: {text: CC-BY-4.0, data: CC0-1.0}
repository: https://example.org/cases
people: {IM: {name: Ines Marlow, interests: none declared}, TO: {name: Tam Okafor, interests: none declared}}
review: {questions: 24 months, status: 1 month}
"""


class Answer(NamedTuple):
    """What the check says of one case."""

    errors: list[Problem]
    asks: list[Problem]
    is_at_the_claim: bool
    """Whether one of them stands at the claim (or study) that is named wrong, or names its lines."""

    @property
    def state(self) -> str:
        """error, asked or clean."""
        return "error" if self.errors else "asked" if self.asks else "clean"


def read_cases(path: Path) -> list[dict[str, str]]:
    """The cases of one file."""
    read = yaml.load(path.read_text("utf-8"), Loader=yaml.CBaseLoader)
    if isinstance(read, list):
        return read
    return [{**case, "vocabulary": read["vocabularies"][case["vocabulary"]]} for case in read["cases"]]


def write_case(case: Mapping[str, str], root: Path) -> Path:
    """The compendium around one case, below root."""
    claims = "\n".join(_with_question(claim) for claim in _items(case["claims"]))
    study = textwrap.dedent(case["study"]).strip().removeprefix("- ")
    study = "- " + textwrap.indent(textwrap.dedent(study), "  ").strip()
    annotation = textwrap.indent(case["passages"].strip("\n"), "    ")
    files = {
        "compendium.yaml": COMPENDIUM,
        "vocabulary.yaml": case["vocabulary"],
        "questions/hole.yaml": "id: hole\ntitle: There is a hole\n",
        "claims/x.yaml": (
            "source: x\nread: {by: IM, on: 2026-02-03, depth: full text}\n"
            f"studies:\n{textwrap.indent(study, '  ')}\nclaims:\n{textwrap.indent(claims, '  ')}\n"
        ),
        "sources/x.bib": (
            "@article{x,\n  author = {Marlow, Ines}, title = {A series}, journal = {Annals}, year = 2019,\n"
            f"  annotation = {{\n{annotation}\n  }}\n}}\n"
        ),
    }
    for name, text in files.items():
        path = root / "evidence" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, "utf-8")
    return root


def _items(text: str) -> list[str]:
    """The items of a YAML list as typed."""
    lines = textwrap.dedent(text).strip("\n").splitlines()
    items: list[list[str]] = []
    for line in lines:
        if line.startswith("- "):
            items.append([])
        items[-1].append(line)
    return ["\n".join(item) for item in items]


def _with_question(claim: str) -> str:
    if re.search(r"(?m)^(- |  )\{?.*?\bquestion:", claim.partition("levels:")[0]):
        return claim
    if claim.startswith("- {"):
        return claim.replace("- {", "- {question: hole, ", 1)
    return claim.replace("- ", "- question: hole\n  ", 1)


def answer(case: Mapping[str, str]) -> Answer:
    """What the check says of a case."""
    with tempfile.TemporaryDirectory() as folder:
        root = write_case(case, Path(folder))
        problems = [problem for problem in check(read_evidence(root)).problems if problem.is_open]
        lines = (root / CLAIMS).read_text("utf-8").splitlines()
    errors = [problem for problem in problems if problem.severity == "error"]
    asks = [problem for problem in problems if problem.severity == "ask"]
    return Answer(errors, asks, any(_is_at(problem, case.get("wrong", ""), lines) for problem in problems))


def _is_at(problem: Problem, wrong: str, lines: list[str]) -> bool:
    if problem.position.file != CLAIMS:
        return False
    if wrong == "study":  # a claim about animals as people is wrong as its study is
        return True
    begins = next(number for number, line in enumerate(lines, start=1) if line.startswith("claims:"))
    if problem.position.line < begins:
        return False
    own = ""
    for line in lines[begins : problem.position.line]:
        if re.match(r"  - ", line):
            own = ""
        found = re.match(r"  (?:- \{?|  )(?:.*?[{,]\s*)?id: \"?([\w-]+)", line)
        own = own or (found[1] if found else "")
    # `question` is written before `id`: the item may begin a line above it.
    if not own:
        found = re.match(r"    id: \"?([\w-]+)", lines[problem.position.line])
        own = found[1] if found else ""
    return own == wrong


def main(arguments: list[str]) -> int:
    """Print what the check says of each case, and how many of each kind."""
    parser = argparse.ArgumentParser()
    parser.add_argument("file", type=Path)
    parser.add_argument("--kind", default="")
    parser.add_argument("--case", default="")
    chosen = parser.parse_args(arguments)
    states: dict[str, Counter[str]] = {}
    for case in read_cases(chosen.file):
        kind = case.get("kind", "right")
        if (chosen.kind and kind != chosen.kind) or chosen.case not in case["case"]:
            continue
        found = answer(case)
        state = found.state
        if kind != "right" and state != "clean" and not found.is_at_the_claim:
            state = "elsewhere"
        states.setdefault(kind, Counter())[state] += 1
        print(f"{state:10}{kind:20}{case['case']}")
        for problem in (*found.errors, *found.asks) if kind == "right" or chosen.case else ():
            print(textwrap.indent(as_text(problem._replace(hint="")), "    "))
        if kind != "right" and state in ("clean", "elsewhere"):
            print(f"    {case['why']}")
    print()
    for kind, found_states in sorted(states.items()):
        print(f"{kind:20}" + "  ".join(f"{state} {count}" for state, count in sorted(found_states.items())))
    total = sum((Counter(found_states) for found_states in states.values()), Counter())
    print(f"{'all':20}" + "  ".join(f"{state} {count}" for state, count in sorted(total.items())))
    return 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
