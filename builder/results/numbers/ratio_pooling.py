"""Pooled ratios: crude ones from counts, reported adjusted ones apart; shown where they are earned."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable

from ...proof.declared_names import Span as Measured, span_of, span_of_wording
from ...reading.values import Missing, Range, Words
from ...records import NamedTuple
from ...synthesis import Pooled, Refusal, TwoByTwo, contrast
from ..findings.comparable import (
    AXES,
    SHOWN_FROM_FAILURES,
    SHOWN_FROM_STUDIES,
    WORKED_FROM_STUDIES,
    axes,
    reason_not_compared,
    reasons_against_pooling,
)
from ..findings.findings import Catalogue, Finding
from ..findings.side import Side
from ..values.figures import Figure
from .clearness import counts_of_both
from .pooling import Span
from .shown_numbers import RATIO_DECIMALS, count, ratio

# 1.959964: the normal quantile behind a 95% interval.
_Z = 1.959963984540054
MODEL = (
    "Viechtbauer 2005, J Educ Behav Stat 30:261-293 (REML); Roever, Knapp, Friede 2015, BMC Med Res Methodol 15:99 "
    "(truncated Knapp-Hartung interval); prediction interval: Higgins, Thompson, Spiegelhalter 2009, J R Stat Soc A "
    "172:137-159; limits of tau by the Q-profile: Viechtbauer 2007, Stat Med 26:37-52"
)
MANTEL_HAENSZEL = "Robins, Breslow, Greenland 1986, Biometrics 42:311-323"
WOOLF = "Woolf 1955, Ann Hum Genet 19:251-253"
_FORMULA = "logs weighted by 1 / (SE² + tau²); interval with t(k - 1); further study m ± t(k - 2) × √(tau² + SE²)"


class RatioRow(NamedTuple):
    """One study's ratio on the log scale, with what it must share with others to be pooled."""

    finding: Finding
    log: float
    standard_error: float
    table: TwoByTwo | None
    """None for a ratio as the report prints it."""
    figures: tuple[Figure, ...]
    key: tuple[object, ...] | None
    """What pooling asks for; None where something of it was not reported."""

    @property
    def failures(self) -> int | None:
        """Units that did badly, both arms; None beside a printed ratio."""
        if self.table is None:
            return None
        events = self.table.events + self.table.reference_events
        return self.table.total + self.table.reference_total - events if self.finding.outcome.good else events


class RatioPool(NamedTuple):
    """What may be said of several studies' ratios together."""

    measure: str
    rows: tuple[RatioRow, ...]
    """The studies that agree, or all of them where no two do."""
    is_shown: bool
    figures: dict[str, Figure]
    """pooled, interval/low, interval/high, prediction/low, prediction/high, tau, studies; range/low, range/high."""
    span: Span | None
    is_without_variation: bool
    reasons: tuple[str, ...]
    weights: tuple[float, ...]
    """Shares of the pooled number, one a row; empty where nothing is pooled."""

    @property
    def crosses_no_difference(self) -> bool:
        """True where a further study may well point either way, though the studies pool."""
        further = self.span.prediction if self.span is not None else None
        return further is not None and further[0] <= 1 <= further[1]


def crude_rows(catalogue: Catalogue, sides: Iterable[Side]) -> list[RatioRow]:
    """Odds ratios of the outcome's own event, from the counts of both levels."""
    out = []
    for side in sides:
        own, other, table = side.finding, side.reference, counts_of_both(side)
        if other is None or table is None or reason_not_compared(own):
            continue
        found = contrast(table, "odds ratio")
        if isinstance(found, Refusal):
            continue
        cells = (row.figure(name) for row in (own, other) for name in ("events", "total"))
        counts = tuple(figure for figure in cells if figure is not None)
        key = _key(catalogue, own, side, ("odds ratio", own.outcome.good, "crude"))
        out.append(RatioRow(own, found.estimate, found.standard_error, table, counts, key))
    return out


