"""python -m builder VERB: the verbs, each loaded only when it is typed."""

from __future__ import annotations

import argparse
import contextlib
import os
import sys
from collections.abc import Sequence
from importlib import import_module

VERBS = {
    "check": "do all parts of the evidence agree?",
    "figures": "one JSON line for each figure that the site shows",
    "build": "check, then write the site, all or nothing",
    "serve": "a live preview while you write",
}


def main(arguments: Sequence[str] | None = None) -> int:
    """Runs one verb and gives its exit code; a wrong option ends with 2, as argparse does."""
    typed = list(sys.argv[1:] if arguments is None else arguments)
    verbs = "\n".join(f"  {verb:<9}{what}" for verb, what in VERBS.items())
    parser = argparse.ArgumentParser(
        prog="python -m builder",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        description=f"The evidence guide.\n\n{verbs}\n\npython -m builder VERB --help tells the options of a verb.",
    )
    parser.add_argument("verb", choices=VERBS, metavar="VERB", help="one of the verbs above")
    verb = parser.parse_args(typed[:1]).verb
    command = import_module(f"builder.commands.{verb}")
    own = argparse.ArgumentParser(prog=f"python -m builder {verb}", description=VERBS[verb], allow_abbrev=False)
    own.add_argument("--root", default=".", metavar="DIR", help="the folder that holds evidence/ (the current one)")
    command.add_options(own)
    code: int = command.run(own.parse_args(typed[1:]))
    return code


if __name__ == "__main__":
    # What people typed may hold any letter; the terminal's own choice of encoding must not stop a check.
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(encoding="utf-8", errors="backslashreplace")
    code = main()
    if sys.argv[1:2] == ["check"]:  # a large compendium takes longer to be taken apart than to be parsed
        with contextlib.suppress(OSError):  # whoever listened may be gone
            sys.stdout.flush()
            sys.stderr.flush()
        os._exit(code)
    sys.exit(code)
