"""A finding as one says it aloud: what was counted and when, without the words of our own files."""

from __future__ import annotations

from ...reading.model import Outcome
from ...reading.values import Missing, Words
from ..findings.findings import Finding
from ..findings.spoken_outcomes import strictness_words
from ..values.line import Line, line, typed
from .wording import exactly, length, spread, timing


def counted_as(outcome: Outcome) -> Line:
    """ "healed at the site (stricter definition)": what was counted, and by which definition, as one says it."""
    said = strictness_words(outcome).removeprefix("by the ")
    return line(typed(outcome.title.text, "definition"), f" ({said})" if said else None)


def when(finding: Finding) -> Line:
    """ "24 months after repair, give or take 6 months"; "when last seen, 12 to 72 months after treatment"."""
    if finding.kind == "estimate" or (finding.estimate is not None and finding.follow_up is None):
        at, estimate = finding.figure("estimate/at"), finding.estimate
        return timing(finding) if at is None or estimate is None else line(length(at), _after(estimate.start))
    follow_up = finding.follow_up
    if follow_up is None:
        typed_as = finding.claim.follow_up
        is_never = isinstance(typed_as, Missing) and typed_as.text == "not applicable"
        return line("without follow-up" if is_never else "when is not reported")
    kind = follow_up.timing.text if isinstance(follow_up.timing, Words) else "not reported"
    at = finding.time("at")
    if kind not in ("at", "by") or at is None:
        return timing(finding)
    longer = spread(finding)
    said = line(
        length(at), _after(follow_up.start), exactly(finding, kind), line("; followed ", longer) if longer else None
    )
    return line("within ", said) if kind == "by" else said


def _after(start: Words | Missing | None) -> Line:
    if isinstance(start, Words):
        return line(typed(f" after {start.text}"))
    return line(", counted from what is not reported")