def reported_rows(catalogue: Catalogue, sides: Iterable[Side]) -> list[RatioRow]:
    """Ratios as reports print them, with the standard error that their 95% interval implies.

    (ln upper - ln lower) / (2 × 1.959964): Cochrane Handbook, section 6.3.1.
    """
    out = []
    for side in sides:
        finding, item = side.finding, side.finding.contrast
        if item is None or not item.measure.text.endswith("ratio") or reason_not_compared(finding):
            continue
        printed, limits = finding.figure("contrast/value"), finding.limits("contrast/interval")
        if printed is None or limits is None:
            continue
        figures = (printed, *limits)
        value, low, high = (float(figure.number) for figure in figures)
        if not 0 < low < high or value <= 0:
            continue
        adjusted: tuple[str, ...] = ()
        if isinstance(item.adjusted_for, tuple) and not isinstance(item.adjusted_for, (Words, Missing)):
            adjusted = tuple(sorted(word.text.casefold() for word in item.adjusted_for))
        event = (item.event.text.casefold() if item.event else "", item.event_is.text if item.event_is else "")
        key = _key(catalogue, finding, side, (item.measure.text, event, adjusted))
        error = (math.log(high) - math.log(low)) / (2 * _Z)
        out.append(RatioRow(finding, math.log(value), error, None, figures, key))
    return out


def _key(catalogue: Catalogue, finding: Finding, side: Side, extra: tuple[object, ...]) -> tuple[object, ...] | None:
    found = axes(finding)
    if finding.claim.given is not None or any(found[axis] is None for axis in AXES):
        return None
    levels = (level_key(catalogue, finding), reference_key(catalogue, side))
    if not all(levels):
        return None
    return (*(found[axis] for axis in AXES), *levels, *extra)


def level_key(catalogue: Catalogue, finding: Finding) -> tuple[object, ...]:
    """What two wordings of a level must share: for a measured factor its very range, else the levels it stands for."""
    wording = finding.level.level.text if finding.level is not None else ""
    item = finding.contrast
    if not wording and item is not None and item.level is not None:
        wording = item.level.text
    return _level_key(catalogue, finding, wording, finding.level.range if finding.level is not None else None)


def reference_key(catalogue: Catalogue, side: Side) -> tuple[object, ...]:
    """The same for the reference level of a comparison."""
    if side.reference is not None:
        return level_key(catalogue, side.reference)
    item, claim = side.finding.contrast, side.finding.claim
    named = item.reference if item is not None and item.reference is not None else claim.reference
    return _level_key(catalogue, side.finding, named.text if isinstance(named, Words) else "", None)


def _level_key(catalogue: Catalogue, finding: Finding, wording: str, typed_range: Range | None) -> tuple[object, ...]:
    known = catalogue.declared.factors.get(finding.factor)
    if known is None:
        return (wording.casefold(),) if wording else ()
    if not known.unit:
        return tuple(level.id.text for level in known.matches(wording, typed_range)) if wording else ()
    span = measured(wording, typed_range)
    return tuple(span) if span is not None else ()


def measured(wording: str, typed_range: Range | None) -> Measured | None:
    """Where a measured level begins and ends; None where neither its words nor a range beside them tell."""
    return span_of(typed_range) if typed_range is not None else span_of_wording(wording)


