"""build: check, then the whole site, or nothing of it."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from builder.build import build_files, has_evidence, no_evidence
from builder.problems import as_text, counted


def add_options(parser: argparse.ArgumentParser) -> None:
    """What `build` takes beside the folder."""
    parser.add_argument(
        "--site", metavar="DIR", help="where the site is put (site/ in the folder that holds evidence/)"
    )


def run(options: argparse.Namespace) -> int:
    """0: the site stands; 1: something is to be mended, and no site was changed; 2: no compendium there."""
    root = Path(options.root)
    if not has_evidence(root):
        print(no_evidence(root), file=sys.stderr)
        return 2
    built = build_files(root)
    if built.guide is None:
        for problem in built.problems:
            print(as_text(problem), file=sys.stderr)
        print(f"{counted(built.problems)}; the site was not changed", file=sys.stderr)
        return 1
    from builder.plugin import CannotPublish, publish

    try:
        publish(root, Path(options.site) if options.site else root / "site", built)
    except CannotPublish as fault:
        print(f"{fault}\nthe site was not changed", file=sys.stderr)
        return 1
    return 0
