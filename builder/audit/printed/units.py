"""What a number without a unit counts, where the words before it or the heading over it say so."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache
from typing import NamedTuple

from ...numerals import Lexicon, Token
from ...numerals.late import holds_any, late
from .tables import InCell


class Counted(NamedTuple):
    """What numbers count, and the words that say so."""

    unit: str
    start: int
    end: int


_SENTENCE_END = late(r"[.;!?](?=\s|$)|\n")
_BARE_HEADING = late(r"\s*(?:the\s+)?(?:numbers? of\s+|no\.? of\s+|n of\s+)?", re.IGNORECASE)
_DESCRIBED = late(r"[a-z]+(?:ed|ful|ing|en)\s+", re.IGNORECASE)
""" "Healed roots": what befell them."""
_find_verb = late(r"\b(?:was|were|is|are|had|has|have|did|could|may)\b", re.IGNORECASE).search
_LONGEST_HEADING = 6
"""Words."""
_leads = late(r"(?:^|[,;:]\s*)(?:out\s+)?(?:of|among|amongst|from|in)\s+(?:the\s+|all\s+|these\s+)?$", re.IGNORECASE)


@lru_cache(maxsize=16)
def _units_in(lexicon: Lexicon) -> tuple[re.Pattern[str], dict[str, str]]:
    ids = {
        word: unit.id
        for unit in lexicon.units.values()
        if unit.id not in ("study", "arm", "specimen")
        for word in unit.words
    }
    words = "|".join(re.escape(word) for word in sorted(ids, key=len, reverse=True))
    return late(rf"\b(?:{words})\b", re.IGNORECASE), ids


def units_said(text: str, lexicon: Lexicon) -> set[str]:
    """Ids of the units whose words stand in a text."""
    pattern, ids = _units_in(lexicon)
    if not holds_any(text.lower(), ids):
        return set()
    return {ids[found[0].lower()] for found in pattern.finditer(text)}


def unit_counted(
    text: str, tokens: Sequence[Token], at: int, cell: InCell | None, lexicon: Lexicon
) -> tuple[Counted, str] | None:
    """What a bare number counts, with the sentence, or the row and its headings, in which that is said."""
    token = tokens[at]
    if token.unit != "none" or token.kind not in ("count", "number"):
        return None
    if cell is not None:
        spans = [*cell.headings, *cell.others, *cell.above]
        around = " | ".join(text[start:end] for start, end in (*spans, cell.cell))
        return next(((said, around) for span in spans if (said := _heading(text, *span, lexicon))), None)
    begin = max((end.end() for end in _SENTENCE_END.finditer(text, 0, token.start)), default=0)
    ended = _SENTENCE_END.search(text, token.end)
    around = text[begin : ended.start() if ended else len(text)]
    colon = text.find(":", begin, token.start)
    said = _heading(text, begin, colon, lexicon) if colon >= 0 else None
    return (said, around) if said is not None else _among(text, begin, tokens[:at], around, lexicon)


def _heading(text: str, start: int, end: int, lexicon: Lexicon) -> Counted | None:
    """ "Patients with pain", "Number of patients"."""
    words = text[start:end]
    if len(words.split()) > _LONGEST_HEADING or _find_verb(words):
        return None
    pattern, ids = _units_in(lexicon)
    bare = _BARE_HEADING.match(text, start, end)
    begin = bare.end() if bare else start
    described = _DESCRIBED.match(text, begin, end)
    found = pattern.match(text, begin, end) or (pattern.fullmatch(text, described.end(), end) if described else None)
    if found is None or text[found.end() : found.end() + 1] in ("'", "’"):  # "Patients' age" counts nobody
        return None
    unit = ids[found[0].lower()]
    # "lesion: 37 of 54" is one of two levels; "lesions: 37 of 54" counts them.
    return Counted(unit, *found.span()) if found[0].lower() != lexicon.units[unit].one else None


def _among(text: str, begin: int, before: Sequence[Token], around: str, lexicon: Lexicon) -> tuple[Counted, str] | None:
    """ "Of 72 patients, 61 ..."."""
    inside = [token for token in before if token.start >= begin and token.unit in lexicon.units]
    if not inside or len({token.unit for token in inside}) > 1:
        return None
    first = inside[0]
    if _leads.search(text[begin : first.start]) is None:
        return None
    pattern, _ = _units_in(lexicon)
    found = pattern.search(text, first.end)
    return (Counted(first.unit, first.start, found.end() if found else first.end), around)


_MEASURES = {
    "second": ("seconds", "second", "secs", "sec", "s"), "minute": ("minutes", "minute", "mins", "min"),
    "hour": ("hours", "hour", "hrs", "hr", "h"), "day": ("days", "day"), "week": ("weeks", "week", "wks", "wk"),
    "month": ("months", "month"), "year": ("years", "year", "yrs", "yr"), "mm": ("mm", "millimetres", "millimeters"),
    "cm": ("cm", "centimetres", "centimeters"), "µm": ("µm", "μm", "um", "micrometres", "micrometers", "microns"),
}  # fmt: skip
_MEASURE_OF = {word: measure for measure, words in _MEASURES.items() for word in words}
_WORDS = "|".join(map(re.escape, sorted(_MEASURE_OF, key=len, reverse=True)))
_match_behind = late(rf"[\s~-]*(?P<unit>{_WORDS})\b", re.IGNORECASE).match
_find_heading = late(
    rf"(?:[(\[,;]\s*(?:in\s+)?|\bin\s+)(?P<unit>{_WORDS})(?:\s*[()\[\],:;|]|\s+(?:was|were)\b|\s*$)", re.IGNORECASE
).finditer


def measure_of(words: str) -> str:
    """The unit of time or length that words name; "" for any other."""
    return _MEASURE_OF.get(words.strip().lower(), "")


def measured_in(text: str, token: Token, cell: InCell | None) -> tuple[str, tuple[int, int]] | None:
    """In which unit of time or length a number was measured, by the word behind it, its heading or its sentence."""
    behind = _match_behind(text, token.end) or _match_behind(text, max(token.end, token.outer_end))
    if behind is not None:
        return measure_of(behind["unit"]), behind.span("unit")
    if cell is not None:
        spans = [*cell.headings, *cell.others, *cell.above]
    else:
        spans = [(max((end.end() for end in _SENTENCE_END.finditer(text, 0, token.start)), default=0), token.start)]
    for start, end in spans:
        found = list(_find_heading(text, start, end))
        if found:
            return measure_of(found[-1]["unit"]), found[-1].span("unit")
    return None