def ratio_pool(catalogue: Catalogue, place: str, suffix: str, title: str, rows: list[RatioRow]) -> RatioPool:
    """The pooled ratio of the largest set of rows that agree, else their range and the reasons.

    suffix: tells this pool from others of the place; "" for the main one.
    """
    groups: dict[tuple[object, ...], list[RatioRow]] = {}
    for row in sorted(rows, key=lambda item: item.finding.base):
        if row.key is not None:
            groups.setdefault(row.key, []).append(row)
    largest = max(groups.values(), key=lambda items: (len(items), items[0].finding.base), default=[])
    members = tuple(largest if len(largest) > 1 else sorted(rows, key=lambda item: item.finding.base))
    measure = _measure(members[0]) if members else ""
    reasons = _reasons(rows, len(largest), largest)
    empty = RatioPool(measure, members, False, {}, None, False, reasons, ())
    if len(members) < 2 or any(_measure(row) != measure for row in members):
        return empty
    from ...synthesis import pooled_effect, pooled_tables

    works = len(largest) >= WORKED_FROM_STUDIES
    tables = [row.table for row in members if row.table is not None]
    has_empty_cell = any(_has_empty_cell(table) for table in tables)
    workings = _explain(catalogue, place, suffix, title, members, works, has_empty_cell)
    name = _namer(place, suffix)
    figures: dict[str, Figure] = {}
    ranked = sorted(members, key=lambda row: (row.log, row.finding.base))
    for end, row in (("low", ranked[0]), ("high", ranked[-1])):
        figures[f"range/{end}"] = ratio(
            catalogue.book, name("range", f"/{end}"), math.exp(row.log), measure, workings,
            says="lowest" if end == "low" else "highest", inputs=row.figures,
        )  # fmt: skip
    empty = empty._replace(figures=figures)
    if not works:
        return empty
    result: Pooled | Refusal
    if tables:
        result = pooled_tables(tables, measure, "mantel-haenszel" if has_empty_cell else "inverse-variance")
    else:
        result = pooled_effect([row.log for row in members], [row.standard_error for row in members])
    if isinstance(result, Refusal):
        return empty._replace(reasons=(result.reason.rstrip("."), *reasons))
    return _with_result(catalogue, empty, result, not reasons, name, workings)


def _with_result(
    catalogue: Catalogue,
    empty: RatioPool,
    result: Pooled,
    is_shown: bool,
    name: Callable[[str, str], str],
    workings: str,
) -> RatioPool:
    natural, book, figures = result.natural(), catalogue.book, dict(empty.figures)
    hidden = "" if is_shown else " (too few studies or failures: not shown on the page)"
    values = [
        ("pooled", natural.estimate, f"typical study{hidden}"),
        ("interval/low", natural.interval.low, "its lower limit"),
        ("interval/high", natural.interval.high, "its upper limit"),
    ]
    further = natural.prediction_interval
    if further is not None:
        values.append(("prediction/low", further.low, "a further study, lower limit"))
        values.append(("prediction/high", further.high, "a further study, upper limit"))
    decimals = _printed_decimals(empty.rows)
    for full_name, value, says in values:
        stem, slash, end = full_name.partition("/")
        figures[full_name] = ratio(
            book, name(stem, slash + end), value, empty.measure, workings, decimals=decimals, says=says
        )
    tau = (result.tau_squared or 0.0) ** 0.5
    # A common effect has no tau, and a 0 would say that one was looked for.
    spread: list[tuple[str, float, str]] = []
    if result.tau_squared is not None:
        spread.append(("tau", tau, "tau, standard deviation of the logs"))
        if result.tau_squared_interval is not None:
            limits = (math.sqrt(end) for end in result.tau_squared_interval)
            spread.extend(zip(("tau/low", "tau/high"), limits, ("tau, lower limit", "tau, upper limit"), strict=True))
    for full_name, value, says in spread:
        stem, slash, end = full_name.partition("/")
        figures[full_name] = ratio(book, name(stem, slash + end), value, "none", workings, says=says)
    figures["studies"] = count(
        book, name("pooled-studies", ""), result.studies, "study", workings, says="studies pooled"
    )
    weights = [1 / (row.standard_error**2 + tau**2) for row in empty.rows]
    # A common-effect method has weights of its own, which nobody reads off these.
    shares = () if result.prediction_interval is None else tuple(weight / sum(weights) for weight in weights)
    return empty._replace(
        is_shown=is_shown,
        figures=figures,
        span=Span(natural.estimate, *natural.interval, prediction=(further.low, further.high) if further else None),
        is_without_variation=further is not None and result.tau_squared == 0,
        weights=shares if is_shown else (),
    )


