"""check: does everything agree? Prints each problem on its line, and says with the exit code whether any is open."""

from __future__ import annotations

import argparse
import os
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from ..problems import as_texts, counted, json_text
from .refused import lacks_compendium

if TYPE_CHECKING:
    from collections.abc import Sequence

    from ..audit.whole import CheckResult
    from ..proof.kept_proofs import KeptProofs
    from ..reading.files import FoundFile
    from ..reading.model import Evidence

FORMATS = ("text", "json", "github", "markdown")


def add_options(parser: argparse.ArgumentParser) -> None:
    """What `check` takes beside the folder."""
    parser.add_argument(
        "--format", choices=FORMATS, default="text", help="text to read, json for tools, github for a pull request"
    )
    parser.add_argument(
        "--since",
        metavar="BASE",
        default="",
        help="for github and markdown: what the change is compared with, a revision of git or a folder",
    )
    parser.add_argument(
        "--fresh", action="store_true", help="prove every report, those too that say the same as the last time"
    )


def run(options: argparse.Namespace) -> int:
    """0: nothing to mend; 1: an error, or a question nobody answered; 2: no compendium there."""
    root = Path(options.root)
    if lacks_compendium(root):
        return 2
    if options.format == "markdown":
        return _summary(root, options.since)
    changed = None
    if options.since and options.format == "github":
        changed = _changed(root, options.since)
        if changed is None:
            return 2
    # A workflow decides what is published, and whoever reads its answer cannot know what its machine kept.
    result, kept = checked(root, is_fresh=options.fresh or bool(os.environ.get("CI")))
    print(shown(result, options.format, folder_of(root), changed), end="")
    if kept is not None:
        kept.keep()
    return 0 if result.passes else 1


def checked(root: Path, *, is_fresh: bool) -> tuple[CheckResult, KeptProofs | None]:
    """What is told of the evidence below root, and the proofs to keep for the next time; None where is_fresh."""
    from ..reading.evidence import evidence_of
    from ..reading.files import find_files
    from ..reading.site_settings import find_in_settings

    problems = list(find_in_settings(root))
    files = find_files(root, problems)
    evidence = evidence_of(files, problems, meanwhile=_import_audit)
    _read[:] = [evidence]

    from ..audit.whole import check

    kept = None if is_fresh else _kept_proofs(root, files)
    return check(evidence, kept=kept), kept


def _kept_proofs(root: Path, files: Sequence[FoundFile]) -> KeptProofs | None:
    from ..proof.kept_proofs import KeptProofs, file_for

    file = file_for(root)
    texts = {each.file: each.text for each in files if each.text is not None}
    return KeptProofs(file, texts) if file is not None else None


def _import_audit() -> None:
    """The sources may have a process of their own, which is not yet done when all else is read."""
    from ..audit import whole  # noqa: F401


_read: list[Evidence] = []
"""What was read last, kept until the process ends: to let go of each value takes 2 % of a check."""


def _changed(root: Path, base: str) -> frozenset[str] | None:
    """Files of the change; None, and a word on stderr, where there is nothing to compare with."""
    from ..impact.bases import NoBase
    from ..review.changed_files import changed_since

    try:
        return changed_since(root, base)
    except NoBase as none:
        print(none, file=sys.stderr)
        return None


def _summary(root: Path, base: str) -> int:
    """What a reviewer looks at, with the proofs of each report of the change."""
    from ..audit.whole import audit
    from ..reading.evidence import read_evidence
    from ..review.summary import as_markdown

    changed = _changed(root, base) if base else None
    if base and changed is None:
        return 2
    evidence = read_evidence(root)
    outcome = audit(evidence)
    print(as_markdown(evidence, outcome, changed), end="")
    return 0 if outcome.passes else 1


def shown(result: CheckResult, form: str, folder: str, changed: frozenset[str] | None = None) -> str:
    """The answer in one of FORMATS but for a review.

    folder: from the working folder to the root, for the lines of a pull request. changed: files of that, where known.
    """
    figures = f"{result.quoted} figures quoted, {result.unproved} without proof"
    if form == "github":
        from ..review.annotations import remarks

        told = remarks(result.problems, result.notes, figures, folder, changed)
        return "".join(f"{each}\n" for each in told)
    if form == "json":
        return json_text(result.problems, result.quoted, result.unproved, result.notes) + "\n"
    lines = as_texts(result.problems)
    lines += [f"{note.position}: {note.message} (nothing to mend)" for note in result.notes]
    lines.append(f"{counted(result.problems)}; {figures}")
    return "\n".join(lines) + "\n"


def folder_of(root: Path) -> str:
    """The path from the working folder to the root with "/", "" where they are one."""
    path = os.path.relpath(root).replace(os.sep, "/")
    return "" if path == "." else path
