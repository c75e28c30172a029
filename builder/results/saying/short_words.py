"""When and how many in the fewest words, for rows that a tap opens: all of it stands there."""

from __future__ import annotations

from ...reading.values import Missing, Words
from ..findings.findings import Finding
from ..values.line import Line, joined, line, typed
from .measured import contrast_unit
from .wording import estimate, few_followed, length, percent, rate, spread, still_so, timing, unit_word


def short_timing(finding: Finding) -> Line:
    """ "24 months", "last seen, median 34 months": when, in few words; all of it stands where the row is opened."""
    if finding.kind == "estimate" or (finding.estimate is not None and finding.follow_up is None):
        return _short_estimate_timing(finding)
    follow_up = finding.follow_up
    kind = follow_up.timing.text if follow_up is not None and isinstance(follow_up.timing, Words) else ""
    at = finding.time("at")
    if kind in ("at", "by") and at is not None:
        return line("by " if kind == "by" else None, length(at))
    said = line({"last recall": "last seen", "at least": "followed"}.get(kind, ""))
    seen = _short_spread(finding) if follow_up is not None else ()
    return line(said, ", " if said and seen else None, seen) or line(_NO_TIME)


def row_timing(finding: Finding) -> Line:
    """ "24 months", "median 34 months": the same for a row of two lines, opened beside `opened_timing`.

    What has no time, since it happens while something is done, has none here.
    """
    typed_as = finding.claim.follow_up
    if finding.kind != "estimate" and isinstance(typed_as, Missing) and typed_as.text == "not applicable":
        return ()
    said = short_timing(finding)
    has_middle = finding.time("at") is None and (finding.time("median") or finding.time("mean")) is not None
    return _short_spread(finding) if has_middle and finding.kind != "estimate" else said


def row_counts(finding: Finding) -> tuple[Line, Line]:
    """ "126 of 150" and "eyes (84.0%)": the counts of a row's first line, and what its second line has of them.

    Of an estimate "96 of 210 at risk" and "eyes: 93% still so"; its interval stands where the row is opened.
    """
    unit = unit_word(finding.counted, finding.figure("total"))
    if finding.kind == "estimate":
        return _row_estimate(finding)
    events, total, share = finding.figure("events"), finding.figure("total"), finding.figure("success_rate", "rate")
    if events is None or total is None or finding.kind == "measured":
        return (), rate(finding)
    is_whole = finding.events is None or finding.events in (0, finding.total)
    has_share = share is not None and not is_whole
    return line(events, " of ", total), line(unit, line(" (", percent(share), ")") if has_share and share else None)


def _row_estimate(finding: Finding) -> tuple[Line, Line]:
    value, starting = finding.figure("estimate/value"), finding.figure("estimate/starting")
    at_risk = finding.figure("estimate/at_risk")
    if value is None or starting is None:
        return (), estimate(finding)
    unit = unit_word(finding.counted, starting)
    first = line(at_risk, " of ", starting, " at risk") if at_risk else line(starting, ", at risk not reported")
    return first, line(f"{unit}: ", percent(value), still_so(finding), few_followed(finding))


def opened_timing(finding: Finding) -> Line:
    """All of when, for a row that is opened: what `short_timing` said above it is not said twice."""
    if finding.kind == "estimate" or (finding.estimate is not None and finding.follow_up is None):
        item = finding.estimate
        if item is None or finding.figure("estimate/at") is None:
            return timing(finding)
        return line("counted from ", typed(item.start.text if isinstance(item.start, Words) else "what not reported"))
    follow_up = finding.follow_up
    kind = follow_up.timing.text if follow_up is not None and isinstance(follow_up.timing, Words) else ""
    is_at = kind in ("at", "by") and finding.time("at") is not None
    return timing(finding, is_middle_told=not is_at)


_NO_TIME = "no stated time"


def _short_estimate_timing(finding: Finding) -> Line:
    at = finding.figure("estimate/at")
    if at is not None:
        return length(at)
    is_yearly = finding.estimate is not None and finding.estimate.kind.text == "yearly rate"
    return line("in a year" if is_yearly else _NO_TIME)


def _short_spread(finding: Finding) -> Line:
    """The middle time alone where there is one, else from when to when."""
    for name in ("median", "mean"):
        middle = finding.time(name)
        if middle is not None:
            return line(f"{name} ", length(middle))
    return spread(finding)


def short_counts(finding: Finding, reference: Finding | None) -> Line:
    """Both counts, "16 of 23 | 36 of 38"; of an estimate the share with those at risk; of a ratio the ratio."""
    if finding.kind == "contrast" and finding.contrast is not None:
        value = finding.figure("contrast/value")
        unit = contrast_unit(finding, value) if value is not None else None
        return line(typed(finding.contrast.measure.text), " ", value or "not reported", unit)
    if finding.kind in ("words", "test"):
        return line("no numbers")
    if finding.kind == "pairs":
        names = ("pairs/only_a", "pairs/only_b")
        first, second = (finding.figure(name) for name in names)
        return line("good in one only: ", first, " | ", second) if first and second else line("pairs")
    return joined([_short_count(row) for row in (finding, reference) if row is not None], " | ")


def _short_count(finding: Finding) -> Line:
    if finding.kind == "estimate":
        value, at_risk = finding.figure("estimate/value"), finding.figure("estimate/at_risk")
        risk = line(" (", at_risk, " at risk)") if at_risk else " (at risk not reported)"
        return line(percent(value), risk) if value is not None else line("not reported")
    if finding.kind == "measured":
        value, total = finding.figure("mean", "median"), finding.figure("total")
        return line(value or "not reported", line(" (n ", total, ")") if total else None)
    events, total = finding.figure("events"), finding.figure("total")
    if events and total:
        return (events, " of ", total)
    share = finding.figure("success_rate", "rate")
    if share is not None and total is not None:
        return line(percent(share), " of ", total)
    return line("not reported")
