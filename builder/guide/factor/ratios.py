"""Ratios of a factor: as reported, from counts, pooled where that is earned; crude and adjusted never mixed."""

from __future__ import annotations

import math

from ...reading.model import Question
from ...reading.slugs import slug
from ...synthesis import Contrast
from ..findings.authors import first_author
from ..findings.comparable import reason_not_compared
from ..findings.findings import Catalogue, Finding
from ..numbers.ratio_pool_lines import ratio_pool_line
from ..numbers.ratio_pooling import (
    WOOLF,
    RatioPool,
    RatioRow,
)
from ..numbers.sensitivity import ratio_sensitivity
from ..numbers.shown_numbers import ratio, share
from ..saying.labels import without_digits
from ..saying.source_reference import source_link
from ..saying.wording import adjustment, against, contrast, cut
from ..sections.compared_levels import compared_title
from ..sections.comparison import baseline_differences
from ..sections.plots import FURTHER, ratio_row, ratios_plot, short_label
from ..sections.ratio_pools import RatioPools
from ..values.document import Block, Details, Line, Paragraph, PlotRow, Section, Table, line, typed
from ..values.figures import Figure


def ratios_section(catalogue: Catalogue, question: Question, pools: RatioPools, anchor: str) -> Section | None:
    """The ratios of one comparison with their drawing and what may be pooled; None where it has none."""
    place = f"{question.id}/{pools.item.factor}"
    own = [_crude(catalogue, place, row) for row in pools.crude.rows if row.table is not None]
    reported = [side.finding for side in pools.item.every if side.finding.kind == "contrast"]
    if not own and not reported:
        return None
    blocks: list[Block] = []
    heading = compared_title(catalogue, pools.item)
    for name, pool, suffix in (
        ("Crude, from counts", pools.crude, pools.crude_suffix),
        ("Adjusted, as reported", pools.adjusted, pools.adjusted_suffix),
    ):
        if not pool.rows:
            continue
        blocks.append(Paragraph(line(f"{name}: ", ratio_pool_line(pool), "."), "pool"))
        table = ratio_sensitivity(catalogue, place, suffix, pool, f"{name}, {heading}")
        if table is not None:
            blocks.append(Details("How far it moves", (table,), "more"))
    if own:
        blocks.append(_crude_table(catalogue, place, pools.crude, own, heading))
    if reported:
        blocks.append(_reported_table(catalogue, reported, heading))
    drawn = [row for row in (*_pooled_rows(pools), *(row for row, _ in own), *_reported(catalogue, reported)) if row]
    if drawn:
        says = line(
            "Left of the line the event is rarer in the level, right of it more frequent; "
            "filled is adjusted, open crude."
        )
        if any(row.shape == "prediction" for row in drawn):
            says = line(says, FURTHER)
        name = without_digits(f"Intervals of the ratios: {heading}")
        blocks.append(ratios_plot(drawn, f"{anchor}-plot", name, says, "ratio, on a log scale"))
    return Section(heading, anchor, tuple(blocks), "ratios")


def is_shown_ratio(finding: Finding) -> bool:
    """False for subgroups, and for what does not count: animals, withdrawn reports, a review's own."""
    reason = reason_not_compared(finding)
    return not finding.claim.within and (not reason or reason.startswith("a selected"))


def per_unit_section(catalogue: Catalogue, question: str, factor: str) -> Section | None:
    """Ratios for each unit of a measured factor, or of a level that no vocabulary names."""
    found = [
        finding
        for finding in catalogue.of_question(question)
        if finding.kind == "contrast" and finding.factor == factor and not finding.level_ids and is_shown_ratio(finding)
    ]
    if not found:
        return None
    table = _reported_table(catalogue, found, "for each unit")
    return Section("For each unit, or for levels not named here", "ratios-per-unit", (table,), "ratios")


