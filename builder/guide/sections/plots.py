"""Drawings of directions, intervals and times as values; beside each stands a table that says the same."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from ...reading.values import Length
from ..findings.direction import Side
from ..findings.findings import Catalogue, Finding
from ..findings.which_way import is_adjusted
from ..saying.event_words import way_words
from ..saying.source_reference import source_link
from ..saying.wording import FEW_FOLLOWED, few_followed, length, n_of_n, percent, rate
from ..values.document import Line, Marked, Plot, PlotRow, line, typed

# House rule: bands of the number of units that a mark's size stands for.
SIZE_BANDS = (25, 50, 100)
# House rule: below ten units, or ten still at risk, a mark is faded.
FADED_BELOW = 10
_SHAPES = {"better": "better", "worse": "worse", "no clear difference": "level"}


FURTHER: Line = line(
    " A line with two ends: where a further study may lie (", Marked("convention", "95%"), " prediction interval)."
)


def short_label(catalogue: Catalogue, finding: Finding, more: str = "") -> Line:
    """A report by author and year, with the level where several stand in one drawing."""
    return line(*source_link(finding.key, catalogue).line, typed(f", {more}", "definition") if more else None)


def size_band(units: int) -> int:
    """0 to 3."""
    return sum(units >= limit for limit in SIZE_BANDS)


def direction_plot(catalogue: Catalogue, sides: Sequence[Side], anchor: str, title: str, finding: Line) -> Plot:
    """One mark a study: its side, filled where adjusted, its size by units; the table beside it counts."""
    rows = tuple(
        PlotRow(
            label=short_label(catalogue, side.finding),
            point=None,
            low=None,
            high=None,
            figures=line(
                way_words(side.finding, side.direction) or side.direction, ", adjusted" if side.is_adjusted else None
            ),
            shape=_SHAPES.get(side.direction, "unstated"),
            is_filled=side.is_adjusted,
            size=size_band(side.units),
        )
        for side in sides
    )
    return Plot("direction", anchor, title, finding, rows, 0.0, 1.0, (), "")


def rates_plot(rows: Sequence[PlotRow], anchor: str, title: str, finding: Line, axis: str) -> Plot:
    """Rates with their intervals from 0 to 100 per cent."""
    ticks = tuple((float(at), str(at)) for at in (0, 25, 50, 75, 100))
    return Plot("intervals", anchor, title, finding, tuple(rows), 0.0, 100.0, ticks, axis)


_RATIO_TICKS = (0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0)


def ratios_plot(rows: Sequence[PlotRow], anchor: str, title: str, finding: Line, axis: str) -> Plot:
    """Ratios with their intervals on a log scale, a line at no difference."""
    values = [value for row in rows for value in (row.low, row.high, row.point) if value is not None and value > 0]
    low = max(min([*values, 0.5]), _RATIO_TICKS[0])
    high = min(max([*values, 2.0]), _RATIO_TICKS[-1])
    first = max(tick for tick in _RATIO_TICKS if tick <= low * (1 + 1e-9))
    last = min(tick for tick in _RATIO_TICKS if tick >= high * (1 - 1e-9))
    ticks = tuple((tick, f"{tick:g}") for tick in _RATIO_TICKS if first <= tick <= last)
    return Plot("intervals", anchor, title, finding, tuple(rows), first, last, _thinned(ticks), axis, True, 1.0)


def _thinned(ticks: tuple[tuple[float, str], ...]) -> tuple[tuple[float, str], ...]:
    """No more labels than fit side by side; the ends and the line of no difference stay."""
    if len(ticks) <= 7:
        return ticks
    return tuple(
        tick for index, tick in enumerate(ticks) if index in (0, len(ticks) - 1) or tick[0] in (0.1, 1.0, 10.0)
    )


def ratio_row(label: Line, finding: Finding, figures: Line) -> PlotRow | None:
    """A ratio as reported; None without its value and its 95% interval."""
    printed, limits = finding.figure("contrast/value"), finding.limits("contrast/interval")
    if printed is None or limits is None or any(figure.number <= 0 for figure in (printed, *limits)):
        return None
    value, low, high = (float(figure.number) for figure in (printed, *limits))
    return PlotRow(label, value, low, high, figures, "point", is_adjusted(finding), 0)


def has_time(finding: Finding) -> bool:
    """False for a rate that belongs to no time at all: it stands below the line."""
    if finding.kind == "estimate":
        return finding.estimate is not None and isinstance(finding.estimate.at, Length)
    timing = finding.follow_up
    if timing is None:
        return False
    if getattr(timing.timing, "text", "") in ("at", "by") and isinstance(timing.at, Length):
        return True
    return isinstance(timing.minimum, Length) or isinstance(timing.maximum, Length)


def time_row(catalogue: Catalogue, finding: Finding, *, is_superseded: bool = False) -> PlotRow | None:
    """A rate or estimate on the time it was counted: a point, or a span with its median; None without a time."""
    label = short_label(catalogue, finding)
    if finding.kind == "estimate":
        estimate = finding.estimate
        if estimate is None or not isinstance(estimate.at, Length):
            return None
        value, at_risk = finding.figure("estimate/value"), finding.figure("estimate/at_risk")
        figures = line(
            percent(value) if value else "not reported",
            line(", ", at_risk, " at risk", few_followed(finding)) if at_risk else ", at risk not reported",
        )
        if at_risk is not None and at_risk.number == 0:
            # Where nobody is followed nothing is drawn: the table says what the report printed.
            return None
        few = at_risk is not None and at_risk.number < FEW_FOLLOWED
        at = float(estimate.at.months)
        return PlotRow(label, at, None, None, figures, "survival", True, 0, is_superseded or few)
    return _rate_on_time(finding, label, is_superseded)


def _rate_on_time(finding: Finding, label: Line, is_superseded: bool) -> PlotRow | None:
    timing = finding.follow_up
    if timing is None:
        return None
    few = finding.total is not None and finding.total < FADED_BELOW
    is_faded = is_superseded or few
    size = size_band(finding.total or 0)
    figures = rate(finding) if finding.events is None else n_of_n(finding)
    kind = getattr(timing.timing, "text", "")
    if finding.window is not None and isinstance(timing.at, Length):
        return PlotRow(label, float(timing.at.months), None, None, figures, "point", False, size, is_faded)
    middle = _months(timing.median)
    if kind in ("by", "at") and isinstance(timing.at, Length):
        # "by" is a span from the start; "at" without a tolerance that holds is a span of nothing known: its time alone.
        low, high = (0.0 if kind == "by" else float(timing.at.months)), float(timing.at.months)
        return PlotRow(label, None, low, high, figures, "span", False, size, is_faded, middle)
    low_end, high_end = _months(timing.minimum), _months(timing.maximum)
    if low_end is None and high_end is None:
        return None
    low = low_end if low_end is not None else 0.0
    high = high_end if high_end is not None else low
    return PlotRow(label, None, low, max(low, high), figures, "span", False, size, is_faded, middle)


def _months(value: object) -> float | None:
    return float(value.months) if isinstance(value, Length) else None


def time_plot(
    rows: Sequence[PlotRow], anchor: str, title: str, finding: Line, axis: str, latest_stated: float, asked_to: float
) -> Plot:
    """Rows on a scale of months, with ticks at whole years where they are few enough, and the gap where nothing is.

    known_to: the latest stated time, 0 without one. asked_to: how far somebody wants to know. The scale holds both, and
    something later than what is known, so that early evidence alone is seen to end.
    """
    ends = [value for row in rows for value in (row.point, row.high, row.tick) if value is not None]
    last = max([*ends, 12.0, latest_stated * 1.2, asked_to])
    step = next((size for size in (3, 6, 12, 24, 48, 60, 120) if last / size <= 6), 240)
    high = float(math.ceil(last / step) * step)
    ticks = tuple((float(at), str(at)) for at in range(0, int(high) + 1, step))
    gap = PlotRow(
        line("no rate at a stated time" + (" after that" if latest_stated else "")),
        None,
        latest_stated,
        high,
        (),
        "gap",
    )
    return Plot("time", anchor, title, finding, (*rows, gap), 0.0, high, ticks, axis)


def latest(findings: Iterable[Finding]) -> tuple[Finding, Line] | None:
    """The finding at the latest stated time (of several the largest), and that time."""
    timed = [finding for finding in findings if finding.window is not None]
    if not timed:
        return None
    best = min(timed, key=lambda item: (-(item.window or 0), -(item.total or 0), item.base))
    at = best.figure("estimate/at") if best.kind == "estimate" else best.time("at")
    return (best, length(at)) if at is not None else None
