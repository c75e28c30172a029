"""What each number of a claim counts: the outcome, which way it goes, and the words by which a vocabulary knows it."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from functools import cached_property, partial

from ...compiled_patterns import compiled
from ...numerals import Lexicon
from ...numerals.late import holds_any
from ...printed.clauses import Span
from ...printed.event_mentions import EventWords, Meaning, phrases_of
from ...printed.event_words import EVENTS, LENIENT, STEMS_OF_STRICTNESS, STRICT
from ...printed.events import EXCEPTING, Events
from ...printed.negation import may_deny
from ...printed.passing_words import adjusters_in
from ...printed.valued import RESULT
from ...printed.word_stream import words_of
from ...reading.folded import folded
from ...reading.model import Outcome
from ...reading.report_model import Claim, Contrast, Estimate, Grade, Level
from ...reading.slugs import slug
from ...reading.values import Words
from ...records import NamedTuple
from ..proving.printed_passage import Reading, different_words_in, words_in
from .latest import latest
from .tie import Known, Stands

_SIGNS = frozenset({
    "pain", "tenderness", "swelling", "fever", "infection", "bleeding", "satisfaction", "technique", "complication",
    "fracture", "fistula", "doubt", "size", "discolouration", "mobility", "extrusion", "resorption",
})  # fmt: skip
"""Kinds of event that are a sign, a symptom, a complication or a measure: of which a result is made, and none alone."""


class Counted(NamedTuple):
    """What a number of a claim counts, as the claim has it."""

    title: str
    """As questions name it: "healed"."""
    outcome: str
    """Id in the vocabulary, or ""."""
    kinds: frozenset[str]
    """Kinds of event that it may be printed as; empty where its words are known to nobody."""
    side: str
    """good or bad for the patient, or "" where either may be meant."""
    strictness: str = ""
    """strict, lenient, or "" where nothing is said."""
    said_as: tuple[Words, ...] = ()
    """The paper's own words for it (`as`)."""

    def may_be(self, meaning: Meaning) -> bool:
        """Whether words of this meaning may stand for it: its own, of its kind, or of any kind."""
        is_own = bool(self.outcome) and self.outcome in meaning.outcomes
        return is_own or meaning.kind == RESULT or bool(meaning.kind and meaning.kind in self.kinds)


