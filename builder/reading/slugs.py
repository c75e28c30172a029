"""The slug of a wording: its name in an address, an anchor or a figure's id."""

from __future__ import annotations

from functools import lru_cache

from ..compiled_patterns import compiled

# The rule for ids of figures: signs are read as words first, then every run of anything but letters and digits is a
# hyphen.
_SIGNS = {"<": "under", "≤": "up to", ">": "over", "≥": "from", "−": "minus", "%": "percent", "+": "plus", "-": "minus"}
_find_signs = compiled(r"[<≤>≥−%]|(?:(?<=\s)|^)[+-]|[+-](?=\s|$)").sub
_find_others = compiled(r"[\W_]+").sub


@lru_cache(maxsize=8192)  # the same few wordings name levels, arms and fields 30,000 times in a large compendium
def slug(wording: str) -> str:
    """ "over 3 mm" is "over-3-mm", "≤ 3 mm" is "up-to-3-mm", "50%" is "50-percent"; "" without letter and digit."""
    spelled = _find_signs(lambda found: f" {_SIGNS[found[0]]} ", wording.lower())
    return _find_others("-", spelled).strip("-")
