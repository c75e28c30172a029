"""Style sheets and scripts as they are served: without the comments and blanks that only their writers need."""

from __future__ import annotations

import re
import string
from collections.abc import Iterable
from pathlib import Path

SHEETS = {
    "reading": ("tokens", "reading", "rows"),
    "question": ("tokens", "reading", "question"),
    "frame": ("tokens", "frame"),
    "desk": ("tokens", "desk"),
}
"""Each style sheet that a page asks for, and the parts it is made of. A page of a question has one of its own."""


def stylesheet(folder: Path, name: str) -> str:
    """One style sheet of the theme as served.

    folder: holds the parts of each sheet. name: one of SHEETS.
    """
    from rcssmin import cssmin

    text = cssmin(_joined(folder / f"{part}.css" for part in SHEETS[name]))
    # The theme of the other look has names of its own, which stay as they are.
    return f"{_with_short_names(text) if 'reading' in SHEETS[name] else text}\n"


def _with_short_names(text: str) -> str:
    """A style sheet whose own properties have names of one letter: they are on every line, and tell a phone nothing."""
    names = sorted(set(re.findall(r"(--[a-z]+):", text)))
    if len(names) > len(string.ascii_letters):
        raise ValueError(f"{len(names)} properties of our own: more than there are letters")
    short = dict(zip(names, string.ascii_letters, strict=False))
    return re.sub(r"--[a-z]+(?![\w-])", lambda found: f"--{short[found[0]]}" if found[0] in short else found[0], text)


SCRIPTS = {
    "reading": ("common", "filter", "carried", "dangers", "waits"),
    "question": ("common", "situation"),
    "recall": ("common", "recall", "carried"),
    "search": ("common", "vendor/minisearch", "search"),
    "kept": ("kept", "contents", "paper"),
    "standing": ("standing",),
    "case": ("case", "ways"),
    "slides": (
        "slides/zipped",
        "slides/fitting",
        "slides/parts",
        "slides/making",
        "slides/brief",
        "slides/taking",
    ),
    "frame": ("frame",),
    "desk": (
        "common",
        "desk/form",
        "desk/passages",
        "desk/entry",
        "desk/send",
        "desk/second",
        "desk/told",
        "desk/desk",
    ),
    "desk-worker": ("desk/worker",),
}
"""Each script that a page asks for, and the parts it is made of: one request brings what this kind of page needs.

"kept" comes on every page after the page itself, "standing" on every visit but the first to a site, "case" on that of a
question once somebody reads on or has answered; until they are there every way on the page is a link and works as one.
"slides" comes when somebody asks for those of their case.
"""


def served_assets(theme: Path) -> dict[str, str]:
    """Every style sheet and script by the path it is served under. theme: the folder of the look."""
    out = {f"stylesheets/{name}.css": stylesheet(theme / "stylesheets", name) for name in SHEETS}
    out.update({f"javascripts/{name}.js": script(theme / "javascripts", name) for name in SCRIPTS})
    return out


def assets_of_guest(theme: Path) -> dict[str, str | bytes]:
    """All that pages in the guide's own frame ask for, where no theme publishes it; by the path below the guide."""
    others = [*sorted((theme / "assets").iterdir()), theme / "service-worker.js"]
    out: dict[str, str | bytes] = {path.relative_to(theme).as_posix(): path.read_bytes() for path in others}
    return out | {path: text for path, text in served_assets(theme).items() if "/frame." not in path}


def script(folder: Path, name: str) -> str:
    """One script of the theme as served: its parts one behind the other."""
    from rjsmin import jsmin

    text = _joined(folder / f"{part}.js" for part in SCRIPTS[name])
    # A notice of somebody else's licence stays where it stands.
    return f"{jsmin(text, keep_bang_comments=True)}\n"


def _joined(parts: Iterable[Path]) -> str:
    return "".join(part.read_text(encoding="utf-8") for part in parts)
