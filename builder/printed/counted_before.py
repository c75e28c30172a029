"""What the whole of a pair counts that stands without a noun, where a passage counted as many of one thing before."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ..numerals import Lexicon, Token
from ..numerals.late import late
from .clauses import Span

_ends_in_the = late(r"\bof\s+(?:the|these|those|all|all the)\s+$", re.IGNORECASE).search
is_bare_behind = late(
    r"[\s~]*(?:$|[.,;:()\[\]|]|(?:(?!(?:treated|filled|affected)\b)[a-z]+ed|had|were|was|have|are|did|showed?|have|could|"
    r"and|while|whereas|but|at|after|by|the|healing|success|in all)\b)",
    re.IGNORECASE,
).match
""" "26 of 32 healed"; what is told of otherwise behind it, "26 of 32 upper ones", is another thing or a part."""


def counted_before(text: str, tokens: Sequence[Token], at: int, own: str, lexicon: Lexicon) -> tuple[str, Span] | None:
    """Id of the unit, and the words, of which a passage counted as many as the whole of a pair has: "77 patients had
    163 eyes; in 24 of 163". own: what the study counts, of which the passage counts another number, or which the pair
    takes up with "the". None where it counted as many of its own too."""
    token = tokens[at]
    begin = min(token.start, tokens[token.pair].start) if token.pair >= 0 else token.start
    same = [each for each in tokens if each.value == token.value and not each.part]
    units = {each.unit for each in same if each.unit in lexicon.units}
    first = next((each for each in same if each.unit in units and each.start < begin), None)
    if first is None or len(units) != 1 or own in units:
        return None
    takes_up = _ends_in_the(text, max(token.start - 12, 0), token.start) is not None
    if not takes_up and not (len(same) == 1 and _counts_too(tokens, own) and is_bare_behind(text, token.end)):
        return None
    word = _match_word(text, first.end)
    return first.unit, (first.start, word.end() if word is not None else first.end)


def _counts_too(tokens: Sequence[Token], own: str) -> bool:
    return any(each.unit == own for each in tokens)


_match_word = late(r"[\s~]*[a-z]+", re.IGNORECASE).match
