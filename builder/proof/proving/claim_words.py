"""What the words of a claim ask of the passage: numbers said in passing, which way its outcome is, whom it is about."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache

from ...compiled_patterns import compiled
from ...numerals import Lexicon
from ...reading.model import Outcome
from ...reading.report_model import Candidates, Claim, Grade
from ...reading.values import Missing
from .field_roles import InPassing


def said_in_passing(claim: Claim) -> list[InPassing]:
    """The words of a claim in which a number must stand in the passage."""
    where = claim.where
    found = [InPassing("differ_in", words, where) for words in claim.differ_in]
    if claim.given is not None:
        found.append(InPassing("given", claim.given, where))
    if claim.note is not None:
        found.append(InPassing("note", claim.note, where))
    if type(claim.total) is Candidates:
        found.append(InPassing("reason", claim.total.reason, where))
    for level in claim.levels:
        if type(level.total) is Candidates:
            found.append(InPassing("reason", level.total.reason, level.where or where))
    for test in claim.tests:
        if not isinstance(test.between, Missing):
            found += [InPassing("between", words, test.where or where) for words in test.between]
    return found


# Words of every trade that say which way an outcome is, where neither the vocabulary nor a `success_rate` does.
_GOOD_WORDS = frozenset({
    "healed", "healing", "success", "successful", "survival", "survived", "functional", "complete",
})  # fmt: skip
_BAD_WORDS = frozenset({
    "failed", "failure", "failures", "lost", "loss", "diseased", "disease", "reversal", "pain", "unhealed",
    "persistent", "persisted", "nonhealed", "unsuccessful", "died",
})  # fmt: skip


def side_of_claim(claim: Claim, outcomes: Mapping[str, Outcome], lexicon: Lexicon) -> str:
    """Whether the events of a claim are "good" or "bad" for the patient; "" where nothing says so."""
    outcome = outcomes.get(claim.outcome.text)
    if outcome is not None:
        return "good" if outcome.good else "bad"
    if claim.success_rate is not None or any(level.success_rate is not None for level in claim.levels):
        return "good"
    return _side_of_words(claim.outcome.text, lexicon)


def side_of_grade(grade: Grade, outcomes: Mapping[str, Outcome], lexicon: Lexicon) -> str:
    """The same of one grade of a table, whatever outcome the table as a whole is about."""
    if grade.outcome is not None:
        outcome = outcomes.get(grade.outcome.text)
        if outcome is not None:
            return "good" if outcome.good else "bad"
    named = grade.outcome or grade.words
    return _side_of_words(named.text, lexicon) if named is not None else ""


def _side_of_words(text: str, lexicon: Lexicon) -> str:
    words = set(_letters(text.lower()))
    good = not words.isdisjoint(_GOOD_WORDS | lexicon.good_outcomes)
    bad = not words.isdisjoint(_BAD_WORDS | lexicon.bad_outcomes)
    if good == bad or not words.isdisjoint(_NEGATIONS):
        return ""
    return "good" if good else "bad"


_NEGATIONS = frozenset({"not", "no", "non", "without", "never"})
_letters = compiled(r"[a-z]+").findall
_split = compiled(r"[a-z]+(?:-[a-z]+)*").findall


@lru_cache(maxsize=8192)
def _roles_in(text: str, lexicon: Lexicon) -> frozenset[str]:
    stands_for = lexicon.all_roles
    found = frozenset(stands_for[word] for word in _split(text.lower()) if word in stands_for)
    return found or _NONE


_NONE: frozenset[str] = frozenset()


def roles_named(claim: Claim, outcomes: Mapping[str, Outcome], lexicon: Lexicon) -> frozenset[str]:
    """Roles whose words the claim itself is about: beside a number they then say nothing against it.

    "smokers" as a level, "treated by residents", an outcome titled "lost": what is counted is no other thing.
    """
    named = _NONE
    for level in claim.levels:
        named |= _roles_in(level.level.text, lexicon)
    for within in claim.within:
        named |= _roles_in(within.level.text, lexicon)
    if claim.given is not None:
        named |= _roles_in(claim.given.text, lexicon)
    outcome = outcomes.get(claim.outcome.text)
    if outcome is not None:
        # Which way the outcome goes is told by `side`; "failed after healing" would name both.
        named |= _roles_in(outcome.title.text, lexicon) - _SIDES
        for synonym in outcome.synonyms:
            named |= _roles_in(synonym.text, lexicon) - _SIDES
    return named


_SIDES = frozenset({"good", "bad"})
