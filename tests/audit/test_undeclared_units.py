"""A unit that nobody declared is told once where it stands; nothing else is asked because of it."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest
from passageproof.audit.whole import audit
from passageproof.problems import as_text
from passageproof.reading.evidence import read_evidence
from passageproof.writing.starting import compendium_files

OTHER_TRADE = Path(__file__).parent.parent / "other_trade"


def told(root: Path) -> list[str]:
    return [as_text(problem) for problem in audit(read_evidence(root)).problems]


def test_a_trade_that_has_not_declared_its_units_is_told_of_each_study_and_of_nothing_else(tmp_path: Path) -> None:
    shutil.copytree(OTHER_TRADE, tmp_path, dirs_exist_ok=True)
    vocabulary = tmp_path / "evidence" / "vocabulary.yaml"
    text = vocabulary.read_text("utf-8")
    vocabulary.write_text(text[: text.index("units:")] + text[text.index("factors:") :], "utf-8")
    expected = [
        f"evidence/claims/{file.name}:{number}:"
        for file in sorted((tmp_path / "evidence" / "claims").glob("*.yaml"))
        for number, line in enumerate(file.read_text("utf-8").splitlines(), 1)
        if line.startswith("    unit: ")
    ]
    assert len(expected) == 7
    problems = told(tmp_path)
    assert [re.match(r"[^:]+:\d+:", problem)[0] for problem in problems] == expected
    assert [problem for problem in problems if "[not-in-list]" not in problem] == []


@pytest.mark.parametrize("unit", ["person", "visitor", "visits", "3"])
def test_the_example_of_a_new_compendium_with_another_unit_has_one_problem(tmp_path: Path, unit: str) -> None:
    for name, text in compendium_files().items():
        if name.startswith("evidence/"):
            path = tmp_path / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text.replace("unit: patient", f"unit: {unit}"), "utf-8")
    (problem,) = told(tmp_path)
    assert f'"{unit}" is not one of: ' in problem
