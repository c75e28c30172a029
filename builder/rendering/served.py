"""Style sheets and scripts as they are served: without the comments and blanks that only their writers need."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path


def stylesheet(folder: Path, name: str) -> str:
    """One style sheet of the theme as served.

    folder: holds tokens.css, which every look shares, and one file for each look. name: "reading" or "frame".
    """
    from rcssmin import cssmin

    return f"{cssmin(_joined(folder / f'{part}.css' for part in ('tokens', name)))}\n"


SCRIPTS = {
    "reading": ("common", "filter"),
    "question": ("common", "situation", "case"),
    "recall": ("common", "recall"),
    "search": ("common", "vendor/minisearch", "search"),
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
    from rjsmin import jsmin

    text = _joined(folder / f"{part}.js" for part in SCRIPTS[name])
    # A notice of somebody else's licence stays where it stands.
    return f"{jsmin(text, keep_bang_comments=True)}\n"


def _joined(parts: Iterable[Path]) -> str:
    return "".join(part.read_text(encoding="utf-8") for part in parts)
