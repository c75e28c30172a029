"""figures: one JSON line for each figure that the site shows."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from ..build import build_files
from ..ledger import ledger_lines
from .refused import lacks_compendium, say_problems


def add_options(parser: argparse.ArgumentParser) -> None:
    """`figures` takes nothing beside the folder."""


def run(options: argparse.Namespace) -> int:
    """0: every figure was printed; 1: something is to be mended, and no row was printed; 2: no compendium there."""
    root = Path(options.root)
    if lacks_compendium(root):
        return 2
    built = build_files(root)
    if built.guide is None:
        say_problems(built.problems)
        return 1
    sys.stdout.writelines(ledger_lines(built.guide))
    return 0
