"""Whatever a question file names must exist: claims, sources, factors, levels, outcomes, urgent matters, people."""

from __future__ import annotations

from collections.abc import Iterator

from ..problems import Problem
from ..proof.declared_names import DeclaredNames
from ..reading.fdi_chart import CHART_FACTORS, chart_factor_levels
from ..reading.model import Advice, Evidence, Question
from ..reading.slugs import slug
from ..reading.values import Words
from .nearest import misnamed
from .references import factor_titles, find_outcome, find_person, unknown

RULES = {
    "urgent-unknown": (
        "A question names an emergency that urgent.yaml does not describe, so its page would offer no help there. "
        "Correct the id or add the entry. Basis: the format of this guide; common practice, no source."
    ),
    "status-unknown-source": (
        "status.yaml gives a state for a key that no entry in evidence/sources/ has, so nobody would see it. Correct "
        "the key. Basis: NISO RP-45-2024: a state must be visible on the record it is about."
    ),
    "level-id-unknown": (
        "A question file names a level by an id that the factor does not have. Question files use the ids of "
        "vocabulary.yaml; a paper's own wording is used only in claims. Basis: the format of this guide; common "
        "practice, no source."
    ),
    "call-not-asked": (
        "A reason to call names an answer of a factor that the situation of its question does not ask, so nobody could "
        "give that answer and be told to call. Ask the factor in the situation, or take the answer away; the reason "
        "itself stays. Basis: the format of this guide; common practice, no source."
    ),
    "way-not-asked": (
        "What a way to go on asks, or what speaks for or against it, names an answer of a factor that the situation of "
        "its question does not ask, so nobody could give another answer and be told that it does not fit. Ask the "
        "factor in the situation, or take the answer away; the entry itself stays. Basis: the format of this guide; "
        "common practice, no source."
    ),
    "dissent-unsigned": (
        "A step says that somebody dissents from it, and no dissent of its question is signed by those initials, so "
        "the mark would lead to nothing. Correct the initials, or add the dissent. Basis: the format of this guide; "
        "common practice, no source."
    ),
    "picture-does-not-fit": (
        "A field of the situation names a drawing that does not stand under evidence/pictures/, or a shape of it has "
        "an id that is no level of the factor, so a tap on it would answer nothing. Correct the name of the file, or "
        "the ids in the drawing; a shape that is no level needs none. Basis: the format of this guide; common "
        "practice, no source."
    ),
}


def find_in_question(question: Question, declared: DeclaredNames) -> Iterator[Problem]:
    """What one question file names in vain."""
    yield from _people(question, declared)
    yield from _own_fields(question, declared)
    for threshold in question.thresholds:
        yield from find_outcome(threshold.outcome, declared)
    for certainty in question.certainty:
        yield from find_outcome(certainty.outcome, declared)
        if certainty.factor is not None:
            yield from _level_id(certainty.factor, certainty.level, declared)
    for absolute in question.absolute:
        yield from find_claim(absolute.ratio, declared)
        yield from find_claim(absolute.baseline, declared)
    for shown in question.patient.show if question.patient is not None else ():
        yield from find_claim(shown, declared)
    for key in question.seen_not_read:
        yield from find_source_key(key, declared)
    for advice in advice_of(question):
        yield from find_basis(advice, declared)


def _own_fields(question: Question, declared: DeclaredNames) -> Iterator[Problem]:
    """Urgent matters and factors."""
    for urgent in question.urgent:
        if urgent.text not in declared.urgent and not declared.is_unreadable("urgent", urgent.text):
            yield unknown("urgent", urgent, declared.urgent, "urgent.yaml has no entry")
    for factor in question.factors:
        yield from find_factor(factor, declared)
    for field in question.situation:
        if field.factor is not None:
            yield from find_factor(field.factor, declared)
            if field.picture is not None:
                yield from _picture(field.picture, field.factor, declared)
    for option in question.options:
        if option.is_factor is not None:
            yield from _level_id(option.is_factor, option.is_level, declared)
        for outcome in option.overall:
            yield from find_outcome(outcome, declared)
    yield from _answers(question.call, "call-not-asked", question, declared)
    for option in question.options:
        for _, entries in option.advice:
            yield from _answers(entries, "way-not-asked", question, declared)


def _answers(entries: tuple[Advice, ...], rule: str, question: Question, declared: DeclaredNames) -> Iterator[Problem]:
    """An answer that nobody can give, since its level or the question for it is not there."""
    asked = {field.factor.text for field in question.situation if field.factor is not None}
    if any(field.charted is not None for field in question.situation):
        asked.update(factor.id for factor in CHART_FACTORS.values())
    for entry in entries:
        for answer in entry.answers or ():
            unknown_there = list(_level_id(answer.factor, answer.level, declared))
            yield from unknown_there
            name = answer.factor.text
            if (
                unknown_there
                or name in asked
                or declared.is_unreadable("factor", name)
                or not question.is_situation_whole
            ):
                continue
            tells = f"no field of the situation asks for {name}"
            yield misnamed(answer.factor.position, rule, tells, name, asked, "ask for it in the situation")


def advice_of(question: Question) -> Iterator[Advice]:
    """Every entry of advice of a question, in the order of the form."""
    for entries in (question.stop, question.is_it_this, question.medical):
        yield from entries
    for option in question.options:
        for _, entries in option.advice:
            yield from entries
    yield from question.steps
    yield from question.call