def _crude(catalogue: Catalogue, place: str, row: RatioRow) -> tuple[PlotRow, Line]:
    """One study's own odds ratio from its counts."""
    from ...synthesis import contrast as contrast_of

    stem = slug(row.finding.base.replace("/", " "))
    found = contrast_of(row.table, "odds ratio") if row.table is not None else None
    level = f", {row.finding.level.level.text}" if row.finding.level is not None else ""
    who = f"{first_author(row.finding.source)} {row.finding.claim.id.text}{level}"
    if isinstance(found, Contrast) and found.corrected:
        who += ", 0.5 added to each cell since one is empty"
    workings = catalogue.book.explain(
        f"{place.replace('/', '-')}-odds-ratios", "Odds ratios of single studies",
        "(a × d) / (b × c), interval exp(ln OR ± 1.959964 × √(1/a + 1/b + 1/c + 1/d))",
        published=WOOLF, inputs=row.figures,
    )  # fmt: skip
    half = 1.959963984540054 * row.standard_error
    ends = [("odds-ratio", 0.0, "odds ratio"), ("low", -half, "lower limit"), ("high", half, "upper limit")]
    values = [math.exp(row.log + shift) for _, shift, _ in ends]
    figures = [
        ratio(
            catalogue.book, f"{place}/{stem}-{name}", value, "odds ratio", workings, says=f"{who}, {says}",
            inputs=row.figures,
        )
        for (name, _, says), value in zip(ends, values, strict=True)
    ]  # fmt: skip
    text = line(figures[0], " (", typed("95%", "convention"), " CI ", figures[1], " to ", figures[2], ")")
    point, low, high = values
    return PlotRow(short_label(catalogue, row.finding), point, low, high, text, "point"), text


def _crude_table(
    catalogue: Catalogue, place: str, pool: RatioPool, own: list[tuple[PlotRow, Line]], heading: str
) -> Table:
    """Each study's odds ratio; its weight only where they are pooled."""
    header = ["Report", "Level against reference", "Odds ratio, crude", "Groups differed in"]
    rows = []
    for index, (row, (_, text)) in enumerate(zip(pool.rows, own, strict=True)):
        differ = line(baseline_differences(row.finding), cut(row.finding))
        cells = [line(source_link(row.finding.key, catalogue)), against(row.finding), text, differ]
        if pool.weights:
            cells.append(line(_weight(catalogue, place, row, pool, index)))
        rows.append(tuple(cells))
    if pool.weights:
        header.append("Weight")
    return Table(
        line("The outcome's own event in the level against its reference, from counts"),
        tuple(line(cell) for cell in header), tuple(rows), without_digits(f"Crude ratios: {heading}"), "ratios",
    )  # fmt: skip


def _weight(catalogue: Catalogue, place: str, row: RatioRow, pool: RatioPool, index: int) -> Figure:
    stem = slug(row.finding.base.replace("/", " "))
    return share(
        catalogue.book, f"{place}/{stem}-weight", pool.weights[index], 1, pool.figures["pooled"].workings,
        says=f"weight of {row.finding.key}",
    )  # fmt: skip


def _reported_table(catalogue: Catalogue, reported: list[Finding], heading: str) -> Table:
    header = ("Report", "Ratio or difference", "Adjusted or crude", "Groups differed in")
    rows = tuple(
        (
            line(source_link(finding.key, catalogue)),
            contrast(finding),
            adjustment(finding),
            baseline_differences(finding),
        )
        for finding in reported
    )
    return Table(
        line("As the reports print them, never multiplied by one another"), tuple(line(cell) for cell in header),
        rows, without_digits(f"Ratios as reported: {heading}"), "ratios",
    )  # fmt: skip


def _reported(catalogue: Catalogue, reported: list[Finding]) -> list[PlotRow | None]:
    rows = []
    for finding in reported:
        ends = [finding.figure(f"contrast/{name}") for name in ("value", "interval/low", "interval/high")]
        numbers = [figure for figure in ends if figure is not None]
        measure = finding.contrast.measure.text if finding.contrast is not None else ""
        if len(numbers) == len(ends) and measure.endswith("ratio"):
            text = line(numbers[0], " (", numbers[1], " to ", numbers[2], ")")
            rows.append(ratio_row(line(short_label(catalogue, finding), f", {measure}"), finding, text))
    return rows


def _pooled_rows(pools: RatioPools) -> list[PlotRow]:
    out = []
    for name, pool in (("crude", pools.crude), ("adjusted", pools.adjusted)):
        span, found = pool.span, pool.figures
        if not pool.is_shown or span is None:
            continue
        if span.prediction is not None and "prediction/low" in found:
            text = line(found["prediction/low"], " to ", found["prediction/high"])
            out.append(PlotRow(line(f"a further study, {name}"), None, *span.prediction, text, "prediction"))
        text = line(found["pooled"], ", ", found["studies"], " studies")
        is_filled = name == "adjusted"
        mark = PlotRow(line(f"the typical study, {name}"), span.point, span.low, span.high, text, "pooled", is_filled)
        out.append(mark)
    return out
