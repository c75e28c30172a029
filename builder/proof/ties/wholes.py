"""Counts with the wholes that a claim gives them, for every kind of tie between the two."""

from __future__ import annotations

from collections.abc import Sequence

from . import earlier_step, footnote_totals, made_up, of_sufferers, some_of_all, whole_with_event
from .tie import Known, Stands, Ties

_KINDS = (some_of_all, whole_with_event, of_sufferers, made_up, footnote_totals, earlier_step)
RULES: dict[str, str] = {rule: paragraph for kind in _KINDS for rule, paragraph in kind.RULES.items()}


def find_wholes(standing: Sequence[Stands], ties: Ties, known: Known) -> None:
    """Every count of events whose total stands in the same passage."""
    claim = ties.scope.claim
    if claim is None or claim.quotes is not None:
        return
    totals = {each.block: each for each in standing if each.row.name == "total"}
    if not totals:
        return
    pairs = [
        (each, totals[each.block]) for each in standing
        if each.row.name == "events" and each.block in totals and totals[each.block].reading is each.reading
    ]  # fmt: skip
    if pairs:
        some_of_all.find_some_of_all(claim, pairs, ties, known)
        whole_with_event.find_wholes_with_event(claim, pairs, ties, known)
        of_sufferers.find_totals_of_sufferers(claim, pairs, ties, known)
        made_up.find_made_up(claim, pairs, ties, known)
        footnote_totals.find_footnote_totals(pairs, ties)
        earlier_step.find_earlier_steps(claim, pairs, ties)
