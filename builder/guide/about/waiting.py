"""What waits for somebody, by urgency: the one list that page and command of upkeep tell."""

from __future__ import annotations

import datetime
from typing import Literal

from ...records import NamedTuple
from ...results.findings.findings import Catalogue
from ..sentences.prose import NamedResult
from . import waiting_questions, waiting_reports
from .waiting_entry import Waits

Group = Literal["by-date", "to-mend", "to-read", "to-write", "to-judge"]


class Kind(NamedTuple):
    """One kind of thing that waits."""

    name: str
    """Its anchor on the page."""
    word: str
    """A word or two of its title, which no other title has: a button shows this kind alone."""
    title: str
    nothing: str
    """What is said where nothing of it waits."""
    group: Group
    """The part of the page that it stands in."""


KINDS = (
    Kind("dates", "dates", "Dates set",
         "No question has been written yet.", "by-date"),
    Kind("withdrawn", "withdrawn", "Relying on a withdrawn report",
         "No sentence and no basis relies on a withdrawn report.", "to-mend"),
    Kind("one-reader", "one person", "Read by one person only",
         "Every report was re-read by a second person.", "to-read"),
    Kind("not-in-full", "in full", "Not read in full",
         "Every report was read in full.", "to-read"),
    Kind("located", "located", "Numbers that are only located",
         "The passages say what each number is.", "to-read"),
    Kind("not-checked", "retraction", "Not checked for retraction",
         "Every report has been checked at least once.", "to-read"),
    Kind("overlap", "same patients", "Perhaps the same patients",
         "No two reports look like one cohort.", "to-read"),
    Kind("asked", "asked", "Printed figures, asked about",
         "Nothing was asked.", "to-read"),
    Kind("not-read", "seen", "Seen and not read yet",
         "Every report that was entered has been read.", "to-write"),
    Kind("no-claim", "by nothing", "Read, and used by nothing",
         "Something rests on every report that was read.", "to-write"),
    Kind("unused", "vocabulary", "Vocabulary that nobody uses",
         "Every entry of the vocabulary is used.", "to-write"),
    Kind("no-guideline", "guideline", "Questions without a guideline",
         "Every question rests on a guideline somewhere.", "to-write"),
    Kind("search", "search", "What is missing of a search",
         "Every search is recorded.", "to-write"),
    Kind("living", "alive", "How a review is kept alive", "Every question says how it is kept alive.", "to-write"),
    Kind("not-set", "protocols", "Local protocols not set",
         "Local protocols are set wherever an entry rests on one.", "to-write"),
    Kind("not-judged", "judged yet", "How sure, not judged yet",
         "Every comparison and every outcome has its ledger of certainty.", "to-judge"),
    Kind("not-ratified", "ratified", "Not yet ratified",
         "Everything has been ratified.", "to-judge"),
)  # fmt: skip
"""By urgency. What is overdue on a day comes before all of them; only the reader's browser and whoever names a day can
say what is."""


def waiting(catalogue: Catalogue, named: NamedResult) -> tuple[Waits, ...]:
    """Everything that waits, the most urgent kind first; dates by day."""
    found: list[Waits] = [*waiting_questions.waiting(catalogue, named), *waiting_reports.waiting(catalogue)]
    place = {kind.name: number for number, kind in enumerate(KINDS)}
    return tuple(sorted(found, key=lambda item: (place[item.kind], item.due or datetime.date.max)))


def is_overdue(item: Waits, on: datetime.date | None) -> bool:
    """True where its day has passed on this day; the day itself is still in time, and without a day nothing is late."""
    return on is not None and item.due is not None and item.due < on
