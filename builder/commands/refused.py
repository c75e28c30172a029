"""What somebody is told on stderr where a verb cannot do its work; the exit code says it to a tool."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path

from ..problems import Problem, as_texts, counted
from ..reading.files import missing_compendium


def lacks_compendium(root: Path) -> bool:
    """Says so, and is True, where the folder does not hold the one file that must exist."""
    reason = missing_compendium(root)
    if reason:
        print(f"{reason} with --root", file=sys.stderr)
    return bool(reason)


def say_problems(problems: Sequence[Problem], ending: str = "") -> None:
    """Each on its line, then how many of each kind, and the ending."""
    for text in as_texts(problems):
        print(text, file=sys.stderr)
    print(counted(problems) + ending, file=sys.stderr)
