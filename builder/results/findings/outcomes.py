"""The order in which a page takes a question's outcomes, and the one it leads with."""

from __future__ import annotations

from collections.abc import Iterable

from ...reading.model import Outcome, Question
from .comparable import reason_not_compared
from .findings import Catalogue

_CONSTRUCTS = ("success", "absence of disease")


OCCURRENCE = "occurrence"
"""The construct that is kept for how often what a question is about happens at all."""


def is_occurrence(outcome: Outcome) -> bool:
    """True where it counts how often something happens among all: no ending of those to whom it has happened."""
    return outcome.construct.text == OCCURRENCE


def in_order(catalogue: Catalogue, question: Question, ids: Iterable[str]) -> list[Outcome]:
    """Those that faculty judged or set a threshold for first, then strict, lenient, others; survival last."""
    outcomes = catalogue.evidence.vocabulary.outcomes
    judged = [item.outcome.text for item in question.certainty] + [item.outcome.text for item in question.thresholds]
    place = {name: index for index, name in reversed(list(enumerate(judged)))}

    def rank(outcome: Outcome) -> tuple[object, ...]:
        is_survival = outcome.construct.text == "survival"
        strictness = {"strict": 0, "lenient": 1}.get(outcome.strictness.text, 2)
        is_main = outcome.construct.text in _CONSTRUCTS
        return (is_survival, not is_main, place.get(outcome.id, len(judged)), strictness, outcome.id)

    return sorted((outcomes[name] for name in set(ids) if name in outcomes), key=rank)


def main_outcome(catalogue: Catalogue, question: Question) -> Outcome | None:
    """The outcome that named results of a question speak of: the first of the order that people have a rate for."""
    counted = [
        finding.outcome.id
        for finding in catalogue.of_question(question.id)
        if not finding.factor and finding.kind in ("rate", "grade", "estimate") and not reason_not_compared(finding)
    ]
    ordered = in_order(catalogue, question, counted)
    return ordered[0] if ordered else None
