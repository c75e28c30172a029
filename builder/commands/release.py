"""release: what a release would change and say; with --write it is written, and nothing else is done."""

from __future__ import annotations

import argparse
import datetime
import difflib
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from .refused import lacks_compendium, say_problems

if TYPE_CHECKING:
    from ..releasing.preparing import Prepared


def add_options(parser: argparse.ArgumentParser) -> None:
    """What `release` takes beside the folder."""
    parser.add_argument("number", metavar="VERSION", help="the new release of the evidence, three numbers: 1.2.0")
    parser.add_argument("--write", action="store_true", help="write the files; without it they are only shown")
    parser.add_argument("--check", action="store_true", help="only: do the files say that they are this release?")
    parser.add_argument("--since", metavar="BASE", default="", help="what the notes compare with (the last release)")
    parser.add_argument(
        "--on", metavar="DATE", type=datetime.date.fromisoformat, help="the day of the release (that of its evidence)"
    )
    parser.add_argument("--program", metavar="VERSION", default="", help="the program's own release moves as well")
    parser.add_argument("--address", metavar="URL", default="", help="where the site is read, for the registry of DOIs")


def run(options: argparse.Namespace) -> int:
    """0: it is prepared, or was shown; 1: it cannot be; 2: no compendium there, or a wrong option."""
    root = Path(options.root)
    if lacks_compendium(root):
        return 2
    address = f"{options.address.rstrip('/')}/" if options.address else ""
    if address and not address.startswith("https://"):
        print(f'"{options.address}" does not begin with https://', file=sys.stderr)
        return 2
    from ..impact.bases import NoBase
    from ..releasing.preparing import Asked, CannotRelease, is_prepared, prepare

    if options.check:
        reason = is_prepared(root, options.number)
        print(reason or f"the files are those of release {options.number}", file=sys.stderr)
        return 1 if reason else 0
    try:
        prepared = prepare(root, Asked(options.number, options.since, options.on, options.program, address))
    except NoBase as none:
        print(none, file=sys.stderr)
        return 2
    except CannotRelease as fault:
        if fault.problems:
            say_problems([problem for problem in fault.problems if problem.is_open])
        print(f"{fault}; nothing was written", file=sys.stderr)
        return 1
    for doubt in prepared.doubts:
        print(f"{options.number}? {doubt}", file=sys.stderr)
    return _write(root, prepared) if options.write else _show(prepared)


def _show(prepared: Prepared) -> int:
    for path, text in prepared.files.items():
        before = prepared.before.get(path)
        if before is None:
            print(f"new: {path}\n{text}")
            continue
        lines = difflib.unified_diff(before.splitlines(), text.splitlines(), path, path, lineterm="", n=1)
        print("\n".join(lines) + "\n")
    print(f"nothing was written: {len(prepared.files)} files would be, with --write", file=sys.stderr)
    return 0


def _write(root: Path, prepared: Prepared) -> int:
    from ..writing.saving import save

    try:
        for path, text in prepared.files.items():
            (root / path).parent.mkdir(parents=True, exist_ok=True)
            save(root / path, text)
            print(path)
    except OSError as fault:
        print(f"{fault.filename or root}: {fault.strerror}", file=sys.stderr)
        return 1
    tag = f"v{prepared.number}"
    print(f"read the notes, commit these files, and once they are merged tag that commit {tag}", file=sys.stderr)
    return 0
