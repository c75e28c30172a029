"""Findings: every claim taken apart into the rows a reader may compare, with study, outcome and figures resolved."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping
from decimal import Decimal
from typing import Any, TypeVar

from ...numerals import Unit as CountedUnit
from ...numerals.lexicon import ANY_UNIT
from ...proof.declared_names import DeclaredNames, declared_names
from ...proof.proof import Audit
from ...reading.exported import shown_field
from ...reading.fdi_chart import chart_factor_levels
from ...reading.folded import folded
from ...reading.model import (
    Claim,
    Contrast,
    Estimate,
    Evidence,
    FollowUp,
    Grade,
    Level,
    Outcome,
    Report,
    Source,
    Study,
)
from ...reading.slugs import slug
from ...reading.values import Length, Missing, Range, Words
from ...records import NamedTuple
from ..values.figures import Figure, FigureBook
from .kinds_of_rows import FindingKind, follow_up_of, has_any, kind_of
from .spoken_outcomes import with_spoken_outcomes

# A time stated "at" belongs to a window only when it was met within a quarter of it (house rule, design of the guide).
WIDEST_TOLERANCE = Decimal(1) / 4


T = TypeVar("T")


class StudyFacts(NamedTuple):
    """A study, as the report that describes it tells it."""

    id: str
    key: str
    """The describing report; "" where no report in this guide describes it."""
    study: Study | None
    withdrawn_inside: tuple[str, ...] = ()
    """Of a review, the retracted reports of studies that it includes."""

    @property
    def species(self) -> str:
        """human, animal, bench; "" where nobody describes the study."""
        return self.study.species.text if self.study and self.study.species else ""


class Finding(NamedTuple):
    """One row: a rate, an estimate at a time, a ratio, or words, of one claim or one of its levels."""

    base: str
    """What the ids of its figures begin with: "key/claim" or "key/claim/level-slug"."""
    kind: FindingKind
    report: Report
    source: Source
    claim: Claim
    level: Level | None
    grade: Grade | None
    outcome: Outcome
    standing: str
    """none found, corrected, concern, retracted, unknown, or not checked."""
    studies: tuple[StudyFacts, ...]
    follow_up: FollowUp | None
    follow_up_base: str
    """What the ids of the follow-up's figures begin with: they keep the id of the claim that typed it."""
    factor: str
    level_ids: tuple[str, ...]
    """The vocabulary's levels that the wording stands for; several where its range meets several bands."""
    book: FigureBook
    titles: Mapping[str, str]
    """Titles of the vocabulary's factors by id, for those a paper adjusted for."""
    units: Mapping[str, CountedUnit]
    """What may be counted, by id."""
    events: int | None = None
    """Units with the outcome, None where not reported or not proved."""
    total: int | None = None
    """Units examined, None where not reported, not proved, or printed in more than one way."""

    def figure(self, *names: str) -> Figure | None:
        """The first of these fields that has a proved figure: figure("success_rate", "rate")."""
        for name in names:
            found = self.book.quoted(f"{self.base}/{name}")
            if found is None and self.kind == "grade" and name.startswith("total"):
                # A grade is counted out of the total of the table it stands in.
                found = self.book.quoted(f"{self.base.rpartition('/')[0]}/{name}")
            if found is not None:
                return found
        return None

    def confidence(self, name: str = "interval") -> Figure | Missing | None:
        """The level typed beside an interval ("interval", "contrast/interval", ...); None where it is the usual 95%."""
        owner = name.rpartition("/")[0]
        found = self.figure(f"{owner}/confidence" if owner else "confidence")
        if found is not None:
            return found
        holders = {"": self.level or self.claim, "estimate": self.estimate, "contrast": self.claim.contrast}
        typed = getattr(holders.get(owner), "confidence", None)
        return typed if isinstance(typed, Missing) else None

    def limits(self, name: str = "interval") -> tuple[Figure, Figure] | None:
        """Both ends of a printed 95% interval; None where there is none, or it is of another level or of no stated one.

        Whatever reckons with an interval, draws it or takes it for clear asks here: a 99% interval is no wider doubt.
        """
        level = self.confidence(name)
        low, high = self.figure(f"{name}/low"), self.figure(f"{name}/high")
        if low is None or high is None or (level is not None and (isinstance(level, Missing) or level.number != 95)):
            return None
        return low, high

    def time(self, name: str) -> Figure | None:
        """A figure of the follow-up: "median", "at", ..."""
        return self.book.quoted(f"{self.follow_up_base}/{name}")

    @property
    def key(self) -> str:
        """The report's BibTeX key."""
        return self.report.key

    @property
    def good_events(self) -> int | None:
        """Units that did well, whichever way the outcome is counted."""
        if self.events is None or self.total is None:
            return None
        return self.events if self.outcome.good else self.total - self.events

    @property
    def is_withdrawn(self) -> bool:
        """True for a retracted report: it leaves every number."""
        return self.standing == "retracted"

    @property
    def withdrawn_inside(self) -> tuple[str, ...]:
        """Of a number that a review pooled, the retracted reports that the review includes."""
        if self.claim.pooled is None and (self.claim.contrast is None or self.claim.contrast.pooled is None):
            return ()
        return tuple(dict.fromkeys(key for facts in self.studies for key in facts.withdrawn_inside))

    @property
    def is_human(self) -> bool:
        """True where every study behind it is of people."""
        return bool(self.studies) and all(study.species == "human" for study in self.studies)

    @property
    def estimate(self) -> Estimate | None:
        """The estimate at a time, of the level or of the claim."""
        return self.level.estimate if self.level is not None else self.claim.estimate

    @property
    def contrast(self) -> Contrast | None:
        """The claim's ratio or difference; only on a finding of that kind."""
        return self.claim.contrast if self.kind == "contrast" else None

    @property
    def unit(self) -> str:
        """Id of what was counted; "" where not reported."""
        for facts in self.studies:
            if facts.study and facts.study.unit and isinstance(facts.study.unit.unit, Words):
                return facts.study.unit.unit.text
        return ""

    @property
    def counted(self) -> CountedUnit:
        """What was counted, in its words."""
        return unit_of(self.units, self.unit)

    @property
    def window(self) -> Decimal | None:
        """Months of the window it belongs to; None for last-recall, at-least and by rates and without a time."""
        if self.kind == "estimate" and self.estimate is not None:
            return self.estimate.at.months if isinstance(self.estimate.at, Length) else None
        timing = self.follow_up
        if timing is None or not isinstance(timing.timing, Words) or timing.timing.text != "at":
            return None
        if not isinstance(timing.at, Length) or not isinstance(timing.tolerance, Length):
            return None
        if timing.tolerance.months > timing.at.months * WIDEST_TOLERANCE:
            return None
        return timing.at.months


