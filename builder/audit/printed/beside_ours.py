"""A number that the authors set their own result against: "the best series had 42 of 50; ours, 55 of 70"."""

from __future__ import annotations

import re

from ...compiled_patterns import compiled
from ...numerals.late import late
from .clauses import Span

_may = late(
    r"\b(?:ours|our|we|here|this time|present|this (?:study|series|trial|audit|cohort|report|clinic))\b", re.I
).search
_OURS = late(
    r"\b(?:ours|this time|here(?=[ ,.;)])|(?:of|in|among|from) our|"
    r"our (?:own )?(?!method|protocol|knowledge|definition|criteri|hypothes|aim)[a-z\d]+|"
    r"we (?:found|saw|had|have|observed|healed|obtained|recorded|counted|reached|call)|"
    r"(?:in|of) (?:the present|this) (?:one|study|series|trial|audit|cohort))\b",
    re.IGNORECASE,
)
_speaks_of_us = late(
    r"\b(?:we|our|ours|us|this (?:study|series|trial|audit|cohort)|the present)\b", re.IGNORECASE
).search
_FIGURE = compiled(r"\b\d+(?:\.\d+)? ?(?:of|/|out of) ?(?:the )?\d+|\d ?%")
_ends = compiled(r"[.;](?=\s|$)|\n").search
_AGAINST = late(
    r"\b(?:against|beside|near|unlike|than|close to|versus|literature|elsewhere|differs? from|contrasts? with)\b",
    re.IGNORECASE,
).search


def set_against_ours(text: str, sentence: Span, at: Span, following: Span | None) -> Span | None:
    """The words for the authors' own result that is set against the number at a place; None where it is theirs.

    following: the sentence behind, in which they may come: "The textbook gives 42 of 50. Of ours 55 of 70 healed".
    """
    if _may(text) is None or _speaks_of_us(text, 0, at[0]) is not None:
        return None
    last = following[1] if following is not None else sentence[1]
    for ours in _OURS.finditer(text, at[1], last):
        stop = _ends(text, ours.end(), last)
        # Not into a bracket that is closed before: "84% (107 of 128) in the present study".
        signs = ";.," if ")" in text[at[1] : ours.start()] else ";.,("
        begin = max(at[1], max(text.rfind(sign, at[1], ours.start()) for sign in signs))
        if begin == at[1] and _AGAINST(text, sentence[0], ours.start()) is None:
            continue
        if _FIGURE.search(text, begin, stop.start() if stop is not None else last):
            return ours.span()
    return None
