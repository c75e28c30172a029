"""What takes a rate back: estimates of the same patients that it was lost again, or that replace a crude share."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from decimal import Decimal

from ...reading.values import Words
from ..findings.comparable import counts_from_healing, people_of
from ..findings.findings import Catalogue, Finding
from ..values.line import Line, line, typed
from .source_reference import source_link
from .wording import estimate, timing


def reversals(catalogue: Catalogue, question: str, findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Estimates that must stand wherever these rates do, by place; withdrawn ones never.

    An estimate reverses a rate where its outcome says so (`reverses`), or where it counts the same outcome from the
    moment of healing; both of the same study.
    """
    shown: dict[str, set[str]] = {}
    for finding in findings:
        if finding.kind in ("rate", "grade", "estimate"):
            for study in people_of(finding):
                shown.setdefault(study, set()).add(finding.outcome.id)
    out: dict[str, Finding] = {}
    for finding in catalogue.of_question(question):
        if finding.kind != "estimate" or finding.is_withdrawn:
            continue
        taken_back = _outcome_reversed(finding)
        if taken_back and any(taken_back in shown.get(study, ()) for study in people_of(finding)):
            out[finding.base] = finding
    return tuple(sorted(out.values(), key=lambda item: (item.outcome.id, item.window or _NEVER, item.base)))


# After every time that a report could state.
_NEVER = Decimal("Infinity")


def _outcome_reversed(finding: Finding) -> str:
    """The outcome that an estimate reverses, or ""."""
    if finding.outcome.reverses is not None:
        return finding.outcome.reverses.text
    return finding.outcome.id if counts_from_healing(finding) else ""


def reversal_line(catalogue: Catalogue, finding: Finding) -> Line:
    """ "stays healed: 71% still so (95% CI 57% to 81%), 29 still at risk, at 10 years after healing"."""
    given = finding.claim.given
    return line(
        typed(finding.outcome.title.text, "definition"), ": ",
        estimate(finding), ", ", timing(finding), line(", of ", typed(given.text)) if given is not None else None,
        " (", source_link(finding.key, catalogue), ")",
    )  # fmt: skip


COUNTED_TWICE = (
    "The same patients stand here by two ways of counting: as still well, and as ill again with other endings counted "
    "apart. These need not add up to a hundred."
)


def is_counted_twice(rows: Iterable[Finding]) -> bool:
    """True where a share still well and a share ill again are of the same patients at the same time."""
    kinds: dict[tuple[object, str], set[str]] = {}
    for row in rows:
        if row.estimate is not None and row.window is not None:
            for study in people_of(row):
                kinds.setdefault((row.window, study), set()).add(row.estimate.kind.text)
    return any({"survival", "cumulative incidence"} <= found for found in kinds.values())


def overall_estimates(catalogue: Catalogue, question: str) -> list[Finding]:
    """Estimates at a time of all who were treated, withdrawn ones left out."""
    return [
        finding
        for finding in catalogue.of_question(question)
        if finding.kind == "estimate" and finding.level is None and not finding.is_withdrawn
    ]


def replaced_by_estimate(
    catalogue: Catalogue, question: str, finding: Finding, estimates: Sequence[Finding] | None = None
) -> Finding | None:
    """The estimate at a time because of which a crude share when last seen stands on no page but over-time and source.

    It is a claim of the same report and outcome (or one that its outcome reverses), or, in another report of the study,
    of the same outcome counted from the same moment. A level's row is never replaced by an estimate of all.
    estimates: those of overall_estimates, where the caller asks for several findings.
    """
    if finding.kind not in ("rate", "grade") or finding.level is not None or not _is_last_visit(finding):
        return None
    own = people_of(finding)
    for other in overall_estimates(catalogue, question) if estimates is None else estimates:
        if own.isdisjoint(people_of(other)):
            continue
        same_outcome = other.outcome.id == finding.outcome.id
        if other.key == finding.key and (same_outcome or _outcome_reversed(other) == finding.outcome.id):
            return other
        if same_outcome and not counts_from_healing(other):
            return other
    return None


def _is_last_visit(finding: Finding) -> bool:
    follow_up = finding.follow_up
    if follow_up is None or not isinstance(follow_up.timing, Words):
        return True
    return follow_up.timing.text in ("last recall", "not reported")
