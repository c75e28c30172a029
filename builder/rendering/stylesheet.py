"""Style sheets as they are served: the shared tokens in front, comments and blanks taken out."""

from __future__ import annotations

import re
from pathlib import Path


def stylesheet(folder: Path, name: str) -> str:
    """One style sheet of the theme as served.

    folder: holds tokens.css, which every look shares, and one file for each look. name: "reading" or "frame".
    """
    source = (folder / "tokens.css").read_text(encoding="utf-8") + (folder / f"{name}.css").read_text(encoding="utf-8")
    return minified_css(source)


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
