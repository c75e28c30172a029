"""The words and marks of a passage in their order, in lower case, each with its place."""

from __future__ import annotations

from ..compiled_patterns import compiled
from ..records import NamedTuple

_WORDS = compiled(r"[^\W\d_]+(?:[-'’][^\W\d_]+)*|\d+(?:[.,·]\d+)*|[/,;:.()|\[\]&+!?]")
_PLAIN_WORDS = compiled(r"[a-z]++(?:[-'][a-z]++)*+|[0-9]++(?:[.,][0-9]++)*+|[/,;:.()|\[\]&+!?]")
"""The same of small letters and signs of ASCII, as most passages are, in two thirds of the time."""


class Word(NamedTuple):
    """One word, number or mark."""

    text: str
    start: int
    end: int

    @property
    def is_number(self) -> bool:
        """True of digits."""
        return self.text[0].isdigit()

    @property
    def is_mark(self) -> bool:
        """True of a comma, bracket or the like."""
        return not self.text[0].isalnum()


_new = tuple.__new__


def words_of(text: str) -> list[Word]:
    """Every word of a text; curly apostrophes are made straight."""
    words = _PLAIN_WORDS if text.isascii() else _WORDS
    return [_new(Word, (found[0], *found.span())) for found in words.finditer(_plain(text))]


def different_words(text: str) -> frozenset[str]:
    """The words and marks of a text, each once."""
    words = _PLAIN_WORDS if text.isascii() else _WORDS
    return frozenset(words.findall(_plain(text)))


def _plain(text: str) -> str:
    plain = text.lower().replace("’", "'")
    # A letter whose small form is longer would move every place behind it.
    return plain if len(plain) == len(text) else text.replace("’", "'")
