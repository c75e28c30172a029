"""Totals that a passage prints as those seen again: the 58 of "the recall rate was 91% (58 of 64); success in 50"."""

from __future__ import annotations

import re

from ...numerals import Token
from ...numerals.late import holds_any, late
from ...synthesis.rounding import is_share_of
from .field_roles import Quoted, Scope
from .likeness import is_like
from .printed_passage import Reading

_SEEN = (
    "recall", "return", "attend", "came", "availab", "contact", "respon", "follow-up rate", "follow up rate",
    "complete", "seen again", "reached", "traced",
)  # fmt: skip
"""Without one of these words, of small letters, nobody is said to have been seen again."""
_before = late(
    r"\b(?:recall|follow-?\s?up|attendance|return|response|review)\s+(?:rate|percentage|proportion)?\b[^.;]*$"
    r"|\b(?:follow-?\s?up|data|records?)\s+(?:was|were)\s+(?:complete|available)\s+(?:for|in)\s+(?:only\s+)?$"
    r"|\b(?:response|attendance)\b[^.;]*$",
    re.IGNORECASE,
).search
_behind = late(
    r"[^.;:,\d]{0,40}?\b(?:came(?:\s+back)?|returned|(?:re-?)?attended|responded|turned\s+up|(?:were|was|remained)\s+"
    r"(?:available|seen\s+again)|(?:could\s+be|were)\s+(?:contacted|reached|traced|re-?called))\b",
    re.IGNORECASE,
).match
_HEAD = 90
"""Characters before a pair in which its clause may say so."""


def wholes_in_turn(quoted: Quoted, reading: Reading, scope: Scope) -> list[int]:
    """The first of a printed pair as the total of a claim: where the words beside say that so many were seen again,
    or where the share printed with the claim's events is of so many."""
    if quoted.name != "total":
        return []
    tokens = reading.tokens
    block = quoted.id.rpartition("/")[0]
    beside = {row.name: row for row in scope.quoted if row.id.rpartition("/")[0] == block}
    events = beside.get("events")
    found = []
    for index in reading.by_value.get(quoted.value, ()):
        token = tokens[index]
        if token.part != "events" or token.decimals or events is None or events.value == token.value:
            continue
        alone = quoted._replace(name="events")
        if is_like(alone, token, scope) and (
            _is_seen_again(reading, token) or _is_whole_of_share(events, token, reading)
        ):
            found.append(index)
    return found


def _is_seen_again(reading: Reading, token: Token) -> bool:
    if not holds_any(reading.small, _SEEN):
        return False
    text = reading.passage.text
    whole = reading.tokens[token.pair]
    start = max(token.outer_start - _HEAD, 0)
    return (
        _before(text, start, token.outer_start) is not None
        or _behind(text, max(whole.end, whole.outer_end)) is not None
    )


def _is_whole_of_share(events: Quoted, token: Token, reading: Reading) -> bool:
    """Whether the share straight behind the events is of so many: the 86.2% of "50 (86.2%)" is of 58."""
    tokens = reading.tokens
    return any(
        not tokens[index].part
        and index + 1 < len(tokens)
        and (share := tokens[index + 1]).kind == "percent"
        and is_share_of(share.value, share.decimals, events.value, token.value)
        and _brackets(reading.passage.text[tokens[index].end : share.start]) is not None
        for index in reading.by_value.get(events.value, ())
    )


_brackets = late(r"[\s~]*(?:[^\W\d_]+[\s~]+){0,2}[(\[][\s~]*").fullmatch
