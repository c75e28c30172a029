"""How sure a number of the sheet for a patient is, in plain words and by its grade."""

from __future__ import annotations

from decimal import Decimal

from ...reading.model import Certainty, Question
from ...results.findings.findings import Finding
from ...results.saying.certainty import NOT_JUDGED, how_sure, ledger
from ...results.values.line import Line, line

# Our own plain words for the four grades; the grades are those of GRADE.
_PLAIN = {
    "high": "we can lean on this number",
    "moderate": "it is probably near the truth, and could still move",
    "low": "it may be some way off",
    "very low": "we are very uncertain about this number",
}
_ORDER = ("very low", "low", "moderate", "high")


def sure_of(question: Question, finding: Finding) -> Line:
    """How sure one number is, in plain words and by its grade; that nobody has judged it where so."""
    return in_words(ledger_of(question, [finding]))


def ledger_of(question: Question, findings: list[Finding]) -> Certainty | None:
    """The ledger people wrote for this outcome and time; of several levels the most cautious one."""
    found: list[Certainty] = []
    for finding in findings:
        # A number without a window of its own is not covered by a ledger that was written for one.
        months = finding.window if finding.window is not None else Decimal(-1)
        for level in finding.level_ids or ("",):
            item = ledger(question, finding.outcome.id, finding.factor if level else "", level, months)
            if item is not None:
                found.append(item)
    return min(found, key=lambda item: _ORDER.index(item.final.text), default=None)


def in_words(item: Certainty | None) -> Line:
    """The grade as one says it to a patient, with its name; that nobody judged it where so."""
    if item is None:
        return line(NOT_JUDGED)
    return line(f"{_PLAIN.get(item.final.text, item.final.text)} (", how_sure(item), ")")
