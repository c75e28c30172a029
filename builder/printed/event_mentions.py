"""Words for events in a stream of words: which they are, which way they go, what denies them, of whom they speak."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from ..numerals import Lexicon
from ..numerals.words import NUMBER_WORDS
from ..records import NamedTuple
from .clauses import Span
from .negation import CEASED, denials, is_a_rule_for_others
from .valued import may_be_told, valued
from .word_stream import Word, words_of


class Meaning(NamedTuple):
    """What words for an event stand for."""

    kind: str
    """One name for all forms: "healing", "pain"; "" where only the vocabulary knows it."""
    side: str
    """good or bad for the patient, or "" where it may be either."""
    outcomes: frozenset[str] = frozenset()
    """Ids of the vocabulary's outcomes that go by these words."""


class EventMention(NamedTuple):
    """Words for an event in a passage."""

    start: int
    end: int
    meaning: Meaning
    denials: tuple[Span, ...] = ()
    """Where the words stand that deny it."""
    is_of_a_group: bool = False
    """True of "patients with pain": it may tell of whom is spoken, and not what befell them."""

    @property
    def is_denied(self) -> bool:
        """True behind one "not", false behind two."""
        return len(self.denials) % 2 == 1

    @property
    def side(self) -> str:
        """Which way it goes when what denies it is heeded."""
        side = self.meaning.side
        return _OTHER[side] if self.is_denied else side

    @property
    def spans(self) -> tuple[Span, ...]:
        """The words, with those that deny them."""
        return (*self.denials, (self.start, self.end))

    def turned(self, by: Span) -> EventMention:
        """Denied once more: "8 did not", behind "39 healed". by: where the words stand that do."""
        return self._replace(denials=(*self.denials, by))


_OTHER = {"good": "bad", "bad": "good", "": ""}


def _words_of_phrase(phrase: str) -> tuple[str, ...]:
    words = phrase.split()
    if phrase.isascii() and phrase.islower() and all(map(str.isalpha, words)):  # as most are
        return tuple(words)
    return tuple(word.text for word in words_of(phrase))


class EventWords:
    """The words for events that may be met: those of every trade, of this one, and of a vocabulary."""

    def __init__(self, meanings: Mapping[str, Meaning], lexicon: Lexicon) -> None:
        self.units = frozenset(lexicon.unit_by_word)
        self.by_first: dict[str, list[tuple[tuple[str, ...], Meaning]]] = {}
        for phrase, meaning in meanings.items():
            words = _words_of_phrase(phrase)
            if words:
                self.by_first.setdefault(words[0], []).append((words, meaning))
        for phrases in self.by_first.values():
            phrases.sort(key=lambda each: len(each[0]), reverse=True)

    def possible(self, words: frozenset[str]) -> list[Meaning]:
        """Whatever may be meant by a passage with these words, wherever they stand in it."""
        return [
            meaning
            for first in words & self.by_first.keys()
            for phrase, meaning in self.by_first[first]
            if (meaning.kind or meaning.outcomes) and words.issuperset(phrase)
        ] + [Meaning(*told) for told in may_be_told(words)]

    def mentions(self, words: Sequence[Word], masked: Sequence[Span] = ()) -> list[EventMention]:
        """Every mention in a stream of words, the longest first; masked: slices that name something else."""
        found = self._found(words)
        events = {place for first, last, _ in found for place in range(first, last + 1)}
        out: list[EventMention] = []
        before = -1
        for first, last, meaning in found:
            start, end = words[first].start, words[last].end
            if words[first].text in CEASED and out and out[-1].denials[-1:] == ((start, end),):
                continue  # "pain had resolved" is no healing
            is_masked = any(low < end and start < high for low, high in masked)
            if is_masked or not (meaning.kind or meaning.outcomes) or _is_before_treatment(words, first, last):
                continue
            if is_a_rule_for_others(words, first) or _is_attribute(words, first, last):
                continue
            denied = tuple(
                (word.start, word.end) for word in denials(words, first, last, events.__contains__, self.units)
            )
            if not denied and out and is_listed(words, before, first, joined=("or", "nor", "/")):
                denied = out[-1].denials
            out.append(EventMention(start, end, meaning, denied, _is_of_a_group(words, first, self.units)))
            before = last
        return out

    def _found(self, words: Sequence[Word]) -> list[tuple[int, int, Meaning]]:
        found: list[tuple[int, int, Meaning]] = []
        at = 0
        while at < len(words):
            length, meaning = self._at(words, at)
            if meaning is not None:
                found.append((at, at + length - 1, meaning))
            at += length
        told = valued(words, self.units, [(first, last) for first, last, _ in found])
        return sorted([*found, *((first, last, Meaning(kind, side)) for first, last, kind, side in told)])

    def _at(self, words: Sequence[Word], at: int) -> tuple[int, Meaning | None]:
        phrases = self.by_first.get(words[at].text)
        if phrases is None:
            return 1, None
        for phrase, meaning in phrases:
            length = len(phrase)
            if length == 1 or _stands_at(words, at, phrase):
                is_other = phrase[0] in _LEADING_ON and at + 1 < len(words) and words[at + 1].text == "to"
                return (1, None) if is_other and length == 1 else (length, meaning)
        return 1, None


