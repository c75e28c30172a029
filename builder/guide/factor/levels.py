"""Levels side by side: the rates that people report for each level, their intervals, and the pools they earn."""

from __future__ import annotations

from collections.abc import Sequence

from ..findings.comparable import DEFINITIONS, axes, reasons_against_pooling
from ..findings.findings import Catalogue, Finding
from ..numbers.pooling import RatePool
from ..numbers.rate_intervals import shown_interval
from ..saying.labels import without_digits
from ..saying.source_reference import source_link
from ..saying.wording import cut, definition, differed, estimate, n_of_n, rate, timing
from ..sections.level_rates import LevelRates
from ..sections.plots import FURTHER, rates_plot, short_label, size_band
from ..values.document import Block, Line, PlotRow, Table, line, typed


def reasons_across(rows: Sequence[LevelRates]) -> tuple[str, ...]:
    """Why rates that stand in different tables are not put together: other definitions, or other limits of a level."""
    counted = [finding for row in rows for finding in row.comparability.counted]
    out = [reason for reason in reasons_against_pooling([axes(item) for item in counted]) if reason in DEFINITIONS]
    drawn: dict[tuple[str, str], set[str]] = {}
    for row in rows:
        for finding in row.comparability.counted:
            for level in finding.level_ids:
                drawn.setdefault((row.outcome.id, level), set()).add(row.suffix)
    if any(len(found) > 1 for found in drawn.values()):
        out.append("they place the limit of a level elsewhere")
    return tuple(out)


def rates_table(catalogue: Catalogue, place: str, rows: list[LevelRates]) -> Table:
    """One row a study and level of one outcome."""
    outcome = rows[0].outcome
    header = ("Level", "How many", "Interval", "When", "Report")
    cells = tuple(
        (
            line(typed(_wording(finding), "definition")),
            line(estimate(finding) if finding.kind == "estimate" else rate(finding), _given(finding)),
            shown_interval(finding, place)
            or line("with the number" if finding.kind == "estimate" else "not computable"),
            timing(finding),
            (source_link(finding.key, catalogue),),
        )
        for row in rows
        for finding in row.comparability.counted
    )
    return Table(
        line("Counted as ", definition(outcome)), tuple(line(cell) for cell in header), cells,
        without_digits(f"Levels side by side: {outcome.title.text}"), "levels",
    )  # fmt: skip


def _given(finding: Finding) -> Line:
    given = finding.claim.given
    return line(
        line(", of ", typed(given.text)) if given is not None else None, differed(finding), cut(finding)
    )  # fmt: skip


def _wording(finding: Finding) -> str:
    return finding.level.level.text if finding.level is not None else ""


def rates_drawing(catalogue: Catalogue, rows: list[LevelRates], anchor: str) -> Block | None:
    """The rates of one outcome with their intervals; of a shown pool the further study stands first."""
    outcome = rows[0].outcome
    drawn: list[PlotRow] = []
    for row in rows:
        drawn.extend(pool_rows(row.pool, row.wording))
        for finding in row.comparability.counted:
            found = _drawn(catalogue, finding)
            if found is not None:
                drawn.append(found)
    if not drawn:
        return None
    title = without_digits(f"Intervals of the rates: {outcome.title.text}")
    says = line(
        "Each notch is a rate, its band the ", typed("95%", "convention"), " interval; numbers in the table above."
    )
    if any(row.shape == "prediction" for row in drawn):
        says = line(says, FURTHER)
    return rates_plot(drawn, anchor, title, says, f"{without_digits(outcome.title.text)}, per cent")


def pool_rows(pool: RatePool, wording: str) -> list[PlotRow]:
    """The further study and the typical study of a shown pool."""
    span = pool.span
    if not pool.is_shown or span is None:
        return []
    found, out = pool.figures, []
    about: Line = line(", ", typed(wording, "definition")) if wording else ()
    if span.prediction is not None and "prediction/low" in found:
        low, high = (100 * end for end in span.prediction)
        numbers = line(found["prediction/low"], " to ", found["prediction/high"])
        out.append(PlotRow(line("a further study", about), None, low, high, numbers, "prediction"))
    numbers = line(found["rate"], ", ", found["studies"], " studies")
    mark = PlotRow(
        line("the typical study", about), 100 * span.point, 100 * span.low, 100 * span.high, numbers, "pooled", True
    )
    return [*out, mark]


def _drawn(catalogue: Catalogue, finding: Finding) -> PlotRow | None:
    label = short_label(catalogue, finding, _wording(finding))
    if finding.kind == "estimate":
        printed, drawn = finding.figure("estimate/value"), finding.limits("estimate/interval")
        if printed is None or drawn is None:
            return None
        value, low, high = (float(figure.number) for figure in (printed, *drawn))
        return PlotRow(label, value, low, high, line(printed), "point")
    ends = limits_in_percent(finding)
    if ends is None or not finding.total:
        return None
    share = 100 * (finding.events or 0) / finding.total
    return PlotRow(label, share, ends[0], ends[1], n_of_n(finding), "point", False, size_band(finding.total))


def limits_in_percent(finding: Finding) -> tuple[float, float] | None:
    """95% limits in per cent for drawing: as printed, else Wilson's."""
    from ...synthesis import wilson_interval

    printed = finding.limits()
    if printed is not None:
        return float(printed[0].number), float(printed[1].number)
    if finding.events is None or not finding.total or finding.events > finding.total:
        return None
    found = wilson_interval(finding.events, finding.total)
    return 100 * found.low, 100 * found.high
