"""What a reviewer is told: ten remarks at most, the total first, and a summary with the words behind each figure."""

from __future__ import annotations

import re
import shutil
import subprocess
from pathlib import Path

import pytest
from passageproof.commands.verbs import main

EXAMPLE = Path(__file__).parent.parent / "example" / "evidence"
CLAIMS = "evidence/claims/marlow2019furcal.yaml"


def git(folder: Path, *words: str) -> None:
    named = ("git", "-c", "user.name=A", "-c", "user.email=a@example.org", *words)
    subprocess.run(named, cwd=folder, check=True, capture_output=True)


@pytest.fixture
def root(tmp_path: Path) -> Path:
    """A compendium that git keeps, one of whose questions was answered long ago."""
    shutil.copytree(EXAMPLE, tmp_path / "guide/evidence")
    root = tmp_path / "guide"
    retype(root, CLAIMS, "    success_rate: 83%\n    events: 39\n",
           "    success_rate: 84%\n    events: 39\n    acknowledged: [{rule: percent-impossible, printed: 84% of 47, "
           "by: IM, reason: so printed}]\n")  # fmt: skip
    retype(root, "evidence/sources/furcal.bib", "39 of 47 teeth (83%)", "39 of 47 teeth (84%)")
    git(root, "init", "-q", "-b", "main")
    git(root, "add", ".")
    git(root, "commit", "-q", "-m", "first")
    return root


def retype(root: Path, file: str, old: str, new: str) -> None:
    path = root / file
    text = path.read_text("utf-8")
    assert old in text, (old, text)
    path.write_text(text.replace(old, new, 1), "utf-8")


def told(root: Path, capsys: pytest.CaptureFixture[str], *words: str) -> list[str]:
    capsys.readouterr()
    main("x", ["check", "--root", str(root), *words])
    return capsys.readouterr().out.splitlines()


def many_faults(root: Path) -> None:
    """Twelve fields that the form does not know, each an error."""
    retype(root, CLAIMS, "    total: 47\n", "    total: 47\n" + "".join(f"    unknown_{n:02}: x\n" for n in range(12)))


