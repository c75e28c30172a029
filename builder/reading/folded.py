"""Two wordings are one where they differ in capitals and blanks alone."""

from __future__ import annotations

from functools import lru_cache


@lru_cache(maxsize=8192)  # as slugs are
def folded(wording: str) -> str:
    """The wording without what does not tell two apart: "Over  3 mm" is "over 3 mm"."""
    return " ".join(wording.split()).casefold()
