"""Which rates belong to a time, and which of them to the latest that is stated."""

from __future__ import annotations

from collections.abc import Iterable

from ...reading.values import Length
from ...results.findings.findings import Finding
from ...results.saying.wording import length
from ...results.values.line import Line


def has_time(finding: Finding) -> bool:
    """False for a rate that belongs to no time at all: it stands below the line."""
    if finding.kind == "estimate":
        return finding.estimate is not None and isinstance(finding.estimate.at, Length)
    timing = finding.follow_up
    if timing is None:
        return False
    if getattr(timing.timing, "text", "") in ("at", "by") and isinstance(timing.at, Length):
        return True
    return isinstance(timing.minimum, Length) or isinstance(timing.maximum, Length)


def latest(findings: Iterable[Finding]) -> tuple[Finding, Line] | None:
    """The finding at the latest stated time (of several the largest), and that time."""
    timed = [finding for finding in findings if finding.window is not None]
    if not timed:
        return None
    best = min(timed, key=lambda item: (-(item.window or 0), -(item.total or 0), item.base))
    at = best.figure("estimate/at") if best.kind == "estimate" else best.time("at")
    return (best, length(at)) if at is not None else None
