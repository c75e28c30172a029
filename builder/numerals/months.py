"""Lengths of time in months."""

from __future__ import annotations

from decimal import Decimal

MONTHS_IN = {"month": 1, "year": 12}
"""Whole months: lengths in these units are printed for one another, as "1 year" for "12 months"."""

_DAYS = Decimal("30.4375")  # 365.25 / 12

MEAN_MONTHS_IN = {"day": 1 / _DAYS, "week": 7 / _DAYS, "month": Decimal(1), "year": Decimal(12)}
"""Months of a twelfth of a year; days and weeks by the mean month of 365.25 / 12 days."""
