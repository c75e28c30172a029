"""Days: nothing typed may be later than the evidence date; what is overdue is no fault."""

from __future__ import annotations

import datetime
from collections.abc import Iterator

from ..problems import Problem, error
from ..reading.model import Evidence, Question, Ratified
from ..reading.report_model import Report
from ..reading.values import Date

RULES = {
    "date-after-evidence": (
        "A day in a claim or question file is later than the evidence date of compendium.yaml. The evidence date "
        "tells readers up to which day they may rely on this guide; people move it when they change something. "
        "Correct the day, or move the evidence date. Days of status checks may be later. Basis: the format of this "
        "guide; common practice, no source."
    ),
    "date-before-reading": (
        "A report was re-read before it was first read. Usually the two days were swapped. Basis: common practice, no "
        "source."
    ),
}


def find_in_report(report: Report, evidence_date: datetime.date) -> Iterator[Problem]:
    """The days on which a report was read and re-read."""
    read, checked = report.read, report.checked
    if read.on.value > evidence_date:
        yield _late(read.on, evidence_date)
    if checked is not None:
        if checked.on.value > evidence_date:
            yield _late(checked.on, evidence_date)
        elif checked.on.value < read.on.value <= evidence_date and checked.on.text and read.on.text:
            tells = f"re-read on {checked.on.text}, but first read on {read.on.text}"
            yield error(checked.on.position, "date-before-reading", tells, "look up both days: are they exchanged?")


def find_in_question(question: Question, evidence_date: datetime.date) -> Iterator[Problem]:
    """The days of searching, ratifying, agreeing and dissenting."""
    for day in _days(question):
        if day is not None and day.value > evidence_date:
            yield _late(day, evidence_date)


def find_in_shared(evidence: Evidence, evidence_date: datetime.date) -> Iterator[Problem]:
    """The days in urgent.yaml. status.yaml may be later: a machine writes it between releases."""
    for urgent in evidence.urgent.values():
        for advice in (advice for _, entries in urgent.advice for advice in entries):
            if advice.ratified is not None and advice.ratified.on.value > evidence_date:
                yield _late(advice.ratified.on, evidence_date)


def _days(question: Question) -> Iterator[Date | None]:
    yield question.searched.on if question.searched is not None else None
    yield from _ratified(question.ratified)
    for entries in (question.stop, question.is_it_this, question.medical, question.steps, question.call):
        for advice in entries:
            yield from _ratified(advice.ratified)
    for option in question.options:
        yield from _ratified(option.ratified)
        for _, entries in option.advice:
            for advice in entries:
                yield from _ratified(advice.ratified)
    for threshold in question.thresholds:
        yield threshold.agreed
    for dissent in question.dissent:
        yield dissent.on


def _ratified(ratified: Ratified | None) -> Iterator[Date]:
    if ratified is not None:
        yield ratified.on


def _late(day: Date, evidence_date: datetime.date) -> Problem:
    tells = f"{day.text} is later than the evidence date, {evidence_date.isoformat()}"
    return error(
        day.position, "date-after-evidence", tells, "correct the day, or move the evidence date in compendium.yaml"
    )
