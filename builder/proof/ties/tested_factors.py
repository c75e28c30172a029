"""Which factors the words beside a P value name, of the vocabulary and of those that any trade has."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping

from ...compiled_patterns import compiled
from ...numerals.late import late
from ..declared_names import FactorWording
from .tie import Known

_ANY = frozenset({
    "with", "without", "number", "kind", "type", "size", "treatment", "before", "after", "complete", "place", "used",
    "level", "from", "still", "the", "and", "for", "per", "not", "all", "any", "its", "one", "two", "how", "was", "has",
    "start", "other", "none", "present", "absent", "first", "second",
})  # fmt: skip
_COMMON = late(r"\b(?:ages?|aged|sex|gender|smok\w+|diabet\w+|ethnicity)\b", re.IGNORECASE)
"""What is tested in any trade."""
_is_held = late(
    r"\b(?:adjust|controll|allow|account|correct|model|within|among|strat|subgroup|interact|regardless|irrespective|"
    r"match|similar|like|any|both|in (?:those|all|men|women|patients)|in (?:[a-z]+ ){1,3}with)",
    re.IGNORECASE,
).search
"""Words by which a factor is held constant or tells who they were."""
WORDLESS = late(r"(?:[^A-Za-z]|\b(?:p|and|or|values?|respectively|was|were|a|ns)\b)*", re.IGNORECASE).fullmatch

_find_words = compiled(r"[a-z]+").findall


class Stems:
    """Beginnings of the words of titles, "materia" of "repair material"; a word of three letters as it is."""

    def __init__(self, titles: Iterable[str], without: frozenset[str] = frozenset()) -> None:
        words = {word for title in titles for word in _find_words(title.lower())}
        words = {word for word in words - without if len(word) > 2 and word not in _ANY}
        self.short = {form for word in words if len(word) == 3 for form in (word, f"{word}s")}
        self.long = tuple({word[: max(4, len(word) - 3)] for word in words if len(word) > 3})

    def are_in(self, words: set[str]) -> bool:
        """Whether one of the words, in lower case, is theirs."""
        return not self.short.isdisjoint(words) or any(word.startswith(self.long) for word in words)


class _Factors:
    """The words of all factors of a compendium."""

    def __init__(self, known: Known) -> None:
        self.factors, self.outcomes = known.factors, known.outcomes
        outcomes = (words.text for outcome in known.outcomes.values() for words in (outcome.title, *outcome.synonyms))
        taken = {word for title in outcomes for word in _find_words(title.lower())}
        self._units = {unit.one for unit in known.lexicon.units.values()}
        self._without = frozenset(taken | set(known.lexicon.unit_by_word))
        self._found: dict[str, tuple[Stems, re.Pattern[str] | None]] = {}

    def is_named(self, factor: str, text: str, words: set[str]) -> bool:
        """Whether a text names one factor by words that no outcome has. words: of the text, in lower case."""
        if factor not in self._found:
            titles = _titles(factor, self.factors)
            self._found[factor] = Stems(titles, self._without), self._as_unit(titles)
        stems, as_unit = self._found[factor]
        return stems.are_in(words) or (as_unit is not None and as_unit.search(text) is not None)

    def _as_unit(self, titles: list[str]) -> re.Pattern[str] | None:
        """ "by lesion", where a factor is called by nothing but what is counted."""
        for title in titles:
            found = _match_one_word(title.lower())
            if found is not None and found[1] in self._units:
                return re.compile(_LEADS + re.escape(found[1]) + _FOLLOWS, re.IGNORECASE)
        return None


_match_one_word = late(r"([a-z]+)(?: (?:at|before|after|of|in)\b.*|$)").match
_LEADS = r"(?:(?:^|[|:,.;(])\s*|\b(?:by|on|with|without|an?|no|not|for|the|and|only)\s+)"
_FOLLOWS = r"(?=\s*(?:$|[^A-Za-z\s]|P\b|(?:and|or|was|were|at the start|present|mattered)\b))"


def _titles(factor: str, factors: Mapping[str, FactorWording]) -> list[str]:
    described = factors[factor].factor
    return [words.text for words in (described.title, *described.synonyms)]


_latest: list[_Factors] = []


def _factors(known: Known) -> _Factors:
    """Those of a compendium, made once for all its claims."""
    if not _latest or _latest[0].factors is not known.factors or _latest[0].outcomes is not known.outcomes:
        _latest[:] = [_Factors(known)]
    return _latest[0]


def own_stems(factor: str, known: Known) -> Stems:
    """The words of a claim's own factor."""
    return Stems(_titles(factor, known.factors), frozenset(known.lexicon.unit_by_word))


def others_named(text: str, own: Stems | None, left_out: set[str], known: Known) -> set[str]:
    """The factors that a text tests, those left out aside; none where it holds them constant."""
    if _is_held(text):
        return set()
    words = set(_find_words(text.lower()))
    found = {found.lower()[:3] for found in _COMMON.findall(text)}
    found = {name for name in found if own is None or not own.are_in({name})}
    factors = _factors(known)
    return found | {name for name in known.factors if name not in left_out and factors.is_named(name, text, words)}
