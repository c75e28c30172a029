"""How sure: the ledger people wrote for an outcome, a window and a factor level, and the words that follow from it."""

from __future__ import annotations

from collections.abc import Sequence

from ...reading.model import Certainty, Question
from ..findings.findings import Catalogue, Finding
from ..values.line import Line, line

NOT_JUDGED = "not judged yet"

# GRADE guidelines 26: Santesso et al. 2020, J Clin Epidemiol 119:126-135, informative statements by level of certainty.
_VERBS = {"high": "", "moderate": "probably", "low": "may", "very low": "very uncertain"}


def ledger(
    question: Question, outcome: str, factor: str = "", level: str = "", months: object = None
) -> Certainty | None:
    """The ledger that speaks of exactly this outcome, factor and level; of a window where one was judged for it."""
    found = None
    for item in question.certainty:
        if item.outcome.text != outcome:
            continue
        if (item.factor.text if item.factor else "") != factor or (item.level.text if item.level else "") != level:
            continue
        at = item.at.months if item.at is not None else None
        if at is not None and at == months:
            return item
        if at is None or months is None:
            found = found or item
    return found


def how_sure(item: Certainty | None) -> Line:
    """ "low certainty", or "not judged yet"."""
    return line(f"certainty: {item.final.text}" if item is not None else f"certainty: {NOT_JUDGED}")


def associated(item: Certainty | None, side: Line) -> Line:
    """Association at the right strength: "may go with fewer healed"; empty where nobody judged it.

    side: in the event's words; empty where neither side is.
    """
    if item is None:
        return ()
    final = item.final.text
    said = side or line("no clear difference")
    if final == "very low":
        return line("we are very uncertain whether it goes with ", said)
    verb = _VERBS.get(final, "may")
    return line("may go with " if verb == "may" else f"{verb} goes with " if verb else "goes with ", said)


def judged_so(item: Certainty, said: Line) -> Line:
    """ "probably not worse by more than the margin", as strong as it was judged. said: what was judged."""
    final = item.final.text
    if final == "very low":
        return line("we are very uncertain whether it is ", said)
    verb = _VERBS.get(final, "may")
    return line("may be " if verb == "may" else f"{verb} " if verb else None, said)


def comparison_sure(findings: Sequence[Finding], catalogue: Catalogue) -> Line:
    """How sure a claim's comparison of levels is, to stand behind its numbers; empty for a rate of all."""
    judged: Certainty | None = None
    if not any(finding.factor for finding in findings):
        return ()
    for finding in findings:
        for word in finding.claim.question:
            question = catalogue.evidence.questions.get(word.text)
            if question is None:
                continue
            for level in finding.level_ids:
                judged = judged or ledger(question, finding.outcome.id, finding.factor, level, finding.window)
    return line("; ", how_sure(judged))
