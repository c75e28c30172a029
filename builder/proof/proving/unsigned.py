"""Differences printed without the sign that the claim gives them: "was reduced by 1.2" proves -1.2."""

from __future__ import annotations

import re

from ...compiled_patterns import compiled
from ...numerals import Token
from ...numerals.late import late
from ...printed.changes import changes
from ...reading.contrasts import RATIOS
from ...reading.values import Number
from .field_roles import Quoted, Scope
from .likeness import is_like, is_like_in_structure
from .printed_passage import Reading

_OTHER_END = {"low": "high", "high": "low"}
_KINDS = frozenset({"ratio", "interval"})
_find_end = compiled(r"[.;](?=\s|$)|\n").finditer
_match_less = late(r"\s*(?:[a-z%]+\s+)?(?:lower|less|fewer|smaller|shorter|below)\b", re.IGNORECASE).match
_match_less_behind = late(
    r"(?:[^.;]|\.\d){0,60}?\b(?:lower|less|fewer|smaller|shorter|in favou?r of|favou?ring)\b", re.IGNORECASE
).match
""" "A difference of 9 mm (2 to 16), lower with A", "in favour of A"."""
_find_less = late(r"\b(?:reductions?|decreases?|drops?|fall|fell|decline[ds]?)\b", re.IGNORECASE).search


def told_as_less(quoted: Quoted, reading: Reading, scope: Scope) -> list[int]:
    """The numbers without their sign that may prove a negative difference, or an end of its interval."""
    claim = scope.claim
    if claim is None or claim.contrast is None or quoted.role.kind not in _KINDS or "/contrast/" not in quoted.id:
        return []
    contrast = claim.contrast
    if contrast.measure.text in RATIOS or type(contrast.value) is not Number or contrast.value.value >= 0:
        return []
    turned = quoted._replace(value=-quoted.value, part=_OTHER_END.get(quoted.part, quoted.part))
    return [
        index
        for index in reading.by_value.get(turned.value, ())
        if (token := reading.tokens[index]).decimals == quoted.decimals
        and (is_like(turned, token, scope) or is_like_in_structure(turned, token, reading.bound(index), scope))
        and _says_less(reading.passage.text, token)
    ]


def _says_less(text: str, token: Token) -> bool:
    """Whether the clause of a number says that there was less."""
    low = max((end.end() for end in _find_end(text, 0, token.start)), default=0)
    told = {change.is_more for change in changes(text, low, token.start)}
    if told == {True}:  # "the fall was greater with A, by 9"
        return _find_less(text, low, token.start) is not None
    if told:
        return True
    is_less = _find_less(text, low, token.start) is not None or _match_less(text, token.end) is not None
    return is_less or _match_less_behind(text, token.end) is not None


def as_shown(row: Quoted, token: Token) -> str:
    """What a page prints of a proof: as the passage has it, with the claim's sign where the passage leaves it to words.

    "Reduced by 1.2", shown as 1.2 beside the name of a difference, would read as a rise.
    """
    if not row.value or row.value != -token.value:
        return token.shown
    plain = token.shown.lstrip("-−–")
    return f"−{plain}" if row.value < 0 else plain
