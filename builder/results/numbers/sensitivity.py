"""How far a pooled number moves when one choice is made otherwise."""

from __future__ import annotations

from functools import lru_cache

from ...reading.slugs import slug
from ...synthesis import Interval, Pooled, Refusal
from ..findings.findings import Catalogue, Finding
from ..saying.labels import without_digits
from ..saying.source_reference import source_link
from ..values.document import Table
from ..values.figures import Figure
from ..values.line import Line, Marked, line, typed
from .pooling import MODEL as MODEL_OF_RATES, RatePool, pool_line, typical_rate
from .rate_intervals import WORST_CASE, flow_of, loss_bounds
from .ratio_pooling import MODEL, RatioPool
from .shown_numbers import ratio, share

_HEADER = ("What is done differently", "Then")


def rate_sensitivity(
    catalogue: Catalogue,
    pool: RatePool,
    title: str,
    others: tuple[tuple[str, RatePool], ...] = (),
    *,
    each_left_out: bool = True,
) -> Table | None:
    """Each study left out in turn, everybody not seen failed or not, and the other strictness; None without a pool.

    others: names and pools of the same units by another definition. each_left_out: False where the comparison of two
    levels shows that, so that the page of a factor does not say it three times.
    """
    if not pool.is_shown or pool.group is None:
        return None
    rows = [(line("nothing: as shown above"), pool_line(pool))]
    members = pool.group.findings
    for left_out in members if each_left_out else ():
        kept = [finding for finding in members if finding is not left_out]
        counts = [(finding.events or 0, finding.total or 0) for finding in kept]
        name = f"without-{slug(left_out.base.replace('/', ' '))}"
        what = line("without ", source_link(left_out.key, catalogue))
        rows.append((what, _pooled(catalogue, pool, name, "One study left out", counts, kept)))
    rows.extend(_bounds(catalogue, pool, members))
    rows.extend((line(typed(name, "definition")), pool_line(other)) for name, other in others)
    if len(rows) == 1:
        return None
    header = tuple(line(cell) for cell in _HEADER)
    label = without_digits(f"If it were done differently: {title}")
    return Table(line("How far the typical study moves"), header, tuple(rows), label, "sensitivity")


def _bounds(catalogue: Catalogue, pool: RatePool, members: tuple[Finding, ...]) -> list[tuple[Line, Line]]:
    if any(isinstance(loss_bounds(finding, pool.place), str) for finding in members):
        if any(finding.level is not None for finding in members):
            return []
        return [(line("those not seen"), line("not computable: how many were due is not known of every study"))]
    worst, best = [], []
    for finding in members:
        flow = flow_of(finding)
        due = int(flow.due.number) if flow is not None else finding.total or 0
        events, unseen = finding.events or 0, due - (finding.total or 0)
        worst.append((events, due))
        best.append((events + unseen, due))
    out = []
    for name, says, counts in (
        ("none-of-the-unseen", "nobody who was not seen had it", worst),
        ("all-of-the-unseen", "everybody who was not seen had it", best),
    ):
        out.append((line(says), _pooled(catalogue, pool, name, "Those not seen", counts, list(members))))
    return out


def _pooled(
    catalogue: Catalogue, pool: RatePool, name: str, title: str, counts: list[tuple[int, int]], members: list[Finding]
) -> Line:
    result = typical_rate(tuple(events for events, _ in counts), tuple(total for _, total in counts))
    if isinstance(result, Refusal):
        return line(typed(f"no number: {result.reason}", "convention"))
    end = f"-{pool.suffix}" if pool.suffix else ""
    inputs: list[Figure] = []
    for finding in members:
        flow = flow_of(finding) if name.endswith("unseen") else None
        found = (finding.figure("events"), finding.figure("total"), flow.due if flow is not None else None)
        inputs.extend(figure for figure in found if figure is not None)
    is_without = name.startswith("without")
    workings = catalogue.book.explain(
        f"{pool.place.replace('/', '-')}-{'one-left-out' if is_without else name}{end}",
        title, "the same model over the other counts",
        published=f"{MODEL_OF_RATES}; {WORST_CASE}" if name.endswith("unseen") else MODEL_OF_RATES, inputs=inputs,
    )  # fmt: skip
    natural = result.natural()
    units = sum(total for _, total in counts)
    place = f"{pool.place}/{name}{end}"
    who = f"{name.replace('-', ' ')}, " if is_without else ""
    rate, low, high = (
        share(catalogue.book, f"{place}/{what}", value, units, workings, says=f"{who}{says}", inputs=inputs)
        for what, value, says in (
            ("rate", natural.estimate, "typical study"),
            ("low", natural.interval.low, "lower limit"),
            ("high", natural.interval.high, "upper limit"),
        )
    )
    return line(rate, " (", Marked("convention", "95%"), " CI ", low, " to ", high, ")")


