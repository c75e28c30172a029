"""What `impact` answers whoever types it."""

from __future__ import annotations

import json
import shutil
import subprocess
from pathlib import Path

import pytest
from passageproof.commands.verbs import main

EXAMPLE = Path(__file__).parent.parent / "example" / "evidence"
QUESTION = "evidence/questions/root-perforation.yaml"


def git(folder: Path, *words: str) -> None:
    named = ("-c", "user.name=A", "-c", "user.email=a@example.org", "-c", "init.defaultBranch=main")
    subprocess.run(["git", *named, *words], cwd=folder, check=True, capture_output=True)


@pytest.fixture
def kept(tmp_path: Path) -> Path:
    """A compendium that git keeps, in a folder of a repository."""
    root = tmp_path / "repository" / "guide"
    shutil.copytree(EXAMPLE, root / "evidence")
    git(root.parent, "init")
    git(root.parent, "add", ".")
    git(root.parent, "commit", "-m", "first")
    return root


def retype(root: Path, file: str, old: str, new: str) -> None:
    path = root / file
    text = path.read_text("utf-8")
    assert old in text
    path.write_text(text.replace(old, new), "utf-8")


def asked(root: Path, *words: str) -> int:
    return main("x", ["impact", *words, "--root", str(root)])


def question(root: Path) -> str:
    return next((root / "evidence" / "questions").glob("*.yaml")).relative_to(root).as_posix()


def test_nothing_moved_is_said(kept, capsys) -> None:
    assert asked(kept, "HEAD") == 0
    assert "Nothing moved" in capsys.readouterr().out


def test_a_revision_and_a_folder_of_the_same_bytes_give_the_same(kept, tmp_path, capsys) -> None:
    shutil.copytree(kept, tmp_path / "as-it-was")
    retype(kept, question(kept), "title: ", "title: Now ")
    assert asked(kept, "HEAD") == 0
    by_revision = capsys.readouterr().out
    assert asked(kept, str(tmp_path / "as-it-was")) == 0
    by_folder = capsys.readouterr().out
    assert by_revision.splitlines()[1:] == by_folder.splitlines()[1:]
    assert "changed: Now " in by_revision


def test_the_json_says_what_was_and_what_is(kept, capsys) -> None:
    retype(kept, question(kept), "title: ", "title: Now ")
    assert asked(kept, "main", "--format", "json") == 0
    told = json.loads(capsys.readouterr().out)
    assert told["base"] == "main"
    assert told["moved"] is True
    assert told["figures"] == []
    assert all(page["state"] == "changed" for page in told["pages"])
    assert all(line["before"] != line["after"] for page in told["pages"] for line in page["lines"])


@pytest.mark.parametrize("base", ["no-such-revision", "--help-me", "HEAD:guide", ""])
def test_what_is_no_base_is_told_in_one_sentence(kept, base, capsys) -> None:
    code = main("x", ["impact", "--root", str(kept), "--", base])
    told = capsys.readouterr()
    assert code == 2
    assert not told.out
    assert "neither a folder that holds evidence/ nor a revision" in told.err
    assert len(told.err.splitlines()) == 1


def test_a_revision_before_there_was_evidence(kept, capsys) -> None:
    git(kept.parent, "checkout", "--orphan", "bare")
    git(kept.parent, "rm", "-r", "--cached", ".")
    git(kept.parent, "commit", "--allow-empty", "-m", "nothing yet")
    assert asked(kept, "bare") == 2
    assert '"bare" holds no' in capsys.readouterr().err


def test_outside_of_git_a_folder_is_asked_for(tmp_path, capsys) -> None:
    root = tmp_path / "loose"
    shutil.copytree(EXAMPLE, root / "evidence")
    assert asked(root, "main") == 2
    assert "is in no repository of git: name a folder" in capsys.readouterr().err


@pytest.mark.parametrize("is_before", [False, True])
def test_what_does_not_pass_its_check_is_not_compared(kept, tmp_path, is_before, capsys) -> None:
    as_it_was = tmp_path / "as-it-was"
    shutil.copytree(kept, as_it_was)
    retype(as_it_was if is_before else kept, question(kept), "title: ", "titel: ")
    assert asked(kept, str(as_it_was)) == 1
    told = capsys.readouterr()
    assert not told.out
    assert "evidence that passes its check" in told.err
    assert ("as-it-was" in told.err) == is_before


def test_what_evidence_says_is_no_markup_in_a_pull_request(kept, capsys) -> None:
    retype(kept, question(kept), "title: ", "title: <b>@all</b> ![x](https://example.org/a.png) ")
    assert asked(kept, "HEAD") == 0
    told = capsys.readouterr().out
    assert "<b>" not in told
    assert "![" not in told
    assert " @all" not in told


def test_the_working_copy_and_the_revisions_are_as_they_were(kept) -> None:
    def state() -> bytes:
        done = subprocess.run(["git", "status", "--porcelain"], cwd=kept, capture_output=True, check=True)
        return done.stdout + b"".join(path.read_bytes() for path in sorted(kept.rglob("*.yaml")))

    retype(kept, question(kept), "title: ", "title: Now ")
    before = state()
    assert asked(kept, "HEAD") == 0
    assert state() == before
