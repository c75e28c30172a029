"""Patterns of print are made late, as those of numbers are."""

from __future__ import annotations

from ...numerals.late import holds_any as holds_any, late as late
