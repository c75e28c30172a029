"""Counts of what happened between two times alone: "between year 3 and year 5: 4 of 118", "in the second year 3"."""

from __future__ import annotations

import re
from collections.abc import Sequence
from decimal import Decimal

from ..numerals import Token
from ..numerals.late import holds_any, late
from ..numerals.months import MEAN_MONTHS_IN
from ..numerals.words import NUMBER_WORDS, ORDINALS
from ..records import NamedTuple
from .clauses import Span


class Stretch(NamedTuple):
    """A stretch of time that does not begin with the treatment, and the words for it."""

    low: Decimal
    high: Decimal
    """In months."""
    words: Span


_UNIT = r"(?P<unit{0}>day|week|month|year)s?"
_NUMBER = rf"(?:\d+|{'|'.join(word for word, value in NUMBER_WORDS.items() if 1 <= value <= 20)})"
_BETWEEN = late(
    rf"\b(?:between|from)\s+(?:the\s+)?(?:{_UNIT.format(1)}\s+)?(?P<low>{_NUMBER})(?:[\s-]+{_UNIT.format(2)})?\s+"
    rf"(?:and|to|until)\s+(?:the\s+)?(?:{_UNIT.format(3)}\s+)?(?P<high>{_NUMBER})\b(?:[\s-]+{_UNIT.format(4)})?"
    rf"(?:\s+(?:after|of|recalls?|visits?|controls?)\b[^.;:,\d]{{0,30}})?|"
    rf"\b(?:in|during)\s+(?:the\s+)?(?P<nth>{'|'.join(word for word in ORDINALS if word != 'first')})\s+"
    rf"{_UNIT.format(5)}\b(?!\s+of\b)",
    re.IGNORECASE,
)
_leads = late(r"[^.;\d]{0,60}", re.IGNORECASE).fullmatch
_recruits = late(
    r"\b(?:recruit|enrol|treated|operated|born|aged?|admitted|collected|performed|interval)\w*", re.IGNORECASE
)
_STEMS = ("between", "from ", "in the ", "during")


def stretches(text: str) -> list[Stretch]:
    """Every such stretch of a passage, in order."""
    small = text.lower()
    if not (holds_any(small, _STEMS) and holds_any(small, ("year", "month", "week", "day"))):
        return []
    found = []
    for each in _BETWEEN.finditer(text):
        if (read := _read(each)) is not None:
            found.append(read)
    return found


def _read(found: re.Match[str]) -> Stretch | None:
    if found["nth"]:
        months = MEAN_MONTHS_IN[found["unit5"].lower()]
        last = ORDINALS[found["nth"].lower()]
        return Stretch((last - 1) * months, last * months, found.span())
    units = [found[f"unit{at}"] for at in range(1, 5)]
    named = [unit.lower() for unit in units if unit]
    if not named:
        return None
    low_unit, high_unit = (units[0] or units[1] or named[-1]).lower(), (units[2] or units[3] or named[-1]).lower()
    low, high = (_value(found[end]) for end in ("low", "high"))
    low, high = low * MEAN_MONTHS_IN[low_unit], high * MEAN_MONTHS_IN[high_unit]
    return Stretch(low, high, found.span()) if 0 < low < high else None


def _value(number: str) -> Decimal:
    return Decimal(number) if number.isdigit() else NUMBER_WORDS[number.lower()]


def stretch_of(text: str, tokens: Sequence[Token], at: int, among: Sequence[Stretch]) -> Stretch | None:
    """The stretch whose count a number is: it stands straight behind the words, or straight before them, with no other
    number between but its own total."""
    token = tokens[at]
    low, high = token.outer_start, max(token.end, token.outer_end)
    if token.pair >= 0:
        low, high = min(low, tokens[token.pair].outer_start), max(high, tokens[token.pair].outer_end)
    for each in among:
        start, end = each.words
        gap = text[end:low] if end <= low else text[high:start] if high <= start else None
        if gap is None or _leads(gap) is None:
            continue
        if end <= low and _recruits.search(text, max(text.rfind(".", 0, start), 0), low) is None:
            return each
        if high <= start and ":" not in gap and len(gap) < _NEAR and _recruits.search(gap) is None:
            return each
    return None


_NEAR = 40
