"""serve: a live preview that shows what is wrong instead of stopping at it."""

from __future__ import annotations

import argparse
import logging
import sys
from pathlib import Path

from .refused import lacks_compendium


def add_options(parser: argparse.ArgumentParser) -> None:
    """`serve` takes nothing beside the folder."""


def run(options: argparse.Namespace) -> int:
    """0: the preview was ended; 1: it could not start; 2: no compendium there."""
    root = Path(options.root)
    if lacks_compendium(root):
        return 2
    from ..preview import serve
    from ..publishing import CannotPublish

    logging.basicConfig(level=logging.INFO, format="%(message)s")
    try:
        serve(root)
    except CannotPublish as fault:
        print(fault, file=sys.stderr)
        return 1
    return 0
