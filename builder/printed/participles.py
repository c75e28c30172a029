"""Participles that say what is counted, not what was counted of it: "39 of 47 eyes treated by residents healed"."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache

from ..numerals import Lexicon, Token
from ..numerals.late import in_small, late
from .clauses import sentences

_FLOW = frozenset({"eligible", "treated", "due", "examined"})
_MEANS = r"(?:by|with|in|using|without|under|through)\b"
_VERBS = "had|have|were|was|healed|showed|survived|failed|did|became"
_FOR_A_TIME = rf"(?:at least|for|between|after|until|up to)\b[^.;]*\b(?:{_VERBS})\b"


def read_participles(text: str, tokens: Sequence[Token], lexicon: Lexicon) -> None:
    """Tell the numbers of each sentence which of their roles only such participles say (`Token.of_whole`)."""
    if all(_FLOW.isdisjoint(token.roles) for token in tokens):
        return
    if _may_lead_on(lexicon).search(text) is None:
        return
    find_participle, find_word = _patterns(lexicon)
    stands_for = lexicon.all_roles
    for start, end in sentences(text, 0, len(text)):
        participles = [
            stands_for[(match["word"] or match["next"] or match["before"]).lower()]
            for match in find_participle.finditer(text, start, end)
        ]
        if participles:
            words = [stands_for[match[0].lower()] for match in find_word.finditer(text, start, end)]
            alone = {role for role in participles if words.count(role) == participles.count(role)}
            for token in tokens:
                if start <= token.start < end and not alone.isdisjoint(token.roles):
                    token.of_whole = tuple(role for role in token.roles if role in alone)


def _words(lexicon: Lexicon) -> str:
    return "|".join(
        re.escape(word) for word, role in lexicon.all_roles.items() if role in _FLOW and word.replace("-", "").isalpha()
    )


@lru_cache(maxsize=8)
def _may_lead_on(lexicon: Lexicon) -> re.Pattern[str]:
    """Such a word with another behind it: most end their part, "118 treated, 98 examined"."""
    return in_small(rf"(?:{_words(lexicon)}|followed)\s+[a-z]")


@lru_cache(maxsize=8)
def _patterns(lexicon: Lexicon) -> tuple[re.Pattern[str], re.Pattern[str]]:
    units = "|".join(map(re.escape, lexicon.unit_by_word))
    words = _words(lexicon)
    counted = rf"(?:{units}|\d+(?:\s+[a-z]+s)?)(?:\s*\([^()]*\))?"
    participle = rf"\b(?:{counted}\s+(?P<word>{words})\s+(?:{_MEANS}|{_FOR_A_TIME})|(?P<next>followed)\s+by\b)"
    participle += rf"|\bof\s+(?:(?:the|these|those|all)\s+)?\d+\s+(?P<before>{words})\s+(?=[a-z])"
    return late(participle, re.IGNORECASE), late(rf"\b(?:{words})\b", re.IGNORECASE)
