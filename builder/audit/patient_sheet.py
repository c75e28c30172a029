"""A claim that a question file chose for the patient stands on the sheet, or it is said why it cannot."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterator
from functools import cached_property

from ..problems import Note, Problem, error
from ..proof.declared_names import DeclaredNames
from ..proof.follow_ups import follow_up_of
from ..reading.model import Evidence, Outcome, Question
from ..reading.report_model import Claim, Estimate, Level, Report
from ..reading.slugs import slug
from ..reading.values import Length, Number, Words

RULES = {
    "patient-claim-not-told": (
        "A question file chooses a claim for the patient (`patient: show`) of which the sheet can tell nothing, so "
        "that its number would be missing there. A sheet tells how many had an ending, out of how many, and when: no "
        "ratio, test or word alone, no share without its counts and its time, nothing that is not about people, that "
        "comes from selected cases, or that a review pooled. Type what is missing, choose the claim that holds the "
        "count, or take this one out. A claim of a withdrawn report may stay: it leaves the sheet by itself, and "
        "comes back with its report. Basis: the design of this guide; common practice, no source."
    ),
}

_HINT = "choose the claim that has the count, the total and the time, or take this one out of `show`"
_NO_COUNT = "`events` and `total` are not both reported"
_NO_TIME = "when it was counted is not reported (`follow_up` without its `timing`)"
_NUMBERS = ("events", "total", "success_rate", "rate", "estimate/value", "contrast/value")


def note_without_sheet(question: Question) -> Iterator[Note]:
    """A question file without `patient`, which is no fault: its page for the patient says that there is no number."""
    if question.patient is None:
        told = "`patient` is left out: the sheet of this question says so, and holds no number and no words of yours"
        yield Note(question.position, told)


class PatientSheets:
    """What the sheets of one evidence can tell; the pages decide by the same conditions."""

    def __init__(
        self, evidence: Evidence, declared: DeclaredNames, proved: Collection[str], withheld: Collection[str]
    ) -> None:
        """proved: ids of all figures that found their proof. withheld: keys of reports some of which did not."""
        self._evidence, self._declared = evidence, declared
        self._proved, self._withheld = proved, withheld

    def find_in_question(self, question: Question) -> Iterator[Problem]:
        """Chosen claims of which the sheet tells nothing."""
        for shown in question.patient.show if question.patient is not None else ():
            key, _, name = shown.text.partition("/")
            report = self._evidence.reports.get(key)
            claim = report.claim(name) if report is not None else None
            if report is None or claim is None or not self._is_sound(report, claim) or self._is_withdrawn(key, claim):
                continue
            reasons = list(self._reasons(report, claim, question.id))
            if reasons and all(reasons):
                why = "; ".join(dict.fromkeys(reasons))
                tells = f"the sheet for the patient cannot tell {shown.text}: {why}"
                yield error(shown.position, "patient-claim-not-told", tells, _HINT)

    def _is_sound(self, report: Report, claim: Claim) -> bool:
        """False where something it needs is missing, unreadable or not proved: that is told already."""
        return (
            report.key not in self._withheld
            and report.key in self._evidence.sources
            and claim.outcome.text in self._declared.outcomes
            and "" not in self._species(report, claim)
        )

    def _species(self, report: Report, claim: Claim) -> set[str]:
        """Of every study behind a claim; "" where nobody tells."""
        found = set()
        for name in report.studies_of(claim):
            described = self._declared.described.get(name)
            species = described.study.species if described is not None else None
            found.add(species.text if species is not None else "")
        return found or {""}

    def _is_withdrawn(self, key: str, claim: Claim) -> bool:
        """A withdrawal is nobody's slip: what it takes from the sheet, the sheet itself says."""
        keys = (key, claim.quotes.text.partition("/")[0]) if claim.quotes is not None else (key,)
        states = [self._evidence.statuses[each].state.text for each in keys if each in self._evidence.statuses]
        return "retracted" in states

    def _reasons(self, report: Report, claim: Claim, question: str) -> Iterator[str]:
        """Why each row of a claim, its levels among them, is not told; "" for one that is."""
        base = f"{report.key}/{claim.id.text}"
        outcome = self._declared.outcomes[claim.outcome.text]
        shared = self._of_claim(report, claim)
        own = shared or self._of_quote(claim, "")
        if claim.estimate is not None:
            yield own or self._of_estimate(base, claim.estimate, outcome)
        elif any(each is not None for each in (claim.events, claim.total, claim.rate, claim.success_rate)):
            yield own or self._of_rate(base, claim, report, claim) or self._of_last_visit(report, claim, question)
        elif not claim.levels:
            yield own or _without_count(claim)
        for level in claim.levels:
            name = f"/{slug(level.level.text)}"
            own = shared or self._of_quote(claim, name)
            if level.estimate is not None:
                yield own or self._of_estimate(f"{base}{name}", level.estimate, outcome)
            else:
                yield own or self._of_rate(f"{base}{name}", level, report, claim)

    def _of_claim(self, report: Report, claim: Claim) -> str:
        """What bars every row of a claim."""
        if self._species(report, claim) != {"human"}:
            return "it is not about people"
        described = (self._declared.described[name].study for name in report.studies_of(claim))
        if any(study.selection is not None and study.selection.text == "selected" for study in described):
            return "a selected series carries no rate"
        return "it was pooled by a review" if claim.pooled is not None else ""

    def _of_quote(self, claim: Claim, level: str) -> str:
        """A figure taken over from a report whose own claim is in the guide."""
        quoted = claim.quotes.text if claim.quotes is not None else ""
        if quoted and any(f"{quoted}{level}/{name}" in self._proved for name in _NUMBERS):
            return f"it is quoted from {quoted}, which is in this guide: name that one"
        return ""

    def _of_estimate(self, base: str, estimate: Estimate, outcome: Outcome) -> str:
        if f"{base}/estimate/value" not in self._proved:
            return "the value of its estimate is not reported"
        if not isinstance(estimate.at, Length):
            return "a yearly rate is not a number at a time"
        if outcome.good and estimate.kind.text != "survival":
            return f"whether its {estimate.kind.text} counts something good or bad is not clear"
        if not {f"{base}/estimate/starting", f"{base}/estimate/at_risk"}.intersection(self._proved):
            return "neither the number at the start (`starting`) nor the number at risk (`at_risk`) is reported"
        return ""

    def _of_rate(self, base: str, row: Claim | Level, report: Report, claim: Claim) -> str:
        if isinstance(row, Level) and (row.stated is not None or (row.direction is not None and _has_no_rate(row))):
            return "it is stated in words only"
        if f"{base}/events" not in self._proved or f"{base}/total" not in self._proved:
            return _NO_COUNT
        if isinstance(row.total, Number) and not row.total.value:
            return "nobody was counted"
        follow_up = follow_up_of(claim, report)
        return "" if follow_up is not None and isinstance(follow_up.timing, Words) else _NO_TIME

    def _of_last_visit(self, report: Report, claim: Claim, question: str) -> str:
        """A share when last seen, of people of whom the question has an estimate at a time."""
        follow_up = follow_up_of(claim, report)
        if follow_up is None or not isinstance(follow_up.timing, Words) or follow_up.timing.text != "last recall":
            return ""
        people = self._people(report, claim)
        for other_report, other in self._estimates.get(question, ()):
            if people.isdisjoint(self._people(other_report, other)):
                continue
            own = claim.outcome.text
            is_same, is_own = other.outcome.text == own, other_report.key == report.key
            from_healing = _counts_from_healing(other_report, other)
            reverses = self._declared.outcomes[other.outcome.text].reverses
            reversed_ = reverses.text if reverses is not None else other.outcome.text if from_healing else ""
            if (is_own and (is_same or reversed_ == own)) or (is_same and not from_healing):
                name = f"{other_report.key}/{other.id.text}"
                return f"it is a share when last seen, while {name} is an estimate at a time of the same study"
        return ""

    def _people(self, report: Report, claim: Claim) -> set[str]:
        """Ids of the studies behind a claim, those that a review holds included."""
        names = set(report.studies_of(claim))
        for described in [self._declared.described[name] for name in names if name in self._declared.described]:
            names.update(word.text for word in described.study.includes)
        return names

    @cached_property
    def _estimates(self) -> dict[str, list[tuple[Report, Claim]]]:
        """By question: estimates of all who were treated, in reports that were not withdrawn."""
        found: dict[str, list[tuple[Report, Claim]]] = defaultdict(list)
        for key, report in sorted(self._evidence.reports.items()):
            if key not in self._evidence.sources:
                continue
            for claim in report.claims:
                is_known = claim.estimate is not None and claim.outcome.text in self._declared.outcomes
                if is_known and claim.pooled is None and not self._is_withdrawn(key, claim):
                    for question in claim.question:
                        found[question.text].append((report, claim))
        return found


def _has_no_rate(level: Level) -> bool:
    return level.events is None and level.success_rate is None and level.rate is None


def _without_count(claim: Claim) -> str:
    """Why a claim without counts, estimate and levels tells a patient nothing."""
    if claim.contrast is not None:
        return "a ratio or difference alone tells a patient nothing"
    if claim.pairs is not None:
        return "it compares two ways of looking, not two endings"
    return _NO_COUNT


def _counts_from_healing(report: Report, claim: Claim) -> bool:
    start = claim.estimate.start if claim.estimate is not None else None
    if start is None:
        follow_up = follow_up_of(claim, report)
        start = follow_up.start if follow_up is not None else None
    return isinstance(start, Words) and start.text.casefold().startswith("heal")
