"""Where a passage says outright that figures are of some only: "in the subset with diabetes", "in women alone"."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ..compiled_patterns import compiled
from ..numerals import Lexicon, Token
from ..numerals.late import in_small, late
from ..records import NamedTuple
from .clauses import Span, parts_between_semicolons, sentences
from .groups import has_whole


class Restricted(NamedTuple):
    """Words that restrict figures to some, and how far they reach."""

    start: int
    end: int
    first: str
    """The first word, in small letters, that says whom: "diabetes"."""
    scope: Span

    def holds(self, at: int) -> bool:
        """Whether a number there is of these only."""
        return self.end <= at < self.scope[1]


_WHOM = (
    r"(?P<{}>(?:(?!(?:was|were|is|are|did|had|has|have|there|it|could|we|showed|healed|survived|the|a|an)\b)[a-z-]+[\s~]?)"
    r"{{1,5}})"
)
_RESTRICTING = ("only", "solely", "exclusively", "restrict", "limit", "confin", "sub", "stratum", "alone")
_RESTRICTS = in_small(
    r"\b(?:(?:only|solely|exclusively) (?:in|among|amongst|for|within)|(?:restrict|limit|confin)\w+ (?:the \w+ )?to|"
    r"(?:(?:in|among|within|for|of) (?:the|a|this|one|our)|the) (?:[a-z-]+ )?"
    r"(?:subset|subgroup|sub-?sample|stratum|sub-?series|sub-?cohort)(?: (?:of|with|without|in|who|that) (?:had )?)?|"
    r"when only|(?:considering|taking|looking at|counting) only|subgroup analysis (?:of|in))"
    rf"\s*(?:the |those |these |an? )?(?:who |with |of )?(?:\d+ )?{_WHOM.format('whom')}|"
    rf"(?<=[.;:] ){_WHOM.format('only')}(?<=\s)(?:only|alone)(?=\s*[,:(])|"
    rf"\b(?:in|among|for|within) (?:the )?{_WHOM.format('alone')}(?<=[\s~])(?:alone|only)\b",
    holds=_RESTRICTING,
)
_is_of_time = late(
    r"follow|recall|seen|examined|available|year|month|visit|image|record|complete|protocol|regimen|adhe|complian|"
    r"(?:kept|stuck|held) to",
    re.IGNORECASE,
).search
""" "Restricted to those with a recall" holds for all that a figure can be of; "to those who kept to the protocol" names
an analysis."""
_words = compiled(r"[a-z]+(?:-[a-z]+)*").findall
_PASSING = frozenset({"those", "the", "with", "without", "who", "that", "of", "in", "had", "a", "an", "all", "cases"})


def restricted(text: str, lexicon: Lexicon) -> list[Restricted]:
    """All such words of a passage."""
    if next(iter(_RESTRICTS.finditer(text)), None) is None:
        return []
    passing = _PASSING | frozenset(lexicon.unit_by_word)
    found: list[Restricted] = []
    for sentence in sentences(text, 0, len(text)):
        for low, high in parts_between_semicolons(text, *sentence):
            for each in _RESTRICTS.finditer(text, low, high):
                whom = each["whom"] or each["alone"] or each["only"]
                first = next((word for word in _words(whom) if word not in passing), "")
                if first and _is_of_time(whom) is None:
                    found.append(Restricted(each.start(), each.end(), first, (low, high)))
    return found


_WHO = (
    r"(?:who|that|which|whose|with|without|in[\s~]+whom|in[\s~]+which|having)[\s~]+(?:had[\s~]+|were[\s~]+|was[\s~]+|"
    r"have[\s~]+|are[\s~]+|been[\s~]+)*"
)
_match_who = late(
    rf"[\s~]*\)?[\s~]*(?:(?:in|among|amongst|of)[\s~]+)?(?:(?:the|those|[a-z]+)[\s~]+)?{_WHO}"
    r"(?P<whom>(?:an?[\s~]+|the[\s~]+|their[\s~]+|been[\s~]+)?[a-z-]{3,}(?:[\s~]+[a-z-]+){0,3})",
    re.IGNORECASE,
).match
_WHO_THEY_ARE = ("who", "that", "which", "with", "having")
STEMS = (*_RESTRICTING, *_WHO_THEY_ARE)
"""One of them stands, in small letters, in whatever passage `restricted` or `counted_among` finds something in."""
_find_who = late(
    r"\b(?:who|whose|that|which|with|without|whom|having)\b",
    re.IGNORECASE,
    holds=_WHO_THEY_ARE,
).search
_is_flow = late(
    r"\b(?:return|attend|came|come|remain|left|still|treat|evaluat|assess|analy|presen|surviv|alive|randomi|enrol|includ|"
    r"agree|consent|respon|answer|reach|eligib|heal|succe|fail|lost|success|kept|retain|could|result|outcome|report|"
    r"receiv|underw|done|perform|fill|repair|restor|operat|place|could|been)\w*",
    re.IGNORECASE,
).search
""" "Of the 60 who returned": all that a figure can be of."""


def counted_among(text: str, tokens: Sequence[Token], lexicon: Lexicon) -> dict[int, Restricted]:
    """By place of the events of a pair: "22 of the 34 who smoked", beside a total of all."""
    if _find_who(text) is None or not has_whole(text):
        return {}
    found: dict[int, Restricted] = {}
    passing = _PASSING | frozenset(lexicon.unit_by_word) | {"whose", "their", "been", "which", "whom"}
    for at, token in enumerate(tokens):
        total = tokens[token.pair] if token.part == "events" else None
        if total is None or not any(
            other.part == "total" and other.kind == "count" and other.value > total.value for other in tokens
        ):
            continue
        who = _match_who(text, total.outer_end)
        if who is None or _is_flow(who["whom"]) or _is_of_time(who["whom"]):
            continue
        first = next((word for word in _words(who["whom"].lower()) if word not in passing), "")
        if first:
            found[at] = Restricted(total.start, who.end(), first, (token.start, who.end()))
    return found


def has_more(text: str, tokens: Sequence[Token], at: int, part: Restricted) -> bool:
    """Whether the passage has, outside of these words, a figure of all or of more."""
    if has_whole(f"{text[: part.start]} | {text[part.scope[1] :]}"):
        return True
    studies = [(part.start <= each.start < part.scope[1], each.value) for each in tokens if each.unit == "study"]
    if any(is_its and any(not is_inside and more > value for is_inside, more in studies) for is_its, value in studies):
        return True
    token = tokens[at]
    total = tokens[token.pair].value if token.part == "events" else None
    return total is not None and any(
        other.part == "total" and other.value > total and not part.scope[0] <= other.start < part.scope[1]
        for other in tokens
    )
