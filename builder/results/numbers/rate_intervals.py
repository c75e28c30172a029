"""How sure a rate is by its number alone, and how far those who were not seen could move it."""

from __future__ import annotations

from ...reading.slugs import slug
from ...records import NamedTuple
from ..findings.authors import first_author
from ..findings.findings import Finding
from ..saying.wording import interval, unit_word
from ..values.figures import Figure
from ..values.line import Line, Marked, line
from .shown_numbers import share

WILSON = "Wilson 1927, J Am Stat Assoc 22:209-212; written as in Newcombe 1998, Stat Med 17:857-872, method 3"
WORST_CASE = "Akl et al. 2012, BMJ 344:e2809"


def shown_interval(finding: Finding, place: str) -> Line:
    """The interval as printed, else Wilson's from the counts; empty where there are none.

    place: "question/factor" or "question/overall", under which the computed limits stand.
    """
    printed = interval(finding)
    if printed or finding.kind not in ("rate", "grade"):
        return printed
    limits = wilson(finding, place)
    if limits is None:
        return ()
    return line(Marked("convention", "95%"), " CI ", limits[0], " to ", limits[1], " (computed)")


def wilson(finding: Finding, place: str) -> tuple[Figure, Figure] | None:
    """Wilson's limits of a rate, per cent; None without counts."""
    return _limits(finding, place, f"{place.replace('/', '-')}-wilson", "Intervals of single rates", "wilson")


def _limits(finding: Finding, place: str, name: str, title: str, ending: str) -> tuple[Figure, Figure] | None:
    """name, title: of the workings. ending: of the ids, before "-low" and "-high"."""
    from ...synthesis import wilson_interval

    events, total = finding.events, finding.total
    if events is None or not total or events > total:
        return None
    limits = wilson_interval(events, total)
    stem = slug(finding.base.replace("/", " "))
    book = finding.book
    workings = book.explain(
        name,
        title,
        "(p + z²/2n ± z √(p(1 - p)/n + z²/4n²)) / (1 + z²/n), with p = events / n and z = 1.959964",
        called="score limits",
        published=WILSON,
        convention="score interval without continuity correction, 95%",
        inputs=_inputs(finding),
    )
    of, own = _said_of(finding), _inputs(finding)
    return (
        share(book, f"{place}/{stem}-{ending}-low", limits.low, total, workings, of=of, says="lower limit", inputs=own),
        share(
            book, f"{place}/{stem}-{ending}-high", limits.high, total, workings, of=of, says="upper limit", inputs=own
        ),
    )


def interval_alone(finding: Finding) -> Line:
    """The interval of a rate that a sentence names: as printed, else Wilson's; empty where there are no counts.

    Its workings hold this rate alone, so that every page with the sentence shows the same whatever else it computes.
    """
    printed = interval(finding)
    if printed or finding.kind not in ("rate", "grade"):
        return printed
    question = finding.claim.question[0].text if finding.claim.question else finding.key
    stem = slug(finding.base.replace("/", " "))
    place = f"{question}/{finding.factor or 'overall'}"
    title = f"Interval of a rate: {_said_of(finding)}"
    limits = _limits(finding, place, f"{question}-told-{stem}", title, "told")
    if limits is None:
        return ()
    return line(Marked("convention", "95%"), " CI ", limits[0], " to ", limits[1], ", computed")


def _said_of(finding: Finding) -> str:
    """Whose interval it is, among others in one section: "Marlow, over 3 mm"."""
    level = f", {finding.level.level.text}" if finding.level is not None else ""
    return f"{first_author(finding.source)} {finding.claim.id.text}{level}"


def _inputs(finding: Finding) -> tuple[Figure, ...]:
    return tuple(figure for name in ("events", "total") if (figure := finding.figure(name)) is not None)


class Flow(NamedTuple):
    """Whom a rate should have counted."""

    examined: Figure | None
    due: Figure
    is_treated: bool
    """True where the report does not tell how many were due, and those treated stand in."""
    failed: Figure | None
    """Units that left because what was done had failed, where those examined and all who left make up those due."""


_LEFT = ("lost", "discontinued", "died", "extracted", "extracted_related", "extracted_other")


