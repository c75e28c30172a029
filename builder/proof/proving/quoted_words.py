"""Words that a contributor quoted from a passage (`as`, `in_words`), found in it as typed, runs of blanks as one."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ...reading.values import Words


def places_of(text: str, piece: str) -> list[tuple[int, int]]:
    """Where the piece stands in a passage, first character and the one behind the last, overlapping ones too.

    A piece never begins or ends inside a word or number: "9 of 47" does not stand in "39 of 47".
    """
    found = _pattern(piece, 0).finditer(text)
    return [match.span(1) for match in found]


def has_words(text: str, words: str) -> bool:
    """True where the words stand in a passage, in capitals or not."""
    return _pattern(words, re.IGNORECASE).search(text) is not None


def _pattern(piece: str, flags: int) -> re.Pattern[str]:
    body = r"\s+".join(map(re.escape, piece.split()))
    before = r"(?<!\w)" if piece[:1].isalnum() else ""
    after = r"(?!\w)" if piece[-1:].isalnum() else ""
    return re.compile(rf"(?={before}({body}){after})", flags)


def spans_in_order(text: str, pieces: Sequence[Words]) -> list[tuple[int, int]] | None:
    """The place of each piece, each of which stands once and behind the one before; None where it is not so."""
    spans: list[tuple[int, int]] = []
    for piece in pieces:
        places = places_of(text, piece.text)
        if len(places) != 1 or (spans and places[0][0] < spans[-1][1]):
            return None
        spans.append(places[0])
    return spans