def test_where_nothing_is_open_the_total_stands_alone(root: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (line,) = told(root, capsys, "--format", "github")
    assert re.fullmatch(r"0 errors, 0 questions, 1 question acknowledged; \d+ figures quoted, 0 without proof", line)


def test_ten_remarks_at_most_and_the_first_is_the_total(root: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """GitHub Docs, "Workflow commands": ten annotations of a kind are shown for one step."""
    many_faults(root)
    lines = told(root, capsys, "--format", "github", "--since", "HEAD")
    assert len(lines) == 10
    assert lines[0].startswith("::error title=12 errors%2C 0 questions")
    assert lines[0].endswith("9 of them stand on their lines, all of them on the page of this run")
    assert all(line.startswith("::error file=") for line in lines[1:])
    assert sum("unknown_" in line for line in told(root, capsys)) == 12


def test_what_was_answered_in_a_file_that_nobody_touched_is_not_repeated(
    root: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    retype(root, "evidence/claims/arden2023recall.yaml", "    events: 31\n", "    events: 31\n    note: once more\n")
    assert not any("84%25 of 47" in line for line in told(root, capsys, "--format", "github", "--since", "HEAD"))
    retype(root, CLAIMS, "    total: 47\n", "    total: 47\n    note: once more\n")
    lines = told(root, capsys, "--format", "github", "--since", "HEAD")
    assert [line.startswith("::notice file=") for line in lines if "84%25 of 47" in line] == [True]


def test_what_the_change_touches_is_told_first(root: Path, capsys: pytest.CaptureFixture[str]) -> None:
    many_faults(root)
    git(root, "commit", "-q", "-a", "-m", "with faults")
    retype(root, "evidence/claims/arden2023recall.yaml", "    events: 31\n", "    events: 31\n    strange: x\n")
    lines = told(root, capsys, "--format", "github", "--since", "HEAD")
    assert "strange" in lines[1]
    assert "unknown_" in lines[2]


def test_the_summary_has_the_words_that_prove_each_figure(root: Path, capsys: pytest.CaptureFixture[str]) -> None:
    retype(root, CLAIMS, "    total: 47\n", "    total: 47\n    note: once more\n")
    text = "\n".join(told(root, capsys, "--format", "markdown", "--since", "HEAD"))
    assert text.startswith("# What the check says\n\n**0 errors, 0 questions, 1 question acknowledged**; ")
    assert "## marlow2019furcal: Furcal repairs in a teaching clinic" in text
    assert "Read by Ines Marlow on 2026-02-03 (full text). Re-read by Tam Okafor on 2026-02-10." in text
    assert "- **overall**, p. 46, Table 2: “healed: **39** of **47** teeth (**84%**)”" in text
    assert "  - tied by these words: events (event); success\\_rate (event)" in text
    assert "  - only located, what they count is known from who read it: total" in text
    assert re.search(r'Asked about:\n\n- .*"84% of 47".*: answered: so printed', text)
    assert "arden2023recall" not in text


def test_who_has_still_to_read_is_named(root: Path, capsys: pytest.CaptureFixture[str]) -> None:
    retype(root, "evidence/claims/arden2023recall.yaml", "    events: 31\n", "    events: 31\n    note: once more\n")
    text = "\n".join(told(root, capsys, "--format", "markdown", "--since", "HEAD"))
    assert (
        "Read by Tam Okafor on 2026-03-01 (full text). **Re-read by nobody yet**: a second person has still to." in text
    )
    whole = "\n".join(told(root, capsys, "--format", "markdown"))
    assert "2 reports; 1 of them read by a second person.\n\nRe-read by nobody yet: arden2023recall" in whole


def test_the_summary_holds_every_problem(root: Path, capsys: pytest.CaptureFixture[str]) -> None:
    many_faults(root)
    text = "\n".join(told(root, capsys, "--format", "markdown", "--since", "HEAD"))
    assert len(set(re.findall(r"unknown\\_\d\d", text))) == 12
    assert "## To mend or to answer" in text


def test_a_passage_that_changed_touches_its_report(root: Path, capsys: pytest.CaptureFixture[str]) -> None:
    retype(root, "evidence/sources/furcal.bib", "healed: 39 of 47", "Healed: 39 of 47")
    assert any(
        line.startswith("## marlow2019furcal") for line in told(root, capsys, "--format", "markdown", "--since", "HEAD")
    )


@pytest.mark.parametrize("file", ["mkdocs.yml", ".github/workflows/check.yml", "builder/check.py", "Makefile"])
def test_code_is_marked_as_no_evidence(root: Path, file: str, capsys: pytest.CaptureFixture[str]) -> None:
    (root / file).parent.mkdir(parents=True, exist_ok=True)
    (root / file).write_text("# new\n", "utf-8")
    text = "\n".join(told(root, capsys, "--format", "markdown", "--since", "HEAD"))
    assert f"**Code, not evidence:** `{file}`." in text
    assert "No report is touched." in text


def test_words_for_readers_are_no_code(root: Path, capsys: pytest.CaptureFixture[str]) -> None:
    for file in ("README.md", "CITATION.cff", "releases/v1.3.0.md"):
        (root / file).parent.mkdir(exist_ok=True)
        (root / file).write_text("new\n", "utf-8")
    assert not any(
        "Code, not evidence" in line for line in told(root, capsys, "--format", "markdown", "--since", "HEAD")
    )


def test_a_folder_is_compared_as_a_revision_is(root: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    shutil.copytree(root, tmp_path / "before")
    retype(root, CLAIMS, "    total: 47\n", "    total: 47\n    note: once more\n")
    by_folder = told(root, capsys, "--format", "markdown", "--since", str(tmp_path / "before"))
    assert by_folder == told(root, capsys, "--format", "markdown", "--since", "HEAD")


@pytest.mark.parametrize("form", ["github", "markdown"])
def test_what_cannot_be_compared_with_is_2(root: Path, form: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main("x", ["check", "--root", str(root), "--format", form, "--since", "nowhere"]) == 2
    assert "nowhere" in capsys.readouterr().err


def test_what_evidence_says_is_no_markup(root: Path, capsys: pytest.CaptureFixture[str]) -> None:
    retype(root, "evidence/sources/furcal.bib", "healed: 39 of 47", "<img src=x> @all healed: 39 of 47")
    text = "\n".join(told(root, capsys, "--format", "markdown", "--since", "HEAD"))
    assert "<img" not in text.replace("\\<img", "")
    assert " @all" not in text