def flow_of(finding: Finding) -> Flow | None:
    """The flow that a rate belongs to: its claim's own, its report's, or that of who describes the study."""
    if len(finding.studies) != 1:
        return None
    study = finding.studies[0]
    bases = [f"{finding.key}/{finding.claim.id.text}/flow", f"{finding.key}/studies/{study.id}/flow"]
    if study.key and study.key != finding.key:
        bases.append(f"{study.key}/studies/{study.id}/flow")
    for base in bases:
        examined = finding.book.quoted(f"{base}/examined")
        for name in ("due", "treated"):
            found = finding.book.quoted(f"{base}/{name}")
            if found is not None:
                return Flow(examined, found, name == "treated", _failed(finding, base, examined, found))
    return None


def _failed(finding: Finding, base: str, examined: Figure | None, due: Figure) -> Figure | None:
    """Those of whom the flow itself says that they did badly, though nobody examined them; none where it has a gap."""
    left = [found for name in _LEFT if (found := finding.book.quoted(f"{base}/{name}")) is not None]
    if examined is None or not finding.outcome.good:
        return None
    is_whole = examined.number + sum(figure.number for figure in left) == due.number
    return finding.book.quoted(f"{base}/extracted_related") if is_whole else None


class Bounds(NamedTuple):
    """The two ends of what those not seen could do to a rate."""

    low: Figure
    high: Figure
    due: Figure
    is_treated: bool
    failed: Figure | None
    """Counted as failed at both ends."""


def loss_bounds(finding: Finding, place: str) -> Bounds | str:
    """The bounds for the units due but not seen, or the reason why there are none."""
    from ...synthesis import loss_bounds as bounds_of

    if finding.kind != "rate" or finding.level is not None:
        return "only a rate of all who were examined has bounds"
    if finding.claim.given is not None:
        return "not computable: the rate speaks only of part of those treated"
    if finding.events is None or not finding.total:
        return "not computable: the counts are not reported"
    flow = flow_of(finding)
    if flow is None:
        return "not computable: how many were due is not reported"
    if flow.examined is None or int(flow.examined.number) != finding.total:
        return "not computable: the rate does not rest on all who were examined"
    due = int(flow.due.number)
    if due < finding.total:
        return "not computable: more were examined than were due"
    # Whoever is known to have done badly is as good as examined.
    known = finding.total + (int(flow.failed.number) if flow.failed is not None else 0)
    bounds = bounds_of(finding.events, known, due)
    stem = slug(finding.base.replace("/", " "))
    book = finding.book
    workings = book.explain(
        f"{place.replace('/', '-')}-bounds{'-treated' if flow.is_treated else ''}",
        "If those who were not seen had all gone one way",
        "from events / due to (events + due - examined - those known to have failed) / due",
        called="bounds",
        published=WORST_CASE,
        convention="of those treated, since how many were due is not reported" if flow.is_treated else "",
        inputs=(*_inputs(finding), flow.due, *_also(flow.failed)),
    )
    of, own = _said_of(finding), (*_inputs(finding), flow.due, *_also(flow.failed))
    low = share(book, f"{place}/{stem}-bounds-low", bounds.low, due, workings, of=of, says="lowest", inputs=own)
    high = share(book, f"{place}/{stem}-bounds-high", bounds.high, due, workings, of=of, says="highest", inputs=own)
    return Bounds(low, high, flow.due, flow.is_treated, flow.failed)


def _also(figure: Figure | None) -> tuple[Figure, ...]:
    return (figure,) if figure is not None else ()


def bounds_line(finding: Finding, place: str) -> Line:
    """ "between 71% and 86% of the 55 eyes due, whatever became of those not seen", or why that cannot be said."""
    found = loss_bounds(finding, place)
    if isinstance(found, str):
        return line(found)
    whom = " treated" if found.is_treated else " due"
    if finding.total is not None and found.due.number == finding.total:
        return line("nobody was lost: all ", found.due, whom, " were examined")
    gone = finding.counted.says("extracted_related")
    return line(
        "between ", found.low, " and ", found.high, " of the ", found.due,
        f" {unit_word(finding.counted, found.due)}{whom}, whatever became of those not seen",
        line(" (", found.failed, f" {gone}, counted as failed)") if found.failed is not None else None,
        " (of those treated: how many were due is not reported)" if found.is_treated else None,
    )  # fmt: skip
