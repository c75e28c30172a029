"""The first and the second of two numbers of a change: "fell from 5.8 mm to 3.4", "before -> after: 5.8 -> 3.4"."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ..compiled_patterns import compiled
from ..numerals import Token
from ..numerals.late import late
from .clauses import Span


def first_of_change(text: str, tokens: Sequence[Token], token: Token, start: int) -> Span | None:
    """Where "from 5.8" stands of a change that is told without any time. start: of the number's sentence."""
    end = max(token.end, token.outer_end)
    if _to_then(text, end) is None:
        return None
    times = [each for each in tokens if start <= each.start < token.start + _FAR and each.kind == "length"]
    found = (
        _changed_from(text, start, token.start) if len(times) <= 1 else None
    )  # "from 83% to 70% between 1 and 5 years"
    return (text.rindex("from", found.start(), found.end()), end) if found is not None else None


def is_before_arrow(text: str, token: Token) -> bool:
    """The 5.8 of "5.8 -> 3.4"."""
    return _arrow_then(text, max(token.end, token.outer_end)) is not None


def is_behind_arrow(text: str, token: Token) -> bool:
    """The 3.4 of "5.8 -> 3.4"."""
    return _ends_in_arrow(text, max(0, token.start - _ARROW), token.start) is not None


_changed_from = late(
    r"\b(?:fell|rose|dropped|decreas\w+|increas\w+|declin\w+|improv\w+|chang\w+|went|reduc\w+|shrank|shrunk|grew|came|"
    r"diminish\w+|climbed)\b[^.;]*\bfrom\s+(?:an?\s+)?(?:(?:mean|median|average)\s+(?:of\s+)?)?$",
    re.IGNORECASE,
    holds=("from",),
).search
_OWN = r"(?:\s*(?:of|/)\s*\d+)?(?:\s*(?:%|[a-zµ²]{1,10}))?(?:\s*\([^()]*\))?"
_to_then = compiled(rf"{_OWN}\s+to\s+(?:an?\s+)?(?:(?:mean|median)\s+(?:of\s+)?)?[\d.]").match
""" "Fell from 5.8 mm (SD 1.3) to 3.4": the number before "to" is the one of the start."""
_arrow_then = compiled(rf"{_OWN}\s*(?:→|⇒|[-–]+>)\s*[\d.]").match
_ends_in_arrow = compiled(r"(?:→|⇒|[-–]>)\s*$").search
_FAR, _ARROW = 120, 4
"""Characters behind a number in which a time may stand that is its sentence's, and before one that an arrow takes."""
