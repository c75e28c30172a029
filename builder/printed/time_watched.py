"""Numbers that count time under observation: "604 eye-years", "410 patient-months", "1204 years at risk"."""

from __future__ import annotations

from ..numerals import Lexicon, Token
from ..numerals.late import late
from .clauses import Span
from .tables import InCell


def may_watch(small: str) -> bool:
    """Whether a time stands behind a word or a hyphen in a text of small letters: "eye-years", not "2 years"."""
    for time in ("year", "month"):
        at = small.find(time)
        while at > 1:
            if (small[at - 1] == "-" or small[at - 1] == " ") and small[at - 2].isalpha():
                return True
            at = small.find(time, at + 1)
    return "years at risk" in small or "years of " in small or "months of " in small


def time_watched(text: str, token: Token, cell: InCell | None, lexicon: Lexicon) -> Span | None:
    """The words by which a number counts time under observation, and nobody who was observed; None where none do."""
    if cell is not None:
        found = _is_time(text, *cell.headings[0]) if cell.headings else None
        return found.span() if found is not None else None
    if (found := _match_joined(text, token.end)) is not None:
        return found.span("said")
    found = _match_apart(text, token.end)
    is_unit = found is not None and found["unit"].lower() in (*lexicon.unit_by_word, *_PEOPLE)
    return found.span("said") if found is not None and is_unit else None


_PEOPLE = frozenset({"person", "persons", "subject", "woman", "man", "child"})
_is_time = late(r"\s*[a-z]+[- ](?:years?|months?)(?: at risk| of (?:observation|follow-up))?\s*").fullmatch
_match_joined = late(
    r"\s*(?:[a-z]+ )?(?P<said>[a-z]+-(?:years|months)\b|(?:years|months) (?:at risk|of (?:observation|exposure)))"
).match
_match_apart = late(r"\s*(?P<said>(?P<unit>[a-z]+) (?:years|months))\b(?! (?:later|old|ago|after|before))").match
