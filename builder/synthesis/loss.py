"""How far a rate could move with those who were due and not seen."""

from __future__ import annotations

from .ranges import whole
from .results import Interval


def loss_bounds(events: int, examined: int, due: int) -> Interval:
    """The share of those due if every one not seen was no event, and if every one was.

    events: 0 to examined. examined: 0 to due. due: at least 1. Not a confidence interval: it holds the truth about
    those due whatever became of the lost, and says nothing of chance. Raises ValueError outside these ranges.

    Worst and best case, as in Akl et al. 2012, BMJ 344:e2809 (from memory).
    """
    due = whole("due", due, 1)
    examined = whole("examined", examined, 0, due)
    events = whole("events", events, 0, examined)
    return Interval(events / due, (events + due - examined) / due)
