"""Numbers printed as several words: "one hundred and four", "two hundred twelve", "two dozen"; "none" in a list."""

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
_JOINS = r"(?:,|,?\s+(?:and|versus|vs\.?|against|but))\s+(?:(?:in|of|after|with|by|at|from|for)\s+)?"
_COUNT = rf"(?:\d|(?:{'|'.join((*SMALL[1:], *TENS))})\b)"
_leads_to_count = late(rf"(?:\s*\([^()]*\))?{_JOINS}{_COUNT}").match
_ends_in_count = late(rf"(?:\d|\b(?:{'|'.join((*SMALL[1:], *TENS))}))(?:\s*\([^()]*\))?{_JOINS}\Z").search
_LONGEST = 40
"""Characters before "none" in which a count is looked for."""
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


def is_in_a_list(lowered: str, start: int, end: int) -> bool:
    """Whether "none" stands in a list of counts: "after none and after three, respectively", "2 versus none".

    lowered: the text in lower case. start, end: of the word.
    """
    if _leads_to_count(lowered, end) is not None:
        return True
    return _ends_in_count(lowered[max(start - _LONGEST, 0) : start]) is not None


def _may_follow(part: int, whole: int, word: str, last: str) -> bool:
    """ "hundred" and "four", "twenty" and "four"; not "four" and "twenty"."""
    if last == "dozen":
        return False
    if word in LARGE:
        return part < 100 and last != "and" and (not whole or word == "hundred")
    rest, value = part % 100, NUMBER_WORDS[word]
    return value > 0 and (not rest or (rest >= 20 and not rest % 10 and value < 10))