class OutcomeWords:
    """The words for events, those of a vocabulary among them."""

    def __init__(self, outcomes: Mapping[str, Outcome], lexicon: Lexicon) -> None:
        self.outcomes, self.lexicon = outcomes, lexicon
        self._kinds_in: dict[str, frozenset[str]] = {}
        general = phrases_of((*EVENTS.items(), *lexicon.events.items()))
        self._general = EventWords(general, lexicon)
        self.kinds = {name: self._kinds_of_outcome(outcome) for name, outcome in outcomes.items()}
        meanings = dict(general)
        for name, outcome in outcomes.items():
            for words in (outcome.title, *outcome.synonyms):
                phrase = " ".join(words.text.lower().split())
                before = meanings.get(phrase, Meaning("", ""))
                kind = before.kind or next(iter(sorted(self.kinds_in(phrase))), "")
                meanings[phrase] = Meaning(kind, "good" if outcome.good else "bad", before.outcomes | {name})
                for opposite in (f"non-{phrase}", f"non{phrase}") if phrase.isalpha() else ():
                    meanings.setdefault(opposite, Meaning(kind, "bad" if outcome.good else "good", frozenset({name})))
        self.event_words = EventWords(meanings, lexicon)
        self._named: dict[str, bool] = {}
        self._readers: dict[tuple[str, ...], partial[Events]] = {}

    def kinds_in(self, text: str) -> frozenset[str]:
        """Kinds of event that words speak of, by the words of every trade and of this one."""
        if text in self._kinds_in:
            return self._kinds_in[text]
        words = words_of(text)
        phrases = self._general.by_first
        found: set[str] = set()
        for at in range(len(words)):
            for phrase, meaning in phrases.get(words[at].text, ()):
                if meaning.kind and tuple(word.text for word in words[at : at + len(phrase)]) == phrase:
                    found.add(meaning.kind)
        self._kinds_in[text] = frozenset(found)
        return self._kinds_in[text]

    def _kinds_of_outcome(self, outcome: Outcome) -> frozenset[str]:
        titles = " ; ".join(words.text for words in (outcome.title, *outcome.synonyms))
        kinds = self.kinds_in(titles) | _of_construct(outcome.construct.text)
        if "healing" in kinds and outcome.strictness.text == "lenient":
            kinds |= {"improving"}
        # What is judged by one kind of sign alone is that sign: "free of complaints", judged by pain.
        return kinds or self.kinds_in(outcome.construct.text) or self.kinds_in(outcome.threshold.text)

    def may_be_synonym(self, printed: str, meaning: Meaning, wanted: Counted) -> bool:
        """Whether words may be offered as a synonym of an outcome: they mean no other one, no sign, no other side."""
        if meaning.kind in _SIGNS or (meaning.side and wanted.side and meaning.side != wanted.side):
            return False
        if wanted.strictness == "strict" and (meaning.kind == "improving" or LENIENT.search(printed) is not None):
            return False
        if any(meaning.kind in kinds for name, kinds in self.kinds.items() if name != wanted.outcome):
            return False
        said = self.event_words.mentions(words_of(printed))
        return all(each.meaning.outcomes <= {wanted.outcome} and not each.is_denied for each in said)

    def side_in(self, text: str) -> str:
        """Which way words go, or "" where they name no event or both ways."""
        sides = {mention.side for mention in self.event_words.mentions(words_of(text))}
        return sides.pop() if len(sides) == 1 else ""

    def names_an_event(self, wording: str) -> bool:
        """Whether the wording of a level has words for an event in it."""
        found = self._named.get(wording)
        if found is None:
            found = self._named[wording] = bool(self.event_words.mentions(words_of(wording)))
        return found

    def speaks_against(self, reading: Reading, wanted: Counted) -> bool:
        """Whether any words of a passage, wherever they stand, may say that a number counts something else."""
        meanings = reading.told(self._meant)
        if meanings is None:
            return True
        for meaning in meanings:
            if not wanted.may_be(meaning):
                return True
            if wanted.side and meaning.side and meaning.side != wanted.side:
                return True
            if meaning.outcomes and wanted.outcome not in meaning.outcomes:
                return True
        if not (meanings and wanted.strictness):
            return False
        return reading.told(has_marks_of_strictness) or "healing" in reading.told(different_words_in)

    def may_go(self, reading: Reading, side: str) -> bool:
        """Whether any words of a passage may tell of an event that goes this way."""
        meanings = reading.told(self._meant)
        return meanings is None or any(meaning.side == side for meaning in meanings)

    def _meant(self, reading: Reading) -> list[Meaning] | None:
        """What a passage may speak of; None where it may deny or except it."""
        said = reading.told(different_words_in)
        meanings = self.event_words.possible(said)
        return None if meanings and (may_deny(said) or not EXCEPTING.isdisjoint(said)) else meanings

    def states_beside(self, outcome: str) -> tuple[str, ...]:
        """The words for states of a trade that are of another kind than this outcome."""
        kinds, events = self.kinds.get(outcome, frozenset()), self.lexicon.events
        return tuple(word for word in sorted(self.lexicon.states) if events[word][0] not in kinds)

    def events(self, reading: Reading, wordings: tuple[str, ...]) -> Events:
        """What is said in a passage. wordings: of levels, in which words for events say who is meant."""
        reader = self._readers.get(wordings)
        if reader is None:
            reader = self._readers[wordings] = partial(_events_of, self.event_words, wordings)
        return reading.told(reader)


