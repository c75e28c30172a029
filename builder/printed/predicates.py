"""What a sentence, row or column says befell those that a number counts, whether or not anybody knows the words."""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Sequence

from ..compiled_patterns import compiled
from ..numerals import Token
from ..numerals.late import in_small, late
from .clauses import Span
from .surroundings import Surroundings

Slices = tuple[Span, Span] | None
"""What `Predicates` finds of a number."""

_VERBS = (
    "had", "have", "has", "were", "was", "are", "is", "showed", "show", "developed", "experienced", "suffered",
    "reported", "required", "needed", "remained", "became", "felt", "complained", "displayed", "exhibited", "met",
    "fulfilled", "gained", "could", "survived", "underwent", "got", "bore",
)  # fmt: skip
_VERB = rf"(?:{'|'.join(_VERBS)})"
_TRANSITIVE = (
    r"(?:(?!(?:received|allocated|offered|assigned|denied|treated|operated|replanted|filled|sealed|capped|needed)\b)"
    r"[a-z]+ed(?=\s(?:the|an?|no|their|its|any|his|her)\s)|came(?=\s(?:back|to)\b))"
)
_BESIDE_TRANSITIVE = frozenset({"the", "a", "an", "no", "their", "its", "any", "his", "her", "came"})
"""Words of which one stands in whatever `_TRANSITIVE` finds, or straight behind it."""
_JOIN = r"(?:that|which|who|whom|whose|where|when|if|and|or|but|than|while|whereas|against|versus|vs|compared)"
_FILL = (
    r"\s*%?\s*(?:\([^()]*\)\s*|\[[^\[\]]*\]\s*)*"
    rf"(?:(?!(?:{_JOIN}|{_VERB})\b)[a-z][a-z'-]*\s+|\([^()]*\)\s*|\d+\s+){{0,9}}?"
)
_END = r"(?=\s*(?:[.;:()\d|\n,]|$|\b(?:and|but|while|whereas|though|although|as against|versus|compared)\b))"
_match_behind = in_small(rf"{_FILL}(?P<words>{_VERB}\s+(?P<said>[^.;:()\d|\n,]*?)){_END}").match
""" "61 of 66 eyes were free of redness"."""
_match_done_behind = in_small(rf"{_FILL}(?P<words>(?P<said>{_TRANSITIVE}\s+[^.;:()\d|\n,]*?)){_END}").match
""" "88 attended the recall"."""
_match_noun_behind = in_small(
    r"\s*(?:\([^()]*\)\s*)?(?P<words>(?P<said>(?!(?:[a-z]+ed|in|of|and|or|with|by|for|at|after|had|were|was|to|from)\b)"
    r"[a-z][a-z-]+(?:\s(?!(?:in|of|and|or|with|by|for|at|after)\b)[a-z-]+){0,2}))"
    r"(?=\s*(?:[.;,)\n]|$|\b(?:and|or|at|after|by|within)\b))"
).match
""" "9 had pain, 11 bruising and 3 trismus"."""
_find_before = in_small(
    r"(?P<words>(?:[a-z][a-z'-]*\s+)+?)"
    r"(?:was|were|(?:had|has|have) been|is|are|occurred|appeared|followed|developed|befell|happened|arose|affected|"
    r"complicated|persisted|remained|struck|averaged|numbered|totalled|led|came|ensued)\b(?P<rest>[^.;:,()\d|\n]*)$",
    holds=("ed", "was", "were", "been", "is", "are", "befell", "arose", "struck", "came"),
).search
""" "clouding of the graft was noted in 22"."""
_find_bare_before = in_small(
    r"(?:^|(?<=[,;:(\n]))\s*(?P<words>(?:[a-z][a-z'-]*\s+){1,6}?)(?:in|:)\s+(?:the\s+)?(?:only\s+)?$",
    holds=("in", ":"),
).search
""" "; inflammatory resorption in 14"."""
_match_in_brackets = in_small(r"\s*(?P<words>(?:[a-z][a-z'-]*\s+){1,5})\(\s*(?:n\s*=\s*)?$", holds=("(",)).match
""" "extrusion of material (n = 19)"."""
_SIZE = r"(?:a?(?:or|rr|hr)|(?:(?:crude|adjusted|pooled|overall)\s+)*(?:odds|risk|hazard|rate)\s+ratio|relative\s+risk)"
_match_for = in_small(
    r"\s*(?:\([^()]*\)|\[[^\[\]]*\])?\s*for\s+(?:the\s+|an?\s+|any\s+)?(?P<words>[a-z-]+(?:\s(?!and\b|but\b)[a-z-]+){0,3}?)"
    r"(?=\s*(?:[.;,)\n]|$|\band\b|\bbut\b))",
    holds=("for",),
).match
""" "a hazard ratio of 2.2 (1.3 to 3.7) for debonding"."""
_find_before_ratio = in_small(
    rf"(?:^|(?<=[;:\n]))\s*(?P<words>[a-z][a-z -]{{2,50}}?)[\s,:(]*{_SIZE}\s*(?:of|was|[=:])?\s*$"
).search
""" "; scar tenderness RR 0.74"."""
_leads_whole = in_small(r"\bof\s+(?:the\s+|these\s+|those\s+)?$", holds=("of",)).search
_ends_in_colon = compiled(r":\s*$").search
_find_part = in_small(r"[,;:\n]|\b(?:and|but|while|whereas|though|although|so that)\b").finditer
_find_words = compiled(r"[A-Za-z]+(?:[-'][A-Za-z]+)*").finditer
_PASSING = frozenset({
    "a", "an", "the", "in", "on", "at", "by", "for", "to", "from", "with", "without", "and", "or", "but", "than",
    "that", "this", "these", "those", "there", "who", "all", "any", "both", "each", "every", "only", "also", "still",
    "just", "about", "after", "before", "within", "during", "until", "up", "over", "under", "had", "have", "has",
    "was", "were", "is", "are", "be", "been", "did", "do", "not", "no", "none", "more", "less", "most", "least",
    "nearly", "almost", "some", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "of",
    "day", "days", "week", "weeks", "month", "months", "year", "years", "hour", "hours", "minute", "minutes", "later",
    "follow-up", "recall", "visit", "visits", "control", "controls", "end", "first", "second", "third", "last",
    "postoperatively", "postoperative", "seen", "noted", "found", "reported", "observed", "recorded", "registered",
    "present", "detected", "diagnosed", "obtained", "achieved", "judged", "considered", "rated", "classified",
    "classed", "counted", "met", "developed", "occurred", "appeared", "followed", "shown", "showed", "show", "needed",
    "reached", "became", "so", "such", "its", "our", "their", "study", "group", "groups", "arm", "arms", "patients",
    "cases", "case", "n", "higher", "lower", "similar", "different", "significant", "significantly", "greater",
    "smaller", "overall", "total", "whole", "again", "as", "well", "here", "then", "now", "per", "cent", "allocated",
    "assigned", "given", "received", "used", "lost", "follow", "out", "whom", "them", "among", "estimated",
    "respectively", "common", "rare", "frequent", "often", "many", "few", "half", "once", "twice", "years'", "male",
    "female", "men", "women", "affected", "complicated", "known", "missing",
})  # fmt: skip
"""Words that say nothing of what befell anybody."""
_STANDS_FOR = frozenset({
    "those", "who", "which", "it", "they", "former", "latter", "others", "other", "rest", "remainder", "remaining",
    "same", "figure",
    "figures", "number", "numbers", "count", "counts", "value", "values", "share", "shares", "rate", "rates",
    "proportion", "proportions", "percent", "percentage", "percentages", "result", "results", "outcome", "outcomes",
    "corresponding", "difference", "differences", "ratio", "ratios", "odds", "hazard", "risk", "risks", "relative",
    "mean", "median", "estimate", "estimates", "so", "average", "incidence", "frequency", "prevalence", "latter's",
    "we", "whose", "protocol", "per-protocol", "intention", "intention-to-treat", "comparison", "sample",
    "calculation", "interval", "confidence", "regression", "model", "analysis", "adjustment", "instances", "event",
    "events", "occasions", "times", "findings", "finding", "crude", "unadjusted", "adjusted", "compared", "against",
    "reference", "this", "that", "than", "where", "when", "if", "ci", "or", "rr", "hr", "sd", "range", "iqr",
    "material", "series", "ones", "authors", "did", "score", "scores", "itt", "mitt", "pp",
})  # fmt: skip
"""Words that take up what was said before, or name a measure: whoever reads them knows of what."""
_SILENT = _PASSING | _STANDS_FOR


