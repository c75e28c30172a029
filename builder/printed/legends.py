"""Single signs that a passage itself puts in place of its names: "A = MTA, B = calcium hydroxide", and rows A and B."""

from __future__ import annotations

from collections.abc import Iterator

from ..compiled_patterns import compiled
from ..numerals.late import late
from .clauses import Span
from .wordings import Mention

_CAPITAL = "[A-MOQ-Z]|I{2,3}|IV"  # never the N of a size or the P of a test
_OTHER = "[a-f]|[1-6]"
_ends_in_sign = late(
    rf"(?<![\w.%/-])\(?(?:(?P<capital>{_CAPITAL})\)?\s*(?:[=:,(–]\s*|(?:stands?\s+for|is|was|being|means|denotes|for"
    rf"|(?:had\s+)?received|got)\s+)?|(?P<other>{_OTHER})\s*[=:]\s*)(?:an?\s+|the\s+)?$"
).search
_match_sign = late(
    rf"\s*(?:[=(]\s*(?P<capital>{_CAPITAL})|=\s*(?P<other>{_OTHER}))(?=\)|\s*(?:[,;.\n]|$)|\s+and\b)"
).match
may_have_legend = compiled(
    r"(?<![a-z0-9.%/-])(?:[a-z]|ii|iii|iv|[1-6])(?:\)? [a-z]|\s?[=:,(–]\s?[a-z])"
    r"|[a-z]\s?[=(]\s?(?:[a-z]|ii|iii|iv|[1-6])\b"
).search
"""Of small letters."""
_BEFORE, _BEHIND = 28, 8
"""Characters beside a name in which its sign stands."""


def mentions_by_legend(text: str, mentions: list[Mention]) -> Iterator[Mention]:
    """Where the signs of a legend stand for its names; a legend of one name is none."""
    told: dict[str, str] = {}
    where: list[Span] = []
    for mention in mentions:
        low = max(mention.start - _BEFORE, 0)
        for found, start in (
            (_ends_in_sign(text[low : mention.start]), low),
            (_match_sign(text[mention.end : mention.end + _BEHIND]), mention.end),
        ):
            if found is None:
                continue
            group = found.lastgroup or ""
            span = (start + found.start(group), start + found.end(group))
            if span in where:  # "MTA = A, calcium hydroxide = B": A is told of by the name before
                continue
            if told.setdefault(found[group], mention.key) != mention.key:
                return
            where.append(span)
    if len(told) < 2 or len(set(told.values())) < len(told) or "" in told.values():
        return
    for found in _find_standing(text):
        span = found.span(found.lastgroup or "")
        sign = text[slice(*span)]
        if sign in told and span not in where:
            yield Mention(*span, told[sign])


_find_standing = late(
    rf"(?:^|[|\t\n])[ ]*(?P<cell>{_CAPITAL}|{_OTHER})(?=[ ]*(?:[|\t:\n]|$)| {{2}})|\((?P<bracket>{_CAPITAL}|{_OTHER})\)"
    rf"|(?:^|\n)(?P<row>{_CAPITAL}|[a-f])(?= \d)"
    r"|(?<![\w.%/-])(?:(?P<sign>[B-HJ-MOQ-Z]|I{2,3}|IV)(?![\w.%/-]|\.\s?[A-Z]\w)"
    r"|(?P<first>[AI])(?=\s*(?:[,:;)(|=\d]|(?:and|v|vs|versus|than|or|healed|had|failed|did|was|were|survived)\b)))"
).finditer
"""A lone letter in prose is a sign; for "A" and "I" something must follow that follows no article and nobody's "I"."""
