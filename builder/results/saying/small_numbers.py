"""Small numbers in words, where no digit may stand: in what is tapped to open something, in headings."""

from __future__ import annotations

_WORDS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")


def in_words(number: int) -> str:
    """number: at least 1. Above twelve only "many", which nobody counts at a glance."""
    return _WORDS[number - 1] if number <= len(_WORDS) else "many"
