"""Lists of authors and editors that would be printed as one name: people divided by commas, or a list cut short."""

from __future__ import annotations

import re

from ..compiled_patterns import compiled

_has_et_al = compiled(r"(?:,?\s*(?:and\s+)?)\bet\.? al\b\.?$", re.IGNORECASE).search


_LONGEST_CUT = 40  # blanks in any number may stand before it, and are tried in every way


def undivided_names(text: str) -> tuple[str, str] | None:
    """What is wrong with a list of names, and the list as it should be; None where nothing is.

    What stands in braces is one name whatever is in it; "given=..., family=..." names its parts itself.
    """
    cut = _has_et_al(text, max(0, len(text) - _LONGEST_CUT))
    if cut is not None:
        tells = f'"{_shown(text)}": "et al." would be read as a name; the rest of a list is "and others"'
        return tells, f"{text[: cut.start()]} and others"
    if "{" in text or "=" in text or not any(part.count(",") > 1 for part in text.split(" and ")):
        return None
    from .exported import names_in  # hardly a list is written so

    names = names_in(text)
    divided = [each for name in names for each in _divided(name)]
    if len(divided) == len(names):
        return None
    return f'"{_shown(text)}": names are divided by "and", not by a comma', " and ".join(divided)


def _divided(name: str) -> list[str]:
    """The people in what looks like one name, each with more words than one; else the name itself."""
    parts = [" ".join(part.split()) for part in name.split(",")]
    return parts if len(parts) > 2 and all(" " in part for part in parts) else [name]


def _shown(text: str) -> str:
    return text if len(text) <= 60 else text[:59].rstrip() + "…"
