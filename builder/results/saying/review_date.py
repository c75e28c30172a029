"""The day by which people promised to look at a question again."""

from __future__ import annotations

import datetime

from ...reading.model import Question
from ..findings.findings import Catalogue


def review_due(catalogue: Catalogue, question: Question) -> datetime.date | None:
    """The day by which people promised to look again: the question's own schedule, else the interval of
    compendium.yaml, after search or ratifying; None where none is set, and for a review that was retired."""
    compendium, living = catalogue.evidence.compendium, question.living
    if living is not None and living.status is not None and living.status.text == "retired":
        return None
    own = living.schedule if living is not None else None
    interval = own or (compendium.review_questions if compendium is not None else None)
    if compendium is None or interval is None:
        return None
    days = [question.searched.on.value] if question.searched else []
    if question.ratified is not None:
        days.append(question.ratified.on.value)
    start = max(days) if days else compendium.evidence_date.value
    return months_later(start, int(interval.months))


def months_later(day: datetime.date, months: int) -> datetime.date:
    """The same day of a later month, or that month's last day where it is shorter."""
    index = day.month - 1 + months
    year, month = day.year + index // 12, index % 12 + 1
    following = datetime.date(year + month // 12, month % 12 + 1, 1)
    last = (following - datetime.timedelta(days=1)).day
    return datetime.date(year, month, min(day.day, last))
