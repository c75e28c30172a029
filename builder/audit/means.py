"""Means of two levels beside the difference that is printed of them, and on which side a level stands."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from ..problems import Problem
from ..proof.asking import ask
from ..reading.model import Outcome
from ..reading.report_model import Contrast, Level
from ..reading.values import Number


def side_of_measured(level: Level, reference: Level, outcome: Outcome) -> tuple[str, str] | None:
    """The side of a mean, else of a median, and how both are printed; None where either is not there."""
    for name in ("mean", "median"):
        own, other = getattr(level, name), getattr(reference, name)
        if type(own) is Number and type(other) is Number:
            shown = f"{own.text} against {other.text}"
            if own.value == other.value:
                return "no clear difference", shown
            return ("better" if (own.value > other.value) == outcome.good else "worse"), shown
    return None


def find_difference(contrast: Contrast, pair: tuple[Level, Level] | None, place: str) -> Iterator[Problem]:
    """An unadjusted difference that the two means, each rounded as printed, do not give."""
    value = contrast.value
    if pair is None or type(value) is not Number:
        return
    level, reference = pair
    own, other = level.mean, reference.mean
    if type(own) is not Number or type(other) is not Number:
        return
    slack = sum((Decimal("0.5") / 10**number.decimals for number in (own, other, value)), Decimal(0))
    found = own.value - other.value
    if abs(found - value.value) <= slack:
        return
    printed = f"{value.text} beside {level.level.text} {own.text}, {reference.level.text} {other.text}"
    if abs(found + value.value) <= slack:
        tells = (
            f'the means give this difference with "{level.level.text}" as the reference: which level does the paper '
            "subtract from which"
        )
        yield ask(value.position, "event-direction", printed, tells, place)
    else:
        tells = f"the means differ by {found}, and this difference is said to be unadjusted"
        yield ask(value.position, "ratio-against-table", printed, tells, place)
