"""Names that are only what another one is compared with, and two numbers behind one name that are of both."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Protocol

from ..compiled_patterns import compiled
from ..numerals import Token
from .clauses import Span
from .lists import Bracket, Item, find_against, is_near, items_of
from .wordings import Mention


class Clause(Protocol):
    """What is known of the clause that is being read."""

    text: str
    tokens: Sequence[Token]
    counted: frozenset[str]
    before: list[Mention]
    is_apart: bool


def pair_behind(
    clause: Clause, region: Span, mentions: Sequence[Mention], bracket: Bracket, numbers: Sequence[int]
) -> list[tuple[Item, Mention]]:
    """ "The advantage of A (93% vs 82%)", where the clauses before have named A and B: the second is B's. Each number
    with its name; empty where that is not so."""
    text = clause.text
    keys = {mention.key for mention in mentions}
    others = [mention for mention in clause.before if mention.key not in keys]
    if len(keys) != 1 or len(others) != 1 or not mentions[0].key or mentions[0].start > bracket.start:
        return []
    if not clause.is_apart and not is_near(text[mentions[0].end : bracket.start]):
        return []
    inside = [index for index in numbers if index in bracket.numbers]
    items = items_of(text, clause.tokens, inside, [], clause.counted)
    is_pair = len(items) == 2 and find_against(text[items[0].end : items[1].start]) is not None
    if not is_pair or _than(text, *region) is not None:
        return []
    return [*zip(items, (mentions[0], others[0]), strict=True)]


_than = compiled(r"\bthan\b", re.IGNORECASE).search


def is_aside(text: str, part: tuple[str, Sequence[Mention], Sequence[Item]], first: Mention) -> bool:
    """Whether a name is only what another one is compared with: "A, unlike B, healed in 39 of 47"."""
    sign, named, items = part
    if sign != "," or items or not named or named[0] is first:
        return False
    return _ASIDE.search(text, max(named[0].start - 30, 0), named[0].start) is not None


_ASIDE = compiled(
    r"\b(?:unlike|in contrast (?:with|to)|as opposed to|compared (?:with|to)|relative to|than|not)\s+(?:the\s+)?$",
    re.IGNORECASE,
)