Named = Callable[[], Sequence[Span]]
"""Gives the slices that name levels and times; asked only where other words are left that may say something."""


def told_of(text: str, said_there: Slices, named: Named, counted: Collection[str]) -> Span | None:
    """The words of prose that say what befell those a number counts; None where nothing, or only what may be anything.

    said_there: from `Predicates`. counted: words for what is counted.
    """
    if said_there is None:
        return None
    words, said = said_there
    return _without_leading(text, *words) if says_something(text, said, named, counted) else None


def says_something(text: str, span: Span, named: Named, counted: Collection[str]) -> bool:
    """Whether a slice has words that say what befell somebody; not where one of them takes up what was said before, or
    names a measure."""
    words = [(found[0].lower(), found.start()) for found in _find_words(text, *span)]
    words = [(word, start) for word, start in words if word not in counted]
    if not any(_may_say(word) for word, _ in words):
        return False
    spans = named()
    said = [word for word, start in words if not any(low <= start < high for low, high in spans)]
    return not any(word in _STANDS_FOR for word in said) and any(map(_may_say, said))


def _may_say(word: str) -> bool:
    return word not in _SILENT and len(word) > len("ml")


def _without_leading(text: str, low: int, high: int) -> Span:
    """A slice without the small words and blanks that it begins with, and without blanks at its end."""
    high = low + len(text[low:high].rstrip(" \n,(:"))
    for found in _find_words(text, low, high):
        if found[0].lower() not in _LEADING:
            return found.start(), high
    return low, high