def _events_of(event_words: EventWords, wordings: tuple[str, ...], reading: Reading) -> Events:
    plain = reading.small
    masked = [
        found.span() for wording in map(str.lower, wordings) if wording in plain
        for found in re.finditer(rf"\b{re.escape(wording)}\b", plain)
    ]  # fmt: skip
    masked += reading.told(_adjusters)
    return Events(reading.passage.text, reading.tokens, reading.told(words_in), reading.cells(), event_words, masked)


def _adjusters(reading: Reading) -> list[Span]:
    """Where a passage lists what it adjusted for; for `Reading.told`."""
    return adjusters_in(reading.passage.text)


def has_marks_of_strictness(reading: Reading) -> bool:
    """Whether a passage has words for a stricter or a looser measure."""
    if not holds_any(reading.small, STEMS_OF_STRICTNESS) and reading.small.count("heal") < 2:
        return False
    text = reading.passage.text
    return LENIENT.search(text) is not None or STRICT.search(text) is not None


def _of_construct(construct: str) -> frozenset[str]:
    return frozenset({"keeping"}) if construct.strip().lower() == "survival" else frozenset()


_words_of = latest(OutcomeWords)


def outcome_words(known: Known) -> OutcomeWords:
    """The words of a compendium, made once for all its claims."""
    return _words_of(known.outcomes, known.lexicon)


def _wordings_of(claim: Claim, known: Known) -> list[str]:
    """Every wording of the levels of a claim and of its factors, and the titles of these."""
    factors = {name.text for name in (claim.factor, *(within.factor for within in claim.within)) if name is not None}
    among = [known.factors[name] for name in factors if name in known.factors]
    wordings = [word for factor in among for word in (factor.factor.title.text, *factor.words())]
    wordings += [level.level.text for level in claim.levels] + [within.level.text for within in claim.within]
    contrast = claim.contrast
    for named in (claim.reference, contrast and contrast.level, contrast and contrast.reference):
        if type(named) is Words:
            wordings.append(named.text)
    if type(claim.given) is Words:
        wordings += _find_having(claim.given.text)
    return sorted(set(wordings))


_find_having = compiled(
    r"\b(?:with|without|having|had|no|of)\s+(?:an?\s+|the\s+|no\s+)?"
    r"([a-z]+(?:[ -](?!(?:at|in|and|or|of|who)\b)[a-z]+){0,3})",
    re.IGNORECASE,
).findall
"""Whom `given` speaks of: "sinus" of "those with a sinus"."""


def _wordings_with_events(claim: Claim, wordings: Sequence[str], words: OutcomeWords) -> tuple[str, ...]:
    """Those that have words for events in them, "spontaneous pain", and words for states of another kind than the
    claim's outcome: "necrotic" says whose a number of healing is."""
    own = {folded(each.text) for each in _titles(words.outcomes.get(claim.outcome.text))}
    of_levels = (word for word in wordings if folded(word) not in own and words.names_an_event(word))
    return (*of_levels, *words.states_beside(claim.outcome.text))


def _titles(outcome: Outcome | None) -> Iterator[Words]:
    if outcome is not None:
        yield outcome.title
        yield from outcome.synonyms


def _counted_by(claim: Claim, name: str, words: OutcomeWords) -> dict[str, Counted]:
    """What each block of a claim counts, by the block's id. name: of the claim, "key/claim"."""
    whole = _of_outcome(claim.outcome.text, claim.counted_as, words)
    out = {name: whole}
    _add(out, name, claim, whole, words)
    for level in claim.levels:
        block = f"{name}/{slug(level.level.text)}"
        out[block] = whole._replace(said_as=level.counted_as or whole.said_as)
        _add(out, block, level, out[block], words)
    if claim.contrast is not None:
        out[f"{name}/contrast"] = _of_contrast(claim.contrast, whole, words)
    return out


def _add(out: dict[str, Counted], block: str, holder: Claim | Level, whole: Counted, words: OutcomeWords) -> None:
    if holder.estimate is not None:
        out[f"{block}/estimate"] = whole._replace(side=_side_of_estimate(holder.estimate, whole))
    for grade in holder.grades:
        named = grade.outcome or grade.words
        of_grade = _of_grade(grade, named, words) if named is not None else None
        if named is not None and of_grade is not None:
            out[f"{block}/{slug(named.text)}"] = of_grade