def ratio_sensitivity(catalogue: Catalogue, place: str, suffix: str, pool: RatioPool, title: str) -> Table | None:
    """Each study left out in turn by the method of the whole, and one common effect; None where none is shown."""
    from ...synthesis import pooled_effect

    if not pool.is_shown:
        return None
    effects = tuple(row.log for row in pool.rows)
    errors = tuple(row.standard_error for row in pool.rows)
    rows: list[tuple[Line, Line]] = []
    for row, result in zip(pool.rows, _each_left_out(effects, errors), strict=True):
        name = f"without-{slug(row.finding.base.replace('/', ' '))}"
        what = line("without ", source_link(row.finding.key, catalogue))
        rows.append((what, _ratio(catalogue, place, suffix, name, pool, result)))
    common = pooled_effect(effects, errors, model="common")
    rows.append(
        (
            line("one common effect, its interval by the normal curve"),
            _ratio(catalogue, place, suffix, "common-effect", pool, common),
        )
    )
    header = tuple(line(cell) for cell in _HEADER)
    label = without_digits(f"If it were done differently: {title}")
    return Table(
        line("How far the typical study moves; without a study, by the method of the whole"),
        header,
        tuple(rows),
        label,
        "sensitivity",
    )


@lru_cache(maxsize=1024)  # for the reason of typical_rate
def _each_left_out(effects: tuple[float, ...], errors: tuple[float, ...]) -> tuple[Pooled | Refusal, ...]:
    from ...synthesis import leave_one_out

    return tuple(leave_one_out(effects, errors, interval="truncated-knapp-hartung"))


def _ratio(catalogue: Catalogue, place: str, suffix: str, name: str, pool: RatioPool, result: Pooled | Refusal) -> Line:
    if isinstance(result, Refusal):
        return line(typed(f"no number: {result.reason}", "convention"))
    end = f"-{suffix}" if suffix else ""
    is_without = name.startswith("without")
    workings = catalogue.book.explain(
        f"{place.replace('/', '-')}-{'one-left-out' if is_without else name}{end}", "One choice made differently",
        "inverse variance over the other studies" if is_without else "inverse variance, tau² = 0",
        published=MODEL if is_without else MODEL_OF_RATIOS,
        convention="the method of the whole: REML, truncated Knapp-Hartung, t(k - 1), 95%"
        if is_without
        else "interval by the normal quantile, 95%",
        inputs=[figure for row in pool.rows for figure in row.figures],
    )  # fmt: skip
    natural = result.natural()
    ends: Interval = natural.interval
    figures = [
        ratio(
            catalogue.book,
            f"{place}/{name}{end}/{what}",
            value,
            pool.measure,
            workings,
            says=f"{name.replace('-', ' ')}, {says}" if is_without else says,
        )
        for what, value, says in (
            ("ratio", natural.estimate, "typical study"),
            ("low", ends.low, "lower limit"),
            ("high", ends.high, "upper limit"),
        )
    ]
    return line(figures[0], " (", Marked("convention", "95%"), " CI ", figures[1], " to ", figures[2], ")")


MODEL_OF_RATIOS = "Viechtbauer 2005, J Educ Behav Stat 30:261-293"
