"""From what a printed time counts: "five years after healing", "two years after the injury", "5 years later"."""

from __future__ import annotations

import re

from ..numerals import Token
from ..numerals.late import late
from ..records import NamedTuple
from .clauses import Span


class From(NamedTuple):
    """What a time counts from."""

    what: str
    """One of `WORDS`."""
    words: Span


WORDS: dict[str, str] = {
    "healing": (
        r"(?:(?:complete|full|initial|first)\s)?(?:healing|closure|union|recovery)\b(?!\s(?:abutment|period|phase|time))|"
        r"(?:they|it|all|these|lesions?)\s(?:had\s)?(?:been\s)?(?:(?:first|already)\s)?(?:healed|closed|recovered)\b|"
        r"(?:having|being|they were|it was)\s(?:(?:first|been|declared|recorded|judged|called|classed as)\s){0,3}"
        r"healed\b"
    ),
    "injury": r"(?:injur(?:y|ies)|trauma|accidents?|falls?|blow|impact|burns?)\b(?!\s(?:repair|surgery|treatment))",
    "recall": r"(?:first|second|third|last|previous|initial)\s(?:recall|visit|follow-?up|review|examination|control)\b",
    "diagnosis": r"(?:diagnosis|onset|first\ssymptoms?|symptoms?|referral|presentation)\b",
    "treatment": (
        r"(?:completion\sof\s(?:the\s)?)?(?:treatment|therapy|repair|surgery|operation|procedure|intervention|placement|"
        r"insertion|transplantation|fixation)\b(?!\sof\s(?:the\s)?(?:injury|trauma))"
    ),
}
"""By name: how it is printed behind "after" and "since". Common practice, no source."""

_UNIT = r"[\s~-]*(?:minutes?|min|hours?|hrs?|days?|weeks?|wks?|months?|mos?|years?|yrs?)\b['’]?\s*"
_THE = r"(?:(?:the|their|its|an?|this|that|when|first)\s)*"
_behind = late(
    _UNIT
    + r"(?:\([^()]*\)\s*)?(?:after|since|from|following)\s"
    + _THE
    + "(?:"
    + "|".join(f"(?P<{what}>{pattern})" for what, pattern in WORDS.items())
    + ")",
    re.IGNORECASE,
).match
_later = late(_UNIT + r"(?:later|afterwards?|thereafter|on)\b", re.IGNORECASE).match
_healed_once = late(
    r"\b(?:(?:that|which|who)\s(?:had|have|were|was)|once|already|previously|had\s(?:first\s)?been\s(?:recorded|judged|"
    r"classed|declared)(?:\sas)?|initially)\s(?:(?:first|already)\s)?(?P<healing>healed|closed|recovered)\b",
    re.IGNORECASE,
).finditer
_still = late(r"\b(?:still|remained|again|no longer|stayed)\b", re.IGNORECASE).search
_SENTENCE = 240
"""Characters before a time in which its sentence is sought."""
_sentence_end = late(r"[.!?]\s", re.IGNORECASE).finditer


def counted_from(text: str, token: Token) -> From | None:
    """What the words behind a time say that it counts from; None where they do not say."""
    found = _behind(text, token.end) or _behind(text, token.start + len(token.text.split()[0]) if token.text else 0)
    if found is not None and found.lastgroup is not None:
        return From(found.lastgroup, (token.start, found.end()))
    later = _later(text, token.end)
    if later is None:
        return None
    low = max(token.start - _SENTENCE, 0)
    low = max((end.end() for end in _sentence_end(text, low, token.start)), default=low)
    once = [each.span("healing") for each in _healed_once(text, low, token.start)]
    if once and _still(text, once[-1][1], later.end()):
        return From("healing", (once[-1][0], later.end()))
    return None


_names = {what: late(rf"(?:the\s)?(?:{pattern})", re.IGNORECASE).match for what, pattern in WORDS.items()}


def kind_of(words: str) -> str:
    """What a claim's own words for the beginning mean, one of `WORDS`; "treatment" for all others: a repair, a drug."""
    return next((what for what, match in _names.items() if match(words) is not None), "treatment")