def _of_outcome(name: str, said_as: Sequence[Words], words: OutcomeWords) -> Counted:
    outcome = words.outcomes.get(name)
    if outcome is None:
        return Counted(name, "", frozenset(), "")
    strictness = outcome.strictness.text if outcome.strictness.text in ("strict", "lenient") else ""
    side = "good" if outcome.good else "bad"
    return Counted(outcome.title.text, name, words.kinds[name], side, strictness, tuple(said_as))


def _of_grade(grade: Grade, named: Words, words: OutcomeWords) -> Counted | None:
    """None of a grade whose words name no event: of "none, mild, severe" the words around say what was graded."""
    if grade.outcome is not None:
        return _of_outcome(named.text, (), words)
    kinds, side = words.kinds_in(named.text), words.side_in(named.text)
    return Counted(named.text, "", kinds, side) if kinds or side else None


def _side_of_estimate(estimate: Estimate, whole: Counted) -> str:
    """A survival is the share still good; the incidence beside a unit kept is one of its loss."""
    if estimate.kind.text == "survival":
        return "good"
    return "" if whole.side == "good" and "keeping" in whole.kinds else whole.side


def _of_contrast(contrast: Contrast, whole: Counted, words: OutcomeWords) -> Counted:
    kinds, title = whole.kinds, whole.title
    if contrast.event is not None:
        title = contrast.event.text
        kinds = kinds | words.kinds_in(title) if kinds else kinds
    side = contrast.event_is.text if contrast.event_is is not None else ""
    return whole._replace(title=title, kinds=kinds, side=side, strictness="", said_as=contrast.counted_as)


class Counting:
    """What one claim counts, and the words for it."""

    def __init__(self, claim: Claim, known: Known) -> None:
        self._claim, self._known = claim, known
        self.words = outcome_words(known)
        self._blocks: dict[str, Counted] | None = None
        self._heard: tuple[Reading, Counted, bool] | None = None

    def blocks(self, name: str) -> dict[str, Counted]:
        """What each block of the claim counts, by the block's id. name: of the claim, "key/claim"."""
        if self._blocks is None:
            self._blocks = _counted_by(self._claim, name, self.words)
        return self._blocks

    @cached_property
    def levels(self) -> list[str]:
        """Every wording of its levels and factors."""
        return _wordings_of(self._claim, self._known)

    @cached_property
    def _wordings(self) -> tuple[str, ...]:
        return _wordings_with_events(self._claim, self.levels, self.words)

    def speaks_against(self, reading: Reading, wanted: Counted) -> bool:
        """As of `OutcomeWords`: a share and its interval ask the same of the same passage as their count did."""
        if self._heard is None or self._heard[0] is not reading or self._heard[1] != wanted:
            self._heard = reading, wanted, self.words.speaks_against(reading, wanted)
        return self._heard[2]

    def events(self, reading: Reading) -> Events:
        """What a passage says of events."""
        return self.words.events(reading, self._wordings)


counting = latest(Counting, 256)
"""Made once for all numbers of a claim and all kinds of ties; a dozen reports go through one kind before the next."""


def counted(stands: Stands, blocks: Mapping[str, Counted]) -> Counted | None:
    """What one number counts; None of a total, a time and whatever else counts no events."""
    name = stands.row.name
    if name not in _COUNTING:
        return None
    block = stands.block
    found = blocks.get(block)
    if found is None:
        return None
    if name == "value":
        return found if block.rpartition("/")[2] in ("estimate", "contrast") else None
    if name == "success_rate":
        return found._replace(side="good")
    if name in ("mean", "median"):
        return found._replace(side="", strictness="")
    return found


_COUNTING = frozenset({"value", "success_rate", "mean", "median", "events", "rate"})
