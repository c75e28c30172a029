"""Numbers of a source that a sentence types in words: "three in four", "nine of the ten", "half of them"."""

from __future__ import annotations

from collections.abc import Sequence

from ..compiled_patterns import compiled
from ..numerals import Lexicon
from ..numerals.words import NUMBER_WORDS, SMALL


def _words_in(words: str) -> frozenset[str]:
    return frozenset(words.split())


_VALUES = {word: int(value) for word, value in NUMBER_WORDS.items() if value and word != "dozen"}
_PARTS = _words_in("half third thirds quarter quarters fifth fifths tenth tenths")
_OTHERS = _words_in("them those these us all cases people persons patients studies reports trials series")
_VERBS = _words_in("did do had have were are will healed heal failed fail survived survive succeeded succeed")
_ARTICLES = frozenset(("the", "these", "those", "every", "each", "all", "such"))
_STEPS = _words_in("step stage visit appointment session phase part page day week")
_LENGTHS = _words_in("second seconds minute minutes hour hours day days week weeks month months year years")
_OFTEN = frozenset(("many", "often", "likely", "frequent", "frequently"))
_FOLDS = frozenset(f"{word}fold" for word in SMALL[2:11])
_MORE = frozenset(("risk", "odds", "more", "higher", "lower", "increase", "rise", "fall"))
_TELLING = frozenset((*_VALUES, *_PARTS, *_FOLDS, "twice"))
"""One of these words stands in all of it."""
_FEW = 5
"""Of fewer things than these one may be chosen: "two of the four walls"."""
_WORDS = compiled(r"[a-z]+|[0-9]+|[^\sa-z0-9-]")


def number_in_words(text: str, lexicon: Lexicon) -> str:
    """The first words of a sentence that say a number which only a source can give, or ""."""
    words = _WORDS.findall(text.lower())
    if _TELLING.isdisjoint(words):
        return ""
    found = list(_WORDS.finditer(text.lower()))
    words += [""] * 6  # so that what follows a word can be asked for at the end too
    counted = _OTHERS.union(*(unit.many.lower().split()[-1:] for unit in lexicon.units.values()))
    for at in range(len(found)):
        behind = _pair(words, at) or _part(words, at, counted) or _times(words, at)
        if behind:
            is_longer = at and (words[at - 1] in _VALUES or words[at - 1] in ("a", "an"))  # "two thirds", "a quarter"
            return text[found[at - bool(is_longer)].start() : found[behind - 1].end()]
    return ""


def _pair(words: Sequence[str], at: int) -> int:
    """Where "three in four" ends that begins at a word; 0 for "one of the two ways", "visit one of two" and "two in
    one visit", where nothing was counted."""
    some, behind = _number(words[at]), at + 1
    if not some or (at and words[at - 1] in _STEPS):
        return 0
    behind += words[behind] == "times"
    behind += words[behind] == "out" and words[behind + 1] == "of"
    joint, behind = words[behind], behind + 1
    article = words[behind] if words[behind] in _ARTICLES else ""
    behind += bool(article)
    whole = _number(words[behind])
    is_figure = words[at].isdigit() and words[behind].isdigit()  # these are looked for elsewhere
    is_choice = joint == "of" and article not in ("", "every") and whole < _FEW
    is_length = words[behind + 1] in _LENGTHS
    is_share = joint in ("in", "of") and some <= whole > 1 and not (is_figure or is_choice or is_length)
    return behind + 1 if is_share else 0


def _number(word: str) -> int:
    """Its value, 0 where it is no number."""
    return int(word) if word.isdigit() else _VALUES.get(word, 0)


def _part(words: Sequence[str], at: int, counted: frozenset[str]) -> int:
    """Where "half of them", "thirds of those" or "quarter failed" ends; 0 for a part of one thing."""
    if words[at] not in _PARTS:
        return 0
    behind = at + 1
    if words[behind] in _VERBS:
        return behind + 1
    behind += words[behind] == "of"
    while words[behind] in _ARTICLES and words[behind + 1] not in ("", ".", ","):
        behind += 1
    return behind + 1 if words[behind] in counted else 0


def _times(words: Sequence[str], at: int) -> int:
    """Where "twice as many", "tenfold risk" or "five per cent" ends."""
    behind = at + 1
    if words[at] in _FOLDS or (words[at] in _VALUES and words[behind] == "fold"):
        behind += words[behind] == "fold"
        return behind + 1 if words[behind] in _MORE else 0
    if words[at] == "twice" or (words[at] in _VALUES and words[behind] == "times"):
        behind += words[behind] == "times"
        return behind + 2 if words[behind] == "as" and words[behind + 1] in _OFTEN else 0
    if words[at] in _VALUES and words[behind] in ("percent", "per"):
        return behind + 1 if words[behind] == "percent" else (behind + 2) * (words[behind + 1] == "cent")
    return 0
