"""Characters that no editor shows, and those that make another number of the digits they touch."""

from __future__ import annotations

import unicodedata

from ..compiled_patterns import compiled
from .late import late

# Format and control characters, and what fonts leave out: Unicode 15, DerivedCoreProperties.txt,
# Default_Ignorable_Code_Point (from memory). Tab and line end are blanks.
_INVISIBLE = (
    "\x00-\x08\x0b-\x1f\x7f-\x9f\u00ad\u034f\u061c\u115f\u1160\u17b4\u17b5\u180b-\u180f\u200b-\u200f\u202a-\u202e"
    "\u2060-\u206f\u3164\ufe00-\ufe0f\ufeff\uffa0\ufff0-\ufffb\U0001bca0-\U0001bca3\U0001d173-\U0001d17a"
    "\U000e0000-\U000e0fff"
)
_find_invisible = compiled(f"[{_INVISIBLE}]").search
without_invisible = late(f"[{_INVISIBLE}]+").sub
is_invisible = compiled(f"[{_INVISIBLE}]").fullmatch

_LOOKS_LIKE_A_POINT = frozenset("．，٫٬‚․‧・。⸴⸳")
_RAISED = ("<super>", "<sub>", "<circle>")
"""How Unicode's decompositions begin of marks for a footnote: "²", "₂", "①"."""
_CASED = frozenset(("Lu", "Ll", "Lt"))
_FROM_RIGHT = frozenset(("R", "AL", "AN"))
_match_letter = late(r"[A-Za-zµß-ɏΑ-Ωα-ωÀ-Þ]").match


def has_invisible(text: str) -> bool:
    """Whether a text has a character that no page shows."""
    # All printable ones of ASCII are shown, and most passages have no other.
    return not (text.isascii() and text.isprintable()) and _find_invisible(text) is not None


def has_foreign_digit(printed: str) -> bool:
    """True where a digit is none of 0 to 9: "٣٩", "３９"."""
    return not printed.isascii() and any(character.isdecimal() and not character.isascii() for character in printed)


def is_spoilt(text: str, start: int, end: int) -> bool:
    """True where the digits of text[start:end] are touched by what makes another number of them: "39½", "①39".

    A raised or lowered sign behind them is the mark of a footnote: "39²".
    """
    before, behind = text[start - 1 : start], text[end : end + 1]
    if before and not before.isascii() and (_is_of_a_number(before) or _is_point(text, start - 1, start - 2)):
        return True
    if not behind or behind.isascii():
        return False
    if unicodedata.decomposition(behind).startswith(_RAISED):
        return False
    return _is_of_a_number(behind) or _is_point(text, end, end + 1)


def _is_of_a_number(character: str) -> bool:
    """A digit, fraction or numeral, a sign set over or around the character before it, or a letter that may be taken
    for a digit: Cyrillic "О", full-width "Ｏ"; from right to left, everything moves."""
    if is_invisible(character) or _match_letter(character):
        return False
    category = unicodedata.category(character)
    return (
        unicodedata.numeric(character, None) is not None
        or category[0] == "M"
        or category in ("Co", "Cn")
        or category in _CASED
        or unicodedata.bidirectional(character) in _FROM_RIGHT
    )


def _is_point(text: str, at: int, beyond: int) -> bool:
    return text[at] in _LOOKS_LIKE_A_POINT and 0 <= beyond < len(text) and text[beyond].isdecimal()
