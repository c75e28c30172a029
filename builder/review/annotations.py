"""The answer of the check as remarks on the lines of a change: a hosting site shows ten, so the first is the total."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence

from ..problems import Note, Problem, as_annotation, counted

MOST = 10
"""So many remarks of one step the page of a change shows (GitHub Docs, "Workflow commands", limits of annotations)."""


def remarks(
    problems: Sequence[Problem], notes: Sequence[Note], figures: str, folder: str, changed: Collection[str] | None
) -> Iterator[str]:
    """Workflow commands, one a line. What is open in files of the change comes first, errors before questions.

    figures: how many were quoted and not proved, in words. folder: from the working folder to the root. changed: files
    of the change from the root, None where that is not known; a question that somebody answered is told of these alone.
    """
    still_open = [problem for problem in problems if problem.is_open]
    answered = [problem for problem in problems if not problem.is_open and changed and problem.position.file in changed]
    total = f"{counted(problems)}; {figures}"
    if still_open:
        kind = "error" if any(problem.severity == "error" for problem in still_open) else "warning"
        shown = "each stands on its line"
        if len(still_open) > MOST - 1:
            shown = f"{MOST - 1} of them stand on their lines, all of them on the page of this run"
        title = counted(problems).replace(",", "%2C")
        yield f"::{kind} title={title}::{total}: {shown}"
    else:
        yield total
    still_open.sort(key=lambda problem: (not _is_in(problem, changed), problem.severity != "error"))
    told: list[Problem | Note] = [*still_open, *notes, *answered]
    for each in told[: MOST - bool(still_open)]:
        yield as_annotation(each, folder)


def _is_in(problem: Problem, changed: Collection[str] | None) -> bool:
    return changed is None or problem.position.file in changed
