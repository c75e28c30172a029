"""What somebody is told on stderr where a verb cannot do its work; the exit code says it to a tool."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path

from ..problems import Problem, as_text, counted


def lacks_compendium(root: Path) -> bool:
    """Says so, and is True, where the folder does not hold the one file that must exist."""
    if (root / "evidence" / "compendium.yaml").is_file():
        return False
    print(
        f"there is no evidence/compendium.yaml in {root}: name the folder that holds evidence/ with --root",
        file=sys.stderr,
    )
    return True


def say_problems(problems: Sequence[Problem], ending: str = "") -> None:
    """Each on its line, then how many of each kind, and the ending."""
    for problem in problems:
        print(as_text(problem), file=sys.stderr)
    print(counted(problems) + ending, file=sys.stderr)
