"""Style sheets and scripts as they are served: without the comments and blanks that only their writers need."""

from __future__ import annotations

import re
from pathlib import Path


def stylesheet(folder: Path, name: str) -> str:
    """One style sheet of the theme as served.

    folder: holds tokens.css, which every look shares, and one file for each look. name: "reading" or "frame".
    """
    source = (folder / "tokens.css").read_text(encoding="utf-8") + (folder / f"{name}.css").read_text(encoding="utf-8")
    return minified_css(source)


SCRIPTS = {
    "reading": ("common",),
    "question": ("common", "situation"),
    "recall": ("common", "recall"),
    "search": ("common", "search"),
    "kept": ("kept",),
    "frame": ("frame",),
}
"""Each script that a page asks for, and the parts it is made of: one request brings what this kind of page needs."""


def served_assets(theme: Path) -> dict[str, str]:
    """Every style sheet and script by the path it is served under. theme: the folder of the look."""
    out = {f"stylesheets/{name}.css": stylesheet(theme / "stylesheets", name) for name in ("reading", "frame")}
    out.update({f"javascripts/{name}.js": script(theme / "javascripts", name) for name in SCRIPTS})
    return out


def assets_of_guest(theme: Path) -> dict[str, str | bytes]:
    """All that pages in the guide's own frame ask for, where no theme publishes it; by the path below the guide."""
    others = [*sorted((theme / "assets").iterdir()), theme / "service-worker.js"]
    out: dict[str, str | bytes] = {path.relative_to(theme).as_posix(): path.read_bytes() for path in others}
    return out | {path: text for path, text in served_assets(theme).items() if "/frame." not in path}


def script(folder: Path, name: str) -> str:
    """One script of the theme as served: its parts one behind the other."""
    return minified_script("".join((folder / f"{part}.js").read_text(encoding="utf-8") for part in SCRIPTS[name]))


def minified_script(text: str) -> str:
    """The same script without lines of comment, indents and empty lines; no text in it goes over several lines."""
    text = re.sub(r"^[ \t]*/\*.*?\*/[ \t]*$", "", text, flags=re.DOTALL | re.MULTILINE)
    lines = (line.strip() for line in text.splitlines())
    return "".join(f"{line}\n" for line in lines if line and not line.startswith("//"))


def minified_css(text: str) -> str:
    """The same rules without comments and needless blanks; what stands in double quotes stays as it is."""
    text = re.sub(r"/\*.*?\*/", "", text, flags=re.DOTALL)
    parts = re.split(r'("[^"]*")', text)
    return "".join(part if part.startswith('"') else _without_blanks(part) for part in parts).strip() + "\n"


def _without_blanks(text: str) -> str:
    text = re.sub(r"\s+", " ", text)
    # Not around "+", "-" and ":": blanks carry meaning in calc() and before a pseudo-class.
    text = re.sub(r" ?([{};,>]) ?", r"\1", text)
    text = re.sub(r": ", ":", text)
    return text.replace(";}", "}")
