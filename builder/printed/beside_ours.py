"""A number that the authors set their own result against: "the best series had 42 of 50; ours, 55 of 70"."""

from __future__ import annotations

import re

from ..compiled_patterns import compiled
from ..numerals.late import in_small, late
from .clauses import Span

_may = in_small(
    r"\b(?:ours|our|we|here|this time|present|this (?:study|series|trial|audit|cohort|report|clinic))\b",
    holds=("our", "we", "here", "this ", "present"),
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


_is_straight = late(r"(?:\s*(?:of|/|out of)\s*(?:the )?\d+)?\s*%?\s*(?:[a-z]+\s+)?", re.IGNORECASE).fullmatch
_ours_first = late(
    r"\b(?i:our (?:own )?)(?=\d+(?:\.\d+)? ?(?:of|/|%))|"
    r"\d+(?:\.\d+)? ?(?:(?:of|/|out of) ?(?:the )?\d+|%)(?: [a-z]+){0,3}? "
    r"(?P<ours>here|of ours|in ours|in (?:this|the present|our) (?:own )?[a-z]+|at our [a-z]+)\b",
).search
_is_anothers = late(
    r"[^.;\d]{0,60}?\b(?:at|in|of|from|by) (?:(?:the|an?|another|other|some) )?(?:(?!our\b)[\w-]+ ){0,3}?"
    r"(?:hospitals?|clinics?|practices?|cent(?:re|er)s?|schools?|universit(?:y|ies)|departments?|[A-Z][a-z]+)\b",
).match
_joins_another = late(
    r"\b(?:and|beside|against|next to|than|versus|unlike|to|with|below|above|exceeds?|behind|alongside)\b"
).search


def set_beside_ours(text: str, sentence: Span, at: Span) -> Span | None:
    """The words for the authors' own number where one of others follows it: "41 of 50 here and 26 of 32 at the hospital
    in the north"."""
    if _may(text) is None:
        return None
    ours = _ours_first(text, sentence[0], at[0])
    figure = _FIGURE.search(text, ours.start(), at[0]) if ours is not None else None
    if ours is None or figure is None:
        return None
    between = max(ours.end(), figure.end())
    if _joins_another(text, between, at[0]) is None or _speaks_of_us(text, between, at[0]) is not None:
        return None
    found = _is_anothers(text, at[1], sentence[1])
    return (ours.start(), ours.end()) if found is not None and _speaks_of_us(found[0]) is None else None


def set_against_ours(text: str, sentence: Span, at: Span, following: Span | None) -> Span | None:
    """The words for the authors' own result that is set against the number at a place; None where it is theirs.

    following: the sentence behind, in which they may come: "The textbook gives 42 of 50. Of ours 55 of 70 healed".
    """
    if _may(text) is None or _speaks_of_us(text, 0, at[0]) is not None:
        return None
    last = following[1] if following is not None else sentence[1]
    for ours in _OURS.finditer(text, at[1], last):
        if ours[0].startswith(("in ", "of ", "here")) and _is_straight(text, at[1], ours.start()):
            return None  # "26 of 32 in this series, against 41 of 50"
        stop = _ends(text, ours.end(), last)
        # Not into a bracket that is closed before: "84% (107 of 128) in the present study".
        signs = ";.," if ")" in text[at[1] : ours.start()] else ";.,("
        begin = max(at[1], max(text.rfind(sign, at[1], ours.start()) for sign in signs))
        if begin == at[1] and _AGAINST(text, sentence[0], ours.start()) is None:
            continue
        if _FIGURE.search(text, begin, stop.start() if stop is not None else last):
            return ours.span()
    return None
