"""What may stand together: one patient counted once, one window, one definition; and why not, where it may not."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction

from ...reading.folded import folded
from ...reading.model import Flow, Study
from ...reading.slugs import slug
from ...reading.values import Length, Missing, Number, Words
from ...records import NamedTuple
from .findings import Finding

# House rule: a pooled rate is shown from five studies and ten failures; three or four stay in the workings; two never.
SHOWN_FROM_STUDIES = 5
SHOWN_FROM_FAILURES = 10
WORKED_FROM_STUDIES = 3


class Superseded(NamedTuple):
    """A finding about patients whom another report counts for the same construct, window and level."""

    finding: Finding
    by: Finding
    also: tuple[Finding, ...] = ()
    """Those of other reports that count the rest of its patients."""

    @property
    def counting(self) -> tuple[Finding, ...]:
        """All that count them."""
        return self.by, *self.also


class NotCompared(NamedTuple):
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


class Comparability(NamedTuple):
    """The answer about one set of findings: what counts, what was superseded, what stands apart, and what pools."""

    counted: tuple[Finding, ...]
    """One a study for each window, level and strictness; by report and place."""
    superseded: tuple[Superseded, ...]
    not_compared: tuple[NotCompared, ...]
    groups: tuple[Group, ...]
    """Those that show a pool first, then the largest; findings that miss something pooling asks for are in none."""
    reasons: tuple[str, ...]
    """Why what was counted is not one pool; empty where it is."""


def comparability_of(findings: Iterable[Finding]) -> Comparability:
    """Decide for findings of one outcome axis and one factor level (or none).

    The answer depends on the set of findings alone: not on their order, nor on a report given twice.
    """
    unique = {(finding.base, finding.kind): finding for finding in findings}
    ordered = [unique[name] for name in sorted(unique)]
    not_compared: list[NotCompared] = []
    eligible: list[Finding] = []
    for finding in ordered:
        reason = reason_not_compared(finding)
        if reason:
            not_compared.append(NotCompared(finding, reason))
        else:
            eligible.append(finding)
    counted, superseded = count_patients_once(eligible)
    groups, reasons = _groups(counted)
    return Comparability(tuple(counted), tuple(superseded), tuple(not_compared), groups, reasons)


def reason_not_compared(finding: Finding) -> str:
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
    if finding.claim.quotes is not None and has_original_in_guide(finding):
        return "quoted from another report"
    if finding.kind == "pooled" or finding.claim.pooled is not None:
        return "already pooled by a review"
    return ""


def pairs_untold(finding: Finding, done: str = "counted") -> str:
    """Why the numbers of its levels are never those of two independent groups; "" where they may be.

    done: what was done with the units of both, "counted" or "measured".
    """
    is_untold = isinstance(finding.claim.pairs, Missing)
    return f"the same were {done} in both, and how they pair is not reported" if is_untold else ""


def has_original_in_guide(finding: Finding) -> bool:
    """True where the figure that a claim quotes stands in this guide itself, so that it must not count again."""
    quoted = finding.claim.quotes
    if quoted is None:
        return False
    base = quoted.text + (f"/{slug(finding.level.level.text)}" if finding.level is not None else "")
    return any(finding.book.quoted(f"{base}/{name}") is not None for name in _NUMBERS)


_NUMBERS = ("events", "total", "success_rate", "rate", "estimate/value", "contrast/value")


def _selection(study: Study) -> str:
    return study.selection.text if study.selection is not None else ""


def people_of(finding: Finding) -> frozenset[str]:
    """Ids of every study whose patients stand behind a finding, those that a review holds included."""
    ids = {facts.id for facts in finding.studies}
    for facts in finding.studies:
        if facts.study is not None:
            ids.update(word.text for word in facts.study.includes)
    return frozenset(ids)


def count_patients_once(findings: Iterable[Finding]) -> tuple[list[Finding], list[Superseded]]:
    """One finding a study and slot; the better one stays.

    Better is: an estimate at the window, then the higher share examined of those due, then the larger number, then the
    later report; a row of grades after a plain rate, and at last the place, so that the answer is one.
    """
    by_key: dict[tuple[object, ...], dict[str, Finding]] = {}
    for finding in findings:
        by_key.setdefault(supersession_key(finding), {})[f"{finding.base} {finding.kind}"] = finding
    counted: list[Finding] = []
    superseded: list[Superseded] = []
    for members in by_key.values():
        behind = {name: people_of(finding) for name, finding in members.items()}
        if sum(map(len, behind.values())) == len(frozenset().union(*behind.values())) and all(behind.values()):
            # Nobody stands behind two of them, so that nothing gives way.
            counted.extend(members.values())
            continue
        taken: dict[str, Finding] = {}
        gone: list[tuple[Finding, Finding]] = []
        for finding in sorted(members.values(), key=rank):
            people = sorted(behind[f"{finding.base} {finding.kind}"])
            holder = next((taken[study] for study in people if study in taken), None)
            if holder is None:
                counted.append(finding)
                taken.update(dict.fromkeys(people, finding))
            else:
                gone.append((finding, holder))
        for finding, holder in gone:
            # Asked last: who counts the rest of its patients may come after it in the order.
            people = sorted(behind[f"{finding.base} {finding.kind}"])
            others = {taken[study].key: taken[study] for study in people if study in taken}
            also = tuple(other for key, other in others.items() if key not in (holder.key, finding.key))
            superseded.append(Superseded(finding, holder, also))
    counted.sort(key=_place)
    superseded.sort(key=lambda pair: _place(pair.finding))
    return counted, superseded


def _place(finding: Finding) -> tuple[str, str]:
    return (finding.base, finding.kind)


def supersession_key(finding: Finding) -> tuple[object, ...]:
    """What two findings must share before one of them can take the other's place.

    Construct, strictness, good or bad event, window and what it counts from, factor level and subgroup. Where
    strictness says nothing (complications, survival) two outcomes are never one.
    """
    outcome = finding.outcome
    graded = outcome.strictness.text in ("strict", "lenient")
    return (
        outcome.construct.text,
        outcome.strictness.text,
        outcome.good,
        "" if graded else outcome.id,
        _time_key(finding),
        counts_from_healing(finding),
        finding.factor,
        finding.level_ids or (finding.level.level.text if finding.level else ""),
        tuple(sorted((item.factor.text, item.level.text) for item in finding.claim.within)),
        finding.claim.given.text if finding.claim.given else "",
    )


def _time_key(finding: Finding) -> object:
    """The window, or what stands in its place: a rate by a time is another than one when last seen."""
    if finding.kind == "estimate" and finding.estimate is not None and finding.estimate.kind.text == "yearly rate":
        return "yearly"
    if finding.window is not None:
        return finding.window
    follow_up = finding.follow_up
    if follow_up is not None and isinstance(follow_up.timing, Words) and follow_up.timing.text in ("by", "at"):
        return (follow_up.timing.text, follow_up.at.months if isinstance(follow_up.at, Length) else None)
    return "no window"


def counts_from_healing(finding: Finding) -> bool:
    """True where the time begins when the unit had healed: such a share is conditional on healing."""
    start = finding.estimate.start if finding.estimate is not None else None
    if start is None and finding.follow_up is not None:
        start = finding.follow_up.start
    return isinstance(start, Words) and start.text.casefold().startswith("heal")


def rank(finding: Finding) -> tuple[object, ...]:
    """What sorts findings about the same patients, the one that counts first."""
    return (
        0 if finding.kind == "estimate" and finding.window is not None else 1,
        -_share_examined(finding),
        -_size(finding),
        -year(finding),
        1 if finding.kind == "grade" else 0,
        finding.base,
        finding.kind,
    )


def _share_examined(finding: Finding) -> Fraction:
    """The share examined of those due, over all its studies; below zero where one of them does not tell."""
    examined = due = Fraction(0)
    for facts in finding.studies:
        flow = finding.claim.flow or _own_flow(finding, facts.id) or (facts.study.flow if facts.study else None)
        if flow is None or not isinstance(flow.examined, Number):
            return Fraction(-1)
        of = flow.due if isinstance(flow.due, Number) else flow.treated
        if not isinstance(of, Number) or not of.value:
            return Fraction(-1)
        examined += Fraction(flow.examined.value)
        due += Fraction(of.value)
        if finding.claim.flow is not None:
            break
    return examined / due if due else Fraction(-1)


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


AXES = ("construct", "strictness", "basis", "window", "unit", "population", "operators", "design", "selection")

_WORDS = {
    "construct": "they count different things",
    "strictness": "one definition is stricter than the other",
    "basis": "they were judged by different means",
    "window": "they speak of different times, or count from different moments",
    "unit": "they count different units",
    "population": "the people treated differ",
    "operators": "the operators differ",
    "design": "the designs differ",
    "selection": "not all of them took every patient in turn",
}

DEFINITIONS = tuple(_WORDS[axis] for axis in ("construct", "strictness", "basis"))

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
    """What pooling asks for, by axis; None where it was not reported, and that equals nothing.

    Where strictness does not apply, the outcome itself stands for the construct: two complications are never one.
    """
    outcome = finding.outcome
    study = finding.studies[0].study if finding.studies else None
    graded = outcome.strictness.text in ("strict", "lenient")
    window = finding.window
    out: dict[str, object] = {
        "construct": (outcome.construct.text, outcome.good, "" if graded else outcome.id),
        "strictness": _reported(outcome.strictness.text),
        "basis": _reported(outcome.basis.text),
        "window": None if window is None else (window, counts_from_healing(finding)),
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
    if study.population and all(_reported(value.text) for value in study.population.values()):
        out["population"] = tuple(sorted((name, folded(value.text)) for name, value in study.population.items()))
    if isinstance(study.setting, dict) and (operators := study.setting.get("operators")) is not None:
        out["operators"] = _reported(operators.text)
    out["design"] = _reported(study.design.text) if study.design is not None else None
    # A trial has no selection to report: whoever was allocated is in it.
    if _selection(study) in ("consecutive", "not applicable"):
        out["selection"] = "unselected"
    return out


def _reported(text: str) -> str | None:
    """The words to compare; None where they say that nobody told."""
    return None if text in ("not reported", "could not access") else folded(text)


def reasons_against_pooling(found: Sequence[dict[str, object]]) -> tuple[str, ...]:
    """Where findings differ, or do not tell, on what pooling asks for."""
    reasons: list[str] = []
    for axis in AXES:
        seen = {item[axis] for item in found}
        if None in seen and axis in _MISSING_WORDS:
            reasons.append(_MISSING_WORDS[axis])
        if len(seen - {None}) > 1:
            reasons.append(_WORDS[axis])
    return tuple(reasons)


def _groups(counted: Sequence[Finding]) -> tuple[tuple[Group, ...], tuple[str, ...]]:
    by_key: dict[tuple[object, ...], list[Finding]] = {}
    reasons: list[str] = []
    found = [axes(finding) for finding in counted]
    for finding, item in zip(counted, found, strict=True):
        if finding.kind not in ("rate", "grade") or finding.events is None or not finding.total:
            reasons.append("not every one has its counts")
        elif finding.claim.given is not None:
            reasons.append("some speak only of part of those treated")
        elif len(finding.studies) != 1:
            reasons.append("one report joins several studies")
        elif all(item[axis] is not None for axis in AXES):
            by_key.setdefault(tuple(item[axis] for axis in AXES), []).append(finding)
    groups = [
        Group(tuple(members), sum((item.total or 0) - (item.good_events or 0) for item in members))
        for members in by_key.values()
    ]
    groups.sort(key=lambda group: (not group.shows_pool, -len(group.findings), group.findings[0].base))
    return tuple(groups), tuple(dict.fromkeys((*reasons, *reasons_against_pooling(found))))


def why_not_pooled(comparability: Comparability) -> tuple[str, ...]:
    """The sentences behind "not pooled", the most telling first; empty where a pooled rate is shown."""
    if any(group.shows_pool for group in comparability.groups):
        return ()
    if not comparability.counted:
        return ("nothing here counts for a rate",)
    out: list[str] = []
    largest = max((len(group.findings) for group in comparability.groups), default=0)
    if len({study for finding in comparability.counted for study in people_of(finding)}) == 1:
        return ("a single study",)
    if largest < SHOWN_FROM_STUDIES:
        out.append("fewer than five studies agree on what they count")
    else:
        out.append("fewer than ten failures")
    out.extend(comparability.reasons)
    if comparability.superseded:
        out.append("some reports are about the same patients")
    return tuple(dict.fromkeys(out))
