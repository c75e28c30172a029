"""Rates of one definition on one scale of time, as values: points, brackets, steps, and spans of no stated time."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from fractions import Fraction

from ...reading.model import Outcome
from ...reading.slugs import slug
from ...reading.values import Length, Words
from ...results.findings.authors import first_author
from ...results.findings.findings import Catalogue, Finding
from ...results.findings.treatment import way_of
from ...results.findings.which_way import share_good
from ...results.numbers.ranged import one_rate_a_study
from ...results.numbers.shown_numbers import count
from ...results.saying.labels import without_digits
from ...results.saying.short_words import short_counts
from ...results.saying.source_reference import source_link
from ...results.saying.wording import FEW_FOLLOWED, length, rate
from ...results.values.drawings import TimeBracket, TimePlot, TimePoint, TimeSpan, TimeSteps
from ...results.values.figures import Figure
from ...results.values.line import Line, joined, line, typed
from ..sections.stated_times import has_time
from ..sections.study_rows import drawn_rate, whole_name

_SHARES = ("rate", "grade")


def starts_of(findings: Sequence[Finding]) -> tuple[str, ...]:
    """What the times of these findings count from, each wording once, in order of place."""
    return tuple(dict.fromkeys(_start(finding) or "a moment that is not reported" for finding in findings))


def _start(finding: Finding) -> str:
    found = finding.estimate.start if finding.kind == "estimate" and finding.estimate is not None else None
    if found is None and finding.follow_up is not None:
        found = finding.follow_up.start
    return found.text if isinstance(found, Words) else ""


def time_drawings(
    catalogue: Catalogue, question: str, outcome: Outcome, counted: Sequence[Finding], asked_to: float = 0.0
) -> list[TimePlot]:
    """All rates of one definition that have a time: a drawing a moment that time counts from, for no axis has two.

    asked_to: months to which the recall plan goes on.
    """
    by_start: dict[str, list[Finding]] = {}
    for finding in counted:
        by_start.setdefault(_start(finding), []).append(finding)
    drawn = (
        _drawing(catalogue, question, outcome, found, asked_to, start if index else "")
        for index, (start, found) in enumerate(sorted(by_start.items(), key=lambda item: -len(item[1])))
    )
    return [plot for plot in drawn if plot is not None]


def _drawing(
    catalogue: Catalogue, question: str, outcome: Outcome, counted: Sequence[Finding], asked_to: float, apart: str
) -> TimePlot | None:
    """Those that count from one moment; None where none has a time. apart: the moment, of a further drawing."""
    groups = [found for group in at_one_time(counted) for found in _ways_apart(catalogue, question, group)]
    alone = [group[0] for group, _ in groups if len(group) == 1]
    steps = [made for made in _steps(counted) if made.points]
    spans = [span for finding in counted if (span := _span(catalogue, finding)) is not None]
    drawn = [point for finding in alone if (point := _point(finding)) is not None]
    brackets = [_bracket(catalogue, question, outcome, group, way) for group, way in groups if len(group) > 1]
    if not (drawn or brackets or steps or spans):
        return None
    stated = [point.at for point in drawn] + [bracket.at for bracket in brackets]
    stated.extend(point.at for made in steps for point in made.points)
    known_to = max(stated, default=0.0)
    last, ticks, unit = _across(max(known_to / 0.72, asked_to, *(span.high for span in spans), 12.0))
    starts = ", ".join(starts_of([finding for finding in counted if has_time(finding)]))
    title = without_digits(outcome.title.text)
    upwards = title if outcome.good else f"those still without it, {title}"
    return TimePlot(
        anchor=f"time-{outcome.id}" + (f"-from-{slug(apart)}" if apart else ""),
        title=f"Over time: {title}" + (f", from {without_digits(apart)}" if apart else ""),
        finding=line(f"Upwards: {upwards}. ", _reading(drawn, brackets, steps, spans)),
        last=last,
        ticks=ticks,
        axis=without_digits(f"{unit} since {starts}" if starts else unit),
        points=tuple(drawn),
        brackets=tuple(brackets),
        steps=tuple(steps),
        spans=tuple(spans),
        known_to=known_to,
        opens=list_anchor(outcome),
    )


def list_anchor(outcome: Outcome) -> str:
    """Where the studies that a drawing shows stand one by one."""
    return f"every-{outcome.id}"


def _reading(
    points: Sequence[TimePoint], brackets: Sequence[TimeBracket], steps: Sequence[TimeSteps], spans: object
) -> str:
    """How the marks that are there are read."""
    said: list[str] = []
    if points:
        said.append("Dot: one study at a stated time, with its interval.")
    if brackets:
        said.append("Bracket: several studies treated alike, lowest to highest.")
        times = [*(point.at for point in points), *(bracket.at for bracket in brackets)]
        if len(set(times)) < len(times):
            said.append("Marks side by side at one time: ways of treatment, each by itself.")
    if steps:
        said.append("Box: somewhere in it the share fell so far.")
    if any(made.thin_from < len(made.points) for made in steps):
        said.append("Broken: fewer than ten still followed.")
    if spans:
        said.append("Below: from the first to the last visit, the dot in the middle.")
    return " ".join(said)


def at_one_time(findings: Iterable[Finding]) -> list[list[Finding]]:
    """Rates at a stated time, those of one time, start and unit together, one a study, by time."""
    groups: dict[tuple[float, str, str], list[Finding]] = {}
    for finding in findings:
        if finding.kind in _SHARES and finding.window is not None and finding.events is not None and finding.total:
            groups.setdefault((float(finding.window), _start(finding), finding.unit), []).append(finding)
    return [list(one_rate_a_study(groups[name])) for name in sorted(groups)]


def _point(finding: Finding) -> TimePoint | None:
    share = share_good(finding)
    if share is None or finding.window is None:
        return None
    _, low, high = drawn_rate(finding)
    return _with_ends(float(finding.window), float(share), low, high, is_good=finding.outcome.good)


def _with_ends(at: float, share: float, low: float | None, high: float | None, *, is_good: bool) -> TimePoint:
    """is_good: the ends are those of the share that did well, and not of the others."""
    if low is None or high is None:
        return TimePoint(at, share)
    return TimePoint(at, share, low, high) if is_good else TimePoint(at, share, 100 - high, 100 - low)


def _studies(catalogue: Catalogue, question: str, outcome: Outcome, group: Sequence[Finding], way: str = "") -> Figure:
    """How many studies share a time. way: by which of the ways all of these were treated; "" for every one."""
    book, first = catalogue.book, group[0]
    inputs = tuple(
        figure for item in group for name in ("events", "total") if (figure := item.figure(name)) is not None
    )
    workings = book.explain(
        f"{question}-overall-at-one-time", "Studies that share a time", "studies counted, each once", inputs=inputs,
        is_each_told=True,
    )  # fmt: skip
    name = f"{question}/overall/at-{slug(str(first.window))}-{slug(_start(first) or 'no start')}-{outcome.id}"
    said = f"{outcome.title.text}, studies at one time"
    if way:
        name, said = f"{name}-{slug(way)}", f"{said}, {way}"
    return count(book, name, len(group), "study", workings, says=said, inputs=inputs)


def _by_way(catalogue: Catalogue, question: str, group: Sequence[Finding]) -> dict[str, list[Finding]]:
    """Rates by how everybody was treated, the way of most studies first; "" for several ways or one not told."""
    out: dict[str, list[Finding]] = {}
    for finding in group:
        out.setdefault(way_of(catalogue, question, finding), []).append(finding)
    return dict(sorted(out.items(), key=lambda item: (-len(item[1]), item[0] == "", item[1][0].base)))


def _ways_apart(catalogue: Catalogue, question: str, group: Sequence[Finding]) -> list[tuple[list[Finding], str]]:
    """Rates of one time, those of each way by themselves, with its name where there are several."""
    ways = _by_way(catalogue, question, group)
    return [(rows, (way or _SEVERAL_WAYS) if len(ways) > 1 else "") for way, rows in ways.items()]


def together_line(catalogue: Catalogue, question: str, outcome: Outcome, group: Sequence[Finding]) -> Line:
    """ "At 24 months: 5 studies, from 74 of 94 (79%) to 50 of 58 (86%)", each with its unit; each way by itself."""
    at = group[0].time("at")
    said = [
        line(line(typed(way), ", ") if way else None, _from_to(catalogue, question, outcome, rows, way))
        for rows, way in _ways_apart(catalogue, question, group)
    ]
    return line("At ", length(at) if at else "one time", ": ", joined(said))


_SEVERAL_WAYS = "several ways or not told"


def _from_to(catalogue: Catalogue, question: str, outcome: Outcome, rows: Sequence[Finding], way: str) -> Line:
    if len(rows) == 1:
        return line(rate(rows[0]), " in ", source_link(rows[0].key, catalogue))
    number = _studies(catalogue, question, outcome, rows, way)
    ordered = sorted(rows, key=lambda item: (Fraction(item.events or 0, item.total or 1), item.base))
    return line(number, " studies, from ", rate(ordered[0]), " to ", rate(ordered[-1]))


def _bracket(catalogue: Catalogue, question: str, outcome: Outcome, group: Sequence[Finding], way: str) -> TimeBracket:
    number = _studies(catalogue, question, outcome, group, way)
    shares = [float(share) for item in group if (share := share_good(item)) is not None]
    return TimeBracket(float(group[0].window or 0), min(shares), max(shares), line(number, " studies"))


def _steps(findings: Iterable[Finding]) -> list[TimeSteps]:
    """Estimates of one report that count the same from the same moment, by time."""
    groups: dict[tuple[str, str, str], list[Finding]] = {}
    for finding in findings:
        item = finding.estimate
        at_risk = finding.figure("estimate/at_risk")
        # Where nobody is followed nothing is drawn: the list says what the report printed.
        is_over = at_risk is not None and at_risk.number == 0
        if finding.kind == "estimate" and item is not None and isinstance(item.at, Length) and not is_over:
            groups.setdefault((finding.key, _start(finding), item.kind.text), []).append(finding)
    return [_one_estimate(sorted(group, key=_months)) for group in groups.values()]


def _months(finding: Finding) -> float:
    at = finding.estimate.at if finding.estimate is not None else None
    return float(at.months) if isinstance(at, Length) else 0.0


def _one_estimate(group: list[Finding]) -> TimeSteps:
    points: list[TimePoint] = []
    followed: list[tuple[float, Line]] = []
    starting = next((found for item in group if (found := item.figure("estimate/starting")) is not None), None)
    if starting is not None:
        followed.append((0.0, line(starting)))
    thin = len(group)
    for index, finding in enumerate(group):
        share = share_good(finding)
        if share is None:
            continue
        _, low, high = drawn_rate(finding)
        is_survival = finding.estimate is not None and finding.estimate.kind.text == "survival"
        points.append(_with_ends(_months(finding), float(share), low, high, is_good=is_survival))
        at_risk = finding.figure("estimate/at_risk")
        if at_risk is not None:
            followed.append((_months(finding), line(at_risk)))
            if at_risk.number < FEW_FOLLOWED:
                thin = min(thin, index)
    name = without_digits(first_author(group[0].source))
    return TimeSteps(name, tuple(points), tuple(followed), thin)


def _span(catalogue: Catalogue, finding: Finding) -> TimeSpan | None:
    """A rate that belongs to no stated time, over the times when people were seen."""
    timing = finding.follow_up
    if finding.kind not in _SHARES or timing is None or finding.window is not None:
        return None
    if finding.events is None or not finding.total:
        # Without its counts it is told in the list alone.
        return None
    label = line(typed(_cut(whole_name(catalogue, finding.key)), "reference"), ": ", short_counts(finding, None))
    kind = timing.timing.text if isinstance(timing.timing, Words) else ""
    if kind in ("by", "at") and isinstance(timing.at, Length):
        at = float(timing.at.months)
        return TimeSpan(0.0 if kind == "by" else at, at, None, label)
    ends = [float(end.months) for end in (timing.minimum, timing.maximum) if isinstance(end, Length)]
    if not ends:
        return None
    middle = timing.median if isinstance(timing.median, Length) else timing.mean
    at_middle = float(middle.months) if isinstance(middle, Length) else None
    low = ends[0] if isinstance(timing.minimum, Length) else 0.0
    return TimeSpan(low, max(ends), at_middle, label)


def _cut(name: str) -> str:
    """A name no longer than fits beside its counts on the narrowest screen; whole it stands in the list."""
    return name if len(name) <= _NAME else f"{name[: _NAME - 1].rstrip()}…"


# Letters of a name in the drawing.
_NAME = 24


def _across(months: float) -> tuple[float, tuple[tuple[float, str], ...], str]:
    """The end of the scale in months, its ticks, and what they count: months, or years where those are few enough."""
    is_years = months > 36
    size = 12 if is_years else 1
    steps = (1, 2, 3, 4, 5, 10, 20, 50) if is_years else (1, 3, 6, 12)
    step = next((step * size for step in steps if months / (step * size) <= 6), steps[-1] * size)
    last = math.ceil(months / step) * step
    ticks = tuple((float(at), f"{at // size}") for at in range(0, last + 1, step))
    return float(last), ticks, "years" if is_years else "months"
