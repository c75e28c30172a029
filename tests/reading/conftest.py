"""A folder with evidence as its author typed it, and what the check says of it."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from passageproof.problems import as_text
from passageproof.reading.evidence import read_evidence
from passageproof.reading.model import Evidence

COMPENDIUM = """\
format: 1
title: A guide
programme: An invented programme
demonstration: yes
evidence: {date: 2026-10-30, release: 1.0.0}
people: {IM: {name: Ines Marlow}}
"""

Read = Callable[[dict[str, str | bytes]], Evidence]
ProblemsOfFiles = Callable[[dict[str, str | bytes]], list[str]]


@pytest.fixture
def read(tmp_path: Path) -> Read:
    """Writes files, their paths counted from evidence/, and reads them beside a sound compendium.yaml."""

    def write_and_read(files: dict[str, str | bytes]) -> Evidence:
        for name, text in ({"compendium.yaml": COMPENDIUM} | files).items():
            path = tmp_path / "evidence" / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(text if isinstance(text, bytes) else text.encode())
        return read_evidence(tmp_path)

    return write_and_read


@pytest.fixture
def problems_of(read: Read) -> ProblemsOfFiles:
    """The problems of such files as the user sees them."""
    return lambda files: [as_text(problem) for problem in read(files).problems]


@pytest.fixture
def of_claim(problems_of: ProblemsOfFiles) -> Callable[[str], list[str]]:
    """The problems of one claim, whose lines from the eleventh on are given; without the name of the file in front."""
    head = """\
source: a2001word
read: {by: IM, on: 2026-02-03, depth: full text}
studies:
  - id: a-study
claims:
  - id: a-claim
    question: a-question
    outcome: an-outcome
    where: p. 1
    follow_up: not reported
"""

    def problems_of_text(lines: str) -> list[str]:
        file = "claims/a2001word.yaml"
        found = problems_of({file: head + "".join(f"    {line}\n" for line in lines.rstrip("\n").split("\n"))})
        return [line.removeprefix(f"evidence/{file}:") for line in found]

    return problems_of_text


@pytest.fixture
def of_entry(problems_of: ProblemsOfFiles) -> Callable[[str], list[str]]:
    """The problems of one .bib file, without the name of the file in front."""

    def problems_of_text(text: str) -> list[str]:
        return [line.removeprefix("evidence/sources/all.bib:") for line in problems_of({"sources/all.bib": text})]

    return problems_of_text
