"""Words that a reader quoted for a number (`in_words`), and whether others of its passage govern them."""

from __future__ import annotations

import re

from ...compiled_patterns import compiled
from ...numerals.late import late
from ...printed.clauses import Span
from ..proving.printed_passage import surroundings_in
from ..proving.quoted_words import spans_in_order
from .tie import Stands


def is_pinned_away(stands: Stands, *words: Span, is_aside: bool = False) -> bool:
    """Whether somebody quoted other words for a number, and these stand neither in them nor over them.

    Over them stand a heading, the row and column of a table, what opens their sentence, and what goes on behind them
    without a stop: "39 of 47", quoted of "39 of 47 had not healed". is_aside: true of words that may be put into a
    sentence which then goes on with its own: "unlike Smith, who found 70%, we saw 39 of 47".
    """
    row = stands.row
    if not row.within_words or row.strays or not words or stands.reading.cells()[stands.at] is not None:
        return False
    quoted = spans_in_order(stands.reading.passage.text, row.within_words)
    if not quoted:
        return False
    return not any(_governs(stands, word, quoted, is_aside=is_aside) for word in words)


def _governs(stands: Stands, word: Span, quoted: list[Span], *, is_aside: bool) -> bool:
    text = stands.reading.passage.text
    if any(word[0] < end and start < word[1] for start, end in quoted):
        return True
    sentence = stands.reading.told(surroundings_in).sentence(quoted[0][0])
    if not sentence[0] <= word[0] < sentence[1]:
        return word[1] <= quoted[0][0]
    if word[1] <= quoted[0][0]:
        between = text[word[1] : quoted[0][0]]
        has_clause = _find_verb(" ".join(text[start:end] for start, end in quoted)) is not None
        return not (is_aside and has_clause and _ends_a_number(between))
    end = max(end for _, end in quoted if end <= word[0])
    return _find_stop(text[end : word[0]]) is None


_find_verb = late(r"\b(?:was|were|had|has|have|did|found|saw|healed|failed|survived|we|our)\b", re.IGNORECASE).search
_ends_a_number = compiled(r"\d[^,;]*[,;]").search
_find_stop = compiled(r"[,;:.\d]").search
