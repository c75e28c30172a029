"""Which rates one range is told of: each of another study, at one time, by one way; else what the range spans."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from ...records import NamedTuple
from ..findings.comparable import counts_from_healing, people_of
from ..findings.findings import Catalogue, Finding
from ..findings.treatment import way_of


class Ranged(NamedTuple):
    """Rates between whose lowest and highest the others of them lie."""

    findings: tuple[Finding, ...]
    """One a study; fewer than two where no range is told."""
    way: str
    """How all of them were treated, as typed; "" where that tells nothing apart."""
    is_alike: bool
    """True where they share their time, unit, way and of whom they speak; False where the range spans several."""
    leaves_out: bool
    """True where other rates stand in the same list."""


def ranged(catalogue: Catalogue, question: str, counted: Sequence[Finding], within: Finding | None = None) -> Ranged:
    """The range of rates that were counted, that of most studies, of as many the one with most units.

    within: one of them that the range must hold, where studies are alike enough to pool.
    """
    groups: dict[tuple[object, ...], list[Finding]] = {}
    for finding in counted:
        if _has_counts(finding) and finding.window is not None:
            groups.setdefault(_alike(catalogue, question, finding), []).append(finding)
    sets = [(key, one_rate_a_study(found)) for key, found in groups.items()]
    sets = [found for found in sets if len(found[1]) > 1]
    if within is not None:
        sets = [found for found in sets if any(item.base == within.base for item in found[1])] or sets
    if sets:
        key, rows = min(sets, key=lambda found: (*_size(found[1]), found[1][0].base))
        return Ranged(rows, str(key[-1]), True, len(rows) < len(counted))
    units = dict.fromkeys(finding.unit for finding in counted if _has_counts(finding))
    several = [one_rate_a_study(item for item in counted if _has_counts(item) and item.unit == unit) for unit in units]
    rows = min(several, key=lambda found: (*_size(found), found[0].base if found else ""), default=())
    return Ranged(rows if len(rows) > 1 else (), "", False, len(rows) < len(counted))


def _has_counts(finding: Finding) -> bool:
    return finding.kind in ("rate", "grade") and finding.events is not None and bool(finding.total)


def _alike(catalogue: Catalogue, question: str, finding: Finding) -> tuple[object, ...]:
    given = finding.claim.given.text if finding.claim.given is not None else ""
    way = way_of(catalogue, question, finding)
    return (finding.window, counts_from_healing(finding), finding.unit, given, way)


def one_rate_a_study(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Of each study everybody before a part of them, then the latest time, then the larger number."""
    taken: set[str] = set()
    out = []
    for finding in sorted(findings, key=_rank):
        if taken.isdisjoint(people_of(finding)):
            taken |= people_of(finding)
            out.append(finding)
    return tuple(sorted(out, key=lambda item: item.base))


def _rank(finding: Finding) -> tuple[object, ...]:
    return (
        finding.claim.given is not None, finding.window is None, -(finding.window or 0), -(finding.total or 0),
        finding.base,
    )  # fmt: skip


def _size(rows: Sequence[Finding]) -> tuple[int, int]:
    return (-len(rows), -sum(item.total or 0 for item in rows))
