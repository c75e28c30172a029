"""What is known of everybody who went one way, by outcome: the rows that may stand beside those of another way."""

from __future__ import annotations

from collections.abc import Sequence

from ...reading.model import Option, Outcome, Question
from ...records import NamedTuple
from ...results.findings.comparable import count_patients_once, counts_from_healing, people_of, reason_not_compared
from ...results.findings.findings import Catalogue, Finding
from ...results.findings.levels_covered import levels_covered
from ...results.findings.outcomes import in_order
from ...results.findings.treatment import treated
from ...results.saying.reversals import replaced_by_estimate
from ...results.saying.wording import few_followed
from ..sections.level_rates import level_findings
from .over_time import overall_findings

# House rule: so many times of one outcome stand in a row, and those of comparisons between ways; its page has all.
_TIMES_SHOWN = 2


class Told(NamedTuple):
    """Findings of one outcome for one way."""

    outcome: Outcome
    groups: tuple[tuple[Finding, ...], ...]
    """Those that share time and definition together; what has no stated time last."""


def told_of(catalogue: Catalogue, question: Question, option: Option) -> tuple[Told, ...]:
    """What is known of everybody who went one way, by outcome, each patient counted once."""
    by_outcome: dict[str, list[Finding]] = {}
    for finding in _findings(catalogue, question, option):
        by_outcome.setdefault(finding.outcome.id, []).append(finding)
    out = []
    for outcome in in_order(catalogue, question, by_outcome):
        counted, _ = count_patients_once(by_outcome[outcome.id])
        whole = {(row.window, study) for row in counted if row.claim.given is None for study in people_of(row)}
        counted = [
            row
            for row in counted
            if row.claim.given is None or not all((row.window, study) in whole for study in people_of(row))
        ]
        groups: dict[tuple[object, ...], list[Finding]] = {}
        for finding in counted:
            groups.setdefault(_alike(finding), []).append(finding)
        ordered = sorted(groups.items(), key=lambda group: (str(group[0][0]) == "None", group[0][1], group[1][0].base))
        out.append(Told(outcome, tuple(tuple(group) for _, group in ordered)))
    return tuple(out)


def _alike(finding: Finding) -> tuple[object, ...]:
    """What rates must share to stand as one range; an estimate stands alone, and what was last seen shares no time."""
    window, timing = finding.window, finding.follow_up
    start = getattr(timing.start, "text", "") if timing is not None else ""
    is_alone = window is None or finding.kind == "estimate" or finding.events is None or not finding.total
    own = finding.base if is_alone else ""
    given = finding.claim.given.text if finding.claim.given is not None else ""
    return (window, float(window or 0), counts_from_healing(finding), start, finding.unit, given, own)


def _findings(catalogue: Catalogue, question: Question, option: Option) -> list[Finding]:
    """Rates of a level, of studies in which everybody was treated so, and of outcomes that the file names for it."""
    out = _of_everybody(catalogue, question, option)
    if option.is_factor is not None and option.is_level is not None:
        seen = {(row.outcome.id, study) for row in out for study in people_of(row)}
        factor, level = option.is_factor.text, option.is_level.text
        out.extend(
            row
            for row in level_findings(catalogue, question.id, factor)
            if row.level is not None
            and levels_covered(catalogue, factor, row.level.level.text, row.level.range) == (level,)
            and seen.isdisjoint((row.outcome.id, study) for study in people_of(row))
        )
    return [row for row in out if _is_told(catalogue, question, row)]


def _of_everybody(catalogue: Catalogue, question: Question, option: Option) -> list[Finding]:
    named = {word.text for word in option.overall}
    wording = catalogue.declared.factors.get(option.is_factor.text) if option.is_factor is not None else None
    level = option.is_level.text if option.is_level is not None else ""
    out = []
    for row in overall_findings(catalogue, question.id):
        way = treated(row) if wording is not None else ""
        levels = [item.id.text for item in wording.matches(way)] if wording is not None and way else []
        if row.outcome.id in named or levels == [level]:
            out.append(row)
    return out


def _is_told(catalogue: Catalogue, question: Question, row: Finding) -> bool:
    """False for what is compared with nothing, has no counts, or gave way to an estimate at a time."""
    has_numbers = row.kind == "estimate" or (row.figure("events") is not None and row.figure("total") is not None)
    is_replaced = row.level is None and replaced_by_estimate(catalogue, question.id, row) is not None
    return has_numbers and not is_replaced and not reason_not_compared(row)


def healed_in(found: Sequence[Told]) -> tuple[Told, ...]:
    """Success by one strictness: strict where it was counted so, never strict and lenient of different studies."""
    graded = [item for item in found if _is_graded(item.outcome)]
    strict = tuple(item for item in graded if item.outcome.strictness.text == "strict")
    return strict or tuple(graded)


def _is_graded(outcome: Outcome) -> bool:
    return outcome.good and outcome.reverses is None and outcome.strictness.text in ("strict", "lenient")


def kept_in(found: Sequence[Told]) -> tuple[Told, ...]:
    """How many units were still there."""
    return tuple(item for item in found if item.outcome.construct.text == "survival")


def wrong_in(found: Sequence[Told]) -> tuple[Told, ...]:
    """Endings that nobody wants; what takes healing back has a list of its own."""
    return tuple(item for item in found if not item.outcome.good and item.outcome.reverses is None)


def times_shown(groups: tuple[tuple[Finding, ...], ...]) -> tuple[tuple[Finding, ...], ...]:
    """Of many times that of most studies, the latest, and whatever one study counted of several ways; by time.

    One at which fewer than ten were still followed gives way where another time stands.
    """
    groups = tuple(group for group in groups if not all(few_followed(row) for row in group)) or groups
    if len(groups) <= _TIMES_SHOWN:
        return groups
    timed = [at for at, group in enumerate(groups) if group[0].window is not None] or list(range(len(groups)))
    by_size = sorted(timed, key=lambda at: (-len(groups[at]), -sum(row.total or 0 for row in groups[at])))
    beside = [at for at, group in enumerate(groups) if any(row.level is not None for row in group)]
    return tuple(groups[at] for at in sorted({by_size[0], timed[-1], *beside}))
