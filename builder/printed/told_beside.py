"""Whom a number is of by the words straight behind or before it: "an OR of 3.9 in women", "in women 3.9"."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ..compiled_patterns import compiled
from ..numerals import Token
from ..numerals.late import late
from ..records import NamedTuple
from .clauses import Span, sentences

_may = compiled(r"\b(?:in|for|among|with|without)\b", re.IGNORECASE).search
_CLOSES = (
    r"(?=\s*(?:[.,;:)\n(]|$)|\s+(?:and|but|while|whereas|versus|vs|against|compared|healed|were|was|did|had|survived|"
    r"failed|succeeded)\b)"
)
_match_behind = late(
    r"\s*(?:%\s*)?(?:\([^()]*\)|\[[^\[\]]*\])?\s*(?:(?!in\b|for\b|with)[a-z]+\s+)?"
    rf"(?P<said>(?P<lead>in|for|among|with|without)\b(?:\s+(?P<words>(?:[a-z-]+\s+){{0,5}}?[a-z-]+))?){_CLOSES}",
    re.IGNORECASE,
).match
_find_words = compiled(r"[a-z]+(?:-[a-z]+)*").findall
_PASSING = frozenset(
    {"a", "an", "the", "in", "for", "among", "of", "with", "those", "that", "who", "had", "all", "only"}
)


_match_before = late(
    r"(?:^|[\s(,:;])(?P<said>(?P<lead>in|for|among|with|without)\b"
    r"(?:\s+(?P<words>(?:(?!(?:in|for|among|with|without|and|or|but|than|versus|vs|while|whereas)\b)[a-z-]+\s+){0,5}?"
    r"(?!(?:in|for|with|among|and|or|but)\b)[a-z-]+))??)"
    r"(?:\s*[,:]|\s+(?:the|an?|is|was|were|had|there|it|odds|risk|hazard|ratio|relative|OR|RR|HR|of|[a-z]+ed|in)\b){0,7}"
    r"[\s:=,(]*$",
    re.IGNORECASE,
).search


class Beside(NamedTuple):
    """What the words beside a number say, and those beside the other numbers like it of its sentence."""

    words: Span
    content: frozenset[str]
    others: tuple[frozenset[str], ...]


class _Said(NamedTuple):
    at: int
    words: Span
    lead: str
    content: frozenset[str]


_DENIED = {"no": "without", "not": "without"}


def content_of(words: str, units: frozenset[str]) -> frozenset[str]:
    """The words that say whom: "without tear" of "eyes without a tear". units: what is counted."""
    found = [_DENIED.get(word, word) for word in _find_words(words.lower())]
    return frozenset(word for word in found if word not in _PASSING) - units or frozenset(found) - _PASSING


def told_beside(text: str, tokens: Sequence[Token], units: frozenset[str]) -> dict[int, Beside]:
    """By the place of each number that such words follow, where another one of its kind and sentence has others; else
    that such words lead to, where they lead to another one too."""
    if _may(text) is None:
        return {}
    found: dict[int, Beside] = {}
    for sentence in sentences(text, 0, len(text)):
        for alike in _alike_in(sentence, tokens).values():
            behind = _told([_behind(at, sentence, text, tokens, units) for at in alike])
            found |= behind or _told([_before(at, sentence, text, tokens, units) for at in alike])
    return found


def _told(alike: Sequence[_Said | None]) -> dict[int, Beside]:
    whole = _with_unsaid([each for each in alike if each is not None])
    found: dict[int, Beside] = {}
    for each in whole:
        others = tuple(other.content for other in whole if other.content != each.content)
        if others and each.content:
            found[each.at] = Beside(each.words, each.content, others)
    return found


def _alike_in(sentence: Span, tokens: Sequence[Token]) -> dict[str, list[int]]:
    """The ratios, shares and counts of a sentence, by kind."""
    kinds: dict[str, list[int]] = {}
    for at, token in enumerate(tokens):
        if sentence[0] <= token.start < sentence[1] and token.part in ("", "events"):
            kind = "ratio" if token.kind == "number" and token.decimals else token.kind
            if kind in ("ratio", "percent", "count"):
                kinds.setdefault(kind, []).append(at)
    return kinds


def _behind(at: int, sentence: Span, text: str, tokens: Sequence[Token], units: frozenset[str]) -> _Said | None:
    token = tokens[at]
    end = max(token.end, token.outer_end, tokens[token.pair].outer_end if token.part else 0)
    return _said(at, _match_behind(text, end, sentence[1]), units)


def _before(at: int, sentence: Span, text: str, tokens: Sequence[Token], units: frozenset[str]) -> _Said | None:
    """The same of the words between the number before, with what belongs to it, and this one."""
    token = tokens[at]
    low = max((each.outer_end for each in tokens[:at] if each.outer_end <= token.start), default=0)
    return _said(at, _match_before(text, max(low, sentence[0]), token.start), units)


def _said(at: int, match: re.Match[str] | None, units: frozenset[str]) -> _Said | None:
    if match is None:
        return None
    content = content_of(match["words"] or "", units)
    lead = match["lead"].lower()
    return _Said(at, match.span("said"), lead, content | {lead} if lead == "without" else content)


def _with_unsaid(alike: Sequence[_Said]) -> list[_Said]:
    """ "22/34 with and 38/46 without a tear", "22/34 with a tear and 38/46 without": each with the words of
    the other one that it leaves unsaid."""
    out: list[_Said] = []
    for place, each in enumerate(alike):
        if each.content <= _BARE:
            near = (*alike[place + 1 : place + 2], *out[-1:])
            whole = next((one for one in near if {one.lead, each.lead} == _WITH and not one.content <= _BARE), None)
            if whole is None:
                continue
            content = whole.content - {"without"}
            each = each._replace(content=content | {"without"} if each.lead == "without" else content)
        out.append(each)
    return out


_BARE = frozenset({"without", "one", "it", "them"})
_WITH = {"with", "without"}
