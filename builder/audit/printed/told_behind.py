"""Whom a number is of by the words straight behind it: "an OR of 3.9 in women", "22/34 with and 38/46 without it"."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from ...numerals import Token
from ...numerals.late import late
from ...records import NamedTuple
from .clauses import Span, sentences

_MAY = late(r"\d\D{0,60}?\s(?:in|for|among|with|without)\b\D{1,80}\d", re.IGNORECASE)
_CLOSES = (
    r"(?=\s*(?:[.,;:)\n(]|$)|\s+(?:and|but|while|whereas|versus|vs|against|compared|healed|were|was|did|had|survived|"
    r"failed|succeeded)\b)"
)
_match_behind = late(
    r"\s*(?:%\s*)?(?:\([^()]*\)|\[[^\[\]]*\])?\s*(?:(?!in\b|for\b|with)[a-z]+\s+)?"
    rf"(?P<said>(?P<lead>in|for|among|with|without)\b(?:\s+(?P<words>(?:[a-z-]+\s+){{0,5}}?[a-z-]+))?){_CLOSES}",
    re.IGNORECASE,
).match
_find_words = re.compile(r"[a-z]+(?:-[a-z]+)*").findall
_PASSING = frozenset(
    {"a", "an", "the", "in", "for", "among", "of", "with", "those", "that", "who", "had", "all", "only"}
)


class Behind(NamedTuple):
    """What the words behind a number say, and those behind the other numbers like it of its sentence."""

    words: Span
    content: frozenset[str]
    others: tuple[frozenset[str], ...]


class _Said(NamedTuple):
    at: int
    words: Span
    lead: str
    content: frozenset[str]


def content_of(words: str, units: frozenset[str]) -> frozenset[str]:
    """The words that say whom: "without tear" of "eyes without a tear". units: what is counted."""
    found = ["without" if word == "no" else word for word in _find_words(words.lower())]
    return frozenset(word for word in found if word not in _PASSING) - units or frozenset(found) - _PASSING


def told_behind(text: str, tokens: Sequence[Token], units: frozenset[str]) -> dict[int, Behind]:
    """By the place of each number that such words follow, where another one of its kind and sentence has others."""
    if next(iter(_MAY.finditer(text)), None) is None:
        return {}
    found: dict[int, Behind] = {}
    for sentence in sentences(text, 0, len(text)):
        kinds: dict[str, list[_Said]] = {}
        for said, kind in _said_in(sentence, text, tokens, units):
            kinds.setdefault(kind, []).append(said)
        for alike in kinds.values():
            whole = _with_unsaid(alike)
            for each in whole:
                others = tuple(other.content for other in whole if other.content != each.content)
                if others and each.content:
                    found[each.at] = Behind(each.words, each.content, others)
    return found


def _said_in(sentence: Span, text: str, tokens: Sequence[Token], units: frozenset[str]) -> Iterator[tuple[_Said, str]]:
    for at, token in enumerate(tokens):
        if not sentence[0] <= token.start < sentence[1] or token.part not in ("", "events"):
            continue
        kind = "ratio" if token.kind == "number" and token.decimals else token.kind
        if kind not in ("ratio", "percent", "count"):
            continue
        end = max(token.end, token.outer_end, tokens[token.pair].outer_end if token.part else 0)
        behind = _match_behind(text, end, sentence[1])
        if behind is not None:
            content = content_of(behind["words"] or "", units)
            lead = behind["lead"].lower()
            yield _Said(at, behind.span("said"), lead, content | {lead} if lead == "without" else content), kind


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
