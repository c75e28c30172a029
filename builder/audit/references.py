"""Whatever a claim file names must exist: questions, outcomes, factors and their levels, studies, claims, people."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from ..problems import Position, Problem, error
from ..proof.declared_names import DeclaredNames
from ..reading.fdi_chart import CHART_FACTORS
from ..reading.parsing import is_key
from ..reading.report_model import Claim, Report
from ..reading.values import Range, Words
from .nearest import misnamed

RULES = {
    "source-unknown": (
        "A claim file or a basis names a BibTeX key that no entry in evidence/sources/ has. Without the entry there "
        "is no passage to prove a figure with. Add the entry, or correct the key. Basis: the format of this guide; "
        "common practice, no source."
    ),
    "question-unknown": (
        "A claim is about a question that has no file in evidence/questions/, so no page would show it. Correct the "
        "id or write the question file. Basis: the format of this guide; common practice, no source."
    ),
    "outcome-unknown": (
        "An outcome is named that vocabulary.yaml does not define. Definitions of success differ so much between "
        "papers (strict 31 to 96 %, lenient 60 to 100 % over 63 studies: Ng et al. 2007, Int Endod J) that a rate "
        "without a definition cannot be compared. Correct the id or define the outcome."
    ),
    "factor-unknown": (
        "A factor is named that vocabulary.yaml does not define. Correct the id or define the factor with its levels. "
        "Basis: the format of this guide; common practice, no source."
    ),
    "level-unknown": (
        "The wording of a level is neither a title nor a synonym of a level of its factor. For a measured factor (one "
        "with a unit) a wording that is neither must be a range that overlaps at least one band, or have such a "
        "`range` beside it: papers call anything from 0.2 to 3 mm large. Add the wording as a synonym, or type the "
        "`range`. Basis: the format of this guide; common practice, no source."
    ),
    "study-not-in-file": (
        "A claim names a study that its own file does not list under `studies`. List the id there, alone if another "
        "report describes the study. Basis: the format of this guide; common practice, no source."
    ),
    "study-not-described": (
        "A study is listed by its id, but no report gives its species and design. One report must describe the study; "
        "the others give its id alone. Basis: the format of this guide; common practice, no source."
    ),
    "follow-up-unknown": (
        "`follow_up` names a claim of this file whose follow-up is meant, but there is no such claim, or that claim "
        "has no block of its own. Name a claim that has one, or type the block. Basis: the format of this guide; "
        "common practice, no source."
    ),
    "claim-unknown": (
        "A claim is named as key/claim, or a level as key/claim/level, but none has that name. Correct it. Basis: the "
        "format of this guide; common practice, no source."
    ),
    "person-unknown": (
        "Initials are used that compendium.yaml does not list under `people`. Readers must be able to see who read, "
        "checked or ratified something, and what their interests are. Add the person or correct the initials. Basis: "
        "the format of this guide; common practice, no source."
    ),
    "key-is-question": (
        "A BibTeX key is the same as the id of a question, so a reference in a sentence could mean either. Rename "
        "one. Basis: the format of this guide; common practice, no source."
    ),
}


def find_in_report(report: Report, declared: DeclaredNames, unproved: frozenset[Position]) -> Iterator[Problem]:
    """What one claim file names in vain. unproved: places of wordings whose number was not found in the passage."""
    yield from find_source(report, declared)
    yield from find_people(report, declared)
    yield from find_studies(report, declared)
    own = frozenset(study.id.text for study in report.studies)
    for claim in report.claims:
        yield from find_questions(claim, declared)
        yield from find_outcomes(claim, declared)
        yield from find_own_studies(claim, own)
        if not isinstance(claim.follow_up, tuple) or isinstance(claim.follow_up, Words):
            yield from find_follow_up(report, claim, declared)
        if claim.factor is not None or claim.levels or claim.within or claim.contrast is not None:
            yield from find_factors(claim, declared, unproved)
        if claim.quotes is not None:
            yield from find_quoted(claim.quotes, declared)


def find_source(report: Report, declared: DeclaredNames) -> Iterator[Problem]:
    """The BibTeX entry behind a claim file, and a key that a question has taken."""
    key = report.source.text
    # A file that is not named for its source is told so already.
    if key == report.key and key not in declared.sources and not declared.is_unreadable("source", key):
        yield _otherwise_keyed(report.source, declared) or unknown(
            "source", report.source, declared.sources, "no entry in evidence/sources/ has the key"
        )
    via = report.read.via
    if via is not None and via.text not in declared.sources and not declared.is_unreadable("source", via.text):
        yield unknown("source", via, declared.sources, "no entry in evidence/sources/ has the key")
    if report.key in declared.questions:
        tells = f'"{report.key}" is also the id of a question'
        mend = f"call the entry {report.key}a, and its claim file too"
        yield error(report.source.position, "key-is-question", tells, mend)


def _otherwise_keyed(source: Words, declared: DeclaredNames) -> Problem | None:
    """An entry whose key has signs that a report with claims cannot have, as some exports write it."""
    own = source.text
    plain = own.replace("-", "").replace("_", "").casefold()
    for key in declared.sources:
        if not is_key(key) and "".join(filter(str.isalnum, key)).casefold() == plain:
            tells = (
                f'no entry in evidence/sources/ has the key "{own}"; one has "{key}", with signs that no report with '
            )
            return error(source.position, "source-unknown", f"{tells}claims may have", f"call the entry {own}")
    return None


def find_people(report: Report, declared: DeclaredNames) -> Iterator[Problem]:
    """Who read and checked the report, and who answered its questions."""
    people = declared.people
    named = [report.read.by]
    if report.checked is not None:
        named.append(report.checked.by)
    for blocks in (
        report.acknowledged,
        *(study.acknowledged for study in report.studies if study.acknowledged),
        *(claim.acknowledged for claim in report.claims if claim.acknowledged),
    ):
        named.extend(block.by for block in blocks)
    for by in named:
        if people is not None and by.text not in people:
            yield from find_person(by, declared)


def find_person(by: Words, declared: DeclaredNames) -> Iterator[Problem]:
    """Initials that compendium.yaml does not list."""
    people = declared.people
    if people is not None and by.text not in people and not declared.is_unreadable("person", by.text):
        yield unknown("person", by, people, "compendium.yaml has no person with the initials")


def find_studies(report: Report, declared: DeclaredNames) -> Iterator[Problem]:
    """Studies that no report describes; silent while a claim file cannot be read, which may describe any of them."""
    if declared.has_lost_report:
        return
    for study in report.studies:
        name = study.id.text
        if name not in declared.described and not declared.is_unreadable("study", name):
            tells = f'no report gives the species and design of the study "{name}"'
            otherwise = "describe the study here: species, design, ..."
            yield misnamed(study.id.position, "study-not-described", tells, name, declared.described.keys(), otherwise)


def find_questions(claim: Claim, declared: DeclaredNames) -> Iterator[Problem]:
    """Questions without a file."""
    for question in claim.question:
        if question.text not in declared.questions and not declared.is_unreadable("question", question.text):
            yield unknown("question", question, declared.questions, "evidence/questions/ has no file for")


def find_outcomes(claim: Claim, declared: DeclaredNames) -> Iterator[Problem]:
    """Outcomes that the vocabulary lacks, those of grades included."""
    if claim.outcome.text not in declared.outcomes:
        yield from find_outcome(claim.outcome, declared)
    for grades in (claim.grades, *(level.grades for level in claim.levels)):
        for grade in grades:
            if grade.outcome is not None:
                yield from find_outcome(grade.outcome, declared)


def find_outcome(outcome: Words, declared: DeclaredNames) -> Iterator[Problem]:
    """One outcome that the vocabulary lacks."""
    if outcome.text not in declared.outcomes and not declared.is_unreadable("outcome", outcome.text):
        titles = {name: each.title.text for name, each in declared.outcomes.items()}
        yield unknown("outcome", outcome, titles, "vocabulary.yaml has no outcome")


def find_own_studies(claim: Claim, own: frozenset[str]) -> Iterator[Problem]:
    """Studies of a claim that its file does not list."""
    for study in claim.study:
        if study.text not in own:
            tells = f'this file lists no study "{study.text}"'
            otherwise = "list it under `studies`"
            yield misnamed(study.position, "study-not-in-file", tells, study.text, own, otherwise)


def find_follow_up(report: Report, claim: Claim, declared: DeclaredNames) -> Iterator[Problem]:
    """A follow-up taken from a claim that is not there or has none."""
    named = claim.follow_up
    if not isinstance(named, Words) or declared.is_unreadable("claim", f"{report.key}/{named.text}"):
        return
    other = report.claim(named.text)
    if other is None:
        tells = f'this file has no claim "{named.text}"'
        claims = [each.id.text for each in report.claims if not isinstance(each.follow_up, Words)]
        otherwise = "type the block: {from: ..., timing: ...}"
        yield misnamed(named.position, "follow-up-unknown", tells, named.text, claims, otherwise)
    elif isinstance(other.follow_up, Words):
        tells = f'claim "{named.text}" takes its follow-up from "{other.follow_up.text}": name that claim here'
        yield error(named.position, "follow-up-unknown", tells, f"follow_up: {other.follow_up.text}")


def find_quoted(quoted: Words, declared: DeclaredNames) -> Iterator[Problem]:
    """A figure taken over from a report that exists and does not hold it."""
    key, _, name = quoted.text.partition("/")
    report = declared.reports.get(key)
    if report is None:
        if key not in declared.sources and not declared.is_unreadable("source", key):
            yield unknown("source", quoted, declared.sources, "no entry in evidence/sources/ has the key of", key)
    elif report.claim(name) is None and not declared.is_unreadable("claim", quoted.text):
        claims = [claim.id.text for claim in report.claims]
        yield misnamed(quoted.position, "claim-unknown", f'{report.file} has no claim "{name}"', name, claims)


def find_factors(claim: Claim, declared: DeclaredNames, unproved: frozenset[Position]) -> Iterator[Problem]:
    """The factor of a claim, and the wording of every level it speaks of."""
    if claim.factor is not None:
        yield from find_levels(claim.factor, _levels_of(claim), declared, unproved)
    for within in claim.within:
        yield from find_levels(within.factor, [(within.level, None)], declared, unproved)


def _levels_of(claim: Claim) -> Iterator[tuple[Words, Range | None]]:
    said = set()
    for level in claim.levels:
        said.add(level.level.text)
        yield level.level, level.range
    contrast = claim.contrast
    for other in (claim.reference, *((contrast.level, contrast.reference) if contrast is not None else ())):
        # A level whose range stands beside its row is known by the row.
        if isinstance(other, Words) and other.text not in said:
            said.add(other.text)
            yield other, None


def find_levels(
    factor: Words, levels: Iterable[tuple[Words, Range | None]], declared: DeclaredNames, unproved: frozenset[Position]
) -> Iterator[Problem]:
    """Wordings that fit no level of the factor, or the factor itself where the vocabulary lacks it."""
    wording = declared.factors.get(factor.text)
    if wording is None:
        if factor.text in CHART_FACTORS:
            for level, _ in levels:
                if level.text.casefold() not in CHART_FACTORS[factor.text].levels:
                    yield _no_level(level, factor.text, CHART_FACTORS[factor.text].levels)
        elif not declared.is_unreadable("factor", factor.text):
            yield unknown("factor", factor, factor_titles(declared), "vocabulary.yaml has no factor")
        return
    for level, typed_range in levels:
        if not wording.matches(level.text, typed_range) and level.position not in unproved:
            yield _no_level(level, factor.text, wording.words(), measured=wording.unit)


def factor_titles(declared: DeclaredNames) -> dict[str, str]:
    """By id: the title of every factor that may be named."""
    return {name: each.factor.title.text for name, each in declared.factors.items()} | dict.fromkeys(CHART_FACTORS, "")


def _no_level(level: Words, factor: str, words: Iterable[str], measured: str = "") -> Problem:
    words = tuple(words)
    if measured:
        tells = (
            f'"{level.text}" is neither a title or synonym of a level of {factor} nor a range in {measured} that '
            f"overlaps one ({'; '.join(words)})"
        )
        hint = "type the range beside it (range: over 3 mm), or add the wording as a synonym in vocabulary.yaml"
        return error(level.position, "level-unknown", tells, hint)
    tells = f'"{level.text}" is not a title or synonym of a level of {factor}'
    otherwise = "add the wording as a synonym in vocabulary.yaml"
    return misnamed(level.position, "level-unknown", tells, level.text, words, otherwise)


def unknown(kind: str, word: Words, names: Iterable[str], tells: str, name: str = "") -> Problem:
    """The problem of a name that nothing has, with the nearest name that exists. names: as a mapping, with titles."""
    name = name or word.text
    return misnamed(word.position, f"{kind}-unknown", f'{tells} "{name}"', name, names, _OTHERWISE[kind])


_OTHERWISE = {
    "source": "add the entry to a .bib file of evidence/sources/",
    "question": "write its file",
    "outcome": "define it under `outcomes` of evidence/vocabulary.yaml",
    "factor": "define it under `factors` of evidence/vocabulary.yaml",
    "person": "add the initials under `people` of evidence/compendium.yaml",
    "urgent": "write it into evidence/urgent.yaml",
}
"""By kind of name: what mends it where the name is right."""
