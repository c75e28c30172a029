"""The share still free of an event when some are seen for longer than others."""

from __future__ import annotations

from collections.abc import Sequence

from .ranges import whole


def product_limit(steps: Sequence[tuple[int, int]]) -> float:
    """Kaplan-Meier share without the event after the last step.

    steps: (at risk, events) at each time with an event, in order; at risk at least 1 and never rising, events up to the
    number at risk. No step gives 1. Raises ValueError outside these ranges. Not the crude share of those seen: that
    forgets how long each was followed.

    Kaplan and Meier 1958, J Am Stat Assoc 53:457-481 (from memory).
    """
    share, before = 1.0, None
    for at_risk, events in steps:
        at_risk = whole("at_risk", at_risk, 1, before)
        events = whole("events", events, 0, at_risk)
        share *= (at_risk - events) / at_risk
        before = at_risk - events
    return share
