"""Times that are told without a figure of their own: "a decade", "a year after", "at the yearly control", "on the third
day"."""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Iterator
from decimal import Decimal

from ..records import NamedTuple
from .late import holds_any, late
from .pieces import Pieces
from .words import NUMBER_WORDS, ORDINALS

_UNITS = ("day", "week", "month", "year")
_NAMES = (
    "decade", "fortnight", "yearly", "annual", "monthly", "weekly",
    *(f"{article} {unit}" for article in ("a", "an") for unit in _UNITS),
)  # fmt: skip
_ENDS_OF_ORDINALS = ("st ", "nd ", "rd ", "th ")
_STEMS = (*_UNITS, "decade", "fortnight", "annual")
_find_ordinal = late(
    r"(?:st|nd|rd|th)[\s~]+(?:post|follow-?up[\s~]+)?[\w-]*[\s~]?(?:day|week|month|year)\b",
).search


def may_tell_a_time(lowered: str) -> bool:
    """Whether a text in small letters may have a time in words: "a decade", "the 2-year visit", "the fourth week"."""
    if not holds_any(lowered, _STEMS):
        return False
    if holds_any(lowered, _NAMES):
        return True
    plain = " ".join(lowered.replace("~", " ").split())
    return holds_any(plain, _ENDS_OF_ORDINALS) and _find_ordinal(lowered) is not None


_MANY = "|".join(("an?", *(word for word, value in NUMBER_WORDS.items() if 1 <= value <= 9), r"\d+", "first"))
_VISIT = (
    r"(?:(?:clinical|radiographic|follow-?up|recall|control|review)\s+)?"
    r"(?:controls?|recalls?|visits?|reviews?|check-?ups?|(?:re-?)?examinations?|follow-?ups?|appointments?|inspections?)"
)
_find = late(
    rf"\b(?P<many>{_MANY})[\s~-]+(?P<long>decades?|fortnights?)\b(?!\s+(?:of\s+(?:life|age|experience|practice)|ago)\b)|"
    r"(?<!half\s)(?<![\w-])(?P<one>an?)[\s~]+(?P<unit>year|month|week|day)\b(?!-|\s+and\s+a\s+half|\s+of\s+age)|"
    rf"\bat\s+(?:the|their|his|her|its)\s+(?P<every>(?:(?P<which>{'|'.join(ORDINALS)})\s+)?"
    rf"(?P<often>half-yearly|yearly|biannual|annual|(?:(?:three|six)-)?monthly|weekly))\s+(?={_VISIT}\b)|"
    rf"\b(?:on|at|by|until|till)\s+the\s+(?P<nth>{'|'.join(ORDINALS)}|\d{{1,2}}(?:st|nd|rd|th))[\s~]+"
    r"(?:(?:post-?[\s]?(?:operative|op|surgical|treatment)|follow-?up)[\s~]+)?"
    r"(?P<of>day|week|month|year)\b(?!\s+(?:of\s+(?:life|age)|\d))"
)
_ends_with_when = late(
    r"\b(?:after|at|within|by|until|for|over|during|(?:end|follow-?up|observation|period) of)\s+$"
).search
_match_later = late(r"\s+(?:after|afterwards|later|following|on|post-?\w+)\b").match

_LONG = {"decade": (10, "year"), "fortnight": (2, "week")}
_OFTEN = {
    "half-yearly": (Decimal("0.5"), "year"), "biannual": (Decimal("0.5"), "year"),
    "yearly": (Decimal(1), "year"), "annual": (Decimal(1), "year"),
    "monthly": (Decimal(1), "month"), "three-monthly": (Decimal(3), "month"), "six-monthly": (Decimal(6), "month"),
    "weekly": (Decimal(1), "week"),
}  # fmt: skip


class ToldTime(NamedTuple):
    """A time, and the pieces that tell it."""

    first: int
    last: int
    """Behind the last of them."""
    value: Decimal
    decimals: int
    start: int
    end: int
    unit: str


def told_times(pieces: Pieces) -> Iterator[ToldTime]:
    """Every time that is told without a figure, in order; "twice a year" and "annual recalls" tell of none."""
    starts = [start for start, _ in pieces.spans]
    for found in _find.finditer(pieces.lowered):
        start, end = found.span("every") if found["every"] else found.span()
        start = found.start("nth") if found["nth"] else start
        if found["one"] and not _says_when(pieces.lowered, start, end):
            continue
        value, unit = _value(found)
        first, last = bisect_left(starts, start), bisect_left(starts, end)
        if first < last:
            decimals = 0 if value == int(value) else 1
            yield ToldTime(first, last, value, decimals, start, end, unit)


def _says_when(lowered: str, start: int, end: int) -> bool:
    is_behind = _match_later(lowered, end) is not None
    return is_behind or _ends_with_when(lowered[max(start - 20, 0) : start]) is not None


def _value(found: re.Match[str]) -> tuple[Decimal, str]:
    if found["one"]:
        return Decimal(1), found["unit"]
    if found["nth"]:
        nth = found["nth"]
        return Decimal(nth[:-2] if nth[0].isdigit() else ORDINALS[nth]), found["of"]
    if found["every"]:
        value, unit = _OFTEN[found["often"]]
        return value * ORDINALS.get(found["which"] or "", 1), unit
    length, unit = _LONG[found["long"].rstrip("s")]
    many = found["many"]
    count = Decimal(many) if many.isdigit() else NUMBER_WORDS.get(many, Decimal(1))
    return count * length, unit
