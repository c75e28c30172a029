"""The mean of a level minus that of its reference, with its interval where the spread of both is known."""

from __future__ import annotations

from ...reading.slugs import slug
from ...records import NamedTuple
from ...synthesis import Refusal
from ..findings.authors import first_author
from ..findings.comparable import pairs_untold
from ..findings.findings import Finding
from ..saying.measured import measure_unit
from ..values.figures import Figure
from ..values.line import Line, Marked, line
from .shown_numbers import ratio

WELCH = "Welch 1947, Biometrika 34:28-35; degrees of freedom as in Satterthwaite 1946, Biometrics Bulletin 2:110-114"
FORMULA = (
    "m1 - m0, interval ± t × √(s1²/n1 + s0²/n0), t of (s1²/n1 + s0²/n0)² / "
    "((s1²/n1)²/(n1 - 1) + (s0²/n0)²/(n0 - 1)) degrees of freedom"
)
NOT_POOLED = "differences of means are not put together in this guide: reports measure in other ways and at other times"
"""Why no such difference is ever pooled (house rule)."""


class Difference(NamedTuple):
    """What a level measures above its reference, or why that is not computed."""

    estimate: Figure | None
    low: Figure | None = None
    high: Figure | None = None
    reason: str = ""
    """Why there is no difference, or where there is one, why it has no interval; "" where it has."""


def mean_difference_of(finding: Finding, reference: Finding | None, place: str) -> Difference:
    """The difference of two means of one table.

    reference: the row of the reference level, None where the table has none. place: "question/factor", under which the
    computed figures stand.
    """
    reason = _refused(finding, reference)
    if reason or reference is None:
        return Difference(None, reason=reason)
    means = [row.figure("mean") for row in (finding, reference)]
    spreads = [row.figure("sd") for row in (finding, reference)]
    totals = [row.figure("total") for row in (finding, reference)]
    used = [figure for pair in zip(means, spreads, totals, strict=True) for figure in pair if figure is not None]
    book = finding.book
    decimals = max(_decimals(figure) for figure in means if figure is not None)
    workings = book.explain(
        f"{place.replace('/', '-')}-{slug(finding.key)}-{slug(finding.claim.id.text)}-means",
        f"Differences of means, {first_author(finding.source)} {finding.claim.id.text}",
        FORMULA,
        published=WELCH,
        convention="95%; the two groups need not spread alike",
        inputs=used,
    )
    wording = finding.level.level.text if finding.level is not None else ""
    stem = f"{place}/{slug(finding.base.replace('/', ' '))}-mean-difference"

    def made(end: str, value: float, says: str, more: int) -> Figure:
        return ratio(
            book, f"{stem}{end}", value, "mean difference", workings, decimals=decimals + more,
            says=f"{wording}, {says}", inputs=used,
        )  # fmt: skip

    own, other = (float(figure.number) for figure in means if figure is not None)
    estimate = made("", own - other, "difference", 0)
    interval = pairs_untold(finding, "measured") or _interval(means, spreads, totals)
    if isinstance(interval, str):
        return Difference(estimate, reason=interval)
    return Difference(
        estimate, made("-low", interval[0], "lower limit", 1), made("-high", interval[1], "upper limit", 1)
    )


def _refused(finding: Finding, reference: Finding | None) -> str:
    level, other = finding.level, reference.level if reference is not None else None
    if level is None or other is None or reference is None:
        return "the table has no row of the reference level"
    if level.mean is None or other.mean is None:
        return "medians are not subtracted: the difference of two medians is not the median difference"
    if finding.figure("mean") is None or reference.figure("mean") is None:
        return "a mean is not reported"
    return ""


def _interval(
    means: list[Figure | None], spreads: list[Figure | None], totals: list[Figure | None]
) -> tuple[float, float] | str:
    """The limits, or why there are none."""
    from ...synthesis import Measured, mean_difference

    if None in spreads:
        return "a standard deviation is not reported"
    if None in totals:
        return "in how many it was measured is not reported"
    groups = [
        Measured(float(mean.number), float(spread.number), int(total.number))
        for mean, spread, total in zip(means, spreads, totals, strict=True)
        if mean is not None and spread is not None and total is not None
    ]
    found = mean_difference(groups[0], groups[1])
    return found.reason if isinstance(found, Refusal) else (found.interval.low, found.interval.high)


def _decimals(figure: Figure) -> int:
    return len(figure.value.partition(".")[2])


def difference_line(finding: Finding, reference: Finding | None, place: str) -> Line:
    """ "0.7 mm (95% CI 0.22 to 1.18), computed", or why there is none."""
    found = mean_difference_of(finding, reference, place)
    if found.estimate is None:
        return line(f"not computed: {found.reason}")
    ends: Line = line(f" (no interval: {found.reason})")
    if found.low is not None and found.high is not None:
        ends = line(" (", Marked("convention", "95%"), " CI ", found.low, " to ", found.high, ")")
    unit = measure_unit(finding, found.estimate)
    return line(found.estimate, unit, ends, ", computed")
