"""Workflows: what a stranger's change may do on the hosting site, and whether their steps run here."""

from __future__ import annotations

import re
import subprocess
import sys
from importlib.metadata import requires
from pathlib import Path

import pytest
import yaml
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name
from workflow_steps import OURS, ROOT, STARTED, steps

FILES = sorted([*OURS.glob("*.yml"), *STARTED.glob("*.yml")])


def jobs(path: Path) -> dict[str, dict[str, object]]:
    found = yaml.safe_load(path.read_text("utf-8"))["jobs"]
    assert found
    return found


def named(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()


def test_there_are_workflows_here_and_for_whoever_starts() -> None:
    names = {named(path).rpartition("workflows/")[2] for path in FILES}
    assert names == {"check.yml", "publish.yml", "release.yml", "status.yml", "tests.yml"}


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


def actionlint(*paths: Path) -> subprocess.CompletedProcess[str]:
    """Keys, expressions, events, runners and glob patterns of workflows. It asks nobody, and no other program."""
    linter = Path(sys.executable).with_name("actionlint")
    words = [str(linter), "-no-color", "-shellcheck=", "-pyflakes=", *map(str, paths)]
    return subprocess.run(words, capture_output=True, text=True, timeout=120)


def test_a_linter_for_the_form_of_workflows_finds_nothing() -> None:
    done = actionlint(*FILES)
    assert (done.returncode, done.stdout) == (0, "")


SLIPS = {
    "a key": ("    timeout-minutes: 15", "    timeout_minutes: 15", "timeout_minutes"),
    "an expression": ("${{ github.event.pull_request.base.sha }}", "${{ github.evnt.pull_request.base.sha }}", "evnt"),
    "a brace": ("${{ github.event.pull_request.base.sha }}", "${{ github.event.pull_request.base.sha }", "expression"),
    "a runner": ("ubuntu-24.04", "ubuntu-24.4", "ubuntu-24.4"),
    "an event": ("  pull_request:", "  pull_requests:", "pull_requests"),
    "a right": ("  contents: read", "  contens: read", "contens"),
}


@pytest.mark.parametrize("slip", SLIPS)
def test_that_linter_would_find_a_slip(tmp_path: Path, slip: str) -> None:
    old, new, named_in = SLIPS[slip]
    text = (OURS / "check.yml").read_text("utf-8")
    assert old in text
    (tmp_path / "check.yml").write_text(text.replace(old, new, 1), "utf-8")
    done = actionlint(tmp_path / "check.yml")
    assert done.returncode == 1
    assert named_in in done.stdout


@pytest.mark.parametrize("path", FILES, ids=named)
def test_what_steps_type_is_bash(path: Path) -> None:
    for step in steps(path):
        done = subprocess.run(["bash", "-n", "-c", step.typed], capture_output=True, text=True)
        assert (done.returncode, done.stderr) == (0, ""), step.name


@pytest.mark.parametrize("path", FILES, ids=named)
def test_actions_are_pinned_and_jobs_end(path: Path) -> None:
    text = path.read_text("utf-8")
    used = [(action, said) for action, said in re.findall(r"uses: (\S+)(.*)", text) if not action.startswith("$/")]
    assert all(re.fullmatch(r"actions/[\w-]+@[0-9a-f]{40}", action) for action, _ in used), used
    assert all(re.fullmatch(r" # v\d+\.\d+\.\d+", said) for _, said in used), used
    assert all("uses" in job or isinstance(job["timeout-minutes"], int) for job in jobs(path).values())
    assert text.count("actions/checkout@") == text.count("persist-credentials: false")
    assert "pull_request_target" not in text


@pytest.mark.parametrize("path", FILES, ids=named)
def test_what_has_rights_runs_nothing_of_the_repository(path: Path) -> None:
    whole = yaml.safe_load(path.read_text("utf-8"))
    assert whole["permissions"] == {"contents": "read"}
    assert "secrets." not in path.read_text("utf-8")
    for name, job in jobs(path).items():
        if "write" in str(job.get("permissions")):
            used = {step["uses"].partition("@")[0] for step in job["steps"] if "uses" in step}
            assert used <= {"actions/deploy-pages", "actions/download-artifact"}
            typed = "".join(step.typed for step in steps(path) if step.job == name)
            assert re.findall(r"\b(?:make|python|npm|pip|source)\b|\./|\.ci", typed) == []


@pytest.mark.parametrize("path", FILES, ids=named)
def test_no_expression_stands_in_what_is_typed(path: Path) -> None:
    """Text of an event in a script is run with it; variables are not (GitHub Docs, "Script injections")."""
    assert [step.typed for step in steps(path) if "${{" in step.typed] == []


def test_the_site_is_published_after_the_tests_where_the_program_changed() -> None:
    ours = jobs(OURS / "publish.yml")
    assert ours["tests"]["uses"] == "$/.github/workflows/tests.yml"
    assert ours["build"]["needs"] == ["changed", "tests"]
    assert 'contains(fromJSON(\'["success", "skipped"]\'), needs.tests.result)' in ours["build"]["if"]
    assert ours["publish"]["needs"] == "build"
    # YAML 1.1 reads `on` as true.
    assert set(yaml.safe_load((OURS / "tests.yml").read_text("utf-8"))[True]) == {"workflow_call", "pull_request"}


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


HOSTS_OWN = ("gh ", "jq ", "head -c ", "blob=$(jq", "git ", "echo ", "if ", "mkdir ", "tar ")
"""What a step may type beside words of the Makefile and verbs of the program."""


def test_every_step_is_a_word_of_the_makefile_or_a_verb_of_the_program_or_asks_the_host() -> None:
    targets = set(re.findall(r"^([\w-]+):", (ROOT / "Makefile").read_text("utf-8"), re.MULTILINE)) | {".venv/ready"}
    for path in FILES:
        for step in steps(path):
            first, *rest = step.typed.split()
            if first == "make":
                assert {word for word in rest if "=" not in word} <= targets, step.typed
            elif not step.typed.startswith(HOSTS_OWN):
                assert first in (".venv/bin/python", "python", "npm", ".ci/run", "test"), step.typed


def test_what_a_site_is_built_with_is_the_part_of_the_lock_that_no_test_needs_alone() -> None:
    """Names of the program's own requirements, and of theirs (Core metadata, "Requires-Dist"), each with its hashes."""
    whole, part = (blocks((ROOT / name).read_text("utf-8")) for name in ("requirements.lock", "requirements-site.lock"))
    needed = {"setuptools"}
    waiting = ["passageproof"]
    while waiting:
        for text in requires(waiting.pop()) or ():
            said = Requirement(text)
            name = canonicalize_name(said.name)
            if (said.marker is None or said.marker.evaluate({"extra": ""})) and name not in needed:
                needed.add(name)
                waiting.append(name)
    assert part.keys() == needed
    assert all(whole[name] == text for name, text in part.items())
    assert all("--hash=sha256:" in text for text in whole.values())


def blocks(lock: str) -> dict[str, str]:
    """Each package of a lock with its hashes."""
    found = re.split(r"^(?=[A-Za-z0-9])", lock, flags=re.MULTILINE)
    return {canonicalize_name(re.match(r"[\w.-]+", text)[0]): text for text in found if text.strip()}
