"""import: the references of an export become entries, one a file, and nothing is overwritten."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from ..reading.evidence import read_evidence
from ..writing.exports.reference import CannotRead
from ..writing.importing import Imported, read_export, write_references
from ..writing.starting import CannotWrite
from .refused import lacks_compendium


def add_options(parser: argparse.ArgumentParser) -> None:
    """What `import` takes: the export, and what was decided about titles that are here already."""
    parser.add_argument("file", metavar="FILE", help="an export: RIS, PubMed (.nbib), CSL-JSON or BibTeX")
    parser.add_argument(
        "--alike-too", action="store_true", help="take in also what has the title of an entry that is here"
    )


def run(options: argparse.Namespace) -> int:
    """0: every reference is here now; 1: one is not, and what is said tells why; 2: no compendium there."""
    root = Path(options.root)
    if lacks_compendium(root):
        return 2
    done: list[Imported] = []
    faults = 0
    try:
        export = read_export(Path(options.file))
        if export.notice:
            print(f"{options.file}: {export.notice}", file=sys.stderr)
        for found in write_references(root, read_evidence(root), export.text, alike_too=options.alike_too):
            if isinstance(found, CannotRead):
                faults += 1
                _say_fault(options.file, found)
            else:
                done.append(found)
                _say(options.file, found)
    except CannotRead as fault:
        faults += 1
        _say_fault(options.file, fault)
    except CannotWrite as fault:
        faults += 1
        print(fault, file=sys.stderr)
    _say_notices(done)
    _say_sum(done, faults)
    return 1 if faults or any(found.alike for found in done) else 0


def _say_fault(file: str, fault: CannotRead) -> None:
    print(f"{file}:{fault.line}:{fault.column}: {fault}", file=sys.stderr)


def _say(file: str, found: Imported) -> None:
    place = f"{file}:{found.line}:1"
    if found.file:
        print(found.file)
    elif found.here_as:
        print(f'{place}: "{found.title}" is here already, as {found.here_as}', file=sys.stderr)
    else:
        print(
            f'{place}: "{found.title}" has the title of {found.alike}: is it the same paper? If it is, all is done; '
            "if it is another one, type the command again with --alike-too",
            file=sys.stderr,
        )


def _say_notices(done: list[Imported]) -> None:
    """Each once, with the entries that it is about."""
    about: dict[str, list[str]] = {}
    for found in done:
        notices = [*found.notices]
        if found.left_out:
            notices.append(f"left out what tells of the database alone: {', '.join(found.left_out)}")
        for notice in notices:
            about.setdefault(notice, []).append(found.file)
    for notice, files in about.items():
        print(f"{', '.join(files)}: {notice}", file=sys.stderr)


def _say_sum(done: list[Imported], faults: int) -> None:
    written = sum(bool(found.file) for found in done)
    here = sum(bool(found.here_as) for found in done)
    alike = sum(bool(found.alike) for found in done)
    parts = [f"{written} written", *([f"{here} here already"] if here else [])]
    parts += [f"{alike} to be decided"] if alike else []
    parts += [f"{faults} not read"] if faults else []
    print(", ".join(parts), file=sys.stderr)
    if written:
        print(
            "next: type passages of the paper into the annotation of each entry, each after its place "
            "([p. 46, Table 2] ...), then `add KEY`",
            file=sys.stderr,
        )
