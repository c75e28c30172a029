"""Ratios of a factor: as reported, from counts, pooled where that is earned; crude and adjusted never mixed."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import Literal

from ...reading.model import Question
from ...reading.slugs import slug
from ...reading.values import Words
from ...records import NamedTuple
from ...results.findings.authors import first_author
from ...results.findings.comparable import reason_not_compared
from ...results.findings.findings import Catalogue, Finding
from ...results.findings.which_way import is_adjusted
from ...results.numbers.ratio_pool_lines import ratio_pool_line
from ...results.numbers.ratio_pooling import (
    WOOLF,
    RatioPool,
    RatioRow,
)
from ...results.numbers.sensitivity import ratio_sensitivity
from ...results.numbers.shown_numbers import exact, ratio, share
from ...results.saying.labels import without_digits
from ...results.saying.source_reference import source_link
from ...results.saying.wording import adjustment, against, contrast_numbers, cut, interval
from ...results.values.document import Block, Details, Paragraph, Section, StudyRow, StudyRows
from ...results.values.drawings import StudyScale
from ...results.values.figures import Figure
from ...results.values.line import Line, line, typed
from ...synthesis import Contrast
from ...synthesis.rounding import round_half_up
from ..sections.compared_levels import compared_title
from ..sections.comparison import baseline_differences
from ..sections.ratio_pools import RatioPools
from ..sections.study_rows import exactness, ratio_scale, row_name, told


def ratios_section(
    catalogue: Catalogue, question: Question, pools: RatioPools, anchor: str, told_why: set[tuple[str, ...]]
) -> Section | None:
    """The ratios of one comparison with their drawing and what may be pooled; None where it has none.

    told_why: reasons against pooling that the page has told, as for `not_pooled_line`.
    """
    place = f"{question.id}/{pools.item.factor}"
    reported = [side.finding for side in pools.item.every if side.finding.kind == "contrast"]
    own = [_crude(catalogue, place, row, reported) for row in pools.crude.rows if row.table is not None]
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
        # One row by itself says that there is nothing to pool.
        if len(pool.rows) > 1:
            blocks.append(Paragraph(line(f"{name}: ", ratio_pool_line(pool, told_why), "."), "pool"))
        table = ratio_sensitivity(catalogue, place, suffix, pool, f"{name}, {heading}")
        if table is not None:
            blocks.append(Details("How far it moves", (table,), "more"))
    drawn = [value for item in own for value in item.values]
    drawn.extend(value for item in reported for value in drawn_ratio(item) or ())
    drawn.extend(value for pool in (pools.crude, pools.adjusted) for value in _ends_of(pool))
    scale = ratio_scale(drawn, ("less often", "more often")) if drawn else None
    if own:
        blocks.append(_crude_rows(catalogue, place, pools, own, heading, scale))
    rest = [item for item in reported if all(item is not found.printed for found in own)]
    if rest:
        blocks.append(_reported_rows(catalogue, rest, heading, scale, pools.adjusted))
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
    known = [value for item in found for value in drawn_ratio(item) or ()]
    scale = ratio_scale(known, ("less often", "more often"))
    rows = _reported_rows(catalogue, found, "for each unit", scale if known else None, None)
    return Section("For each unit, or for levels not named here", "ratios-per-unit", (rows,), "ratios")


Ratio = tuple[float, float, float]
"""A ratio and the ends of its interval."""


class OwnRatio(NamedTuple):
    """One study's odds ratio from its counts."""

    values: Ratio
    said: Line
    printed: Finding | None
    """The claim by which the report prints the same, and then `said` is as printed; else None."""


def _crude(catalogue: Catalogue, place: str, row: RatioRow, reported: Iterable[Finding]) -> OwnRatio:
    """One study's own odds ratio with its ends; computed where the report does not print the very same."""
    from ...synthesis import contrast as contrast_of

    half = 1.959963984540054 * row.standard_error
    shifts = (0.0, -half, half)
    point, low, high = (math.exp(row.log + shift) for shift in shifts)
    printed = next((item for item in reported if _prints_the_same(item, row.finding, (point, low, high))), None)
    if printed is not None:
        return OwnRatio((point, low, high), _value_and_interval(printed), printed)
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
    figures = [
        ratio(
            catalogue.book, f"{place}/{stem}-{name}", value, "odds ratio", workings, says=f"{who}, {says}",
            inputs=row.figures,
        )
        for name, says, value in (
            ("odds-ratio", "odds ratio", point), ("low", "lower limit", low), ("high", "upper limit", high)
        )
    ]  # fmt: skip
    text = line(figures[0], " (", typed("95%", "convention"), " CI ", figures[1], " to ", figures[2], ")")
    return OwnRatio((point, low, high), text, None)


