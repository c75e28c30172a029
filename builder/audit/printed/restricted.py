"""Where a passage says outright that figures are of some only: "in the subset with diabetes", "in women alone"."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import NamedTuple

from ...numerals import Lexicon, Token
from .clauses import Span, parts_between_semicolons, sentences
from .groups import has_whole
from .late import late


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
_RESTRICTS = late(
    r"\b(?:(?:only|solely|exclusively) (?:in|among|amongst|for|within)|(?:restrict|limit|confin)\w+ (?:the \w+ )?to|"
    r"(?:in|among|within|for|of) (?:the|a|this|one|our) (?:[a-z-]+ )?"
    r"(?:subset|subgroup|sub-?sample|stratum|sub-?series|sub-?cohort)(?: (?:of|with|without|in|who|that) (?:had )?)?|"
    r"when only|(?:considering|taking|looking at|counting) only|subgroup analysis (?:of|in))"
    rf"\s*(?:the |those |these |an? )?(?:who |with |of )?{_WHOM.format('whom')}|"
    rf"\b(?:in|among|for|within) (?:the )?{_WHOM.format('alone')}(?<=[\s~])(?:alone|only)\b",
    re.IGNORECASE,
    holds=("only", "solely", "exclusively", "restrict", "limit", "confin", "sub", "stratum", "alone"),
)
_is_of_time = re.compile(
    r"follow|recall|seen|examined|available|year|month|visit|image|record|complete", re.IGNORECASE
).search
""" "Restricted to those with a recall" holds for all that a figure can be of."""
_words = re.compile(r"[a-z]+(?:-[a-z]+)*").findall
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
                whom = (each["whom"] or each["alone"]).lower()
                first = next((word for word in _words(whom) if word not in passing), "")
                if first and _is_of_time(whom) is None:
                    found.append(Restricted(each.start(), each.end(), first, (low, high)))
    return found


def has_more(text: str, tokens: Sequence[Token], at: int, part: Restricted) -> bool:
    """Whether the passage has, outside of these words, a figure of all or of more."""
    if has_whole(f"{text[: part.start]} | {text[part.scope[1] :]}"):
        return True
    token = tokens[at]
    total = tokens[token.pair].value if token.part == "events" else None
    return total is not None and any(
        other.part == "total" and other.value > total and not part.scope[0] <= other.start < part.scope[1]
        for other in tokens
    )
