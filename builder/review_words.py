"""Words of the evidence in Markdown for a reviewer: they never become markup, a link or a mention of somebody."""

from __future__ import annotations

_MEANS_SOMETHING = str.maketrans({sign: f"\\{sign}" for sign in "\\`*_{}[]<>#|~$!@"})


def as_words(text: str) -> str:
    """The text on one line, each sign of Markdown as itself."""
    return " ".join(text.split()).translate(_MEANS_SOMETHING)
