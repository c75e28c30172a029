"""A finding as one says it aloud: what was counted and when, without the words of our own files."""

from __future__ import annotations

import re

from ...reading.model import Outcome
from ...reading.values import Missing, Words
from ..findings.findings import Finding
from ..values.document import Line, line, typed
from .wording import length, spread, timing

_FILE_WORD = re.compile(r"[,;]?\s*\(?\b(strict|lenient)(?:ly)?\b\)?", re.IGNORECASE)
_HOW_STRICTLY = {"strict": ", counted strictly", "lenient": ", counted generously"}


def plain_title(outcome: Outcome) -> str:
    """The outcome's title as a patient reads it: file words for how strictly it was judged become speech."""
    plain, file_word = _without_file_word(outcome)
    return f"{plain}, counted generously" if file_word == "lenient" else plain


def counted_as(outcome: Outcome) -> Line:
    """ "healed at the site, counted strictly": what was counted, and by which definition, as one says it."""
    plain, _ = _without_file_word(outcome)
    return line(typed(plain, "definition"), _HOW_STRICTLY.get(outcome.strictness.text))


def _without_file_word(outcome: Outcome) -> tuple[str, str]:
    """The title without its file word, and that word; the title whole where nothing would be left of it."""
    title = outcome.title.text
    found = _FILE_WORD.search(title)
    plain = _FILE_WORD.sub("", title).strip(" ,;")
    return (plain, found[1].lower()) if found is not None and plain else (title, "")


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
    followed = line("; followed ", longer) if longer else None
    if kind == "by":
        return line("within ", length(at), _after(follow_up.start), followed)
    tolerance = finding.time("tolerance")
    exactly = line(", give or take ", length(tolerance)) if tolerance else line(", how exactly is not reported")
    return line(length(at), _after(follow_up.start), exactly, followed)


def _after(start: Words | Missing | None) -> Line:
    if isinstance(start, Words):
        return line(typed(f" after {start.text}"))
    return line(", counted from what is not reported")
