"""Numbers printed as several words: "one hundred and four", "two hundred twelve", "two dozen"."""

from __future__ import annotations

from decimal import Decimal

from ..compiled_patterns import compiled
from .late import late
from .words import NUMBER_WORDS, SMALL, TENS

LARGE = {"dozen": 12, "hundred": 100, "thousand": 1000}
"""Words that multiply the number before them: "two hundred"."""

_is_large_near = compiled(
    rf"(?:(?:{'|'.join((*SMALL[1:], *TENS))})(?:-(?:{'|'.join(SMALL[1:10])}))?[\s~-]+)?(?:{'|'.join(LARGE)})\b"
).match
_match_word = late(r"[\s~]*-?[\s~]*([a-zµß-ɏα-ω]+)").match


def spelt_number(lowered: str, start: int) -> tuple[Decimal, int] | None:
    """Value and end of the number in words that begins here, where a hundred, thousand or dozen is among them.

    lowered: the text in lower case. "One hundred and four" is 104; of "one hundred and some" the 100 is read.
    """
    if _is_large_near(lowered, start) is None:
        return None
    whole = part = 0
    end = at = start
    last = ""
    while (found := _match_word(lowered, at)) is not None:
        word, at = found[1], found.end()
        if word in NUMBER_WORDS and _may_follow(part, whole, word, last):
            if word in LARGE:
                part = max(part, 1) * LARGE[word]
            else:
                part += int(NUMBER_WORDS[word])
            if word == "thousand":
                whole, part = part, 0
            end = at
        elif word != "and" or last not in ("hundred", "thousand"):
            break
        last = word
    return Decimal(whole + part), end


def _may_follow(part: int, whole: int, word: str, last: str) -> bool:
    """ "hundred" and "four", "twenty" and "four"; not "four" and "twenty"."""
    if last == "dozen":
        return False
    if word in LARGE:
        return part < 100 and last != "and" and (not whole or word == "hundred")
    rest, value = part % 100, NUMBER_WORDS[word]
    return value > 0 and (not rest or (rest >= 20 and not rest % 10 and value < 10))
