"""Words that say a count is of some of those counted before: "of the 45 in which", "where it tore, 31 of 45"."""

from __future__ import annotations

import re

from ..numerals.late import late
from .clauses import Span

MAY_TELL = frozenset({
    "that", "which", "who", "whose", "whom", "with", "without", "where", "when", "these", "those", "from", "after",
    "at", "in", "among", "if",
})  # fmt: skip
"""A passage without any of these restricts nothing."""

_WHOM = r"(?P<whom>(?:(?!(?:and|but|while|whereas|healed|survived|failed)\b)[a-z-]+[\s~]?){1,8})"
_match_behind = late(
    r"[\s~]*(?:(?!(?:and|or|but|had|were|was|by|at|after|in|of|with|to)\b)[\w-]+[\s~]+){0,2}"
    rf"(?P<said>(?:that|which|who|whose|with|without|where|having|in[\s~]+(?:which|whom))[\s~]+{_WHOM})",
    re.IGNORECASE,
).match
""" "31 of the 45 that had been retreated", "of the 45 in which the lens was clear, 31"."""
_opens = late(
    r"(?:^[\s~]*|[.;:][\s~]+|,[\s~]+(?:but|and|while|whereas)[\s~]+)"
    r"(?P<said>(?:where|when|whenever|if|once|for|in|among|of|after)[\s~]+"
    rf"(?:(?:the|those|all|any|cases|only)[\s~]+)*(?:in which[\s~]+|that[\s~]+|with[\s~]+)?"
    rf"{_WHOM})[,:]?[\s~]*(?:only[\s~]+|just[\s~]+)?$",
    re.IGNORECASE,
    holds=("where", "when", "if", "once", "for", "in", "among", "of", "after"),
).search
""" "Where a file had broken, 31 of 45"."""
_takes_up = late(
    r"\b(?P<said>(?:among|amongst|of|in|for)[\s~]+(?:these|those|this|them))[\s~]+(?:last[\s~]+|latter[\s~]+)?$",
    re.IGNORECASE,
).search
""" "; among these 45, 31"."""
_ends_in_bracket = late(
    r"(?P<said>\b(?:from|at|in|with|after|without|among|through|under)[\s~]+(?:the[\s~]+|an?[\s~]+)?(?P<whom>(?:[a-z-]+[\s~]+){1,5}))"
    r"\([\s~]*$",
    re.IGNORECASE,
    holds=("(",),
).search
""" "came from grafted sites (9 of 66)"."""
_is_flow = late(
    r"\b(?:return|attend|came|come|remain|left|still|evaluat|assess|analy|presen|surviv|alive|randomi|enrol|includ|study|"
    r"agree|consent|respon|answer|reach|eligib|succe|success|kept|retain|could|result|outcome|report|follow|recall|seen|"
    r"underw|done|perform|place|examin|availab|year|month|week|visit|review|complet|protocol|treatment was|all\b|total|"
    r"overall|treated|data|record|end|last|final|group|series|sample|again|control|whole|\d)",
    re.IGNORECASE,
).search
""" "Of the 60 who returned", "in the group as a whole": all that a figure can be of."""
_REACH = 120


def restricting(text: str, first: Span, last: Span, sentence: Span) -> Span | None:
    """The words by which a count is of some; None where none stand beside it.

    first, last: the number of those counted and of their whole, in the order of the text. sentence: around them.
    """
    behind = _match_behind(text, last[1], sentence[1])
    if behind is None:
        behind = _match_behind(text, first[1], sentence[1])
    if behind is not None and _is_flow(behind["whom"]) is None:
        return behind.span("said")
    low = max(sentence[0], first[0] - _REACH)
    if (taken_up := _takes_up(text, low, first[0])) is not None:
        return taken_up.span("said")
    before = _opens(text[low : first[0]]) or _ends_in_bracket(text[low : first[0]])
    if before is not None and _is_flow(before["whom"]) is None:
        return low + before.start("said"), low + before.end("said")
    return None
