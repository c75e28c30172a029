"""What may stand together: one patient counted once, one window, one definition; and why not, where it may not."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from builder.guide.findings import Finding
from builder.reading.model import Flow
from builder.reading.values import Number, Words

# House rule: a pooled rate is shown from five studies and ten failures; three or four stay in the workings; two never.
SHOWN_FROM_STUDIES = 5
SHOWN_FROM_FAILURES = 10
WORKED_FROM_STUDIES = 3


class Superseded(NamedTuple):
    """A finding about patients whom another report counts for the same construct, window and level."""

    finding: Finding
    by: Finding


class Apart(NamedTuple):
    """A finding that is not compared, with the reason as readers see it."""

    finding: Finding
    reason: str


class Group(NamedTuple):
    """Findings that agree on everything that pooling asks for."""

    findings: tuple[Finding, ...]
    failures: int

    @property
    def shows_pool(self) -> bool:
        """True from five studies and ten failures."""
        return len(self.findings) >= SHOWN_FROM_STUDIES and self.failures >= SHOWN_FROM_FAILURES

    @property
    def works_pool(self) -> bool:
        """True from three studies: the number may live in the workings."""
        return len(self.findings) >= WORKED_FROM_STUDIES


class Together(NamedTuple):
    """The answer about one set of findings: what counts, what was superseded, what stands apart, and what pools."""

    counted: tuple[Finding, ...]
    """One a study for each window, level and strictness; by report and place."""
    superseded: tuple[Superseded, ...]
    apart: tuple[Apart, ...]
    groups: tuple[Group, ...]
    """Largest first; findings that miss something pooling asks for are in none."""
    reasons: tuple[str, ...]
    """Why what was counted is not one pool; empty where it is."""


def stand_together(findings: Iterable[Finding]) -> Together:
    """Decide for findings of one outcome axis and one factor level (or none).

    The answer depends on the set of findings alone: not on their order, nor on a report given twice.
    """
    unique = {(finding.base, finding.kind): finding for finding in findings}
    ordered = [unique[name] for name in sorted(unique)]
    apart: list[Apart] = []
    eligible: list[Finding] = []
    for finding in ordered:
        reason = reason_apart(finding)
        if reason:
            apart.append(Apart(finding, reason))
        else:
            eligible.append(finding)
    counted, superseded = once_each(eligible)
    groups, reasons = _groups(counted)
    return Together(tuple(counted), tuple(superseded), tuple(apart), groups, reasons)


def reason_apart(finding: Finding) -> str:
    """Why a rate is not set beside others, or "" where it may be. House rules, after the design of the guide."""
    if finding.is_withdrawn:
        return "the report was withdrawn"
    species = {study.species for study in finding.studies}
    if not species or "" in species:
        return "what was studied is not described"
    if species != {"human"}:
        return "not people: it may explain, it does not count"
    if any(_selection(study.study) == "selected" for study in finding.studies if study.study):
        return "a selected series carries no rate"
    if finding.claim.quotes is not None:
        return "quoted from another report"
    if finding.kind == "pooled":
        return "already pooled by a review"
    return ""


def _selection(study: object) -> str:
    selection = getattr(study, "selection", None)
    return selection.text if isinstance(selection, Words) else ""


def once_each(findings: Sequence[Finding]) -> tuple[list[Finding], list[Superseded]]:
    """One finding a study and slot; the better one stays.

    A slot is construct, strictness, good or bad event, window, factor level and subgroup. Better is: an estimate at the
    window, then the higher share examined of those due, then the larger number, then the later report, then the key
    (so that the answer is one).
    """
    slots: dict[tuple[object, ...], list[Finding]] = {}
    for finding in findings:
        slots.setdefault(slot(finding), []).append(finding)
    counted: list[Finding] = []
    superseded: list[Superseded] = []
    for members in slots.values():
        taken: dict[str, Finding] = {}
        for finding in sorted(members, key=_rank):
            holder = next((taken[study.id] for study in finding.studies if study.id in taken), None)
            if holder is None:
                counted.append(finding)
                taken.update({study.id: finding for study in finding.studies})
            else:
                superseded.append(Superseded(finding, holder))
    counted.sort(key=lambda finding: finding.base)
    superseded.sort(key=lambda pair: pair.finding.base)
    return counted, superseded


def slot(finding: Finding) -> tuple[object, ...]:
    """What two findings must share before one of them can take the other's place."""
    outcome = finding.outcome
    window = finding.window
    return (
        outcome.construct.text,
        outcome.strictness.text,
        outcome.id if window is None else outcome.good,
        window if window is not None else "no window",
        finding.factor,
        finding.level_ids or (finding.level.level.text if finding.level else ""),
        tuple(sorted((item.factor.text, item.level.text) for item in finding.claim.within)),
        finding.claim.given.text if finding.claim.given else "",
    )


def _rank(finding: Finding) -> tuple[object, ...]:
    return (
        0 if finding.kind == "estimate" else 1,
        -_share_examined(finding),
        -(_size(finding)),
        -year(finding),
        finding.base,
    )


