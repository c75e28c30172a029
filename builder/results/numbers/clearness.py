"""How clear one study's comparison is: its 95% interval of the difference, or why nothing here decides."""

from __future__ import annotations

import re

from ...reading.contrasts import RATIOS
from ...reading.slugs import slug
from ...reading.values import Missing
from ...records import NamedTuple
from ...synthesis.contrast import TwoByTwo, newcombe_interval
from ...synthesis.rounding import round_half_up
from ..findings.authors import first_author
from ..findings.comparable import pairs_untold
from ..findings.findings import Finding, StudyFacts
from ..findings.side import Side
from ..values.figures import Figure, plain
from ..values.line import Line, line
from .mean_differences import mean_difference_of
from .shown_numbers import decimals_for, exact, trimmed

NEWCOMBE = "Newcombe 1998, Stat Med 17:873-890, method 10"
_FORMULA = (
    "p1 - p0, less √((p1 - l1)² + (u0 - p0)²) and plus √((u1 - p1)² + (p0 - l0)²), l and u the score limits of each"
)
_CHOSEN = "95%, two independent groups, crude counts; each end in points of a hundred, more or fewer"


class Clearness(NamedTuple):
    """What the interval of one study's difference decides."""

    is_clear: bool | None
    """True where it leaves out no difference, False where it holds it; None where nothing decides."""
    reason: str
    """Why nothing decides; "" where something does."""
    limits: Line
    """ "41 points fewer to 4 more", from counts; empty where the interval stands beside its ratio, or there is none."""


def clearness(side: Side, place: str) -> Clearness:
    """Of a level beside its reference.

    place: "question/factor", under which the computed figures stand.
    """
    finding = side.finding
    found = _of_kind(side, place)
    reason = _undecided(finding)
    return found if not reason else Clearness(None, reason, found.limits if finding.kind == "rate" else ())


def _of_kind(side: Side, place: str) -> Clearness:
    finding = side.finding
    if finding.kind == "contrast":
        return _of_contrast(finding)
    if finding.kind == "measured":
        return _of_means(side, place)
    if finding.kind == "words":
        return Clearness(None, "it is in words only", ())
    if finding.kind == "test":
        return Clearness(None, "it is a test without numbers", ())
    if finding.kind == "pairs":
        return Clearness(None, "the same patients had both", ())
    if finding.kind == "estimate":
        return Clearness(None, "how far the two may lie apart is not reported", ())
    table = counts_of_both(side)
    if table is None:
        return Clearness(None, "counts of both levels are not reported", ())
    low, high = newcombe_interval(table)
    return Clearness(not low <= 0 <= high, "", _points(side, place, 100 * low, 100 * high))


def counts_of_both(side: Side) -> TwoByTwo | None:
    """The counts of a level and of its reference; None where one of them is missing, or both are of the same units."""
    own, other = side.finding, side.reference
    if pairs_untold(own):
        return None
    if other is None or own.events is None or other.events is None or not own.total or not other.total:
        return None
    if own.events > own.total or other.events > other.total:
        return None
    return TwoByTwo(own.events, own.total, other.events, other.total)


def _undecided(finding: Finding) -> str:
    """What takes the weight from any interval of a comparison; "" where nothing does."""
    claim = finding.claim
    if finding.withdrawn_inside:
        return "the review includes a withdrawn report"
    if untold := pairs_untold(finding):
        return untold
    if claim.cut is not None and claim.cut.text == "chosen from the data":
        return "the cut was chosen from the data"
    if claim.within and (claim.planned is None or claim.planned.text != "yes"):
        return "it is of a part of the patients that nobody planned to compare"
    if any(_has_several_in_one(facts) for facts in finding.studies):
        return f"several {finding.counted.many} of one patient were counted, of how many patients is not reported"
    return ""


def _has_several_in_one(facts: StudyFacts) -> bool:
    """True where each of several units of one owner may have been counted, and how many owners there were is not told.

    So where the study counts each, or names an owner and no rule, or says that the number of patients is not reported.
    """
    study = facts.study
    if study is None or study.unit is None:
        return False
    numbers = (study.patients.examined, study.patients.due, study.patients.treated) if study.patients else ()
    if any(value is not None and not isinstance(value, Missing) for value in numbers):
        return False
    if study.unit.per is None:
        return any(isinstance(value, Missing) for value in numbers)
    return study.unit.rule is None or study.unit.rule.text not in ("worst", "best")


