"""The evidence of this project's own site, for tests: read by its build alone, so that a fault in it is told there."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from passageproof.build import Before, compose
from passageproof.problems import as_text
from passageproof.reading.model import Evidence

ROOT = Path(__file__).parent.parent


@cache
def demo_evidence(root: Path = ROOT) -> Evidence:
    """What the last build of a root read; fails with the lines that `check` prints where it was refused."""
    return _built(root).evidence or _refused(root)


def before_demo(root: Path = ROOT) -> Before:
    """What a build remembers of a root."""
    return _built(root)


@cache
def _built(root: Path) -> Before:
    before = Before()
    compose(root, before)
    return before


def _refused(root: Path) -> Evidence:
    _, problems = compose(root)
    raise AssertionError("\n".join(as_text(problem) for problem in problems if problem.is_open))
