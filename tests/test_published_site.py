"""The published figures through the front door: each question answered where its message says, then a guide built."""

from __future__ import annotations

import json
import re
import shutil
import subprocess
import sys
from collections import defaultdict
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent


def run(*words: str) -> subprocess.CompletedProcess[str]:
    """A command as a person types it."""
    command = [sys.executable, "-m", "builder", *words]
    return subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)


def asked(root: Path) -> list[dict[str, str]]:
    """The questions that nobody has answered yet; there is nothing to mend."""
    problems = json.loads(run("check", "--root", str(root), "--format", "json").stdout)["problems"]
    assert [problem for problem in problems if problem["severity"] == "error"] == []
    return [problem for problem in problems if problem["acknowledged"] is None]


def answer(root: Path, questions: list[dict[str, str]]) -> None:
    """Paste each block that a message prints into the claim or study it names, with somebody's sign and a reason."""
    pasted: dict[tuple[str, str], list[str]] = defaultdict(list)
    for question in questions:
        place = re.search(r"answer in (?:claim|study) (\S+) of (\S+):", question["hint"])
        block = re.search(r"- \{rule: .*\}", question["hint"])
        assert place is not None, question
        assert block is not None, question
        item = block[0].replace("YOUR INITIALS", "PF").replace("WHY IT IS SO", "printed so; the report was asked")
        pasted[(place[2], place[1])].append(item)
    for (file, name), items in pasted.items():
        path = root / file
        head = re.compile(rf"^(\s*)- id: {re.escape(name)}$", re.MULTILINE)
        text = path.read_text("utf-8")
        found = head.search(text)
        assert found is not None, (file, name)
        lines = "".join(f"\n{found[1]}    {item}" for item in items)
        path.write_text(text[: found.end()] + f"\n{found[1]}  acknowledged:{lines}" + text[found.end() :], "utf-8")


@pytest.fixture(scope="module")
def root(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("published")
    shutil.copytree(ROOT / "tests" / "published" / "evidence", folder / "evidence")
    return folder


def test_unanswered_questions_keep_the_site_back_and_answers_build_it(root: Path) -> None:
    questions = asked(root)
    assert len(questions) >= 15
    refused = run("build", "--root", str(root))
    assert (refused.returncode, (root / "site").exists()) == (1, False)
    answer(root, questions)
    assert asked(root) == []
    built = run("build", "--root", str(root))
    assert (built.returncode, built.stderr.count("\n"), " pages\n" in built.stderr) == (0, 1, True)
    # Mente et al. 2010, J Endod 36:208-213 (abstract): 18 of 21 teeth healed, 26 treated.
    page = (root / "site" / "sources" / "mente2010" / "index.html").read_text("utf-8")
    assert 'data-figure="mente2010/' in page
    assert "printed so; the report was asked" in page


def test_the_retracted_report_shows_no_number(root: Path) -> None:
    if not (root / "site").exists():
        answer(root, asked(root))
        assert run("build", "--root", str(root)).returncode == 0
    rows = (root / "site" / "data" / "figures.jsonl").read_text("utf-8")
    assert "wang2022retracted/" not in rows
    assert "mente2010/" in rows
