"""The certainty ledgers of a question: their arithmetic, and what may not stand higher."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..problems import Problem, error
from ..proof.declared_names import DeclaredNames
from ..reading.model import Certainty, Question
from ..reading.report_model import Claim, Report

RULES = {
    "certainty-does-not-add-up": (
        "The final certainty is not its start, minus the steps down, plus the steps up, within the limits very low "
        "and high. The reasons are people's judgement; only the sum is checked. Basis: GRADE (Iorio et al. 2015, BMJ "
        "350:h870; Foroutan et al. 2020, J Clin Epidemiol 121:62-70, from memory)."
    ),
    "certainty-exploratory": (
        "The certainty of evidence about a factor has no step `for: exploratory study`. Studies that look at many "
        "factors find some by chance. This guide starts such evidence high, like all evidence on prognosis, and "
        "therefore asks for the step, or for its refusal in writing with down 0. Basis: Huguet et al. 2013, Syst Rev "
        "2:71, starts such studies lower; house rule of this guide."
    ),
    "certainty-abstract-only": (
        "The certainty is above low for an outcome of which only abstracts were read. An abstract is not enough to "
        "judge how a study was done: read a report in full, or lower the certainty. Basis: house rule of this guide."
    ),
}

_LADDER = ("very low", "low", "moderate", "high")


ClaimsOfQuestion = Sequence[tuple[Report, Claim]]
"""The claims about one question, each with its report."""


def find_in_question(question: Question, claims: ClaimsOfQuestion, declared: DeclaredNames) -> Iterator[Problem]:
    """Every ledger of one question. claims: those that name the question."""
    for certainty in question.certainty:
        yield from _sum(certainty)
        judged = [
            (report, claim)
            for report, claim in claims
            if claim.outcome.text == certainty.outcome.text
            and (certainty.factor is None or (claim.factor is not None and claim.factor.text == certainty.factor.text))
        ]
        yield from _exploratory(certainty, judged, declared)
        yield from _abstracts(certainty, judged)


def _sum(certainty: Certainty) -> Iterator[Problem]:
    if certainty.start.text not in _LADDER or certainty.final.text not in _LADDER:
        return
    down = sum(int(step.down.value) for step in certainty.steps if step.down is not None)
    up = sum(int(step.up.value) for step in certainty.steps if step.up is not None)
    reached = _LADDER.index(certainty.start.text) - down + up
    clamped = _LADDER[min(max(reached, 0), len(_LADDER) - 1)]
    if clamped != certainty.final.text:
        tells = f"{certainty.start.text} minus {down} plus {up} is {clamped}, but `final` is {certainty.final.text}"
        yield error(certainty.final.position, "certainty-does-not-add-up", tells, "correct `final` or the steps")


def _exploratory(certainty: Certainty, judged: ClaimsOfQuestion, declared: DeclaredNames) -> Iterator[Problem]:
    if certainty.factor is None or any(step.for_.text.casefold() == "exploratory study" for step in certainty.steps):
        return
    wording = declared.factors.get(certainty.factor.text)
    role = wording.factor.role if wording is not None else None
    # A treatment is compared, not explored; and a study that planned the comparison did not find it by looking around.
    if role is not None and role.text == "treatment":
        return
    if all(claim.planned is not None and claim.planned.text == "yes" for _, claim in judged):
        return
    yield error(
        certainty.position,
        "certainty-exploratory",
        f"this certainty is about the factor {certainty.factor.text} but has no step `for: exploratory study`",
        "add the step; if it was considered and refused, with `down: 0` and the reason",
    )


def _abstracts(certainty: Certainty, judged: ClaimsOfQuestion) -> Iterator[Problem]:
    if certainty.final.text not in ("moderate", "high"):
        return
    if judged and all(report.read.depth.text == "abstract" for report, _ in judged):
        tells = f"only abstracts were read about {certainty.outcome.text}, but `final` is {certainty.final.text}"
        yield error(
            certainty.final.position,
            "certainty-abstract-only",
            tells,
            "read a report in full, or lower the certainty to low",
        )
