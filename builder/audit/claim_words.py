"""What the words of a claim ask of the passage: numbers said in passing, which way its outcome is, whom it is about."""

from __future__ import annotations

from builder.audit.field_roles import Mention
from builder.numerals.words import ROLES
from builder.reading.report_model import Candidates, Claim
from builder.reading.values import Missing


def mentions_of(claim: Claim) -> list[Mention]:
    """The words of a claim in which a number must stand in the passage."""
    where = claim.where
    found = [Mention("differ_in", words, where) for words in claim.differ_in]
    if claim.given is not None:
        found.append(Mention("given", claim.given, where))
    if claim.note is not None:
        found.append(Mention("note", claim.note, where))
    if type(claim.total) is Candidates:
        found.append(Mention("reason", claim.total.reason, where))
    for level in claim.levels:
        if type(level.total) is Candidates:
            found.append(Mention("reason", level.total.reason, level.where or where))
    for test in claim.tests:
        if not isinstance(test.between, Missing):
            found += [Mention("between", words, test.where or where) for words in test.between]
    return found


# Words of an outcome's id that say which way it is, where no `success_rate` does.
_GOOD_WORDS = frozenset(
    [
        "healed",
        "healing",
        "success",
        "survival",
        "survived",
        "kept",
        "retained",
        "sound",
        "vital",
        "removed",
        "functional",
    ]
)
_BAD_WORDS = frozenset(
    [
        "failed",
        "failure",
        "lost",
        "loss",
        "extracted",
        "extraction",
        "fracture",
        "fractured",
        "diseased",
        "reversal",
        "pain",
    ]
)


_PEOPLE = frozenset(word for word, role in ROLES.items() if role == "who")


def is_good(claim: Claim) -> bool | None:
    """Whether the events of a claim are good for the patient; None where neither its fields nor its outcome say so."""
    if claim.success_rate is not None or any(level.success_rate is not None for level in claim.levels):
        return True
    words = set(claim.outcome.text.split("-"))
    good, bad = not words.isdisjoint(_GOOD_WORDS), not words.isdisjoint(_BAD_WORDS)
    return good if good != bad else None


def names_people(claim: Claim) -> bool:
    """Whether a claim is about women, men, smokers: then such a word beside a number says nothing against it."""
    named = [level.level.text for level in claim.levels] + [within.level.text for within in claim.within]
    if claim.given is not None:
        named.append(claim.given.text)
    return bool(named) and not _PEOPLE.isdisjoint(" ".join(named).lower().split())
