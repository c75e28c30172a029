"""build: check, then the whole site, or nothing of it."""

from __future__ import annotations

import argparse
import gc
import os
import sys
from pathlib import Path

from ..build import Built, build_files
from ..replacing import finish_swaps
from .refused import lacks_compendium, say_problems


def add_options(parser: argparse.ArgumentParser) -> None:
    """What `build` takes beside the folder."""
    parser.add_argument(
        "--site", metavar="DIR", help="where the site is put (site/ in the folder that holds evidence/)"
    )
    parser.add_argument(
        "--copy",
        action="store_true",
        help="the lasting copy of this release instead, for /vX.Y.Z/ of the site",
    )
    parser.add_argument("--pack", metavar="FILE", help="with --copy: that copy as one file as well, v1.2.0.tar.gz")
    parser.add_argument(
        "--copies",
        metavar="DIR",
        help="lasting copies (v1.2.0/ or v1.2.0.tar.gz) that stand in the site too",
    )


def run(options: argparse.Namespace) -> int:
    """0: the site stands; 1: something is to be mended, and no site was changed; 2: no compendium there."""
    root = Path(options.root)
    if lacks_compendium(root):
        return 2
    wrong = _wrong_together(options)
    if wrong:
        print(wrong, file=sys.stderr)
        return 2
    place = Path(os.path.realpath(Path(options.site) if options.site else root / "site"))
    for done in finish_swaps(place):
        print(done, file=sys.stderr)
    built = _built(root)
    if built.guide is None:
        say_problems(built.problems, "; the site was not changed")
        return 1
    from ..lasting import pack
    from ..publishing import CannotPublish, publish

    try:
        site = Path(options.site) if options.site else root / "site"
        said = publish(root, site, built, is_copy=options.copy, copies=Path(options.copies) if options.copies else None)
        if options.pack:
            pack(site, Path(options.pack))
        # stdout holds only what was asked for.
        stands = f"{said.pages} pages, the guide at /{said.at}" if said.at else f"{said.pages} pages"
        print(f"{site}: {stands}", file=sys.stderr)
    except CannotPublish as fault:
        print(f"{fault}\nthe site was not changed", file=sys.stderr)
        return 1
    finally:
        gc.unfreeze()
    return 0


def _wrong_together(options: argparse.Namespace) -> str:
    if options.copies and options.copy:
        return "--copy makes a lasting copy, --copies puts such copies beside the newest guide: name one of them"
    if options.pack and not options.copy:
        return "--pack needs --copy"
    if options.copies and not Path(options.copies).is_dir():
        return f"{options.copies} is not a folder of lasting copies"
    return ""


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
