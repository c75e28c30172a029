"""One side a study: of its tables the one that counts, of its crude and its adjusted estimate the one that decides."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from .comparable import count_patients_once, people_of
from .findings import Finding
from .side import Side


def one_side_a_study(sides: Iterable[Side]) -> tuple[Side, ...]:
    """One side a study: a number before words alone before silence, then the report that counts for its patients."""
    by_place = {(side.finding.base, side.finding.kind): side for side in sides}
    taken: set[str] = set()
    chosen: list[Side] = []
    for worth in range(3):
        counted, _ = count_patients_once(side.finding for side in by_place.values() if _worth(side) == worth)
        for finding in sorted(counted, key=lambda item: _place(by_place[(item.base, item.kind)])):
            if taken.isdisjoint(people_of(finding)):
                taken |= people_of(finding)
                chosen.append(by_place[(finding.base, finding.kind)])
    return tuple(sorted(chosen, key=lambda side: side.finding.base))


def _worth(side: Side) -> int:
    return 2 if side.direction == "not stated" else int(side.is_in_words)


def _place(side: Side) -> tuple[object, ...]:
    """The longest time first; of a trial then everybody as allotted, and what was planned; then the larger number."""
    finding = side.finding
    window = float(finding.window) if finding.window is not None else -1.0
    of_a_part = side.is_allotted and finding.claim.given is not None
    unplanned = side.is_allotted and not is_planned(side)
    return (-window, of_a_part, unplanned, -(finding.total or 0), finding.base, finding.kind)


def is_planned(side: Side) -> bool:
    """True where the report says that this comparison was planned."""
    planned = side.finding.claim.planned
    return planned is not None and planned.text == "yes"


def deciding(crude: Sequence[Side], adjusted: Sequence[Side]) -> tuple[Side, ...]:
    """One side a study, of its crude and its adjusted one that which decides.

    Where groups were not made at random the adjusted one does. In a randomised trial the comparison of the arms does,
    and an adjusted one only where the report planned it: chance made the groups alike, and an adjustment chosen
    afterwards may have been chosen for what it gave (ICH E9, section 5.7, from memory).
    """
    allotted = frozenset[str]().union(*(side.people for side in (*crude, *adjusted) if side.is_allotted))

    def order(side: Side) -> tuple[object, ...]:
        waits = 0
        if not side.people.isdisjoint(allotted):
            waits = int(not is_planned(side)) if side.is_adjusted else 2 * (not _has_interval(side))
        return (_worth(side), waits, not side.is_adjusted, side.finding.base)

    taken: set[str] = set()
    chosen: list[Side] = []
    for side in sorted((*crude, *adjusted), key=order):
        if taken.isdisjoint(side.people):
            chosen.append(side)
            taken |= side.people
    return tuple(sorted(chosen, key=lambda side: side.finding.base))


def _has_interval(side: Side) -> bool:
    """True where counts of both levels, or the printed interval of a ratio, can decide at all."""
    rows: tuple[Finding | None, ...] = (side.finding, side.reference)
    if all(row is not None and row.events is not None and row.total for row in rows):
        return True
    return side.finding.limits("contrast/interval") is not None


def decided_by_counts(side: Side, every: Iterable[Side]) -> bool:
    """True for an adjusted ratio of a randomised trial that was not planned, where the trial's own counts decide.

    every: all sides of the same factor.
    """
    if not side.is_adjusted:
        return False
    alike = [
        other for other in every
        if other.finding.outcome.id == side.finding.outcome.id and other.people & side.people
        and (set(other.covers) & set(side.covers) or other.covers == side.covers)
    ]  # fmt: skip
    crude = one_side_a_study(other for other in alike if not other.is_adjusted)
    return any(other.people & side.people and not other.is_adjusted for other in deciding(crude, [side]))
