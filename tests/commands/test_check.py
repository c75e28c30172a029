"""The check as somebody at a terminal, a tool or a pull request meets it."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from passageproof.commands.verbs import main

ROOT = Path(__file__).parent.parent.parent
EXAMPLE = ROOT / "tests" / "example"


@pytest.fixture
def example(tmp_path: Path) -> Path:
    """A copy of the example of the form, to be changed."""
    shutil.copytree(EXAMPLE / "evidence", tmp_path / "guide" / "evidence")
    return tmp_path / "guide"


def change(root: Path, name: str, old: str, new: str) -> None:
    path = root / "evidence" / name
    text = path.read_text("utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), "utf-8")


def make_ask(root: Path) -> None:
    """83% becomes 84% in claim and passage: proved, and not what 39 of 47 gives."""
    change(root, "claims/marlow2019furcal.yaml", "success_rate: 83%", "success_rate: 84%")
    (source,) = (root / "evidence" / "sources").glob("*.bib")
    change(root, f"sources/{source.name}", "(83%)", "(84%)")


def run(*arguments: str, folder: Path = ROOT) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "builder", *arguments], cwd=folder, capture_output=True, text=True, encoding="utf-8",
        env={"PYTHONPATH": str(ROOT), "PATH": ""}, check=False,
    )  # fmt: skip


def test_clean_evidence_ends_with_0_and_the_count(capsys):
    assert main("python -m builder", ["check", "--root", str(EXAMPLE)]) == 0
    out, err = capsys.readouterr()
    assert out.startswith("0 errors, 0 questions; ")
    assert out.count("\n") == 1
    assert err == ""


def test_error_ends_with_1_and_stands_on_its_line(example, capsys):
    change(example, "claims/marlow2019furcal.yaml", "events: 39", "events: 38")
    assert main("python -m builder", ["check", "--root", str(example)]) == 1
    lines = capsys.readouterr().out.splitlines()
    assert lines[0].startswith("evidence/claims/marlow2019furcal.yaml:")
    assert lines[0].endswith("]")
    assert lines[-1].startswith("1 error, 0 questions; ")


def test_a_question_without_a_sheet_for_the_patient_is_told_on_its_line_and_fails_nothing(example, capsys):
    (example / "evidence" / "questions" / "later.yaml").write_text("id: later\ntitle: Later\n", "utf-8")
    told = "`patient` is left out: the sheet of this question says so, and holds no number and no words of yours"
    assert main("python -m builder", ["check", "--root", str(example)]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert lines[0] == f"evidence/questions/later.yaml:1:1: {told} (nothing to mend)"
    assert lines[1].startswith("0 errors, 0 questions; ")
    assert main("python -m builder", ["check", "--root", str(example), "--format", "json"]) == 0
    found = json.loads(capsys.readouterr().out)
    assert found["problems"] == []
    assert found["notes"] == [{"file": "evidence/questions/later.yaml", "line": 1, "column": 1, "message": told}]
    assert main("python -m builder", ["check", "--root", str(example), "--format", "github"]) == 0
    total, line = capsys.readouterr().out.splitlines()
    assert total.startswith("0 errors, 0 questions; ")
    assert line.startswith("::notice file=")
    assert line.endswith(f"evidence/questions/later.yaml,line=1,col=1,title=left out::{told}")


def test_open_question_ends_with_1_and_an_answered_one_with_0(example, capsys):
    make_ask(example)
    assert main("python -m builder", ["check", "--root", str(example)]) == 1
    assert '"84% of 47"' in capsys.readouterr().out
    change(
        example,
        "claims/marlow2019furcal.yaml",
        "    total: 47\n",
        "    total: 47\n    acknowledged: [{rule: percent-impossible, printed: 84% of 47, by: IM, reason: so "
        "printed}]\n",
    )
    code = main("python -m builder", ["check", "--root", str(example)])
    out = capsys.readouterr().out
    assert (code, out.splitlines()[-1].split(";")[0]) == (0, "0 errors, 0 questions, 1 question acknowledged"), out


@pytest.mark.parametrize(
    "arguments",
    [["check", "--root", "nowhere"], ["check", "--formt", "json"], ["check", "--format", "xml"], ["chekc"], []],
    ids=["no compendium", "an unknown option", "an unknown format", "an unknown verb", "no verb"],
)
def test_wrong_call_ends_with_2_and_says_so_on_stderr_alone(arguments):
    result = run(*arguments)
    assert result.returncode == 2
    assert result.stdout == ""
    assert result.stderr
    assert "Traceback" not in result.stderr


def test_anything_wrong_inside_the_compendium_is_1(example, capsys):
    (example / "evidence" / "compendium.yaml").write_text("format: [1\n", "utf-8")
    assert main("python -m builder", ["check", "--root", str(example)]) == 1
    assert "evidence/compendium.yaml:" in capsys.readouterr().out


def test_folder_of_today_is_the_default(example):
    result = run("check", folder=example)
    assert (result.returncode, result.stderr) == (0, "")


def test_json_is_one_object_of_the_public_form(example, capsys):
    make_ask(example)
    change(example, "claims/marlow2019furcal.yaml", "question: root-perforation", "question: root-perforaton")
    assert main("python -m builder", ["check", "--root", str(example), "--format", "json"]) == 1
    answer = json.loads(capsys.readouterr().out)
    assert answer.keys() == {"problems", "figures"}
    assert answer["figures"] == {"quoted": 44, "unproved": 0}
    first, second = answer["problems"]
    for problem in (first, second):
        assert list(problem) == ["file", "line", "column", "rule", "severity", "message", "hint", "acknowledged"]
        assert problem["file"] == "evidence/claims/marlow2019furcal.yaml"
        assert problem["acknowledged"] is None
    assert (first["rule"], first["severity"]) == ("question-unknown", "error")
    assert (second["rule"], second["severity"]) == ("percent-impossible", "ask")
    line = (example / "evidence/claims/marlow2019furcal.yaml").read_text("utf-8").splitlines()[second["line"] - 1]
    assert line[second["column"] - 1 :] == "84%"


def test_annotations_name_files_from_the_working_folder(example):
    make_ask(example)
    result = run("check", "--root", "guide", "--format", "github", folder=example.parent)
    assert result.returncode == 1
    total, line = result.stdout.splitlines()
    assert total.startswith("::warning title=0 errors%2C 1 question::0 errors, 1 question; ")
    assert line.startswith("::warning file=guide/evidence/claims/marlow2019furcal.yaml,line=")
    assert "%25" in line


def test_check_loads_neither_numbers_nor_templates_nor_the_site_generator():
    code = (
        "import sys; from passageproof.commands.verbs import main; main('check', ['check', '--root', sys.argv[1]]); "
        "print(sorted({name.split('.')[0] for name in sys.modules} & {'numpy', 'scipy', 'jinja2', 'mkdocs', "
        "'markdown'}))"
    )
    result = subprocess.run(
        [sys.executable, "-c", code, str(EXAMPLE)], cwd=ROOT, capture_output=True, text=True, check=True
    )
    assert result.stdout.splitlines()[-1] == "[]"


def test_listener_that_is_gone_gets_no_traceback():
    reading, writing = os.pipe()
    os.close(reading)
    result = subprocess.run(
        [sys.executable, "-m", "builder", "check", "--root", str(EXAMPLE)],
        cwd=ROOT, stdout=writing, stderr=subprocess.PIPE, text=True,
    )  # fmt: skip
    os.close(writing)
    assert (result.returncode, result.stderr) == (1, "")


def test_letters_of_any_language_reach_a_terminal_that_knows_none(example):
    change(
        example,
        "claims/marlow2019furcal.yaml",
        "question: root-perforation",
        "question: root-perforation\n    факт: да",
    )
    result = subprocess.run(
        [sys.executable, "-m", "builder", "check", "--root", str(example)], cwd=ROOT, capture_output=True,
        env={"PYTHONIOENCODING": "ascii", "PATH": ""}, check=False,
    )  # fmt: skip
    assert result.returncode == 1
    assert "факт" in result.stdout.decode("utf-8")
    assert result.stderr == b""
