"""Computed numbers as pages print them: full precision inside, rounded once at the end, the unrounded in a table."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from fractions import Fraction

from ...synthesis.rounding import round_half_up
from ..values.figures import Figure, FigureBook, plain

# House rule: a rate of fewer than a hundred units has no decimals, others have one; a ratio has two.
_UNITS_FOR_DECIMALS = 100
RATIO_DECIMALS = 2
# A float holds no more than this many digits that mean anything.
_FULL = 15
# What a table has as unrounded: enough to recompute every rounded figure, and no noise of the last digits.
_PRINTED = 10


def decimals_for(units: int) -> int:
    """Decimals of a percentage that rests on so many units."""
    return 0 if units < _UNITS_FOR_DECIMALS else 1


def exact(value: float | Fraction | Decimal) -> Decimal:
    """The value as a decimal of full precision, never rounded on the way."""
    if isinstance(value, Decimal):
        return value
    if isinstance(value, Fraction):
        return Decimal(value.numerator) / Decimal(value.denominator)
    return Decimal(format(value, f".{_FULL}g"))


def share(
    book: FigureBook,
    figure_id: str,
    value: float | Fraction,
    units: int,
    workings: str,
    *,
    unit: str = "%",
    of: str = "",
    says: str = "",
    inputs: Iterable[Figure] | None = None,
) -> Figure:
    """A proportion (0 to 1) as a rounded percentage; unrounded it stands in the table of its workings.

    units: what it rests on, which decides the decimals. unit: "risk difference" for a difference of two proportions,
    which is printed in points of a percentage, without the sign.
    """
    sign = "%" if unit == "%" else ""
    return _rounded(book, figure_id, exact(value) * 100, decimals_for(units), sign, unit, workings, says, inputs, of)


def ratio(
    book: FigureBook,
    figure_id: str,
    value: float,
    measure: str,
    workings: str,
    *,
    decimals: int = RATIO_DECIMALS,
    says: str = "",
    inputs: Iterable[Figure] | None = None,
) -> Figure:
    """A ratio, or a standard deviation of its log (measure "none")."""
    return _rounded(book, figure_id, exact(value), decimals, "", measure, workings, says, inputs)


def _rounded(
    book: FigureBook,
    figure_id: str,
    value: Decimal,
    decimals: int,
    sign: str,
    unit: str,
    workings: str,
    says: str,
    inputs: Iterable[Figure] | None,
    of: str = "",
) -> Figure:
    rounded = round_half_up(value, decimals)
    return book.computed(
        figure_id,
        plain(rounded) + sign,
        rounded,
        unit,
        workings,
        inputs=inputs,
        of=of,
        says=says,
        unrounded=trimmed(value),
    )


def trimmed(value: Decimal) -> Decimal:
    """At most ten digits, without zeros that say nothing."""
    short = Decimal(format(value, f".{_PRINTED}g"))
    return short.normalize() if short != 0 else Decimal(0)


def count(
    book: FigureBook,
    figure_id: str,
    value: int,
    unit: str,
    workings: str,
    *,
    says: str = "",
    inputs: Iterable[Figure] | None = None,
) -> Figure:
    """A whole number that we counted or added up."""
    return book.computed(figure_id, str(value), value, unit, workings, inputs=inputs, says=says)
