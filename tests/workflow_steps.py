"""Workflows run here: each `run:` step as the hosting site would run it, in a clean tree, with the event played."""

from __future__ import annotations

import os
import shutil
import stat
import subprocess
import sys
from pathlib import Path
from typing import NamedTuple

import yaml

ROOT = Path(__file__).parent.parent
OURS = ROOT / ".github" / "workflows"
STARTED = ROOT / "builder" / "writing" / "compendium" / "dot-github" / "workflows"

# What fetches from a registry: the environment of this tree stands in for what they would make.
FETCHES = ("python -m pip install", "npm ci")


class Step(NamedTuple):
    """One step that types something."""

    job: str
    name: str
    typed: str
    env: dict[str, str]
    is_bash: bool
    """Run with pipefail, as a step that names bash is; else by `bash -e` alone."""


def steps(path: Path) -> list[Step]:
    """What a workflow types, in order; uploads and deployments are the host's."""
    whole = yaml.safe_load(path.read_text("utf-8"))
    return [
        Step(job, str(step.get("name", step["run"])), step["run"], step.get("env", {}), step.get("shell") == "bash")
        for job, said in whole["jobs"].items()
        for step in said.get("steps", [])
        if "run" in step
    ]


def clean_tree(folder: Path) -> Path:
    """All files that git keeps or would, as they are now, in a repository of its own, with the environment of this."""
    names = subprocess.run(
        ["git", "ls-files", "-zco", "--exclude-standard"], cwd=ROOT, capture_output=True, check=True, text=True
    ).stdout
    for name in filter(None, names.split("\0")):
        if (ROOT / name).is_file():
            (folder / name).parent.mkdir(parents=True, exist_ok=True)
            shutil.copy(ROOT / name, folder / name)
    _with_environment(folder)
    _committed(folder)
    return folder


def started_tree(folder: Path) -> Path:
    """What `new` writes, in a repository of its own."""
    subprocess.run([sys.executable, "-m", "passageproof", "new", str(folder)], check=True, capture_output=True)
    _committed(folder)
    return folder


def _with_environment(folder: Path) -> None:
    # By these make knows whether an environment is old. That of this tree must never be made anew for another one.
    for name in ("requirements.lock", "requirements-site.lock", "pyproject.toml", "package-lock.json"):
        os.utime(folder / name, (0, 0))
    assert Path(sys.prefix, "ready").is_file()
    (folder / ".venv").symlink_to(sys.prefix)
    if (ROOT / "node_modules").is_dir():
        (folder / "node_modules").symlink_to(ROOT / "node_modules")


def _committed(folder: Path) -> None:
    git(folder, "init", "-q", "-b", "main")
    (folder / ".git/info/exclude").write_text(".venv\nnode_modules\n", "utf-8")
    git(folder, "add", ".")
    git(folder, "commit", "-q", "-m", "as it is")


def git(folder: Path, *words: str) -> str:
    """What git says."""
    named = ["git", "-c", "user.name=A", "-c", "user.email=a@example.org", *words]
    return subprocess.run(named, cwd=folder, capture_output=True, text=True, check=True).stdout


class Host:
    """Plays the host: files that steps write for it, and its own program `gh`, which only notes what it is asked."""

    def __init__(self, folder: Path, answers: dict[str, str] | None = None, **given: str) -> None:
        """answers: what `gh` prints, by a word of what it is asked; "fails" for an error. given: variables."""
        folder.mkdir()
        self.summary, self.output, self.asked = folder / "summary", folder / "output", folder / "asked"
        programs = folder / "bin"
        programs.mkdir()
        for path in (self.summary, self.output, self.asked):
            path.touch()
        cases = "".join(
            f"  *'{word}'*) {'exit 1' if said == 'fails' else f'echo {said!r}'};;\n"
            for word, said in (answers or {}).items()
        )
        self._program(
            programs / "gh",
            f'#!/bin/bash\n{{ echo "gh $*"; case "$*" in *--input*) cat;; esac; }} >> {self.asked}\n'
            # A file that is kept with a release: "release download TAG --pattern NAME --dir DIR".
            'case "$*" in "release download"*) cp "$GH_KEPT/$5" "$7";; esac\n'
            f'case "$*" in\n{cases}  *) true;;\nesac\n',
        )
        self._env = {
            "PATH": f"{programs}:{Path(sys.executable).parent}:/usr/bin:/bin",
            "HOME": str(folder),
            "GITHUB_STEP_SUMMARY": str(self.summary),
            "GITHUB_OUTPUT": str(self.output),
            "LC_ALL": "C.UTF-8",
            # No step may ask the network from a test.
            "https_proxy": "http://127.0.0.1:9",
            **given,
        }

    def run(self, step: Step, tree: Path) -> subprocess.CompletedProcess[str]:
        """Runs one step there; variables of the event stand in for its expressions."""
        flags = ["-eo", "pipefail"] if step.is_bash else ["-e"]
        return subprocess.run(
            ["bash", "--noprofile", "--norc", *flags, "-c", step.typed],
            cwd=tree, env={**os.environ, **self._env} | self._said(step), capture_output=True, text=True, timeout=600,
        )  # fmt: skip

    def _said(self, step: Step) -> dict[str, str]:
        """What the step itself sets, where it is no expression."""
        return {name: value for name, value in step.env.items() if "${{" not in str(value)}

    @staticmethod
    def _program(path: Path, text: str) -> None:
        path.write_text(text, "utf-8")
        path.chmod(path.stat().st_mode | stat.S_IXUSR)
