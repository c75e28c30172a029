"""build: check, then the whole site, or nothing of it."""

from __future__ import annotations

import argparse
import gc
import sys
from pathlib import Path

from ..build import Built, build_files
from .refused import lacks_compendium, say_problems


def add_options(parser: argparse.ArgumentParser) -> None:
    """What `build` takes beside the folder."""
    parser.add_argument(
        "--site", metavar="DIR", help="where the site is put (site/ in the folder that holds evidence/)"
    )


def run(options: argparse.Namespace) -> int:
    """0: the site stands; 1: something is to be mended, and no site was changed; 2: no compendium there."""
    root = Path(options.root)
    if lacks_compendium(root):
        return 2
    built = _built(root)
    if built.guide is None:
        say_problems(built.problems, "; the site was not changed")
        return 1
    from ..publishing import CannotPublish, publish

    try:
        site = Path(options.site) if options.site else root / "site"
        said = publish(root, site, built)
        # stdout holds only what was asked for.
        stands = f"{said.pages} pages, the guide at /{said.at}" if said.at else f"{said.pages} pages"
        print(f"{site}: {stands}", file=sys.stderr)
    except CannotPublish as fault:
        print(f"{fault}\nthe site was not changed", file=sys.stderr)
        return 1
    finally:
        gc.unfreeze()
    return 0


def _built(root: Path) -> Built:
    """The files of the site. Values by the hundred thousand, none of them in a circle: looking for circles among them
    costs a third of the time, here and while MkDocs runs, so that they are set aside."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        return build_files(root)
    finally:
        gc.freeze()
        if was_on:
            gc.enable()
