"""Labels and titles, which may hold no number: in words or letters."""

from __future__ import annotations

import re

_DIGITS = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")

_TEENS = (
    "ten", "eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen",
)  # fmt: skip

_TENS = ("twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")


def without_digits(text: str) -> str:
    """A text for a label or a title that may hold no number: numbers are spelled, so that two stay apart.

    "24 months" is "twenty-four months", "0.5 mm" is "zero point five mm", "120" is "one two zero".
    """
    spelled = re.sub(r"(?<=\d)[.,](\d+)", lambda found: " point" + _by_digit(found[1]), text)
    return " ".join(re.sub(r"\d+", lambda found: f" {_spelled(found[0])} ", spelled).split()).replace(" ,", ",")


def _spelled(number: str) -> str:
    if len(number) > 2 or (len(number) == 2 and number[0] == "0"):
        return _by_digit(number)
    value = int(number)
    if value < len(_DIGITS):
        return _DIGITS[value]
    if value < 20:
        return _TEENS[value - 10]
    tens, ones = divmod(value, 10)
    return _TENS[tens - 2] + (f"-{_DIGITS[ones]}" if ones else "")


def _by_digit(number: str) -> str:
    return "".join(f" {_DIGITS[int(digit)]}" for digit in number)


def digits_as_letters(name: str) -> str:
    """A name for the label of a region, which holds no number: each digit as a letter, so that two names stay two."""
    return name.translate({ord(str(digit)): "abcdefghij"[digit] for digit in range(10)})