def _stands_at(words: Sequence[Word], at: int, phrase: tuple[str, ...]) -> bool:
    """Whether a phrase of several words stands at a place; most that begin so go on otherwise."""
    if at + len(phrase) > len(words) or words[at + 1].text != phrase[1]:
        return False
    return tuple(word.text for word in words[at : at + len(phrase)]) == phrase


_LEADING_ON = frozenset({"failed", "failure", "fail", "fails", "failing", "kept"})
"""With "to" behind them these are no event: "failed to heal", "kept to the protocol"."""
_BEFORE = frozenset({
    "preoperative", "pre-operative", "preoperatively", "initial", "initially", "baseline", "pre-existing",
    "preexisting", "previous", "prior", "presenting", "pretreatment", "pre-treatment",
})  # fmt: skip


_ATTRIBUTES = frozenset({"size", "diameter", "width", "area", "volume", "location", "type"})


def _is_attribute(words: Sequence[Word], first: int, last: int) -> bool:
    """ "Fracture type", "size of the abscess": a thing's attribute, and nothing that happened."""
    if last + 1 < len(words) and words[last + 1].text in _ATTRIBUTES:
        return True
    before = [word.text for word in words[max(first - 3, 0) : first] if word.text not in ("the", "a")]
    return len(before) > 1 and before[-1] == "of" and before[-2] in _ATTRIBUTES


def _is_before_treatment(words: Sequence[Word], first: int, last: int) -> bool:
    """ "eyes with preoperative pain": of whom is spoken, and no result."""
    return (first > 0 and words[first - 1].text in _BEFORE) or (
        last + 1 < len(words) and words[last + 1].text in ("before", "beforehand", "preoperatively")
    )


def _is_of_a_group(words: Sequence[Word], first: int, units: frozenset[str]) -> bool:
    """ "patients with pain", "in painful eyes"."""
    before = [word.text for word in words[max(first - 3, 0) : first]]
    if len(before) > 1 and before[-1][0].isdigit() and before[-2] in ("in", "among", "of", "from", "with"):
        is_counted = before[0][0].isdigit() or before[0].partition("-")[0] in NUMBER_WORDS
        return not is_counted  # "among 115 healed", but "39 of 47 healed", "Seventeen of 47 healed"
    behind = words[first + 1].text if first + 1 < len(words) else ""
    if before and before[-1] == "as":
        before.pop()
    if len(before) > 1 and before[-1] in _JUDGED and before[-2] in units:  # "of 104 cases judged successful"
        return True
    if before and behind in units and before[-1] in ("in", "among", "of", "with", "all", "these", "only", "for"):
        return True
    return any(
        word in ("with", "without", "having") and place and before[place - 1] in units
        for place, word in enumerate(before)
    )


_JUDGED = frozenset({
    "judged", "considered", "deemed", "rated", "classified", "classed", "regarded", "thought", "called", "scored",
    "graded", "recorded", "registered", "counted",
})  # fmt: skip


def is_listed(words: Sequence[Word], last: int, first: int, joined: Sequence[str] = ()) -> bool:
    """Whether nothing but "and", "or", commas and small words stands between two events."""
    between = [word.text for word in words[last + 1 : first]]
    joins = joined or ("and", "or", ",", "/", "&", "nor", "and/or", "plus")
    return (
        bool(between)
        and any(text in joins for text in between)
        and all(
            text in joins or text in ("any", "no", "and", "or", "/", "partly", "partially", "fully") for text in between
        )
    )


def phrases_of(events: Iterable[tuple[str, tuple[str, str]]]) -> dict[str, Meaning]:
    """Meanings of words that are known without a vocabulary."""
    return {phrase: Meaning(kind, side) for phrase, (kind, side) in events}
