"""impact: what a change moves, from a revision or a folder to what is there now; or what a retraction would move."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from .refused import lacks_compendium, say_problems

if TYPE_CHECKING:
    from ..impact.comparing import Comparison


def add_options(parser: argparse.ArgumentParser) -> None:
    """What `impact` takes beside the folder."""
    parser.add_argument("base", metavar="BASE", nargs="?", help="what to compare with: a revision of git, or a folder")
    parser.add_argument(
        "--retract", metavar="KEY", nargs="+", action="extend", default=[],
        help="instead: what would move if these reports were retracted; no file is written",
    )  # fmt: skip
    parser.add_argument(
        "--format", choices=("markdown", "json"), default="markdown", help="to read in a pull request, or for tools"
    )


def run(options: argparse.Namespace) -> int:
    """0: all that moves was told, nothing included; 1: the check of either does not pass; 2: nothing to compare."""
    root = Path(options.root)
    keys = list(dict.fromkeys(options.retract))
    if (options.base is None) == (not keys):
        wanted = "BASE or --retract KEY" if not keys else "BASE or --retract KEY, one of them alone: keys stand last"
        print(f"impact compares with {wanted}", file=sys.stderr)
        return 2
    if lacks_compendium(root):
        return 2
    found = _retracted(root, keys) if keys else _since(root, options.base)
    if found is None:
        return 2
    if found.impact is None:
        where = f" in {options.base}" if found.is_before and options.base is not None else ""
        say_problems(found.problems, f"{where}: what moves is told of evidence that passes its check")
        return 1
    from ..impact.told import as_json, as_markdown

    told = as_json if options.format == "json" else as_markdown
    print(told(found.impact, options.base or "", keys), end="")
    return 0


def _since(root: Path, base: str) -> Comparison | None:
    """None, and the reason said, where there is nothing to compare with."""
    from ..impact.bases import NoBase, base_folder
    from ..impact.comparing import compare

    try:
        with base_folder(root, base) as folder:
            return compare(folder, root)
    except NoBase as none:
        print(none, file=sys.stderr)
        return None


def _retracted(root: Path, keys: Sequence[str]) -> Comparison | None:
    """None, and the reason said, where a key is unknown."""
    from ..impact.retracting import UnknownReport, compare_retracted
    from ..impact.touched import Version
    from ..reading.evidence import ReadBefore, read_evidence

    read = ReadBefore()
    evidence = read_evidence(root, read)
    try:
        return compare_retracted(Version(evidence, read.texts), keys)
    except UnknownReport as unknown:
        print(unknown, file=sys.stderr)
        return None
