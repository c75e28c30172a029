"""The words and marks of a passage in their order, in lower case, each with its place."""

from __future__ import annotations

from ..compiled_patterns import compiled
from ..records import NamedTuple

_WORDS = compiled(r"[^\W\d_]+(?:[-'’][^\W\d_]+)*|\d+(?:[.,·]\d+)*|[/,;:.()|\[\]&+!?]")


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


def words_of(text: str) -> list[Word]:
    """Every word of a text; curly apostrophes are made straight."""
    return [Word(found[0], found.start(), found.end()) for found in _WORDS.finditer(_plain(text))]


def different_words(text: str) -> frozenset[str]:
    """The words and marks of a text, each once."""
    return frozenset(_WORDS.findall(_plain(text)))


def _plain(text: str) -> str:
    plain = text.lower().replace("’", "'")
    # A letter whose small form is longer would move every place behind it.
    return plain if len(plain) == len(text) else text.replace("’", "'")
