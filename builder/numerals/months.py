"""Lengths of time in months."""

from __future__ import annotations

from decimal import Decimal

MONTHS_IN = {"month": 1, "year": 12}
"""Whole months: lengths in these units are printed for one another, as "1 year" for "12 months"."""

_DAYS = Decimal("30.4375")  # 365.25 / 12

MEAN_MONTHS_IN = {
    "minute": 1 / (_DAYS * 1440), "day": 1 / _DAYS, "week": 7 / _DAYS, "month": Decimal(1), "year": Decimal(12),
}  # fmt: skip
"""Months of a twelfth of a year; days and weeks by the mean month of 365.25 / 12 days."""


def of_hours(hours: Decimal) -> tuple[Decimal, str, int]:
    """Value, unit and decimals of a length in hours: whole days are days, "24 hours" is 1 day; others are minutes."""
    days = hours / 24
    if hours and days == int(days):
        return Decimal(int(days)), "day", 0
    minutes = hours * 60
    return (Decimal(int(minutes)), "minute", 0) if minutes == int(minutes) else (minutes, "minute", 1)
