"""Every tie of the numbers of one claim or study, kind after kind."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from ...reading.report_model import Source
from ..proving.field_roles import Scope
from . import (
    adjustment,
    direction,
    events,
    groups,
    levels,
    recruitment,
    species,
    statistic,
    tested,
    times,
    units,
    whose,
)
from .tie import Known, Stands, Ties

Find = Callable[[Sequence[Stands], Ties, Known], None]
"""Looks at all numbers of a scope that stand in their passages, and tells a `Ties` what it finds of one kind."""

ORDER: tuple[Find, ...] = (
    levels.find_level_ties,
    events.find_events,
    whose.find_whose,
    species.find_species,
    recruitment.find_recruitment,
    times.find_time_ties,
    groups.find_group_ties,
    units.find_unit_ties,
    direction.find_direction,
    adjustment.find_adjustment,
    statistic.find_statistics,
    tested.find_tests,
)
"""One for each kind of tie."""

TIE_RULES: dict[str, str] = {
    rule: paragraph
    for kind in (
        levels,
        events,
        whose,
        species,
        recruitment,
        times,
        groups,
        units,
        direction,
        adjustment,
        statistic,
        tested,
    )
    for rule, paragraph in kind.RULES.items()
}
"""By rule name: what it found, why it matters, how to answer it."""


def find_ties(scope: Scope, standing: Sequence[Stands], source: Source, known: Known, *, wanted: bool) -> Ties:
    """What the passages say of these numbers, and of a study's facts. wanted: whether somebody is shown the ties."""
    ties = Ties(scope, source, wanted=wanted)
    for find in ORDER:
        find(standing, ties, known)
    return ties
