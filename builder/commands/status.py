"""status: every report with a DOI is looked up, and status.yaml says since when it stands as it does."""

from __future__ import annotations

import argparse
import datetime
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from .refused import lacks_compendium, say_problems

if TYPE_CHECKING:
    from ..outside.standings import Asks, Looked
    from ..reading.model import Evidence

_NEEDED = ("evidence/compendium.yaml", "evidence/status.yaml")


def add_options(parser: argparse.ArgumentParser) -> None:
    """What `status` takes beside the folder."""
    parser.add_argument(
        "--contact", metavar="ADDRESS", required=True, help="electronic mail of whoever answers for these questions"
    )
    parser.add_argument(
        "--format", choices=("markdown", "json"), default="markdown", help="to read in a pull request, or for tools"
    )
    parser.add_argument("--service", metavar="URL", help="whom to ask (Crossref's public interface)")
    parser.add_argument("--keep", metavar="DIR", help="where answers are kept for the next run (the user's own cache)")


def run(options: argparse.Namespace) -> int:
    """0: every report with a DOI was checked; 1: one was not, or nothing could be written; 2: no compendium there, or
    whom to ask or to write to cannot be."""
    root = Path(options.root)
    if lacks_compendium(root):
        return 2
    from ..reading.evidence import read_evidence

    evidence = read_evidence(root)
    faults = [problem for problem in evidence.problems if problem.position.file in _NEEDED]
    if faults or evidence.compendium is None:
        say_problems(faults, ": mend these first; nobody was asked")
        return 1
    if evidence.compendium.demonstration:
        _say([], options.format)
        print("the reports of a demonstration are invented: nobody is asked about them", file=sys.stderr)
        return 0
    from ..outside.answers_kept import AnswersKept, usual_folder
    from ..outside.asking import SERVICE, Asker, is_contact, is_service

    service = options.service or SERVICE
    if not is_contact(options.contact):
        print(f'"{options.contact}" is not an address of electronic mail', file=sys.stderr)
        return 2
    if not is_service(service):
        print(f'"{service}" does not begin with https://', file=sys.stderr)
        return 2
    kept = AnswersKept(Path(options.keep) if options.keep else usual_folder())
    return _renew(root, evidence, Asker(options.contact, service, kept), options.format)


def _renew(root: Path, evidence: Evidence, asks: Asks, form: str) -> int:
    from ..outside.standings import look_at
    from ..outside.status_file import FILE, CannotRenew, renewed
    from ..outside.told import is_whole
    from ..writing.saving import save

    path = root / FILE
    text = path.read_text("utf-8-sig") if path.is_file() else ""
    looked = look_at(evidence.sources, evidence.statuses, asks)
    new = {each.key: each.status for each in looked if each.status is not None}
    try:
        after = renewed(text, new) if new else text
        if after != text:
            save(path, after)
    except (CannotRenew, OSError) as fault:
        print(f"{fault}: nothing was written", file=sys.stderr)
        return 1
    _say(looked, form)
    return 0 if is_whole(looked) else 1


def _say(looked: list[Looked], form: str) -> None:
    from ..outside.told import as_json, as_markdown

    told = as_json if form == "json" else as_markdown
    print(told(looked, datetime.datetime.now(datetime.UTC).date()), end="")
