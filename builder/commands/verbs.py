"""The verbs of the command line, each loaded only when it is typed."""

from __future__ import annotations

import gc
import os
import sys
from collections.abc import Sequence
from contextlib import suppress
from importlib import import_module
from keyword import iskeyword
from typing import NoReturn

from ..compiled_patterns import keep, lent
from ..loaded_together import keep_together

with lent():
    import argparse

VERBS = {
    "check": "do all parts of the evidence agree?",
    "impact": "what a change moves: answers, numbers, pages, before and after",
    "upkeep": "what waits for somebody, and with a day what is overdue",
    "status": "which reports were corrected or retracted, by their DOI",
    "release": "what a release would change and say, and with --write its files",
    "figures": "one JSON line for each figure that the site shows",
    "build": "check, then write the site, all or nothing",
    "talk": "slides of a question for one case; with --check an edited talk beside the guide",
    "serve": "a live preview while you write",
    "import": "references of an export (RIS, PubMed, CSL-JSON, BibTeX) become entries",
    "add": "the claim file of one more report, begun from its entry",
    "second": "a report is read once more, and both readings are compared",
    "format": "every file in one layout, words and comments as they are",
    "new": "a compendium to start from, in a folder of its own",
}

# All others work on a folder that holds evidence/.
_WITHOUT_ROOT = frozenset(("new",))


def main(program: str, arguments: Sequence[str]) -> int:
    """Runs one verb and gives its exit code; a wrong option ends with 2, as argparse does.

    program: what was typed before the verb.
    """
    verbs = "\n".join(f"  {verb:<9}{what}" for verb, what in VERBS.items())
    parser = argparse.ArgumentParser(
        prog=program,
        formatter_class=_Help,
        description=f"The evidence guide.\n\n{verbs}\n\n{program} VERB --help shows the options of a verb.",
    )
    parser.add_argument("--version", action=_Version, nargs=0, help="the release, and nothing else")
    parser.add_argument("verb", choices=VERBS, metavar="VERB", help="one of the verbs above")
    verb = parser.parse_args(arguments[:1]).verb
    command = import_module(f".{verb}_" if iskeyword(verb) else f".{verb}", __package__)
    own = argparse.ArgumentParser(
        prog=f"{program} {verb}", description=VERBS[verb], allow_abbrev=False, formatter_class=_Help
    )
    if verb not in _WITHOUT_ROOT:
        own.add_argument("--root", default=".", metavar="DIR", help="the folder that holds evidence/ (the current one)")
    command.add_options(own)
    code: int = command.run(own.parse_args(arguments[1:]))
    return code


class _Help(argparse.RawDescriptionHelpFormatter):
    """Looks up the width of the terminal by itself: argparse makes one for every option, and imports all of `shutil`
    with its ways to compress files for it."""

    def __init__(self, prog: str) -> None:
        columns = os.environ.get("COLUMNS", "")
        width = int(columns) if columns.isdecimal() else 0
        if not width:
            with suppress(OSError, ValueError, AttributeError):  # no terminal, or none any more
                width = os.get_terminal_size(sys.__stdout__.fileno()).columns  # type: ignore[union-attr]
        super().__init__(prog, width=(width or 80) - 2)


class _Version(argparse.Action):
    """Prints the release; asked for only when it is wanted, since finding it takes a tenth of a small check."""

    def __call__(self, parser: argparse.ArgumentParser, *_: object) -> NoReturn:
        from importlib.metadata import version

        print(f"passageproof {version('passageproof')}")
        parser.exit()


def run(program: str) -> NoReturn:
    """Does what was typed on the command line, and ends the process with its exit code."""
    # What people typed may hold any letter; the terminal's own choice of encoding must not stop a check.
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(encoding="utf-8", errors="backslashreplace")
    is_check = sys.argv[1:2] == ["check"]
    if is_check or sys.argv[1:2] == ["impact"]:
        # All it makes lives until its end, the modules too: looking for garbage takes a third of a check of 3,000
        # reports, and to look once, at the end, still a fifteenth.
        gc.disable()
    try:
        code = main(program, sys.argv[1:])
        for stream in (sys.stdout, sys.stderr):
            if stream is not None:
                stream.flush()
        keep()
        if is_check:
            keep_together()
    except BrokenPipeError:  # whoever listened is gone, and Python would complain of it once more at its end
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        code = 1
    if is_check:
        os._exit(code)  # all is said, and nothing is open: to let go of what was read and imported takes 3 % of a check
    gc.freeze()  # else Python looks for garbage among all there is once more, before it lets everything go
    sys.exit(code)
