"""add: the claim file of one more report, begun from its entry."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from ..reading.evidence import read_evidence
from ..writing.adding import write_claim_file
from ..writing.starting import CannotWrite
from .refused import lacks_compendium


def add_options(parser: argparse.ArgumentParser) -> None:
    """What `add` takes: the report whose claims are to be typed."""
    parser.add_argument("key", metavar="KEY", help="the key of an entry in evidence/sources/")


def run(options: argparse.Namespace) -> int:
    """0: the file stands there; 1: nothing was written; 2: no compendium there, or no key was named."""
    root = Path(options.root)
    if lacks_compendium(root):
        return 2
    try:
        file = write_claim_file(root, read_evidence(root), options.key)
    except CannotWrite as fault:
        print(fault, file=sys.stderr)
        return 1
    print(f"{file}: fill in what is empty; `check` names each field that is")
    return 0