def _reasons(rows: list[RatioRow], largest: int, members: list[RatioRow]) -> tuple[str, ...]:
    if not rows:
        return ("no ratio can be made or was reported",)
    failures = [row.failures for row in members]
    if largest >= SHOWN_FROM_STUDIES:
        counted = [item for item in failures if item is not None]
        if len(counted) == len(failures) and sum(counted) < SHOWN_FROM_FAILURES:
            return ("fewer than ten failures",)
        return ()
    if len(rows) == 1:
        return ("a single study",)
    out = ["fewer than five studies agree on what they compare"]
    if any(row.finding.claim.given is not None for row in rows):
        out.append("some speak only of part of those treated")
    if any(len(row.finding.studies) != 1 for row in rows):
        out.append("one report joins several studies")
    out.extend(reasons_against_pooling([axes(row.finding) for row in rows]))
    if len(rows) > 1 and len({row.key for row in rows}) > 1 and len(out) == 1:
        out.append("levels, measure or adjustment differ")
    return tuple(dict.fromkeys(out))


def _measure(row: RatioRow) -> str:
    if row.table is not None or row.finding.contrast is None:
        return "odds ratio"
    return row.finding.contrast.measure.text


def _printed_decimals(rows: tuple[RatioRow, ...]) -> int:
    """Two decimals; one where every print has no more than one."""
    if any(row.table is not None for row in rows):
        return RATIO_DECIMALS
    printed = [row.figures[0].value for row in rows]
    return 1 if all(len(value.partition(".")[2]) <= 1 for value in printed) else RATIO_DECIMALS


def _has_empty_cell(table: TwoByTwo) -> bool:
    cells = (table.events, table.total - table.events, table.reference_events)
    return 0 in (*cells, table.reference_total - table.reference_events)


def _namer(place: str, suffix: str) -> Callable[[str, str], str]:
    tail = f"-{suffix}" if suffix else ""
    return lambda name, end: f"{place}/{name}{tail}{end}"


def _explain(
    catalogue: Catalogue,
    place: str,
    suffix: str,
    title: str,
    members: tuple[RatioRow, ...],
    works: bool,
    has_empty_cell: bool,
) -> str:
    stem = f"{place.replace('/', '-')}-{suffix or 'main'}-ratios"
    from_counts = members[0].table is not None
    convention = ""
    if from_counts:
        convention = "crude; odds ratio (a × d) / (b × c) of each study from its counts"
    if works and has_empty_cell:
        convention += ", pooled by Mantel-Haenszel without correction since a cell is empty (common effect)"
    published = WOOLF if from_counts else "Cochrane Handbook, section 6.3.1 (standard error from an interval)"
    if works:
        published += "; " + (MANTEL_HAENSZEL if has_empty_cell else MODEL)
    return catalogue.book.explain(
        stem, title, _FORMULA if works else "the lowest and the highest ratio",
        published=published, convention=convention,
        inputs=[figure for row in members for figure in row.figures],
        table=_table(members), download=f"data/workings/{stem}.csv",
    )  # fmt: skip


def _table(members: tuple[RatioRow, ...]) -> tuple[tuple[str, ...], ...]:
    if members[0].table is not None:
        rows = [("study", "figure", "events", "total", "reference_events", "reference_total")]
        return tuple(rows + [_cells(row, [str(cell) for cell in row.table or ()]) for row in members])
    head = [("study", "figure", "ratio", "low", "high")]
    return tuple(head + [_cells(row, [figure.value for figure in row.figures]) for row in members])


def _cells(row: RatioRow, cells: list[str]) -> tuple[str, ...]:
    return (row.finding.studies[0].id if row.finding.studies else "", row.finding.base, *cells)
