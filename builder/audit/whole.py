"""The whole audit: what was wrong in reading, the proof of every figure, every rule, and the answers people gave."""

from __future__ import annotations

import datetime
from collections import defaultdict
from collections.abc import Collection, Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, Protocol

from ..numerals import Lexicon, Unit as CountedUnit
from ..problems import Note, Position, Problem, in_order
from ..proof.declared_names import DeclaredNames, DescribedStudy, declared_names
from ..proof.follow_ups import follow_up_of
from ..proof.proof import Audit, Proof
from ..proof.proved_before import TOGETHER, ProvedBefore
from ..proof.report_proof import Proved, prove_report, prove_reports
from ..reading.model import Evidence, Outcome
from ..reading.report_model import Claim, Report, Source
from ..reading.values import Missing
from ..records import NamedTuple
from ..two_processes import in_pieces, in_two, turns
from . import (
    absolute_risks,
    addresses,
    agreement,
    cohorts,
    example,
    factor_levels,
    hard_sentences,
    intervals,
    outcome_wordings,
    over_time,
    own_words,
    patient_sheet,
    percents,
    prose,
    question_references,
    references,
    standing,
    studies,
    tables,
    upkeep,
)
from .acknowledgements import answers_in_question, answers_of, apply_answers
from .withheld import without_figures_at

if TYPE_CHECKING:
    from ..proof.kept_proofs import KeptProofs


class Prove(Protocol):
    """Proves every number of some reports; see `prove_reports`."""

    def __call__(
        self,
        reports: Sequence[tuple[Report, Source]],
        units: Mapping[str, str],
        outcomes: Mapping[str, Outcome],
        lexicon: Lexicon,
        *,
        located: bool = True,
        declared: DeclaredNames | None = None,
    ) -> list[Proved]:
        """The same arguments give the same answer."""


class Audited(NamedTuple):
    """What the audit of one report gives."""

    problems: tuple[Problem, ...]
    report: Report
    """Without the values that found no proof."""
    proofs: dict[str, Proof]
    ids: list[str]
    """Of every proved figure."""
    quoted: int
    unproved: int
    withheld: frozenset[Position] = frozenset()
    """Where the values stand that found no proof."""


class CheckResult(NamedTuple):
    """What the check tells about one Evidence: an Audit without its proofs."""

    problems: tuple[Problem, ...]
    """Sorted, each once, those of the reading included, acknowledgements already applied."""
    quoted: int
    """How many numbers are quoted."""
    unproved: int
    notes: tuple[Note, ...] = ()
    """What is left out and may be."""

    @property
    def passes(self) -> bool:
        """True where nothing is left to mend or to answer."""
        return not any(problem.is_open for problem in self.problems)


def audit(evidence: Evidence, prove: Prove = prove_reports) -> Audit:
    """Do the parts of this evidence agree? All problems at once, sorted, answered ones included.

    prove: proves the figures of reports; whoever audits again and again has one that remembers.
    """
    declared, units = declared_names(evidence), units_of(evidence)
    proofs: dict[str, Proof] = {}
    part = _audit_reports(evidence, declared, units, list(evidence.reports), proofs, prove)
    return Audit(_all_problems(evidence, declared, [part], proofs), proofs, part.unproved)


def prove_ahead(evidence: Evidence, prove: ProvedBefore) -> None:
    """Proves on two cores what `audit` with the same `prove` asks for one after the other."""
    declared = declared_names(evidence)
    sides = [(report, evidence.sources[key]) for key, report in evidence.reports.items() if key in evidence.sources]
    prove.ahead(sides, units_of(evidence), declared.outcomes, declared.lexicon, declared)


MANY = 16
"""From so many reports on, a second process saves more than it costs."""


def check(evidence: Evidence, many: int = MANY, kept: KeptProofs | None = None) -> CheckResult:
    """The same problems and counts as `audit` gives, without the proofs; two cores share the work on many reports.

    kept: proofs of the last time, which change nothing but the time it takes.
    """
    declared, units = declared_names(evidence), units_of(evidence)
    keys = list(evidence.reports)

    def of(some: Sequence[str]) -> _AuditedReports:
        return _audit_reports(evidence, declared, units, some, None, kept or prove_reports)

    if len(keys) < many:
        parts = [of(keys)]
    else:
        pieces = in_pieces(keys)
        taken = turns(len(pieces))

        def take() -> dict[int, _AuditedReports]:
            return {turn: of(pieces[turn]) for turn in taken}

        first, (second, handed) = in_two(take, lambda: (take(), kept and kept.handed_over()))
        done = first | second
        parts = [done[turn] if turn in done else of(piece) for turn, piece in enumerate(pieces)]
        if kept and handed:
            kept.take_over(handed)
    ids = {name for part in parts for name in part.ids}
    unproved = sum(part.unproved for part in parts)
    notes = (note for question in evidence.questions.values() for note in patient_sheet.note_without_sheet(question))
    return CheckResult(_all_problems(evidence, declared, parts, ids), len(ids) + unproved, unproved, tuple(notes))


