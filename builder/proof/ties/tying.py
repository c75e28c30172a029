"""Every tie of the numbers of one claim or study, kind after kind."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from . import (
    adjustment,
    beside_own,
    controls,
    direction,
    events,
    facts,
    favoured,
    groups,
    halves,
    interval_words,
    levels,
    of_fewer,
    other_analysis,
    other_part,
    recruitment,
    rows,
    shares,
    species,
    statistic,
    tested,
    time_from,
    times,
    units,
    untold_events,
    wholes,
    whose,
)
from .tie import Known, Stands, Ties

Find = Callable[[Sequence[Stands], Ties, Known], None]
"""Looks at all numbers of a scope that stand in their passages, and tells a `Ties` what it finds of one kind."""

ORDER: tuple[tuple[Find, Mapping[str, str]], ...] = (
    (levels.find_level_ties, levels.RULES),
    (events.find_events, events.RULES),
    (beside_own.find_beside_own, beside_own.RULES),
    (whose.find_whose, whose.RULES),
    (species.find_species, species.RULES),
    (recruitment.find_recruitment, recruitment.RULES),
    (facts.find_facts, facts.RULES),
    (times.find_time_ties, times.RULES),
    (time_from.find_starts, time_from.RULES),
    (groups.find_group_ties, groups.RULES),
    (other_part.find_other_parts, other_part.RULES),
    (other_analysis.find_other_analyses, {}),
    (controls.find_controls, controls.RULES),
    (of_fewer.find_of_fewer, of_fewer.RULES),
    (wholes.find_wholes, wholes.RULES),
    (untold_events.find_untold_events, untold_events.RULES),
    (units.find_unit_ties, units.RULES),
    (halves.find_halves, halves.RULES),
    (shares.find_shares, shares.RULES),
    (rows.find_rows, rows.RULES),
    (direction.find_direction, direction.RULES),
    (favoured.find_favoured, {}),
    (adjustment.find_adjustment, adjustment.RULES),
    (statistic.find_statistics, statistic.RULES),
    (interval_words.find_limits, interval_words.RULES),
    (tested.find_tests, tested.RULES),
)
"""One for each kind of tie, with the rules of its questions. `direction` and `statistic` stand behind `events`, since
they leave alone what was asked or settled there (`Ties.asked`, `Ties.settled`)."""

TIE_RULES: dict[str, str] = {rule: paragraph for _, rules in ORDER for rule, paragraph in rules.items()}
"""By rule name: what it found, why it matters, how to answer it."""


def find_ties(of_scopes: Sequence[Ties], known: Known) -> None:
    """Fill in what the passages say of the numbers of each scope, and of a study's facts."""
    for find, _ in ORDER:
        for ties in of_scopes:
            find(ties.standing, ties, known)
