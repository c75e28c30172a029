"""The rates that people report for each level of a factor, and the pools they earn."""

from __future__ import annotations

import math

from ...reading.model import Outcome, Question
from ...reading.slugs import slug
from ...records import NamedTuple
from ...results.findings.comparable import Comparability, comparability_of
from ...results.findings.direction import level_rows
from ...results.findings.findings import Catalogue, Finding
from ...results.findings.outcomes import in_order
from ...results.numbers.pooling import RatePool, rate_pool
from ...results.numbers.ratio_pooling import level_key, measured
from ...results.saying.titles import levels_of
from .one_study import level_wording


class LevelRates(NamedTuple):
    """What is counted for one level, as its reports word it, by one outcome."""

    outcome: Outcome
    wording: str
    suffix: str
    """Tells its computed results from those of other levels."""
    comparability: Comparability
    pool: RatePool


def level_findings(catalogue: Catalogue, question: str, factor: str) -> list[Finding]:
    """Rows of levels with numbers, subgroups left out."""
    rows = [
        finding
        for finding in catalogue.of_question(question)
        if finding.factor == factor and not finding.claim.within and finding.kind in ("rate", "grade", "estimate")
    ]
    return [row for row in level_rows(rows) if row.figure("events", "success_rate", "rate", "estimate/value")]


def level_rates(catalogue: Catalogue, question: Question, factor: str) -> list[LevelRates]:
    """Every level of every outcome, in the page's order."""
    return catalogue.once(("level rates", question.id, factor), lambda: _level_rates(catalogue, question, factor))


def _level_rates(catalogue: Catalogue, question: Question, factor: str) -> list[LevelRates]:
    groups: dict[tuple[str, tuple[object, ...]], list[Finding]] = {}
    for finding in level_findings(catalogue, question.id, factor):
        groups.setdefault((finding.outcome.id, level_key(catalogue, finding)), []).append(finding)
    order = {name: index for index, (name, _) in enumerate(levels_of(catalogue, factor))}

    known = catalogue.declared.factors.get(factor)
    is_measured = known is not None and bool(known.unit)

    def place(finding: Finding) -> tuple[object, ...]:
        ids, wording = finding.level_ids, level_wording(finding)
        span = measured(wording, finding.level.range if finding.level is not None else None) if is_measured else None
        if span is not None:
            ends = [float(end) if end is not None else None for end in (span.low, span.high)]
            return (-math.inf if ends[0] is None else ends[0], math.inf if ends[1] is None else ends[1], wording)
        return (order.get(ids[0], len(order)) if ids else len(order), len(ids), wording)

    outcomes = in_order(catalogue, question, {name for name, _ in groups})
    out: list[LevelRates] = []
    taken: set[str] = set()
    for outcome in outcomes:
        mine = [found for (name, _), found in groups.items() if name == outcome.id]
        for found in sorted(mine, key=lambda items: min(place(item) for item in items)):
            first = min(found, key=lambda item: (place(item), item.base))
            wording = level_wording(first)
            suffix = f"{slug(wording)}-{outcome.id}"
            while suffix in taken:
                suffix += "-again"
            taken.add(suffix)
            comparability = comparability_of(found)
            title = f"{wording}, {outcome.title.text}"
            pool = rate_pool(catalogue, f"{question.id}/{factor}", suffix, title, comparability)
            out.append(LevelRates(outcome, wording, suffix, comparability, pool))
    return out