_LEADING = frozenset({"a", "an", "the", "in", "of", "and", "there", "at", "by", "on", "for"})


class Predicates:
    """What is said of the numbers of a passage, each read once for all claims that quote it."""

    def __init__(
        self, text: str, tokens: Sequence[Token], around: Surroundings, words: frozenset[str], counted: Collection[str]
    ) -> None:
        """words: of the passage, each once. counted: words for what is counted."""
        self._text, self._tokens, self._around = text, tokens, around
        self.may_tell = any(len(word) > len("ml") and word[0].isalpha() for word in words.difference(_SILENT, counted))
        """Whether any word of the passage may say what befell somebody."""
        self._has_verb = not words.isdisjoint(_VERBS)
        self._has_object = not words.isdisjoint(_BESIDE_TRANSITIVE)
        self._said: dict[int, Slices] = {}

    def at(self, place: int) -> Slices:
        """The words that may say what befell those that the number at a place counts, and of these the slice that does;
        None where nothing does, or where the number is only taken up."""
        if place not in self._said:
            self._said[place] = self._read(place)
        return self._said[place]

    def _read(self, at: int) -> Slices:
        text, tokens = self._text, self._tokens
        token = tokens[at]
        if is_taken_up(text, token.start):
            return None
        sentence = self._around.sentence(token.start)
        start, end = token.outer_start, max(token.end, token.outer_end)
        if token.pair >= 0:
            other = tokens[token.pair]
            start, end = min(start, other.outer_start), max(end, other.outer_end)
        if token.kind == "ratio":
            words = beside_a_ratio(text, token, sentence)
            return None if words is None else (words, words)
        found = _match_behind(text, end, sentence[1]) if self._has_verb else None
        if found is None and self._has_object:
            found = _match_done_behind(text, end, sentence[1])
        if found is not None:
            return found.span("words"), found.span("said")
        if (listed := _heading_of_list(text, sentence[0], start)) is not None:
            return listed, listed
        before = (each.outer_end for each in tokens if sentence[0] <= each.start and each.outer_end <= start)
        low = max(before, default=0)
        words = _before(text, max(low, sentence[0]), start, may_open=token.kind in _COUNTS and low <= sentence[0])
        if words is not None:
            return words, words
        if token.pair < 0 and (found := _match_noun_behind(text, end, sentence[1])) is not None:
            return found.span("words"), found.span("said")
        return None


_COUNTS = ("count", "number")
_ends_in_listed = late(
    r":\s*(?:\d[\d.,·]*(?<!,)\s*%?\s*(?:\([^()]*\)\s*)?(?:,|,?\s*and|/|versus|vs\.?)\s*)+$", re.IGNORECASE, holds=(":",)
).search
_JOINED_BY = (",", "and", "/", "versus", "vs", "vs.")
"""What stands before a number behind others of a list."""


def _heading_of_list(text: str, low: int, start: int) -> Span | None:
    """The words before the colon of a bare list in which a number stands behind others: "inflammation: 0, 3 and 10
    eyes"."""
    before = text[low:start]
    found = _ends_in_listed(before) if before.rstrip().lower().endswith(_JOINED_BY) else None
    if found is None:
        return None
    stop = low + found.start()
    return max((cut.end() for cut in _find_part(text, low, stop)), default=low), stop


def _before(text: str, low: int, start: int, *, may_open: bool) -> Span | None:
    """The words before a number that say it, behind the number before it. may_open: whether it may be the first in its
    brackets: else they hold the share of the number before."""
    colon = _ends_in_colon(text[low:start])
    stop = low + colon.start() if colon is not None else start
    part = max((cut.end() for cut in _find_part(text, low, stop)), default=low)
    if colon is not None:
        return part, stop
    for find in (_find_before, _find_bare_before, *((_match_in_brackets,) if may_open or part > low else ())):
        if (found := find(text[part:start])) is not None:
            return part + found.start("words"), part + found.end("words")
    return None


def beside_a_ratio(text: str, token: Token, sentence: Span) -> Span | None:
    """The words that name the event of a ratio: "2.2 (1.3 to 3.7) for debonding", "debonding, HR 2.2"."""
    if (found := _match_for(text, max(token.end, token.outer_end), sentence[1])) is not None:
        return found.span("words")
    if (found := _find_before_ratio(text[sentence[0] : token.outer_start])) is not None:
        return sentence[0] + found.start("words"), sentence[0] + found.end("words")
    return None


def is_taken_up(text: str, start: int) -> bool:
    """ "Of the 88, 70 had healed": 88 are those of whom was spoken."""
    return _leads_whole(text[max(start - _SHORT, 0) : start]) is not None


_SHORT = 12
"""Characters before a number in which "of the" stands."""
