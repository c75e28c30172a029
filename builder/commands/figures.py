"""figures: one JSON line for each figure that the site shows."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from ..build import build_files, has_evidence, no_evidence
from ..ledger import ledger_lines
from ..problems import as_text, counted


def add_options(parser: argparse.ArgumentParser) -> None:
    """`figures` takes nothing beside the folder."""


def run(options: argparse.Namespace) -> int:
    """0: every figure was printed; 1: something is to be mended, and no row was printed; 2: no compendium there."""
    root = Path(options.root)
    if not has_evidence(root):
        print(no_evidence(root), file=sys.stderr)
        return 2
    built = build_files(root)
    if built.guide is None:
        for problem in built.problems:
            print(as_text(problem), file=sys.stderr)
        print(counted(built.problems), file=sys.stderr)
        return 1
    sys.stdout.writelines(ledger_lines(built.guide))
    return 0
