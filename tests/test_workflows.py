"""Workflows: what a stranger's change may do on the hosting site, and whether their steps run here."""

from __future__ import annotations

import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
import yaml

ROOT = Path(__file__).parent.parent
OURS = ROOT / ".github" / "workflows"
STARTED = ROOT / "builder" / "writing" / "compendium" / "dot-github" / "workflows"
FILES = sorted([*OURS.glob("*.yml"), *STARTED.glob("*.yml")])


def jobs(path: Path) -> dict[str, dict[str, object]]:
    found = yaml.safe_load(path.read_text("utf-8"))["jobs"]
    assert found
    return found


def named(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()


def test_there_are_workflows_here_and_for_whoever_starts() -> None:
    names = {named(path).rpartition("workflows/")[2] for path in FILES}
    assert names == {"check.yml", "publish.yml", "tests.yml"}


def test_a_linter_for_the_safety_of_workflows_finds_nothing() -> None:
    """zizmor's rules, the pedantic ones too: pins, rights, credentials left behind, text of strangers in scripts."""
    linter = Path(sys.executable).with_name("zizmor")
    words = [str(linter), "--offline", "--no-config", "--persona", "pedantic", "--format", "plain", *map(str, FILES)]
    done = subprocess.run(words, capture_output=True, text=True, timeout=120)
    assert done.returncode == 0, done.stdout
    assert "No findings to report" in done.stdout + done.stderr


def test_the_linter_would_find_something(tmp_path: Path) -> None:
    text = (OURS / "check.yml").read_text("utf-8")
    loose = tmp_path / "check.yml"
    loose.write_text(re.sub(r"actions/checkout@[0-9a-f]{40}", "actions/checkout@v4", text), "utf-8")
    linter = Path(sys.executable).with_name("zizmor")
    words = [str(linter), "--offline", "--no-config", "--format", "plain", str(loose)]
    done = subprocess.run(words, capture_output=True, text=True, timeout=120)
    assert done.returncode != 0
    assert "unpinned-uses" in done.stdout


@pytest.mark.parametrize("path", FILES, ids=named)
def test_actions_are_pinned_and_jobs_end(path: Path) -> None:
    text = path.read_text("utf-8")
    used = re.findall(r"uses: (\S+)(.*)", text)
    assert all(re.fullmatch(r"actions/[\w-]+@[0-9a-f]{40}", action) for action, _ in used), used
    assert all(re.fullmatch(r" # v\d+\.\d+\.\d+", said) for _, said in used), used
    assert all(isinstance(job["timeout-minutes"], int) for job in jobs(path).values())
    assert text.count("actions/checkout@") == text.count("persist-credentials: false")
    assert "pull_request_target" not in text


@pytest.mark.parametrize("path", FILES, ids=named)
def test_what_has_rights_runs_nothing_of_the_repository(path: Path) -> None:
    whole = yaml.safe_load(path.read_text("utf-8"))
    assert whole["permissions"] == {"contents": "read"}
    assert "secrets." not in path.read_text("utf-8")
    for job in jobs(path).values():
        if "write" in str(job.get("permissions")):
            assert [step for step in job["steps"] if "run" in step] == []
            assert [step["uses"].partition("@")[0] for step in job["steps"]] == ["actions/deploy-pages"]


FORMS = sorted(
    [*(ROOT / ".github" / "ISSUE_TEMPLATE").glob("*.yml"), *(STARTED.parent / "ISSUE_TEMPLATE").glob("*.yml")]
)


@pytest.mark.parametrize("path", FORMS, ids=named)
def test_forms_ask_what_the_hosting_site_can_show(path: Path) -> None:
    """GitHub's own syntax for issue forms: `name`, `description`, `body`; ids once; a kind it knows, from memory."""
    form = yaml.safe_load(path.read_text("utf-8"))
    assert set(form) == {"name", "description", "title", "body"}
    ids = [item["id"] for item in form["body"] if item["type"] != "markdown"]
    assert len(ids) == len(set(ids)) > 0
    assert {item["type"] for item in form["body"]} <= {"markdown", "input", "textarea", "checkboxes"}
    assert all(item["attributes"].get("label") for item in form["body"] if item["type"] != "markdown")


def test_here_and_for_whoever_starts_the_same_is_asked() -> None:
    texts = [path.read_text("utf-8") for path in FORMS]
    assert len(FORMS) == 4
    assert texts[:2] == texts[2:]


def steps(path: Path) -> list[str]:
    """What the workflow types, in order."""
    return [step["run"] for job in jobs(path).values() for step in job["steps"] if "run" in step]


def test_the_steps_of_a_check_run_here(tmp_path: Path) -> None:
    """In a repository of its own, with the environment of this one in the place of the one that it would make."""
    clone = tmp_path / "clone"
    for name in ("evidence", "site_src"):
        shutil.copytree(ROOT / name, clone / name)
    shutil.copy(ROOT / "mkdocs.yml", clone)
    for words in (["init", "-q"], ["add", "."], ["commit", "-q", "-m", "as it is"]):
        subprocess.run(["git", "-c", "user.name=A", "-c", "user.email=a@example.org", *words], cwd=clone, check=True)
    summary = tmp_path / "summary.md"
    own = {"GITHUB_STEP_SUMMARY": str(summary), "BASE": "HEAD", "PATH": "/usr/bin:/bin", "HOME": str(tmp_path)}
    for typed in steps(OURS / "check.yml"):
        words = typed.replace(".venv/bin/python -m builder", f"{sys.executable} -m passageproof")
        if words.startswith("make .venv"):
            continue
        words = words.replace("make site", f"{sys.executable} -m passageproof build")
        done = subprocess.run(
            ["bash", "-euo", "pipefail", "-c", words], cwd=clone, env=own, capture_output=True, text=True, timeout=300
        )
        assert done.returncode == 0, (typed, done.stdout[-2000:], done.stderr[-2000:])
    assert (clone / "site" / "index.html").is_file()
    assert "What moves since" in summary.read_text("utf-8")


def test_every_step_but_that_of_the_browser_is_a_word_of_the_makefile_or_the_program() -> None:
    targets = set(re.findall(r"^([\w-]+):", (ROOT / "Makefile").read_text("utf-8"), re.MULTILINE)) | {".venv/ready"}
    for path in FILES:
        for typed in steps(path):
            first, *rest = typed.split()
            if first == "make":
                assert rest[0] in targets, typed
            else:
                assert first in (".venv/bin/python", "python", "npm", ".ci/run", "test"), typed
