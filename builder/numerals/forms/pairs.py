"""What holds for two numbers that belong together, whatever the form."""

from __future__ import annotations

from decimal import Decimal

from ..printed import Numeral, Printed

_HALF = Decimal("0.5")
_USUAL_IN_TENTHS = Decimal("0.9")
ENDS_PARTED = "DASH TO COMMA SEMICOLON"
"""Kinds that may stand between the ends of an interval."""


def couple(first: Numeral, second: Numeral, first_part: str, second_part: str) -> None:
    """Two numbers are two halves."""
    first.mate, second.mate = second, first
    first.part, second.part = first_part, second_part


def destroy(*numerals: Numeral) -> None:
    """Nobody knows what these were before copying from the paper."""
    for numeral in numerals:
        numeral.is_destroyed = True


def share_unit(low: Numeral, high: Numeral) -> None:
    """A unit printed once holds for both: "62 to 80%"."""
    if low.unit == "none" and high.unit != "none":
        low.unit = high.unit
    elif high.unit == "none" and low.unit == "%":
        high.unit = "%"


def make_interval(printed: Printed, low: Numeral, high: Numeral) -> None:
    """Two numbers are the ends of an interval; in reverse order they are destroyed."""
    share_unit(low, high)
    for end in (low, high):  # "[12,5]": between the ends of an interval a comma is no decimal sign
        if end.is_destroyed and end.piece not in printed.spoilt and printed.text[end.start] != ".":
            end.is_destroyed = False
    if low.value > high.value:  # a minus was lost, or the order: nobody knows which
        destroy(low, high)
        return
    couple(low, high, "low", "high")
    low.form = high.form = "interval"
    printed.commas.update(range(low.piece, high.piece))


def make_confidence(level: Numeral | None) -> None:
    """The 95 of "95% CI", where it was printed; "0.95 CI" is a level of 95% too, "0.9 CI" of 90%."""
    if level is not None:
        is_level = level.decimals >= 2 or level.value == _USUAL_IN_TENTHS
        if is_level and _HALF <= level.value < 1 and level.unit != "%" and not level.is_destroyed:
            level.value, level.decimals = (
                Decimal(f"{level.value:.{max(level.decimals, 2)}f}").scaleb(2),
                max(level.decimals - 2, 0),
            )
        level.form = "confidence"
        level.unit = "%"
