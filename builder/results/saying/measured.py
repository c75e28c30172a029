"""What was measured in a level, in words: its mean or median, how it was spread, in what unit, and in how many."""

from __future__ import annotations

import re

from ...audit.tables import in_percent
from ...reading.values import Words
from ..findings.findings import Finding
from ..values.figures import Figure
from ..values.line import Line, joined, line, typed

_TIMES = frozenset({"minute", "hour", "day", "week", "month", "year"})


def in_many(unit: str) -> str:
    """A unit of what was measured as it stands behind a number: "minutes", "mm"."""
    return f"{unit}s" if unit in _TIMES else unit


def measure_unit(finding: Finding, figure: Figure | None = None) -> Line:
    """ " mm", as the claim has it; that it is not reported, where it says so. figure: what stands before it."""
    contrast = finding.contrast
    unit = contrast.unit if contrast is not None and contrast.unit is not None else finding.claim.unit
    if isinstance(unit, Words):
        is_one = figure is not None and figure.value == "1"
        return line(" ", typed(unit.text if is_one else in_many(unit.text)))
    return line(" (unit not reported)")


def contrast_unit(finding: Finding, value: Figure | None) -> Line:
    """ " minutes" of a difference of means, " percentage points" of one of risks where that is typed; else empty."""
    item = finding.contrast
    if item is None or item.measure.text not in ("mean difference", "risk difference"):
        return ()
    if item.measure.text == "mean difference":
        return () if value is not None and _ends_in_hours(value.text) else measure_unit(finding, value)
    # A risk difference is between -1 and 1 where no unit is typed; a per cent sign is its unit already.
    has_own = value is not None and _has_unit(value)
    if has_own:
        return ()
    if isinstance(item.unit, Words):
        return line(" ", typed(item.unit.text))
    return line(" percentage points") if in_percent(item) else ()


def measured(finding: Finding, counted: str) -> Line:
    """ "mean 2.6 mm (SD 1.1), 38 eyes". counted: what the total counts, as a word behind it."""
    level = finding.level
    parts: list[Line] = []
    if level is not None and level.mean is not None:
        spread = finding.figure("sd")
        parts.append(_with_unit("mean", finding, "mean", line(" (SD ", spread or "not reported", ")")))
    if level is not None and level.median is not None:
        low, high = finding.figure("iqr/low"), finding.figure("iqr/high")
        ends = line(low, " to ", high) if low and high else line("not reported")
        parts.append(_with_unit("median", finding, "median", line(" (interquartile range ", ends, ")")))
    return line(joined(parts, ", "), ", ", _number_measured(finding, counted))


def _with_unit(name: str, finding: Finding, field: str, spread: Line) -> Line:
    figure = finding.figure(field)
    if figure is None:
        return line(name, " not reported", spread)
    return line(name, " ", figure, None if _has_unit(figure) else measure_unit(finding, figure), spread)


def _has_unit(figure: Figure) -> bool:
    """Whether a number is shown with its unit: "83%", and "11.4 hours", which is one number as it is read."""
    return figure.text.rstrip().endswith("%") or _ends_in_hours(figure.text) is not None


_ends_in_hours = re.compile(r"\d[\s\u00a0\u2009-]*(?:h|hrs?|hours?)\s*$", re.IGNORECASE).search


def _number_measured(finding: Finding, counted: str) -> Line:
    total, first, second = finding.figure("total"), finding.figure("total/1"), finding.figure("total/2")
    if total is not None:
        return line(total, f" {counted}")
    if first is not None and second is not None:
        return line(first, " or ", second, f" {counted} (the report prints both)")
    return line("in how many not reported")
