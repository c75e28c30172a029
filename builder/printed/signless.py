"""Shares printed without a sign of their own: "83.1 with A and 71.4% with B", "the percentage healed was 83.1"."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ..compiled_patterns import compiled
from ..numerals import Token
from ..numerals.late import late

_LONGEST = 90
"""Characters between two shares of which the last alone has a sign."""
_NO_SHARE = frozenset({"mean", "median", "sd", "se", "iqr", "range", "minimum", "maximum", "p", "i2", "label", "per"})
"""Roles of numbers that are no share."""
_JOINED = late(r"\b(?:and|or|vs?|versus|against|compared\s+(?:with|to))\b\.?|,|/|&", re.IGNORECASE)
_ENDS = compiled(r"[.!?](?:\s+(?=[A-Z])|$)|[;|\n]")
_words_in = compiled(r"[^\W\d_]+").findall
_is_bracketed = compiled(r"[\s~]*[(\[]([^()\[\]\d]*)[)\]][\s~]*").fullmatch


def has_sign_behind(text: str, tokens: Sequence[Token], at: int) -> bool:
    """Whether the sign behind the next number is this one's too, as in "83.1 vs 71.4%": both have the same decimals,
    and the same words, or none, stand beside them."""
    one = tokens[at]
    last = next((other for other in range(at + 1, len(tokens)) if not _is_beside(tokens[other])), -1)
    if last < 0 or not _may_be(one) or tokens[last].decimals != one.decimals:
        return False
    gap = _without_brackets(text[one.end : tokens[last].start])
    if len(gap) > _LONGEST or _ENDS.search(gap) or not _is_in_step(text, one, tokens[last], gap):
        return False
    return tokens[last].kind == "percent" or has_sign_behind(text, tokens, last)


def _is_beside(token: Token) -> bool:
    """Of an interval, beside its share."""
    return token.part in ("low", "high") or token.kind == "confidence"


def is_headed_as_share(text: str, token: Token) -> bool:
    """Whether its sentence speaks of a percentage, and of nothing else that is measured, before the number: "the
    percentage healed was 83.1 with A and 71.4 with B"."""
    if not _may_be(token) or not token.decimals:
        return False
    ends = [found.end() for found in _SENTENCE_END.finditer(text, 0, token.start)]
    last = None
    for last in _find_cues(text[ends[-1] if ends else 0 : token.start]):  # noqa: B007
        pass
    return last is not None and last["share"] is not None


_SENTENCE_END = compiled(r"[.!?]\s|\n\s*\n")
_find_cues = late(
    r"(?P<share>\bpercentages?\b|(?<![\d.])\s*\\?%|\bper\s?cent\b)"
    r"|\b(?:mean|median|scores?|ratios?|odds|differences?|p|se|sd|ci|mm|years?|months?|age|points?)\b",
    re.IGNORECASE,
).finditer


def _may_be(token: Token) -> bool:
    is_bare = token.kind == "number" or (token.kind == "count" and token.unit == "none")
    is_alone = not token.part and not token.measure and not token.comparator and token.pair < 0
    return is_bare and is_alone and 0 <= token.value <= 100 and _NO_SHARE.isdisjoint(token.roles)


def _without_brackets(gap: str) -> str:
    return _BRACKETS.sub("", gap)


_BRACKETS = late(r"[(\[][^()\[\]]*\d[^()\[\]]*[)\]]")


def _is_in_step(text: str, one: Token, last: Token, gap: str) -> bool:
    """Whether the words beside two numbers are alike: "83.1 with A and 71.4% with B", "A 83.1, B 71.4%"."""
    joined = _JOINED.search(gap)
    if joined is None:
        return False
    behind, before = gap[: joined.start()], gap[joined.end() :].strip(" ~")
    first = _words_in(behind)
    if not first and not before:
        is_plain = bool(one.decimals) or _is_against(joined[0]) is not None
        return is_plain and _begins_a_clause(text, last.outer_end) is None
    if not one.decimals:
        return False
    if not before and _is_bracketed(behind):
        return _match_bracket(text, last.outer_end) is not None
    if not before:
        said = _words_in(_without_brackets(text[last.outer_end : last.outer_end + _LONGEST]))
        return said[:1] == first[:1]
    return not behind.strip(" ,~")


_is_against = compiled(r"v|against", re.IGNORECASE).match
_match_bracket = compiled(r"[\s~]*[(\[]").match
_begins_a_clause = compiled(r"\s+(?:were|was|had)\b", re.IGNORECASE).match
