"""Whether the numbers read from a passage as typed are those that its page shows: what is shown is read once more."""

from __future__ import annotations

import unicodedata
from collections.abc import Sequence

from ...compiled_patterns import compiled
from ...numerals import Lexicon, Token, read_numerals
from ...numerals.late import holds_any
from ...numerals.shown import around, shown
from ...numerals.touching import has_invisible, is_invisible, without_invisible
from ...reading.latex import readable_text

_find_command = compiled(r"\\[^%&#_,; ]").search
_VANISHING = ("{", "}", "$", "~")
_match_footnote = compiled(r"[^\W\d_]{1,3}(?!\w)").match
"""A raised letter, "39\\textsuperscript{a}", is decoded like any other."""


_WIDEST = 40


def refuse_shown_otherwise(text: str, tokens: Sequence[Token], lexicon: Lexicon) -> dict[int, str]:
    """Make unreadable each number that the page of a passage shows as another, "1{}3" for 3.

    Gives what is shown there, by the place of the number among the tokens.
    """
    if not tokens or not (_may_vanish(text) or has_invisible(text)):
        return {}
    seen, places = _as_shown(text, tokens)
    again = read_numerals(seen, lexicon)
    otherwise = {}
    at = 0
    for index, token in enumerate(tokens):
        start, end = places[index] if index < len(places) else (0, 0)
        while at < len(again) and again[at].start < start:
            at += 1
        same = again[at] if at < len(again) else None
        is_same = (
            same is not None
            and start <= same.start
            and same.end <= end
            and (same.value, same.decimals) == (token.value, token.decimals)
            and same.kind != "unreadable"
        )
        if token.kind != "unreadable" and not is_same:
            otherwise[index] = _run(seen, start, end)
    for index in otherwise:
        _spoil(tokens, index)
    return otherwise


def _may_vanish(text: str) -> bool:
    """Whether a text has signs that a page does not show as they are typed."""
    return holds_any(text, _VANISHING) or ("\\" in text and _find_command(text) is not None)


def _as_shown(text: str, tokens: Sequence[Token]) -> tuple[str, list[tuple[int, int]]]:
    """What a reader sees of a passage, and where in it each number stands; fewer places where one is not shown."""
    spans = [(token.start, token.end) for token in tokens]
    pieces = [without_invisible("", piece) for piece in around(text, spans, readable_text)]
    whole, places = "", []
    for index, piece in enumerate(pieces):
        if index % 2 and index // 2 < len(spans):
            start, end = spans[index // 2]
            piece = without_invisible("", shown(text[start:end]))
            places.append((len(whole), len(whole) + len(piece)))
        elif index and _match_footnote(piece) and _is_footnote(text, spans[index // 2 - 1][1]):
            whole += " "
        whole += piece
    return whole, places if len(pieces) == 2 * len(spans) + 1 else []


def _is_footnote(text: str, end: int) -> bool:
    """True where digits end here and no letter touches them as typed."""
    return text[end - 1].isdecimal() and not text[end : end + 1].isalpha()


def _spoil(tokens: Sequence[Token], index: int) -> None:
    token = tokens[index]
    if token.pair >= 0:
        other = tokens[token.pair]
        other.pair, other.part = -1, ""
    token.kind, token.pair, token.part = "unreadable", -1, ""


def _run(text: str, start: int, end: int) -> str:
    """What stands there from blank to blank, or as far as a message shows; "" where nothing does."""
    if end <= start:
        return ""
    first, last = max(0, start - _WIDEST), min(len(text), end + _WIDEST)
    while start > first and not text[start - 1].isspace():
        start -= 1
    while end < last and not text[end].isspace():
        end += 1
    return text[start:end]


def as_typed(text: str, token: Token) -> str:
    """The number with what touches it, every character that no editor shows by its code: "1<U+200B>39"."""
    typed = _run(text, token.start, token.end)
    typed = typed if len(typed) <= 40 else text[token.start : token.end]
    return "".join(f"<U+{ord(sign):04X}>" if is_invisible(sign) else sign for sign in typed)


def strange_sign(text: str, token: Token) -> tuple[int, str] | None:
    """Offset and name of the first character in a number or beside it that is none of a keyboard: "½"."""
    for offset in range(max(0, token.start - 1), min(len(text), token.end + 1)):
        if not text[offset].isascii() and not text[offset].isspace() and text[offset] not in "·∙−–—%":
            name = unicodedata.name(text[offset], "").lower()
            return offset, f"U+{ord(text[offset]):04X}{f', {name}' if name else ''}"
    return None
