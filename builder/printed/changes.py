"""Words by which one of two groups had more or less of something: "faster", "6 minutes less", "shortened"."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Literal

from ..numerals.late import late
from ..records import NamedTuple

Kind = Literal["speed", "length", "much", "amount", "verb"]


class Change(NamedTuple):
    """One such word."""

    start: int
    end: int
    kind: Kind
    is_more: bool
    """As the word has it: "faster" is more, of speed."""


_find_changes = late(
    r"\b(?:(?P<speed_more>faster|quicker|swifter|sooner|earlier|more (?:quick|rapid|swift|speed)\w*)|"
    r"(?P<speed_less>slower|later|more slowly|less (?:quick|rapid|swift|speed)\w*)|"
    r"(?P<length_more>longer)|(?P<length_less>shorter|briefer)|"
    r"(?P<much_more>more)|(?P<much_less>less|fewer)|"
    r"(?P<amount_more>higher|greater|larger|elevated|excess)|(?P<amount_less>lower|smaller|halved)|"
    r"(?P<verb_more>lengthen\w*|prolong\w*|increas\w+|rais(?:ed|es|ing)|rose|extend(?:ed|s|ing)|added)|"
    r"(?P<verb_less>shorten\w*|reduc(?:ed|es|ing|tion)|lower(?:ed|s|ing)|decreas\w+|cuts?|sav(?:ed|es|ing)|"
    r"diminish\w*|lessen\w*))\b",
    re.IGNORECASE,
    holds=(
        "faster", "quick", "swift", "sooner", "earlier", "rapid", "speed", "slow", "later", "longer", "shorter",
        "briefer", "more", "less", "fewer", "higher", "greater", "larger", "elevated", "excess", "lower", "smaller",
        "halved", "lengthen", "prolong", "increas", "rais", "rose", "extend", "added", "reduc", "shorten", "decreas",
        "cut", "sav", "diminish",
    ),
).finditer  # fmt: skip
_ends_in_place = late(
    r"(?<!associated )(?<!resulted )(?<!led )(?:\bin|\bof|\bfor|\bwith|\bat|\bamong|\bon)\s+(?:the\s+|a\s+)?$",
    re.IGNORECASE,
)
_BEFORE = 24


def changes(text: str, low: int, high: int) -> Iterator[Change]:
    """All of them in a slice of a passage; "in larger ones" tells who they were, and is none."""
    for found in _find_changes(text, low, high):
        kind, _, side = (found.lastgroup or "").partition("_")
        is_of_people = kind in ("amount", "length") and text[found.end() : found.end() + 1] == " "
        if is_of_people and _ends_in_place.search(text, max(found.start() - _BEFORE, low), found.start()):
            continue
        yield Change(*found.span(), kind, side == "more")  # type: ignore[arg-type]