def is_silent_about_owners(finding: Finding) -> bool:
    """True where a study of people says neither whether several units were one patient's nor how many patients."""
    return bool(finding.counted.of) and any(
        facts.species == "human" and facts.study is not None and facts.study.unit is not None
        and facts.study.unit.per is None and facts.study.patients is None
        for facts in finding.studies
    )  # fmt: skip


def _of_contrast(finding: Finding) -> Clearness:
    item = finding.contrast
    limits = finding.limits("contrast/interval")
    if item is None or limits is None:
        is_printed = finding.figure("contrast/interval/low") is not None
        why = "its interval is of another level" if is_printed else "its interval is not reported"
        return Clearness(None, why, ())
    none = 1 if item.measure.text in RATIOS else 0
    return Clearness(not limits[0].number <= none <= limits[1].number, "", ())


def _of_means(side: Side, place: str) -> Clearness:
    found = mean_difference_of(side.finding, side.reference, place)
    if found.low is None or found.high is None:
        return Clearness(None, found.reason or "it has no interval", ())
    return Clearness(not found.low.number <= 0 <= found.high.number, "", ())


def difference_and_limits(side: Side, place: str) -> Line:
    """ "19 points fewer (3 to 38 fewer)": how far apart the shares of two counts are, and how far that may lie.

    place: as for `clearness`. Empty where counts of both levels are not reported.
    """
    table = counts_of_both(side)
    if table is None:
        return ()
    low, high = newcombe_interval(table)
    by = 100 * (table.events / table.total - table.reference_events / table.reference_total)
    figure = _difference(side, place, "by", by)
    point = " point" if figure.value == "1" else " points"
    return line(
        figure, point, "" if by == 0 else " fewer" if by < 0 else " more",
        " (", without_points(_points(side, place, 100 * low, 100 * high)), ")",
    )  # fmt: skip


_POINTS = re.compile(r" points?\b")


def without_points(limits: Line) -> Line:
    """The limits of a difference where it is said before them, or behind them, what they count."""
    return tuple(_POINTS.sub("", part) if isinstance(part, str) else part for part in limits)


def _points(side: Side, place: str, low: float, high: float) -> Line:
    """ "41 points fewer to 4 more", "5 to 55 points fewer": the limits of the difference, each with its side."""
    first, last = _difference(side, place, "from", low), _difference(side, place, "to", high)
    if low < 0 < high:
        return line(first, " point" if first.value == "1" else " points", " fewer to ", last, " more")
    if high <= 0:
        return line(last, " to ", first, " points fewer")
    return line(first, " to ", last, " points more")


def _difference(side: Side, place: str, name: str, value: float) -> Figure:
    """The difference of two shares ("by"), or one end of its interval ("from", "to"), in points without its sign."""
    finding, reference = side.finding, side.reference
    inputs = tuple(
        figure
        for row in (finding, reference)
        if row is not None
        for name in ("events", "total")
        if (figure := row.figure(name)) is not None
    )
    workings = finding.book.explain(
        f"{place.partition('/')[0]}-differences", "How far the difference of two shares may lie", _FORMULA,
        called="limits of the difference", published=NEWCOMBE, convention=_CHOSEN, inputs=inputs, is_each_told=True,
    )  # fmt: skip
    units = min(finding.total or 0, (reference.total or 0) if reference is not None else 0)
    wording = finding.level.level.text if finding.level is not None else ""
    stem = f"{place}/{slug(finding.base.replace('/', ' '))}"
    number = exact(abs(value))
    # An end beside no difference is never printed as none.
    shown = next(
        (rounded for places in range(decimals_for(units), 4) if (rounded := round_half_up(number, places))),
        round_half_up(number, 0),
    )
    return finding.book.computed(
        f"{stem}-{name}", plain(shown), shown, "risk difference", workings, inputs=inputs,
        of=f"{first_author(finding.source)} {finding.claim.id.text}, {wording}",
        says=f"{name}, points " + ("fewer" if value < 0 else "more"),
        unrounded=trimmed(number),
    )  # fmt: skip
