"""Which words head a ratio of a table or a list, whomever they name: those of its row, or the comparison beside it."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import pairwise

from ..compiled_patterns import compiled
from ..numerals import Token
from ..numerals.late import in_small, late
from ..records import NamedTuple
from .clauses import Span
from .comparisons import may_be_ratio
from .surroundings import Surroundings
from .tables import InCell, Table

_sign = in_small(
    r"\b(?:versus|vs|against|(?:as )?compared (?:with|to)|relative to|rather than|referen(?:ce|t)|ref)\b|"
    r"\bv\.?(?=\s)|\bper\b"
)
_GENERAL = frozenset({
    "adjusted", "adjusting", "adjustment", "after", "against", "ahr", "all", "an", "analyses", "analysis",
    "and", "aor", "arr", "at", "became", "before", "between", "bivariate", "block", "but", "by", "case",
    "cases", "ci", "compared", "complete", "confidence", "cor", "crude", "day", "days", "difference", "effect",
    "effects", "estimate", "estimates", "fell", "figure", "final", "fixed", "for", "from", "fully", "had",
    "hazard", "hazards", "hr", "imputed", "in", "intention", "interval", "irr", "is", "it", "main", "mean",
    "median", "model", "models", "month", "months", "multi", "multivariable", "multivariate", "n", "not",
    "odds", "of", "only", "or", "overall", "p", "partly", "per", "pooled", "primary", "protocol", "random",
    "rate", "rates", "ratio", "ratios", "ref", "reference", "referent", "relative", "respectively", "result",
    "results", "risk", "rose", "rr", "sd", "se", "secondary", "sem", "sensitivity", "stage", "step", "summary",
    "that", "the", "this", "to", "total", "treat", "un", "unadjusted", "uni", "univariable", "univariate",
    "value", "values", "variable", "variate", "versus", "vs", "was", "week", "weeks", "were", "with", "year",
    "years",
})  # fmt: skip
"""Words that do not tell one ratio of a thing from that of another."""
_words_in = compiled(r"[^\W\d_]{2,}").findall
_begins_with_figure = late(r"[\s<>=≤≥±+(−–-]*\d").match
_and = compiled(r"\band\b|[,;]", re.IGNORECASE)


class Head(NamedTuple):
    """The words that tell a ratio of a table or a list from the others there."""

    words: tuple[Span, ...]
    """Its own, the nearest first."""
    around: tuple[Span, ...]
    """These and what it shares with others: headings of columns, lines above."""
    is_row: bool
    """Whether it is of a table; else a comparison of a sentence."""
    is_apart: bool = False
    """Whether the others stand in other sentences."""


class RowHeads:
    """The heads of the ratios of one passage."""

    def __init__(self, text: str, tokens: Sequence[Token], around: Surroundings, table: Table) -> None:
        self.text, self.tokens, self.around, self.table = text, tokens, around, table

    def of(self, index: int) -> Iterator[tuple[Head, list[Head]]]:
        """The head of a ratio with those of the others of its column, of its row, of its sentence; of the others of
        the passage last. Nothing where it has none or stands alone."""
        place = self.table.places[index]
        if place is None:
            yield from self._in_sentences(index)
            return
        for is_other, head_of in ((_is_below, self._head_of_row), (_is_beside, self._head_of_column)):
            own = head_of(place)
            others = [
                head
                for at, other in enumerate(self.table.places)
                if other is not None and is_other(other, place) and may_be_ratio(self.tokens[at])
                and (head := head_of(other)) is not None
            ]  # fmt: skip
            if own is not None and others:
                yield own, others

    # Tables

    def _head_of_row(self, place: InCell) -> Head | None:
        """The words to the left of a number; the line above its rows too, which alone says it of "adjusted"."""
        left = [span for span in place.others if span[1] <= place.cell[0] and self._is_words(span)]
        return self._head((*left, *self.table.sections(place)), place.everywhere, is_row=True)

    def _head_of_column(self, place: InCell) -> Head | None:
        return self._head(place.headings, place.everywhere, is_row=True)

    def _head(self, words: tuple[Span, ...], around: tuple[Span, ...], *, is_row: bool) -> Head | None:
        return Head(words, around, is_row) if any(map(self._tells, words)) else None

    def _is_words(self, span: Span) -> bool:
        return bool(_words_in(self.text, *span)) and _begins_with_figure(self.text, *span) is None

    def _tells(self, span: Span) -> bool:
        """Whether words say more than "adjusted", "model 2", "after 2 years"."""
        return not _GENERAL.issuperset(_words_in(self.text[span[0] : span[1]].lower()))

    # Sentences

    def _in_sentences(self, index: int) -> Iterator[tuple[Head, list[Head]]]:
        if _sign.search(self.text) is None:
            return
        sentence = self.around.sentence(self.tokens[index].start)
        heads = self._heads_of(sentence, index)
        own = heads.pop(index, None)
        if own is None:
            return
        if heads:
            yield own, list(heads.values())
        others = [
            head for span in self.around.sentences if span != sentence for head in self._heads_of(span, -1).values()
        ]
        if others:
            yield own._replace(is_apart=True), others

    def _heads_of(self, sentence: Span, index: int) -> dict[int, Head]:
        """For each ratio of a sentence its head, where that compares."""
        signs = [found.start() for found in _sign.finditer(self.text, *sentence)]
        values = [
            at for at, token in enumerate(self.tokens)
            if sentence[0] <= token.start < sentence[1] and (at == index or may_be_ratio(token))
        ]  # fmt: skip
        if not signs or not values:
            return {}
        spans = [sentence] if len(values) == 1 else self._spans_of(values, signs, sentence)
        heads = {
            at: self._head((span,), (span,), is_row=False)
            for at, span in zip(values, spans, strict=True)
            if any(span[0] <= sign < span[1] and self._compares(sign, span[1]) for sign in signs)
        }
        return {at: head for at, head in heads.items() if head is not None}

    def _compares(self, sign: int, end: int) -> bool:
        """Whether words of comparison name something: "vs short 1.4", but not "vs 1.5 unadjusted"."""
        return self.text[sign : sign + 3].lower() == "per" or self._tells((sign, end))

    def _spans_of(self, values: Sequence[int], signs: Sequence[int], sentence: Span) -> list[Span]:
        """For each ratio the words that may head it: before it, behind it, or in its turn."""
        starts = [self.tokens[at].start for at in values]
        brackets = [self.around.bracket(start) for start in starts]
        inside = [bracket for bracket in brackets if bracket is not None]
        if len(inside) == len(brackets):
            begins = dict(zip(sorted(set(inside)), [sentence[0], *sorted(end for _, end in set(inside))], strict=False))
            return [(begins[bracket], bracket[1]) for bracket in inside]
        if signs[0] > starts[0]:
            ends = [*starts[1:], sentence[1]]
            return [(self._end_of(at), end) for at, end in zip(values, ends, strict=True)]
        if signs[-1] < starts[0] and len(signs) == len(values):
            cuts = [self._cut(*pair) for pair in pairwise(signs)]
            return list(pairwise([sentence[0], *cuts, starts[0]]))
        ends = [sentence[0], *(self._end_of(at) for at in values[:-1])]
        return list(zip(ends, starts, strict=True))

    def _cut(self, low: int, high: int) -> int:
        """Where one comparison ends and the next begins: "A vs B and short vs long"."""
        found = list(_and.finditer(self.text, low, high))
        return found[-1].end() if found else high

    def _end_of(self, value: int) -> int:
        """Behind a ratio with its interval and P."""
        end = max(self.tokens[value].end, self.tokens[value].outer_end)
        for token in self.tokens[value + 1 :]:
            if token.kind not in ("confidence", "interval", "p") and token.part not in ("low", "high"):
                break
            end = max(token.end, token.outer_end)
        return end


def _is_below(other: InCell, place: InCell) -> bool:
    return other.column == place.column and other.row != place.row


def _is_beside(other: InCell, place: InCell) -> bool:
    return other.row == place.row and other.column != place.column