def _share_examined(finding: Finding) -> float:
    for facts in finding.studies:
        flow = finding.claim.flow or _own_flow(finding, facts.id) or (facts.study.flow if facts.study else None)
        if flow is not None and isinstance(flow.examined, Number):
            of = flow.due if isinstance(flow.due, Number) else flow.treated
            if isinstance(of, Number) and of.value:
                return float(flow.examined.value / of.value)
    return -1.0


def _own_flow(finding: Finding, study_id: str) -> Flow | None:
    for study in finding.report.studies:
        if study.id.text == study_id:
            return study.flow
    return None


def _size(finding: Finding) -> int:
    if finding.kind == "estimate":
        starting = finding.figure("estimate/starting")
        return int(starting.number) if starting else 0
    return finding.total or 0


def year(finding: Finding) -> int:
    """The year of the report, 0 where its entry has none."""
    field = finding.source.fields.get("year") or finding.source.fields.get("date")
    digits = field.text.strip()[:4] if field else ""
    return int(digits) if digits.isdigit() else 0


_AXES = ("construct", "strictness", "basis", "window", "unit", "population", "operators", "design", "selection")

_WORDS = {
    "construct": "they count different things",
    "strictness": "strict and lenient definitions differ",
    "basis": "they were judged by different means",
    "window": "they speak of different times",
    "unit": "they count different units",
    "population": "the people treated differ",
    "operators": "the operators differ",
    "design": "the designs differ",
    "selection": "not all of them took every patient in turn",
}

_MISSING_WORDS = {
    "window": "not every rate belongs to one time",
    "unit": "the unit is not reported in all",
    "population": "the people treated are not fully reported in all",
    "operators": "the operators are not reported in all",
    "design": "the design is not reported in all",
    "selection": "whether every patient was taken in turn is not reported in all",
    "basis": "how it was judged is not reported in all",
    "strictness": "how strict the definition was is not reported in all",
}


def axes(finding: Finding) -> dict[str, object]:
    """What pooling asks for, by axis; None where it was not reported, and that equals nothing."""
    outcome = finding.outcome
    study = finding.studies[0].study if finding.studies else None
    out: dict[str, object] = {
        "construct": (outcome.construct.text, outcome.good),
        "strictness": None if outcome.strictness.text == "not reported" else outcome.strictness.text,
        "basis": outcome.basis.text,
        "window": finding.window,
        "unit": None,
        "population": None,
        "operators": None,
        "design": None,
        "selection": None,
    }
    if study is None or len(finding.studies) != 1:
        return out
    if study.unit is not None and isinstance(study.unit.unit, Words):
        per, rule = study.unit.per, study.unit.rule
        out["unit"] = (study.unit.unit.text, per.text if per else "", rule.text if rule else "")
    if study.population and all(value.text != "not reported" for value in study.population.values()):
        out["population"] = tuple(sorted((name, value.text) for name, value in study.population.items()))
    if isinstance(study.setting, dict):
        operators = study.setting.get("operators")
        if operators is not None and operators.text != "not reported":
            out["operators"] = operators.text
    out["design"] = study.design.text if study.design is not None else None
    if _selection(study) == "consecutive":
        out["selection"] = "consecutive"
    return out


def _groups(counted: Sequence[Finding]) -> tuple[tuple[Group, ...], tuple[str, ...]]:
    by_key: dict[tuple[object, ...], list[Finding]] = {}
    reasons: list[str] = []
    seen: dict[str, set[object]] = {axis: set() for axis in _AXES}
    for finding in counted:
        found = axes(finding)
        for axis in _AXES:
            seen[axis].add(found[axis])
        if finding.kind not in ("rate", "grade") or finding.events is None or finding.total is None:
            if "not every one has its counts" not in reasons:
                reasons.append("not every one has its counts")
            continue
        if finding.claim.given is not None:
            if "some speak only of part of those treated" not in reasons:
                reasons.append("some speak only of part of those treated")
            continue
        if any(found[axis] is None for axis in _AXES):
            continue
        by_key.setdefault(tuple(found[axis] for axis in _AXES), []).append(finding)
    for axis in _AXES:
        if None in seen[axis] and axis in _MISSING_WORDS:
            reasons.append(_MISSING_WORDS[axis])
        if len(seen[axis] - {None}) > 1:
            reasons.append(_WORDS[axis])
    groups = [
        Group(tuple(members), sum((item.total or 0) - (item.good_events or 0) for item in members))
        for members in by_key.values()
    ]
    groups.sort(key=lambda group: (-len(group.findings), group.findings[0].base))
    return tuple(groups), tuple(reasons)


def why_not_pooled(together: Together) -> tuple[str, ...]:
    """The sentences behind "not pooled", the most telling first; empty where a pooled rate is shown."""
    if together.groups and together.groups[0].shows_pool:
        return ()
    out = list(together.reasons)
    if together.superseded:
        out.append("some reports are about the same patients")
    if not out and together.groups:
        group = together.groups[0]
        if len(group.findings) < SHOWN_FROM_STUDIES:
            out.append("too few studies that agree on what they count")
        elif group.failures < SHOWN_FROM_FAILURES:
            out.append("too few failures")
    return tuple(dict.fromkeys(out)) or ("too few studies",)
