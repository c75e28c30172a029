"""Clauses that leave their verb unsaid: "8 of 47 had not healed; the remaining 39 had", "26 of 32 did not"."""

from __future__ import annotations

import re

from ..compiled_patterns import compiled
from ..numerals import Token
from ..numerals.late import in_small, late
from .clauses import Span
from .event_mentions import EventMention

_BEHIND = (
    r"\s*%?(?:\s*(?:,|and)\s*\d+)*\s*(?:\([^()]*\)|\))?\s*,?\s*"
    r"(?:(?!(?:that|who|which|not|and|or|but|with|without|in|of|by|for|if|when)\b)[a-z-]+\s+){0,2}?"
)
_AUX = r"(?:did|does|do|had|has|have|were|was|are|is|could|would)"
_END = r"(?=\s*(?:[.,;:()?!]|$|(?:and|but|while|whereas|though)\b))"
_AGAIN = r"(?:\s+(?:(?:do|done|be|been)\s+)?so|\s+(?:reach|achieve|attain|show|do)\s+(?:it|this|that))?"
_match_verb = in_small(
    rf"{_BEHIND}(?:(?P<no>{_AUX}\s+not|never\s+{_AUX}|(?:did|had|were|was)n['’]t|(?:were|was)\s+yet\s+to|failed\s+to)"
    rf"{_AGAIN}|(?P<yes>(?:did|had|were|was|have|has){_AGAIN})){_END}"
).match
_ends_in_rest = late(
    r"\b(?:remaining|others?|rest|remainder|balance(?:\s+of)?)\s*[,:(]?\s*(?:\d+\s*(?:,|and)\s*)*$",
    re.IGNORECASE, holds=("remain", "other", "rest", "balance"),
).search  # fmt: skip
_ends_in_verb = late(rf"\b(?P<no>{_AUX}\s+not)\s*\($", re.IGNORECASE).search
""" "8 of 52 did not (15%)"."""
_match_end = compiled(r"\s*\)?\s*(?:[.;,]|$)").match
_NEAR = 40
"""Characters before a number in which "the remaining" stands."""
_DENYING = frozenset({
    "not", "never", "nor", "neither", "cannot", "hardly", "didn't", "wasn't", "weren't", "hadn't", "haven't", "failed",
    "fail", "unable", "yet", "none", "no", "nobody",
})  # fmt: skip
"""What denies a verb, and goes where the verb is said again without it: "8 had not healed; 39 had"."""


class Elided:
    """A number with a verb that takes up what was said of others, or with none."""

    __slots__ = ("is_denied", "is_turned", "span")

    def __init__(self, span: Span, *, is_denied: bool = False, is_turned: bool = False) -> None:
        self.span = span
        """Where the words stand."""
        self.is_denied = is_denied
        """ "26 did not"."""
        self.is_turned = is_turned
        """ "The remaining 39", and nothing else: the other way round than those before."""

    def said_of(self, text: str, mention: EventMention) -> EventMention:
        """Words for an event as they are meant here."""
        if self.is_turned:
            return mention.turned(self.span)
        own = text[mention.start : mention.end].lower().split()
        if len(own) > 1 and own[0] in _DENYING:  # an outcome "not healed"
            return mention if self.is_denied else mention.turned(self.span)
        denials = tuple(span for span in mention.denials if text[slice(*span)].lower() not in _DENYING)
        return mention._replace(denials=(*denials, self.span) if self.is_denied else denials)


def elided(text: str, token: Token, end: int) -> Elided | None:
    """The verb straight behind a number that says no more than yes or no. end: of what belongs to the number."""
    found = _match_verb(text, end)
    if found is not None:
        return Elided(found.span("no" if found["no"] else "yes"), is_denied=found["no"] is not None)
    low = max(token.start - _NEAR, 0)
    before = _ends_in_verb(text[low : token.start])
    if before is not None:
        return Elided((low + before.start("no"), low + before.end("no")), is_denied=True)
    start = rest_before(text, token.outer_start) if _match_end(text, end) is not None else -1
    return Elided((start, end), is_turned=True) if start >= 0 else None


def rest_before(text: str, start: int) -> int:
    """Where "the remaining" begins straight before a number; -1 where it does not stand there."""
    low = max(start - _NEAR, 0)
    rest = _ends_in_rest(text[low:start])
    return low + rest.start() if rest is not None else -1