def _prints_the_same(printed: Finding, counts: Finding, values: Ratio) -> bool:
    """True where a report's crude odds ratio and its 95% limits are those of its counts, to the last printed digit."""
    item = printed.contrast
    if item is None or item.measure.text != "odds ratio" or printed.key != counts.key:
        return False
    if not (isinstance(item.adjusted_for, Words) and item.adjusted_for.text == "none"):
        return False
    if against(printed) != against(counts) or line(baseline_differences(printed)) != line(baseline_differences(counts)):
        return False
    shown, limits = printed.figure("contrast/value"), printed.limits("contrast/interval")
    if shown is None or limits is None:
        return False
    return all(
        figure.text[0] in "0123456789.·" and round_half_up(exact(value), _decimals(figure)) == figure.number
        for figure, value in zip((shown, *limits), values, strict=True)
    )


def _decimals(figure: Figure) -> int:
    return len(figure.value.partition(".")[2])


def _value_and_interval(printed: Finding) -> Line:
    return line(printed.figure("contrast/value"), " (", interval(printed, "contrast/interval"), ")")


def _crude_rows(
    catalogue: Catalogue,
    place: str,
    pools: RatioPools,
    own: list[OwnRatio],
    heading: str,
    scale: StudyScale | None,
) -> StudyRows:
    """Each study's odds ratio, the most exact first; its weight only where they are pooled."""
    pool = pools.crude
    rows = []
    found = enumerate(zip(pool.rows, own, strict=True))
    for index, (row, ratio_of) in sorted(
        found, key=lambda item: exactness(item[1][1].values, None, item[1][0].finding.base, is_ratio=True)
    ):
        finding = row.finding
        differ = line(baseline_differences(finding), cut(finding))
        facts = [("Report", line(source_link(finding.key, catalogue))), ("Groups differed in", differ)]
        if pool.weights:
            facts.append(("Weight", line(_weight(catalogue, place, row, pool, index))))
        rows.append(
            StudyRow(row_name(catalogue, finding.key), against(finding), ratio_of.said, told(facts), *ratio_of.values)
        )
    as_printed = "; as printed where the report prints the same" if any(item.printed for item in own) else None
    caption = line("Odds ratio of the outcome's own event, level against reference, crude, from counts", as_printed)
    label = without_digits(f"Crude ratios: {heading}")
    return StudyRows(caption, label, (*_pooled_rows(pool, "crude"), *rows), scale)


def _weight(catalogue: Catalogue, place: str, row: RatioRow, pool: RatioPool, index: int) -> Figure:
    stem = slug(row.finding.base.replace("/", " "))
    return share(
        catalogue.book, f"{place}/{stem}-weight", pool.weights[index], 1, pool.figures["pooled"].workings,
        says=f"weight of {row.finding.key}",
    )  # fmt: skip


def _reported_rows(
    catalogue: Catalogue, reported: list[Finding], heading: str, scale: StudyScale | None, pool: RatioPool | None
) -> StudyRows:
    rows = []
    for finding in sorted(reported, key=_exactness):
        point, low, high = drawn_ratio(finding) or (None, None, None)
        facts = (
            ("Report", line(source_link(finding.key, catalogue))),
            ("Adjusted or crude", adjustment(finding)),
            ("Groups differed in", baseline_differences(finding)),
        )
        shape: Literal["open", "filled"] = "filled" if is_adjusted(finding) else "open"
        rows.append(
            StudyRow(
                row_name(catalogue, finding.key), against(finding), contrast_numbers(finding), told(facts), point,
                low, high, shape,
            )
        )  # fmt: skip
    caption = line("As the reports print them, never multiplied by one another")
    label = without_digits(f"Ratios as reported: {heading}")
    first = _pooled_rows(pool, "adjusted") if pool is not None else []
    return StudyRows(caption, label, (*first, *rows), scale)


def _exactness(finding: Finding) -> tuple[float, float, str]:
    return exactness(drawn_ratio(finding) or (None, None, None), None, finding.base, is_ratio=True)


def drawn_ratio(finding: Finding) -> Ratio | None:
    """A ratio as reported with the ends of its 95% interval; None where one is missing or it is no ratio."""
    printed, limits = finding.figure("contrast/value"), finding.limits("contrast/interval")
    if finding.contrast is None or not finding.contrast.measure.text.endswith("ratio"):
        return None
    if printed is None or limits is None or any(figure.number <= 0 for figure in (printed, *limits)):
        return None
    return float(printed.number), float(limits[0].number), float(limits[1].number)


def _ends_of(pool: RatioPool) -> tuple[float, ...]:
    """Everything of a shown pool that is drawn."""
    if not pool.is_shown or pool.span is None:
        return ()
    return (pool.span.low, pool.span.high, *(pool.span.prediction or ()))


def _pooled_rows(pool: RatioPool, name: str) -> list[StudyRow]:
    """The typical study of a shown pool, and where a further one may lie."""
    span, found = pool.span, pool.figures
    if not pool.is_shown or span is None:
        return []
    out = []
    if span.prediction is not None and "prediction/low" in found:
        text = line(found["prediction/low"], " to ", found["prediction/high"], " (prediction interval)")
        out.append(StudyRow("a further study", line(name), text, (), None, *span.prediction, is_broken=True))
    text = line(found["pooled"], ", ", found["studies"], " studies")
    shape: Literal["open", "filled"] = "filled" if name == "adjusted" else "open"
    out.append(StudyRow("the typical study", line(name), text, (), span.point, span.low, span.high, shape))
    return out
