"""How a question was searched and is kept alive, item by item, and which items nobody recorded."""

from __future__ import annotations

from ...reading.model import Question
from ...reading.values import Words
from ..values.line import Line, joined, line, typed

# Rethlefsen et al. 2021, Syst Rev 10:39 (PRISMA-S), items by number, in our words; 13, the dates, is always there.
ITEMS = (
    ("databases", "1", "Databases, each with its platform"),
    ("together", "2", "Databases searched together on one platform"),
    ("registries", "3", "Registers of studies"),
    ("browsed", "4", "Sites and print looked through"),
    ("citations", "5", "References followed, backwards or forwards"),
    ("contacts", "6", "People who were asked"),
    ("other", "7", "Other ways"),
    ("strategies", "8", "Strategies, as they were run"),
    ("limits", "9", "Limits and restrictions"),
    ("filters", "10", "Published filters"),
    ("prior_work", "11", "Earlier searches that were used again"),
    ("updates", "12", "How the search is brought up to date"),
    ("peer_review", "14", "Who reviewed the strategy"),
    ("records", "15", "Records found, by source"),
    ("deduplication", "16", "How duplicates were taken out"),
)
"""Field, number and title of each item."""

# Akl et al. 2024, BMJ 387:e079183 (PRISMA-LSR): item L1 and the status.
LIVING_ITEMS = (
    ("status", "Status of the living review"),
    ("schedule", "Searched again every"),
    ("triggers", "Searched again sooner where"),
    ("retirement", "When it is no longer kept alive"),
)


def search_rows(question: Question) -> tuple[tuple[Line, Line], ...]:
    """Title and words of each item that was recorded, those of a living review last."""
    rows = [
        (line(title), _lines(getattr(question.searched, field))) for field, _, title in ITEMS
        if question.searched is not None and getattr(question.searched, field)
    ]  # fmt: skip
    living = question.living
    if living is not None:
        said = {
            "status": line(typed(living.status.text)) if living.status is not None else (),
            "schedule": line(typed(living.schedule.text)) if living.schedule is not None else (),
            "triggers": _lines(living.triggers),
            "retirement": _lines(living.retirement),
        }
        rows += [(line(title), said[field]) for field, title in LIVING_ITEMS if said[field]]
    return tuple(rows)


def _lines(words: tuple[Words, ...]) -> Line:
    return joined([line(typed(word.text)) for word in words], "; ")


def missing_of_search(question: Question) -> tuple[str, ...]:
    """Titles of the items that nobody recorded; of a search that nobody recorded, all of them."""
    return tuple(title for field, _, title in ITEMS if not getattr(question.searched, field, ()))


def missing_of_living(question: Question) -> tuple[str, ...]:
    """The same of what a living review says of itself; of a retired one nothing else is missing."""
    living = question.living
    if living is not None and living.status is not None and living.status.text == "retired":
        return ()
    return tuple(title for field, title in LIVING_ITEMS if not getattr(living, field, None))
