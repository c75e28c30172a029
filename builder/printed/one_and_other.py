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


def pair_in_turn(clause: Clause, mentions: Sequence[Mention], free: Sequence[Item]) -> list[tuple[Item, Mention]]:
    """ "Swelling was less after A: 3.1 compared with 5.0", where the clauses before have named A and B: the second is
    B's. free: the numbers that are nobody's yet. Each number with its name; empty where that is not so."""
    keys = {mention.key for mention in mentions}
    others = [mention for mention in clause.before if mention.key not in keys]
    if len(free) != 2 or len(keys) != 1 or len(others) != 1 or not mentions[0].key:
        return []
    first, second = free
    if mentions[-1].start > first.start or _set_against(clause.text[first.end : second.start]) is None:
        return []
    if _than(clause.text, mentions[0].start, first.start) is not None:
        return []
    return [*zip(free, (mentions[0], others[0]), strict=True)]


_set_against = compiled(
    r"[\s\w%()±.]{0,12}?\s*,?\s*\b(?:compared (?:with|to)|versus|vs\.?|against|as against|as opposed to)\s+"
    r"(?:only\s+)?",
    re.IGNORECASE,
).fullmatch
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