def find_in_shared(evidence: Evidence, declared: DeclaredNames) -> Iterator[Problem]:
    """What urgent.yaml, vocabulary.yaml and status.yaml name in vain."""
    for urgent in evidence.urgent.values():
        for advice in (advice for _, entries in urgent.advice for advice in entries):
            yield from find_basis(advice, declared)
            if advice.ratified is not None:
                for by in advice.ratified.by:
                    yield from find_person(by, declared)
    for outcome in evidence.vocabulary.outcomes.values():
        for other in (outcome.reverses, outcome.lenient_of):
            if other is not None:
                yield from find_outcome(other, declared)
    for key, status in evidence.statuses.items():
        if key not in declared.sources and not declared.is_unreadable("source", key):
            tells = f'no entry in evidence/sources/ has the key "{key}"'
            yield misnamed(status.position, "status-unknown-source", tells, key, declared.sources)


def _people(question: Question, declared: DeclaredNames) -> Iterator[Problem]:
    named: list[Words] = []
    if question.searched is not None and question.searched.by is not None:
        named.append(question.searched.by)
    for option in question.options:
        named.extend(option.ratified.by if option.ratified is not None else ())
    named.extend(question.ratified.by if question.ratified is not None else ())
    for advice in advice_of(question):
        named.extend(advice.ratified.by if advice.ratified is not None else ())
    named.extend(threshold.by for threshold in question.thresholds if threshold.by is not None)
    named.extend(step.by for certainty in question.certainty for step in certainty.steps)
    named.extend(dissent.by for dissent in question.dissent)
    named.extend(answer.by for answer in question.acknowledged)
    for by in named:
        yield from find_person(by, declared)
    signed = [dissent.by.text for dissent in question.dissent]
    for by in (by for step in question.steps for by in step.dissent):
        if by.text not in signed:
            tells = f'no dissent of this question is signed "{by.text}"'
            yield misnamed(by.position, "dissent-unsigned", tells, by.text, signed)


def find_factor(factor: Words, declared: DeclaredNames) -> Iterator[Problem]:
    """One factor that the vocabulary lacks."""
    is_known = factor.text in declared.factors or factor.text in CHART_FACTORS
    if not is_known and not declared.is_unreadable("factor", factor.text):
        yield unknown("factor", factor, factor_titles(declared), "vocabulary.yaml has no factor")


def _picture(picture: Words, factor: Words, declared: DeclaredNames) -> Iterator[Problem]:
    """A drawing that is missing, or a shape of it that is no level."""
    drawing = declared.pictures.get(picture.text)
    if drawing is None:
        if not declared.is_unreadable("picture", picture.text):
            tells = f'evidence/pictures/ has no drawing "{picture.text}"'
            yield misnamed(picture.position, "picture-does-not-fit", tells, picture.text, declared.pictures.keys())
        return
    wording = declared.factors.get(factor.text)
    levels = wording.levels if wording is not None else chart_factor_levels(factor.text)
    for shape, _ in drawing.parts:
        if shape and levels and shape not in levels:
            tells = f'a shape of {picture.text} has the id "{shape}", which is no level of {factor.text}'
            yield misnamed(picture.position, "picture-does-not-fit", tells, shape, levels)


def _level_id(factor: Words, level: Words | None, declared: DeclaredNames) -> Iterator[Problem]:
    yield from find_factor(factor, declared)
    wording = declared.factors.get(factor.text)
    levels = wording.levels if wording is not None else chart_factor_levels(factor.text)
    if level is not None and levels and level.text not in levels:
        tells = f'factor {factor.text} has no level with the id "{level.text}"'
        yield misnamed(level.position, "level-id-unknown", tells, level.text, levels)


def find_basis(advice: Advice, declared: DeclaredNames) -> Iterator[Problem]:
    """The source or claim that an entry of advice rests on."""
    if advice.basis.source is not None:
        yield from find_source_key(advice.basis.source, declared)
    if advice.basis.claim is not None:
        yield from find_claim(advice.basis.claim, declared)


def find_source_key(key: Words, declared: DeclaredNames) -> Iterator[Problem]:
    """A BibTeX key that no entry has."""
    if key.text not in declared.sources and not declared.is_unreadable("source", key.text):
        yield unknown("source", key, declared.sources, "no entry in evidence/sources/ has the key")


def find_claim(path: Words, declared: DeclaredNames) -> Iterator[Problem]:
    """A claim, or a level of one, that is not there: "key/claim" or "key/claim/level"."""
    key, _, rest = path.text.partition("/")
    name, _, level = rest.partition("/")
    report = declared.reports.get(key)
    if report is None:
        if not declared.is_unreadable("report", key) and not declared.is_unreadable("source", key):
            yield misnamed(
                path.position, "claim-unknown", f'no claim file is named "{key}"', key, declared.reports.keys()
            )
        return
    claim = report.claim(name)
    if claim is None:
        if not declared.is_unreadable("claim", f"{key}/{name}"):
            claims = [each.id.text for each in report.claims]
            yield misnamed(path.position, "claim-unknown", f'{report.file} has no claim "{name}"', name, claims)
    elif level:
        slugs = [slug(each.level.text) for each in claim.levels]
        if level not in slugs:
            tells = f'claim "{name}" of {report.file} has no level "{level}"'
            yield misnamed(path.position, "claim-unknown", tells, level, slugs)
