"""Events that are told in words put together: "a poor outcome", "the result was judged good", "the loss of 8"."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..numerals.words import NUMBER_WORDS
from .word_stream import Word

Found = tuple[int, int, str, str]
"""The first and the last of the words, the kind of event, and which way it goes."""

RESULT = "result"
"""Kind of an event that is told as good or bad alone, whatever it is."""

_NOUNS = frozenset({"outcome", "outcomes", "result", "results"})
_BAD = frozenset({
    "poor", "bad", "adverse", "undesirable", "unacceptable", "inadequate", "unsatisfactory", "suboptimal",
    "disappointing", "unsuccessful", "unfavourable", "unfavorable", "untoward", "insufficient",
})  # fmt: skip
_GOOD = frozenset({
    "good", "excellent", "desirable", "acceptable", "adequate", "satisfactory", "favourable", "favorable", "successful",
})  # fmt: skip
_OF_OUTCOME = {"negative": "bad", "positive": "good"}
"""Of a test these say what it found: only an outcome is good or bad by them."""
_VERBS = frozenset({
    "was", "were", "is", "are", "proved", "remained", "turned", "became", "been", "be", "being", "rated", "judged",
    "considered", "found", "thought", "classified", "classed", "scored", "graded", "deemed", "recorded", "called",
})  # fmt: skip
_BETWEEN = frozenset({
    "had", "have", "has", "to", "out", "as", "of", "the", "treatment", "repair", "operation", "final", "overall",
    "clinical", "radiographic", "only", "still", "rather", "very", "therefore", "thus", "at", "recall", "follow-up",
}) | _VERBS  # fmt: skip
_REACH = 8
_ENDS = frozenset({
    "in", "for", "at", "of", "among", "with", "by", "on", "and", "or", "after", "but", "whereas", "while", "overall",
})  # fmt: skip
"""May stand behind "the result was poor"; any other word may be what is poor."""


def _side(word: str, noun: str = "") -> str:
    if word in _OF_OUTCOME:
        return _OF_OUTCOME[word] if noun.startswith("outcome") else ""
    return "bad" if word in _BAD else "good" if word in _GOOD else ""


_VALUES = _BAD | _GOOD | _OF_OUTCOME.keys()
_LOSSES = frozenset({"loss", "losses"})
_NUMBERED = frozenset({
    "the", "all", "these", "those", "only", "out", "of", "another", "a", "an", "as", "many", *NUMBER_WORDS,
})  # fmt: skip
_BEFORE_LOSS = frozenset({
    "the", "a", "any", "no", "early", "late", "total", "further", "in", "with", "of", "by", "was", "were",
    *NUMBER_WORDS,
})  # fmt: skip
_BEHIND_LOSS = frozenset({"occurred", "was", "were", "happened", "among", "in", "had", "took"})


def may_be_told(words: frozenset[str]) -> set[tuple[str, str]]:
    """Kinds and sides that a passage with these words may tell so."""
    found: set[tuple[str, str]] = set()
    if not words.isdisjoint(_NOUNS):
        found |= {(RESULT, _side(word, "outcome")) for word in words & _VALUES}
    if not words.isdisjoint(_LOSSES):
        found.add(("keeping", "bad"))
    return found


def valued(words: Sequence[Word], units: frozenset[str], known: Sequence[tuple[int, int]]) -> Iterator[Found]:
    """All of them in a stream of words. units: words for what is counted. known: words that say an event by themselves,
    or are a vocabulary's own for one; they go before."""
    if not may_be_told(frozenset(word.text for word in words)):
        return
    for found in _all(words, units):
        if not any(first <= found[1] and found[0] <= last for first, last in known):
            yield found


def _all(words: Sequence[Word], units: frozenset[str]) -> Iterator[Found]:
    subject = -1
    for at, word in enumerate(words):
        text = word.text
        if text in (".", "!", "?"):
            subject = -1
        elif text in _NOUNS:
            subject = at
        elif text in _VALUES:
            yield from _of_value(words, at, subject)
        elif text in _LOSSES and _is_of_units(words, at, units):
            yield at, at, "keeping", "bad"


def _of_value(words: Sequence[Word], at: int, subject: int) -> Iterator[Found]:
    behind = words[at + 1].text if at + 1 < len(words) else ""
    if behind in _NOUNS:
        if not _is_aside(words, at):
            yield at, at + 1, RESULT, _side(words[at].text, behind)
    elif subject >= 0 and (side := _side(words[at].text, words[subject].text)) and _is_said_of(words, subject, at):
        yield at, at, RESULT, side


def _is_aside(words: Sequence[Word], at: int) -> bool:
    """ "9 of 50 healed, a poor result": what is thought of the number."""
    if at < 2 or words[at - 1].text not in ("a", "an") or words[at - 2].text != ",":
        return False
    return at + 2 >= len(words) or words[at + 2].is_mark


def _is_said_of(words: Sequence[Word], subject: int, at: int) -> bool:
    """ "The outcome of treatment was judged poor in"; also the next of a list: "good in 40 and poor in 9"."""
    behind = words[at + 1] if at + 1 < len(words) else None
    if behind is not None and not (behind.is_mark or behind.is_number or behind.text in _ENDS):
        return False
    between = words[subject + 1 : at]
    if not any(word.text in _VERBS for word in between[:_REACH]):
        return False
    if len(between) <= _REACH and all(word.text in _BETWEEN or word.text.endswith("ly") for word in between):
        return True
    has_value = any(word.text in _VALUES for word in between)
    return has_value and words[at - 1].text in ("and", ",", "or", "but")


def _is_of_units(words: Sequence[Word], at: int, units: frozenset[str]) -> bool:
    """True of "the loss of 8 of the 50 units", "losses: 8", "loss occurred"; False of the loss of something else."""
    before = words[at - 1] if at else None
    is_free = before is None or before.is_mark or before.is_number or before.text in _BEFORE_LOSS
    behind = [word.text for word in words[at + 1 : at + 10]]
    if not is_free or not behind:
        return False
    if behind[0] != "of":
        return behind[0] in _BEHIND_LOSS or behind[0] in (":", "|")
    what = next((text for text in behind[1:] if not (text[0].isdigit() or text in _NUMBERED)), "")
    return what in units
