"""Rates that were each counted at the last visit of their own study: no time is theirs together."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from ...reading.values import Words
from .findings import Finding

# House rule: so many that share no time are told one by one. Of more, a few would speak for all.
TOLD_APART = 4


def last_visit(row: Finding) -> tuple[str, ...]:
    """What such a rate shares with those that it may be told with: what is counted, from when; () for any other."""
    follow_up = row.follow_up
    if row.kind == "estimate" or row.window is not None or follow_up is None or row.claim.given is not None:
        return ()
    if not (isinstance(follow_up.timing, Words) and isinstance(follow_up.start, Words)):
        return ()
    is_last = follow_up.timing.text == "last recall"
    return ("last visit", row.unit or "", follow_up.start.text) if is_last else ()


def last_visits_of_many(rows: Sequence[tuple[tuple[object, ...], Finding]]) -> set[tuple[object, ...]]:
    """What more of them share than are told one by one, each with what comes before it. rows: each behind that."""
    shared = Counter((*before, *said) for before, row in rows if (said := last_visit(row)))
    return {key for key, times in shared.items() if times > TOLD_APART}