def unit_of(units: Mapping[str, CountedUnit], unit: str) -> CountedUnit:
    """A unit by id; the plain word for those whose id is "", which were not reported."""
    return units.get(unit, ANY_UNIT)


class Catalogue:
    """All findings of one evidence, and what they are looked up by. Nothing here depends on the order of files."""

    def __init__(self, evidence: Evidence, audit: Audit) -> None:
        self.evidence = evidence = with_spoken_outcomes(evidence)
        self.audit = audit
        self.book = FigureBook(audit.proofs)
        self.declared: DeclaredNames = declared_names(evidence)
        self.units = evidence.vocabulary.units
        self._titles = {name: factor.title.text for name, factor in evidence.vocabulary.factors.items()}
        self._withdrawn: dict[str, list[str]] = {}
        for key, report in sorted(evidence.reports.items()):
            for study in report.studies if self.standing(key) == "retracted" else ():
                self._withdrawn.setdefault(study.id.text, []).append(key)
        self.findings: tuple[Finding, ...] = tuple(
            finding for _, report in sorted(evidence.reports.items()) for finding in self._of_report(report)
        )
        self._readable: dict[tuple[str, str], str] = {}
        self._made: dict[tuple[str, ...], Any] = {}
        self._by_question: dict[str, list[Finding]] = {}
        for finding in self.findings:
            for question in finding.claim.question:
                self._by_question.setdefault(question.text, []).append(finding)
        self._by_claim: dict[str, list[Finding]] = {}
        for finding in self.findings:
            self._by_claim.setdefault(f"{finding.key}/{finding.claim.id.text}", []).append(finding)

    def readable(self, source: Source, name: str) -> str:
        """A field of an entry as people read it; see `shown_field`."""
        found = self._readable.get((source.key, name))
        if found is None:
            found = self._readable[(source.key, name)] = shown_field(source.fields, name)
        return found

    def once(self, name: tuple[str, ...], make: Callable[[], T]) -> T:
        """What `make` gives, made at the first asking: several pages ask the same of the same findings.

        name: what is made, then of what. Nobody may change what comes back.
        """
        found: T | None = self._made.get(name)
        if found is None:
            found = self._made[name] = make()
        return found

    def of_question(self, question: str) -> list[Finding]:
        """Findings that claims give to one question, by report and in the order of the form."""
        return self._by_question.get(question, [])

    def of_claim(self, reference: str) -> list[Finding]:
        """Findings behind "key/claim", or the one behind "key/claim/level-slug"."""
        found = self._by_claim.get(reference)
        if found is not None:
            return found
        claim, _, _ = reference.rpartition("/")
        return [finding for finding in self._by_claim.get(claim, []) if finding.base == reference]

    def main_unit(self, question: str = "") -> CountedUnit:
        """What most studies of people count for a question, or for all; where none does, what is declared first.

        Of two that are counted alike often it is the one that the vocabulary has first.
        """
        return self.once(("main unit", question), lambda: self._main_unit(question))

    def _main_unit(self, question: str) -> CountedUnit:
        findings = self.of_question(question) if question else self.findings
        counted = {
            tuple(study.id for study in finding.studies): finding.unit
            for finding in findings
            if finding.is_human and finding.unit
        }
        often = Counter(counted.values())
        return max(self.units.values(), key=lambda unit: often[unit.id])

    def standing(self, key: str) -> str:
        """What is known of a report's standing; "not checked" where nobody looked."""
        status = self.evidence.statuses.get(key)
        return status.state.text if status else "not checked"

    def study(self, study_id: str) -> StudyFacts:
        """A study by id, as the report that describes it tells it."""
        described = self.declared.described.get(study_id)
        if not described:
            return StudyFacts(study_id, "", None)
        included = described.study.includes if self._withdrawn else ()
        gone = dict.fromkeys(key for inner in included for key in self._withdrawn.get(inner.text, ()))
        return StudyFacts(study_id, described.key, described.study, tuple(gone))

    def _of_report(self, report: Report) -> list[Finding]:
        source = self.evidence.sources.get(report.key)
        if source is None:
            return []
        own = tuple(study.id.text for study in report.studies)
        out: list[Finding] = []
        for claim in report.claims:
            outcome = self.evidence.vocabulary.outcomes.get(claim.outcome.text)
            if outcome is None:
                continue
            ids = tuple(word.text for word in claim.study) or own
            follow_up, follow_up_base = follow_up_of(report, claim)
            shared = (
                self._standing_of(report, claim), tuple(self.study(name) for name in ids), follow_up, follow_up_base,
                claim.factor.text if claim.factor else "",
            )  # fmt: skip
            base = f"{report.key}/{claim.id.text}"

            def finding(
                kind: FindingKind,
                where: str,
                level: Level | None = None,
                grade: Grade | None = None,
                level_ids: tuple[str, ...] = (),
                *,
                claim: Claim = claim,
                outcome: Outcome = outcome,
                shared: tuple[str, tuple[StudyFacts, ...], FollowUp | None, str, str] = shared,
                source: Source = source,
            ) -> Finding:
                made = Finding(
                    where, kind, report, source, claim, level, grade, outcome, *shared, level_ids, self.book,
                    self._titles, self.units,
                )  # fmt: skip
                events, total = made.figure("events"), made.figure("total")
                if events is None and total is None:
                    return made
                return made._replace(
                    events=int(events.number) if events else None, total=int(total.number) if total else None
                )

            out.extend(self._of_claim_rows(claim, base, finding))
        return out

    def _standing_of(self, report: Report, claim: Claim) -> str:
        """That of the report; a figure taken over from a withdrawn report is withdrawn with it."""
        if claim.quotes is not None and self.standing(claim.quotes.text.partition("/")[0]) == "retracted":
            return "retracted"
        return self.standing(report.key)

    def _level_ids(self, claim: Claim, wording: str, typed: Range | None = None) -> tuple[str, ...]:
        """The vocabulary's levels that a wording stands for; those of the chart are reserved and stand in none."""
        name = claim.factor.text if claim.factor else ""
        factor = self.declared.factors.get(name)
        if factor is not None:
            return tuple(item.id.text for item in factor.matches(wording, typed))
        return (folded(wording),) if folded(wording) in chart_factor_levels(name) else ()

    def _of_claim_rows(self, claim: Claim, base: str, finding: Callable[..., Finding]) -> list[Finding]:
        out: list[Finding] = []
        if claim.estimate is not None:
            out.append(finding("pooled" if claim.pooled else "estimate", base))
        elif claim.pooled is not None:
            out.append(finding("pooled", base))
        elif has_any(claim.events, claim.total, claim.rate, claim.success_rate):
            out.append(finding("rate", base))
        for level in claim.levels:
            level_base = f"{base}/{slug(level.level.text)}"
            ids = self._level_ids(claim, level.level.text, level.range)
            out.append(finding(kind_of(level), level_base, level, None, ids))
            out.extend(self._of_grades(level.grades, level_base, finding, level, ids))
        if claim.contrast is not None:
            wording = claim.contrast.level.text if claim.contrast.level else ""
            ids = self._level_ids(claim, wording) if wording else ()
            out.append(finding("contrast", base, None, None, ids))
        if claim.pairs is not None:
            out.append(finding("pairs", base))
        if claim.tests:
            out.append(finding("test", base))
        out.extend(self._of_grades(claim.grades, base, finding, None, ()))
        return out

    def _of_grades(
        self,
        grades: tuple[Grade, ...],
        base: str,
        finding: Callable[..., Finding],
        level: Level | None,
        ids: tuple[str, ...],
    ) -> list[Finding]:
        """Grades that name an outcome of the vocabulary are rates of their own."""
        out = []
        for grade in grades:
            if grade.outcome is not None and grade.outcome.text in self.evidence.vocabulary.outcomes:
                outcome = self.evidence.vocabulary.outcomes[grade.outcome.text]
                out.append(finding("grade", f"{base}/{slug(grade.outcome.text)}", level, grade, ids, outcome=outcome))
        return out
