"""What may stand in one field: text as typed with its place, and what the field reads in it."""

from __future__ import annotations

import datetime
from decimal import Decimal

from ..numerals.months import MEAN_MONTHS_IN
from ..problems import Position
from ..records import NamedTuple

# Every value begins with the same two fields, so that whoever only shows or proves it need not ask which one it is.


class Words(NamedTuple):
    """Any text, an id, or a word of a closed list."""

    text: str
    position: Position


class Missing(NamedTuple):
    """ "not reported", "not applicable" or "could not access", in place of a value."""

    text: str
    position: Position


class Number(NamedTuple):
    """A number as typed: "39", ".02", "-3.58", "42,300"."""

    text: str
    position: Position
    value: Decimal
    decimals: int


class Percentage(NamedTuple):
    """A percentage as typed: "83%", "5.40%"."""

    text: str
    position: Position
    value: Decimal
    """Per cent, 0 to 100."""
    decimals: int


class Ends(NamedTuple):
    """A confidence interval as typed: "62% to 80%", "-3.58 to 1.62"."""

    text: str
    position: Position
    low: Number | Percentage
    high: Number | Percentage


class PValue(NamedTuple):
    """A P value with its comparator: ".02", "<.05", ">.9"."""

    text: str
    position: Position
    comparator: str
    """"", "<", "<=", ">" or ">="."""
    value: Decimal
    decimals: int


class Length(NamedTuple):
    """A length of time: "12 months", "3 years 5 months", "90 days"."""

    text: str
    position: Position
    value: Decimal
    """In `unit`; "3 years 5 months" is 41."""
    unit: str
    """day, week, month, year: the smallest that was typed; minute for hours that are no days, and in a range."""
    decimals: int

    @property
    def months(self) -> Decimal:
        """In months of a twelfth of a year; days and weeks by the mean month of 365.25 / 12 days."""
        return self.value * MEAN_MONTHS_IN[self.unit]


class Range(NamedTuple):
    """Where a measured level begins and ends: "up to 3 mm", "over 3 mm", "1 mm to 3 mm"."""

    text: str
    position: Position
    low: Decimal | None
    """None: no lower bound."""
    high: Decimal | None
    unit: str
    low_included: bool
    high_included: bool


class Date(NamedTuple):
    """A real day by ISO 8601."""

    text: str
    position: Position
    value: datetime.date
