"""The sentence of a passage around a place, its clause between semicolons, its brackets; a row is a sentence."""

from __future__ import annotations

from bisect import bisect_right
from functools import cached_property

from .clauses import Span, brackets, parts_between_semicolons, sentences
from .tables import Table


class Surroundings:
    """Where the sentences of one passage, and their clauses between semicolons, begin and end."""

    def __init__(self, text: str, table: Table) -> None:
        self.text, self.table = text, table
        self._clauses: dict[Span, list[Span]] = {}

    @cached_property
    def sentences(self) -> list[Span]:
        """In their order."""
        text = self.text
        lines = [(line.start, line.end) for line in self.table.lines] or [(0, len(text))]
        return [span for line in lines for span in sentences(text, *line) if text[span[0] : span[1]].strip()]

    @cached_property
    def _starts(self) -> list[int]:
        return [start for start, _ in self.sentences]

    def sentence(self, at: int) -> Span:
        """The sentence, or the row, around a place."""
        found = bisect_right(self._starts, at) - 1
        return self.sentences[found] if found >= 0 else (0, len(self.text))

    def clause(self, at: int) -> Span:
        """The part of the sentence between its semicolons."""
        sentence = self.sentence(at)
        parts = self._clauses.get(sentence)
        if parts is None:
            parts = self._clauses[sentence] = parts_between_semicolons(self.text, *sentence)
        return next((part for part in parts if part[0] <= at <= part[1]), sentence)

    def bracket(self, at: int) -> Span | None:
        """The innermost brackets around a place, inside its sentence."""
        low, high = self.sentence(at)
        found = None
        while True:
            inside = next((span for span in brackets(self.text, low, high) if span[0] < at < span[1]), None)
            if inside is None:
                return found
            found = inside
            low, high = inside[0] + 1, inside[1] - 1
