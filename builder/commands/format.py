"""format: every file of the evidence in one layout, its words and comments as they are; schemas of this release."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from ..problems import Problem
from ..reading.files import WRITTEN_DIR, FoundFile, find_files
from ..writing.layout import laid_out
from ..writing.saving import save
from ..writing.schemas import FOLDER, renew_schemas
from .refused import lacks_compendium


def add_options(parser: argparse.ArgumentParser) -> None:
    """What `format` takes beside the folder."""
    parser.add_argument("names", metavar="NAME", nargs="*", help="of a file, without .yaml; all files without any")


def run(options: argparse.Namespace) -> int:
    """0: every file stands in its layout; 1: one could not be read, and is as it was; 2: no compendium there."""
    root = Path(options.root)
    if lacks_compendium(root):
        return 2
    problems: list[Problem] = []
    files = [found for found in find_files(root, problems) if _is_ours(found)]
    named = [found for found in files if not options.names or found.name in options.names]
    unknown = sorted(set(options.names) - {found.name for found in files})
    for name in unknown:
        print(f"there is no file of the evidence called {name}.yaml", file=sys.stderr)
    left = changed = 0
    for found in named:
        text = laid_out(found.text) if found.text is not None else None
        if text is None:
            left += 1
            print(f"{found.file} cannot be read, and was left as it is: `check` says why", file=sys.stderr)
        elif text.encode() != (root / found.file).read_bytes():
            changed += 1
            save(root / found.file, text)
            print(found.file)
    if (root / FOLDER).is_dir() and not options.names:
        for name in renew_schemas(root):
            print(name)
    print(f"{changed} of {len(named)} files were laid out anew", file=sys.stderr)
    return 1 if left or unknown else 0


def _is_ours(found: FoundFile) -> bool:
    return found.file.endswith(".yaml") and found.folder != WRITTEN_DIR
