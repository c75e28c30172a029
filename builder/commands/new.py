"""new: a compendium to start from, with one worked report to replace."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from ..writing.starting import CannotWrite, write_compendium


def add_options(parser: argparse.ArgumentParser) -> None:
    """What `new` takes: where the compendium is to stand."""
    parser.add_argument("folder", metavar="FOLDER", help="a folder that is not there yet, or is empty")


def run(options: argparse.Namespace) -> int:
    """0: the compendium stands there; 1: nothing was written; 2, by argparse: no folder was named."""
    try:
        write_compendium(Path(options.folder))
    except CannotWrite as fault:
        print(fault, file=sys.stderr)
        return 1
    print(f"{options.folder} holds a compendium with one invented report to replace: its README.md says how to go on")
    return 0
