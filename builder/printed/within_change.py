"""A change within one group, beside which the groups are compared: "fell by 38 with A; the groups differed by 9"."""

from __future__ import annotations

import re

from ..numerals import Token
from ..numerals.late import late
from .clauses import Span

_changed = late(
    r"\b(?P<said>(?:fell|rose|dropped|fall(?:s|ing)?|drop|declin\w*|decreas\w*|increas\w*|reduc\w*|chang\w*|improv\w*|"
    r"within (?:the |each )?(?:\w+ )?(?:group|arm)))\b[^.;]{0,90}$",
    re.IGNORECASE,
    holds=("fell", "rose", "drop", "fall", "declin", "decreas", "increas", "reduc", "chang", "improv", "within "),
).search
_compares = late(
    r"\b(?:than|compared|versus|vs|against|relative to|more|greater|less|lower|higher|shorter|longer|differ\w*|between|"
    r"net|effect)\b",
    re.IGNORECASE,
).search
_differs = late(
    r"\b(?:differ(?:ed|s|ence|ences)|between[- ](?:the )?(?:two )?(?:groups?|arms?))\b[^.;\d]{0,70}(?P<value>\d[\d.]*)",
    re.IGNORECASE,
    holds=("differ", "between"),
).finditer
_BEHIND = 45


def change_within(text: str, token: Token, sentence: Span) -> Span | None:
    """The words by which a number is a change of one group, where the passage has another number for the difference
    between the groups; None where none are."""
    part = max(text.rfind(sign, sentence[0], token.start) for sign in ";:")
    low = max(sentence[0], part + 1)
    led = _changed(text, sentence[0], token.start)
    if led is None or _compares(text, low, token.start) is not None:
        return None
    stops = [at for sign in ".;(" if (at := text.find(sign, token.end, token.end + _BEHIND)) >= 0]
    if _compares(text, token.end, min(stops, default=min(len(text), token.end + _BEHIND))) is not None:
        return None
    others = (found["value"].rstrip(".") for found in _differs(text))
    return led.span("said") if any(value != token.text for value in others) else None
