"""A report without the values that found no proof, so that no other rule builds on them."""

from __future__ import annotations

from collections.abc import Set
from typing import TypeVar

from ..problems import Position
from ..proof.figures_of import NOT_PROVED
from ..reading.report_model import Report
from ..reading.values import Ends, Length, Missing, Number, Percentage, PValue, Range

_Value = TypeVar("_Value")

_FIGURES = (Number, Percentage, PValue, Length, Ends, Range)


def without_figures_at(report: Report, positions: Set[Position]) -> Report:
    """The same report in which each figure typed at one of these positions reads as if it were not reported.

    A total with candidates and an interval fall as a whole when one of their numbers does. Words stay: their
    positions say whether they may be used.
    """
    return _withheld(report, positions) if positions else report


def _withheld(value: _Value, positions: Set[Position]) -> _Value:
    if isinstance(value, _FIGURES):
        ends = {value.position}
        if isinstance(value, Ends):
            ends |= {value.low.position, value.high.position}
        if positions.isdisjoint(ends):
            return value
        # A measured range has no "not reported": where it is withheld, it is left out.
        return None if isinstance(value, Range) else Missing(NOT_PROVED, value.position)  # type: ignore[return-value]
    if isinstance(value, dict):
        return value  # population and setting hold words alone
    if isinstance(value, tuple):
        parts = [_withheld(part, positions) for part in value]
        if all(new is old for new, old in zip(parts, value, strict=True)):
            return value
        if not hasattr(value, "_fields"):
            return tuple(parts)  # type: ignore[return-value]
        if value._fields[1:2] == ("candidates",):
            return Missing(NOT_PROVED, parts[0])  # type: ignore[return-value]
        return type(value)(*parts)
    return value
