"""The whole audit: what was wrong in reading, the proof of every figure, every rule, and the answers people gave."""

from __future__ import annotations

import datetime
from collections import defaultdict
from collections.abc import Iterator, Mapping
from typing import NamedTuple

from builder.audit import (
    agreement,
    cohorts,
    intervals,
    over_time,
    percents,
    prose,
    question_references,
    references,
    standing,
    studies,
    tables,
    upkeep,
)
from builder.audit.acknowledgements import answers_of, apply_answers
from builder.audit.figures import prove_report
from builder.audit.known import Described, Known, known_names
from builder.audit.proof import Audit, Proof
from builder.audit.withheld import without
from builder.problems import Problem, in_order
from builder.reading.model import Evidence, Outcome
from builder.reading.report_model import Claim, Report, Source
from builder.reading.values import Missing


class Audited(NamedTuple):
    """What the audit of one report gives."""

    problems: tuple[Problem, ...]
    report: Report
    """Without the values that found no proof."""
    proofs: dict[str, Proof]
    quoted: int
    unproved: int


def audit(evidence: Evidence) -> Audit:
    """Do the parts of this evidence agree? All problems at once, sorted, answered ones included."""
    known = known_names(evidence)
    units = _units(evidence)
    found = list(evidence.problems)
    proofs: dict[str, Proof] = {}
    reports: dict[str, Report] = {}
    unproved = 0
    for key, report in evidence.reports.items():
        audited = audit_report(report, evidence.sources.get(key), known, _evidence_date(evidence), units)
        found += audited.problems
        proofs.update(audited.proofs)
        reports[key] = audited.report
        unproved += audited.unproved
    found += across(reports, evidence.sources)
    found += _in_questions(evidence, known, proofs, unproved > 0)
    answers = [answer for report in evidence.reports.values() for answer in answers_of(report)]
    if answers:
        found = list(apply_answers(in_order(found), answers, _withheld(evidence, reports)))
    return Audit(tuple(in_order(found)), proofs, unproved)


def audit_report(
    report: Report, source: Source | None, known: Known, evidence_date: datetime.date, units: Mapping[str, str]
) -> Audited:
    """One report against its source and against itself; the same arguments give the same answer.

    source: None where its entry is missing or could not be read; nothing can be proved then, and nothing is reckoned.
    units: what each study counts, by its id. evidence_date: the day that nothing typed may be later than.
    """
    problems: list[Problem] = []
    problems += upkeep.find_in_report(report, evidence_date)
    if source is None:
        problems += references.find_in_report(report, known, frozenset())
        return Audited(tuple(problems), _without_figures(report), {}, 0, 0)
    proved = prove_report(report, source, units, known.outcomes)
    problems += proved.problems
    problems += references.find_in_report(report, known, proved.unproved_at)
    report = without(report, proved.unproved_at)
    problems += reckon(report, known.outcomes)
    return Audited(tuple(problems), report, proved.proofs, proved.quoted, proved.unproved)


def reckon(report: Report, outcomes: dict[str, Outcome]) -> Iterator[Problem]:
    """Everything that one report's figures must hold among themselves."""
    yield from studies.find_in_report(report)
    for study in report.studies:
        if study.shares:
            yield from percents.find_shares(study, f"{report.key}/studies/{study.id.text}")
    flows = tuple(study.flow for study in report.studies if study.flow is not None)
    for claim in report.claims:
        place = f"{report.key}/{claim.id.text}"
        follow_up = agreement.follow_up_of(claim, report)
        yield from percents.find_in_claim(claim, place, (claim.flow, *flows) if claim.flow is not None else flows)
        yield from percents.find_over_examined(report, claim, follow_up, place)
        if _has_interval(claim):
            yield from intervals.find_in_claim(claim, place)
        if claim.levels or claim.contrast is not None:
            yield from tables.find_in_claim(claim, outcomes.get(claim.outcome.text), place)
        yield from over_time.find_in_claim(claim, follow_up, place)
        if claim.pooled is not None:
            yield from agreement.find_pooled(claim, place)
    yield from agreement.find_in_report(report, outcomes)


def _has_interval(claim: Claim) -> bool:
    return claim.interval is not None or claim.estimate is not None or claim.contrast is not None or bool(claim.levels)


def across(reports: dict[str, Report], sources: dict[str, Source]) -> Iterator[Problem]:
    """What two reports must hold between them; both by key."""
    described: dict[str, list[Described]] = defaultdict(list)
    for key, report in reports.items():
        for study in report.studies:
            described[study.id.text].append(Described(key, study))
        for claim in report.claims:
            if claim.quotes is not None:
                yield from agreement.find_quoted(claim, f"{key}/{claim.id.text}", reports)
    for told in described.values():
        if len(told) > 1:
            yield from studies.find_facts(told, sources)
    yield from cohorts.find_one_cohort(cohorts.cohorts_of(reports.values(), sources))


def _in_questions(evidence: Evidence, known: Known, proofs: dict[str, Proof], has_unproved: bool) -> Iterator[Problem]:
    """Questions, urgent matters, status and hand-written pages."""
    day = _evidence_date(evidence)
    has_gaps = has_unproved or bool(evidence.unreadable) or any(key not in evidence.sources for key in evidence.reports)
    yield from question_references.find_in_shared(evidence, known)
    yield from upkeep.find_in_shared(evidence, day)
    claims: dict[str, list[tuple[Report, Claim]]] = defaultdict(list)
    if any(question.certainty for question in evidence.questions.values()):
        for report in evidence.reports.values():
            for claim in report.claims:
                for named in claim.question:
                    claims[named.text].append((report, claim))
    for name, question in evidence.questions.items():
        yield from question_references.find_in_question(question, known)
        yield from standing.find_in_question(question, claims[name], known)
        yield from upkeep.find_in_question(question, day)
        yield from prose.find_in_question(question, known, proofs, has_gaps)
    for urgent in evidence.urgent.values():
        yield from prose.find_in_urgent(urgent, known, proofs, has_gaps)
    for page in evidence.pages:
        yield from prose.find_in_page(page, known, proofs, has_gaps)


def _evidence_date(evidence: Evidence) -> datetime.date:
    return evidence.compendium.evidence_date.value if evidence.compendium is not None else datetime.date.max


def _units(evidence: Evidence) -> dict[str, str]:
    """What each study counts, from the report that tells it."""
    return {
        study.id.text: study.unit.unit.text
        for report in evidence.reports.values()
        for study in report.studies
        if study.unit is not None and not isinstance(study.unit.unit, Missing)
    }


def _without_figures(report: Report) -> Report:
    """The report's people alone, where none of its figures can be proved."""
    return report._replace(claims=(), studies=tuple(study._replace(flow=None, shares=()) for study in report.studies))


def _withheld(evidence: Evidence, reports: dict[str, Report]) -> frozenset[str]:
    """Keys of reports some of whose figures could not be read or proved."""
    withheld = {key for key, report in reports.items() if report is not evidence.reports[key]}
    for name in evidence.unreadable:
        kind, _, rest = name.partition(":")
        if kind in ("report", "source", "claim"):
            withheld.add(rest.partition("/")[0])
    with_faults = {problem.position.file for problem in evidence.problems if problem.severity == "error"}
    withheld |= {key for key, report in evidence.reports.items() if report.file in with_faults}
    return frozenset(withheld)