class _AuditedReports(NamedTuple):
    """What the audit of some reports gives."""

    problems: list[Problem]
    withheld: dict[str, frozenset[Position]]
    """By key, for reports whose figures did not all find a proof."""
    unproved: int
    ids: list[str]
    """Of all proved figures."""


def _audit_reports(
    evidence: Evidence,
    declared: DeclaredNames,
    units: Mapping[str, str],
    keys: Sequence[str],
    proofs: dict[str, Proof] | None,
    prove: Prove = prove_reports,
) -> _AuditedReports:
    """A dozen reports after the other; fills proofs where they are wanted."""
    problems: list[Problem] = []
    withheld: dict[str, frozenset[Position]] = {}
    ids: list[str] = []
    unproved = 0
    day = day_of(evidence)
    located = proofs is not None
    proved: dict[str, Proved] = {}
    for place, key in enumerate(keys):
        if place % TOGETHER == 0:
            some = [each for each in keys[place : place + TOGETHER] if each in evidence.sources]
            sides = [(evidence.reports[each], evidence.sources[each]) for each in some]
            found = prove(sides, units, declared.outcomes, declared.lexicon, located=located, declared=declared)
            proved = dict(zip(some, found, strict=True))
        source = evidence.sources.get(key)
        audited = audit_report(evidence.reports[key], source, declared, day, units, proved=proved.get(key))
        problems += audited.problems
        ids += audited.ids
        if proofs is not None:
            proofs.update(audited.proofs)
        unproved += audited.unproved
        if audited.withheld:
            withheld[key] = audited.withheld
    return _AuditedReports(problems, withheld, unproved, ids)


def _all_problems(
    evidence: Evidence, declared: DeclaredNames, parts: list[_AuditedReports], ids: Collection[str]
) -> tuple[Problem, ...]:
    """Those of the reports, and whatever reaches beyond one report; ids: of all proved figures."""
    found = list(evidence.problems)
    reports = dict(evidence.reports)
    for key, report in evidence.reports.items():
        if key not in evidence.sources:
            reports[key] = _without_figures(report)
    for part in parts:
        found += part.problems
        for key, positions in part.withheld.items():
            reports[key] = without_figures_at(reports[key], positions)
    found += find_between_reports(reports, evidence.sources)
    withheld = _withheld(evidence, reports)
    found += _in_questions(evidence, declared, ids, any(part.unproved for part in parts))
    sheets = patient_sheet.PatientSheets(evidence, declared, ids, withheld)
    for question in evidence.questions.values():
        found += sheets.find_in_question(question)
    answers = [answer for report in evidence.reports.values() for answer in answers_of(report)]
    answers += [answer for question in evidence.questions.values() for answer in answers_in_question(question)]
    if answers:
        found = list(apply_answers(in_order(found), answers, withheld))
    return tuple(in_order(found))


def audit_report(
    report: Report,
    source: Source | None,
    declared: DeclaredNames,
    evidence_date: datetime.date,
    units: Mapping[str, str],
    *,
    proved: Proved | None = None,
) -> Audited:
    """One report against its source and against itself; the same arguments give the same answer.

    source: None where its entry is missing or could not be read; nothing can be proved then, and nothing is reckoned.
    units: what each study counts, by its id. evidence_date: the day that nothing typed may be later than.
    proved: its proof, where that was made together with others'.
    """
    problems: list[Problem] = []
    problems += upkeep.find_in_report(report, evidence_date)
    if source is None:
        problems += references.find_in_report(report, declared, frozenset())
        return Audited(tuple(problems), _without_figures(report), {}, [], 0, 0)
    if proved is None:
        proved = prove_report(report, source, units, declared.outcomes, declared.lexicon, declared=declared)
    follows = _follows(report, declared, units)
    # Of an outcome that nobody declared, no words are known; that it is unknown is told by itself.
    nameless = {f"{report.key}/{each.id.text}" for each in report.claims if each.outcome.text not in declared.outcomes}
    problems += (
        each
        for each in proved.problems
        if each.rule not in follows and not (each.place in nameless and each.rule.startswith("event-"))
    )
    problems += own_words.find_in_report(report, source, declared.outcomes)
    for claim in report.claims:
        problems += factor_levels.find_in_claim(claim, declared.lexicon, f"{report.key}/{claim.id.text}")
    problems += references.find_in_report(report, declared, proved.unproved_at)
    report = without_figures_at(report, proved.unproved_at)
    printed = "\n".join(passage.text for passage in source.passages)
    asked = frozenset(each.position for each in proved.problems if each.rule in _WAY_OF_RATIO)
    problems += (
        each
        for each in find_within_report(report, declared.outcomes, declared.units, printed)
        if each.rule != "event-direction" or each.position not in asked
    )
    return Audited(
        tuple(problems), report, proved.proofs, proved.ids, proved.quoted, proved.unproved, proved.unproved_at
    )


