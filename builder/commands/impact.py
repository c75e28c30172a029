"""impact: what a change moves, from a revision or a folder to what is there now."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from .refused import lacks_compendium, say_problems


def add_options(parser: argparse.ArgumentParser) -> None:
    """What `impact` takes beside the folder."""
    parser.add_argument("base", metavar="BASE", help="what to compare with: a revision of git, or a folder")
    parser.add_argument(
        "--format", choices=("markdown", "json"), default="markdown", help="to read in a pull request, or for tools"
    )


def run(options: argparse.Namespace) -> int:
    """0: all that moves was told, nothing included; 1: the check of either does not pass; 2: nothing to compare."""
    root = Path(options.root)
    if lacks_compendium(root):
        return 2
    from ..impact.bases import NoBase, base_folder
    from ..impact.comparing import compare

    try:
        with base_folder(root, options.base) as base:
            found = compare(base, root)
    except NoBase as none:
        print(none, file=sys.stderr)
        return 2
    if found.impact is None:
        where = f" in {options.base}" if found.is_before else ""
        say_problems(found.problems, f"{where}: what moves is told of evidence that passes its check")
        return 1
    from ..impact.told import as_json, as_markdown

    told = as_json if options.format == "json" else as_markdown
    print(told(found.impact, options.base), end="")
    return 0
