"""Where a hand-written file stands on the site."""

from __future__ import annotations

from pathlib import PurePosixPath


def published_path(path: str) -> str:
    """The file that comes of one below the documents' folder: "about.md" gives "about/index.html"."""
    pure = PurePosixPath(path)
    if pure.suffix != ".md":
        return str(pure)
    folder = pure.parent if pure.stem in ("index", "README") else pure.parent / pure.stem
    return str(folder / "index.html")


def published_address(path: str) -> str:
    """The same as a link names it: "about.md" is "about/", "index.md" is ""."""
    return published_path(path).removesuffix("index.html")