_WAY_OF_RATIO = frozenset({"ratio-direction", "event-opposite"})
"""What the words of the passage are asked about: the table beside the ratio is no second question then."""
_OF_WORDS = frozenset({"figure-means-something-else", "figure-ambiguous", "figure-taken"})


def _follows(report: Report, declared: DeclaredNames, units: Mapping[str, str]) -> frozenset[str]:
    """Rules of the proof of which nothing is told, since what they would find follows from what was told already."""
    counted = (units.get(study.id.text, "") for study in report.studies)
    is_uncounted = any(declared.is_unreadable("unit", name) for name in counted)
    is_muddled = declared.is_unreadable("passages", report.key)
    # The words beside a number tell what is counted; of a unit that nobody declared they cannot.
    return frozenset({"where-unknown"} if is_muddled else ()) | (_OF_WORDS if is_uncounted else frozenset())


def find_within_report(
    report: Report, outcomes: dict[str, Outcome], units: Mapping[str, CountedUnit], printed: str = ""
) -> Iterator[Problem]:
    """Everything that one report's figures must hold among themselves. units: what may be counted. printed: its
    passages."""
    yield from studies.find_in_report(report, units)
    for study in report.studies:
        if study.shares:
            yield from percents.find_shares(study, f"{report.key}/studies/{study.id.text}")
    flows = tuple(study.flow for study in report.studies if study.flow is not None)
    for claim in report.claims:
        place = f"{report.key}/{claim.id.text}"
        follow_up = follow_up_of(claim, report)
        yield from percents.find_in_claim(claim, place, (claim.flow, *flows) if claim.flow is not None else flows)
        yield from percents.find_over_examined(report, claim, follow_up, place)
        if _has_interval(claim):
            yield from intervals.find_in_claim(claim, place)
        if claim.levels or claim.contrast is not None:
            yield from tables.find_in_claim(claim, outcomes.get(claim.outcome.text), place)
        if claim.contrast is not None:
            yield from absolute_risks.find_in_claim(claim, place)
        yield from over_time.find_in_claim(claim, follow_up, place)
        if claim.pooled is not None:
            yield from agreement.find_pooled(claim, place)
    yield from agreement.find_in_report(report, outcomes, printed)


def _has_interval(claim: Claim) -> bool:
    return claim.interval is not None or claim.estimate is not None or claim.contrast is not None or bool(claim.levels)


def find_between_reports(reports: dict[str, Report], sources: dict[str, Source]) -> Iterator[Problem]:
    """What two reports must hold between them; both by key."""
    described: dict[str, list[DescribedStudy]] = defaultdict(list)
    for key, report in reports.items():
        for study in report.studies:
            described[study.id.text].append(DescribedStudy(key, study))
        for claim in report.claims:
            if claim.quotes is not None:
                yield from agreement.find_quoted(claim, f"{key}/{claim.id.text}", reports)
    for descriptions in described.values():
        if len(descriptions) > 1:
            yield from studies.find_facts(descriptions, sources)
    yield from cohorts.find_one_cohort(cohorts.cohorts_of(reports.values(), sources))


def _in_questions(
    evidence: Evidence, declared: DeclaredNames, ids: Collection[str], has_unproved: bool
) -> Iterator[Problem]:
    """Questions, urgent matters, status and hand-written pages."""
    day = day_of(evidence)
    has_gaps = has_unproved or bool(evidence.unreadable) or any(key not in evidence.sources for key in evidence.reports)
    yield from question_references.find_in_shared(evidence, declared)
    yield from upkeep.find_in_shared(evidence, day)
    yield from factor_levels.find_in_vocabulary(evidence.vocabulary)
    yield from outcome_wordings.find_in_vocabulary(evidence.vocabulary)
    claims: dict[str, list[tuple[Report, Claim]]] = defaultdict(list)
    if any(question.certainty for question in evidence.questions.values()):
        for report in evidence.reports.values():
            for claim in report.claims:
                for named in claim.question:
                    claims[named.text].append((report, claim))
    for name, question in evidence.questions.items():
        yield from question_references.find_in_question(question, declared)
        yield from standing.find_in_question(question, claims[name], declared)
        yield from upkeep.find_in_question(question, day)
        yield from prose.find_in_question(question, declared, ids, has_gaps)
        yield from hard_sentences.find_in_question(question)
    for urgent in evidence.urgent.values():
        yield from prose.find_in_urgent(urgent, declared, ids, has_gaps)
    for page in evidence.pages:
        yield from prose.find_in_page(page, declared, ids, has_gaps)
    yield from addresses.find_in_pages(evidence)
    yield from example.find_example(evidence)


def day_of(evidence: Evidence) -> datetime.date:
    """The evidence date, which nothing typed may be later than."""
    return evidence.compendium.evidence_date.value if evidence.compendium is not None else datetime.date.max


def units_of(evidence: Evidence) -> dict[str, str]:
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
