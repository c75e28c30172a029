"""A finding that a sentence names: the number alone in the sentence, and below it what that number counts."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ...reading.values import Words
from ...results.findings.direction import side_of_row
from ...results.findings.findings import Catalogue, Finding
from ...results.numbers.clearness import clearness, difference_and_limits
from ...results.numbers.rate_intervals import flow_of, interval_alone
from ...results.saying.certainty import comparison_sure, how_sure, ledger
from ...results.saying.measured import contrast_unit
from ...results.saying.source_reference import source_link
from ...results.saying.speech import counted_as, when
from ...results.saying.whose_age import of_age
from ...results.saying.wording import (
    against,
    compared_how,
    contrast,
    cut,
    estimate_and,
    few_followed,
    interval,
    length,
    main_part,
    n_of_n,
    percent,
    still_so,
    unit_word,
)
from ...results.values.line import Line, Span, joined, line, plain_text, typed


def in_sentence(findings: Sequence[Finding], *, in_bracket: bool) -> Line:
    """ "39 of 47 (83%)", each with its level where a claim has several; "39 of 47, 83%" where a bracket is open."""
    has_several = len(findings) > 1
    said = joined([line(_level(finding) if has_several else None, _short(finding)) for finding in findings])
    return unbracketed(said) if in_bracket else said


def _level(finding: Finding, end: str = ": ") -> Line:
    return line(typed(finding.level.level.text, "definition"), end) if finding.level is not None else ()


def _short(finding: Finding, *, has_unit: bool = False) -> Line:
    if finding.kind in ("rate", "grade"):
        return _rate(finding, has_unit)
    if finding.kind == "estimate":
        return _estimate(finding)
    if finding.kind == "contrast":
        return _contrast(finding)
    return main_part(finding)


def _rate(finding: Finding, has_unit: bool) -> Line:
    events, total = finding.figure("events"), finding.figure("total")
    if events is None or total is None:
        return n_of_n(finding)
    share = finding.figure("success_rate", "rate")
    is_whole = finding.events is None or finding.events in (0, finding.total)
    unit = f" {unit_word(finding.counted, total)}" if has_unit else None
    return line(events, " of ", total, unit, None if share is None or is_whole else line(" (", percent(share), ")"))


def _estimate(finding: Finding) -> Line:
    """ "stays healed: 71% still so after 10 years".

    What it is a share of comes first, or it is read with the words of the sentence; a writer who says it names the
    value alone.
    """
    value, at, item = finding.figure("estimate/value"), finding.figure("estimate/at"), finding.estimate
    title = typed(finding.outcome.title.text, "definition")
    if value is None or item is None:
        return line(title, ": not reported")
    time = line(_within(finding), length(at)) if at is not None else None
    per = " in a year" if item.kind.text == "yearly rate" else None
    return line(title, ": ", percent(value), still_so(finding), time, per, few_followed(finding))


def _within(finding: Finding) -> str:
    """Who still is well is so after a time; what happens does so within it."""
    return " after " if finding.estimate is not None and finding.estimate.kind.text == "survival" else " within "


def _contrast(finding: Finding) -> Line:
    item = finding.contrast
    if item is None:
        return ()
    value = finding.figure("contrast/value")
    return line(
        typed(item.measure.text), " ", value if value is not None else "not reported", contrast_unit(finding, value),
        line(" for ", typed(item.event.text)) if item.event is not None else None, ", ", against(finding),
    )  # fmt: skip


_BRACKET = re.compile(r"\s*\(")


def unbracketed(said: Line) -> Line:
    """The same inside a bracket, which holds no other: "39 of 47, 83%"."""
    return tuple(_BRACKET.sub(", ", part).replace(")", "") if isinstance(part, str) else part for part in said)


def below(findings: Sequence[Finding], catalogue: Catalogue, *, is_always_sure: bool = False) -> list[Line]:
    """A line for each claim: counts with their unit and interval, by which definition, when, how sure, whose report.

    findings: those named, in the order of the sentences. Of counts that are compared the line tells how far they are
    apart. Shares at several times share a line; what was counted and timed like the line before it is not said again.
    is_always_sure: a number that nobody judged says so too.
    """
    groups: dict[tuple[str, ...], list[Finding]] = {}
    for finding in findings:
        groups.setdefault(_line_of(finding), []).append(finding)
    out: list[Line] = []
    before = ""
    for group in groups.values():
        first = group[0]
        sure = [_sure(group if item.factor else [item], catalogue, is_always_sure) for item in group]
        is_one = all(item == sure[0] for item in sure)
        if _is_over_time(first):
            heads = [_at_a_time(item, () if is_one else said) for item, said in zip(group, sure, strict=True)]
            shared = line(counted_as(first.outcome), of_age(first))
        else:
            is_among = first.level is not None and (len(first.claim.levels) > 1 or len(group) > 1)
            heads = _apart(group) or [line(_level(item) if is_among else None, _head(item)) for item in group]
            shared = line(counted_as(first.outcome), ", ", when(first), of_age(first))
        kind = plain_text(shared)
        given = first.claim.given
        out.append(
            line(
                joined(heads),
                "; " if first.kind == "contrast" else ": ",
                "counted and timed alike" if kind == before else shared,
                line("; of ", typed(given.text)) if given is not None else None,
                compared_how(group),
                line("; ", sure[0]) if is_one and sure[0] else None,
                "; ",
                source_link(first.key, catalogue),
            )
        )
        before = kind
    return out


def _apart(findings: Sequence[Finding]) -> list[Line]:
    """ "over 3 mm (28 eyes) against up to 3 mm (82): 19 points fewer (3 to 38 fewer)".

    Of each level that was named together with its reference; empty where one of them has no such partner. An interval
    of each share alone would be read for that of their difference.
    """
    reference = next((row for row in findings if _is_reference(row)), None)
    sides = [side_of_row(row, reference) for row in findings if row is not reference]
    if reference is None or not sides:
        return []
    out = []
    for side in sides:
        apart = difference_and_limits(side, f"{reference.claim.question[0].text}/{reference.factor}") if side else ()
        if side is None or not apart:
            return []
        reason = clearness(side, f"{reference.claim.question[0].text}/{reference.factor}").reason
        nothing = line("; this decides nothing: ", typed(reason)) if reason and not cut(side.finding) else None
        own, other = side.finding.figure("total"), reference.figure("total")
        unit = line(" ", unit_word(side.finding.counted, own))
        out.append(
            line(
                _level(side.finding, " ("),
                own,
                unit,
                ") against ",
                _level(reference, " ("),
                other,
                "): ",
                apart,
                nothing,
            )
        )
    return out


def _is_reference(row: Finding) -> bool:
    wording = row.level.level.text if row.level is not None else None
    return isinstance(row.claim.reference, Words) and row.claim.reference.text == wording


def with_below(findings: Sequence[Finding], catalogue: Catalogue) -> Line:
    """The numbers as in a sentence, and behind them what stands below."""
    spans = (Span("below", row) for row in below(findings, catalogue))
    return line(in_sentence(findings, in_bracket=False), *spans)


def _is_over_time(finding: Finding) -> bool:
    """True for a share of all at a stated time, of which a study may have several."""
    return finding.kind == "estimate" and finding.level is None and finding.figure("estimate/at") is not None


def _line_of(finding: Finding) -> tuple[str, ...]:
    """What the findings of one line share: their claim, or of shares at several times what they are of."""
    if _is_over_time(finding):
        start, starting = finding.estimate and finding.estimate.start, finding.figure("estimate/starting")
        said = (getattr(start, "text", ""), starting.text if starting is not None else "")
        return finding.key, "", finding.outcome.id, getattr(finding.claim.given, "text", ""), *said
    return finding.key, finding.claim.id.text


def _at_a_time(finding: Finding, sure: Line) -> Line:
    """ "71% still so 10 years after healing (95% CI 57% to 81%); 85 eyes at the start, 29 still followed then".

    That they are few stands in the sentence.
    """
    value, at, item = finding.figure("estimate/value"), finding.figure("estimate/at"), finding.estimate
    if value is None or at is None or item is None:
        return line("the estimate was not reported")
    ends = interval(finding, "estimate/interval")
    is_survival = item.kind.text == "survival"
    start = f"{' after' if is_survival else ' of'} {item.start.text}" if isinstance(item.start, Words) else _FROM
    return line(
        percent(value), still_so(finding), " " if is_survival else " within ", length(at), typed(start), " (",
        ends or "interval not reported", line(", ", sure) if sure else None, "); ", _followed(finding),
    )  # fmt: skip


_FROM = ", counted from what is not reported"


def _followed(finding: Finding) -> Line:
    """ "85 eyes at the start, 29 still followed then": no share in the form of the one beside it."""
    starting, at_risk = finding.figure("estimate/starting"), finding.figure("estimate/at_risk")
    unit = line(" ", unit_word(finding.counted, starting or at_risk)) if starting or at_risk else ()
    if at_risk is None:
        of = line(starting, unit, " at the start, ") if starting else line("number at the start not reported, ")
        return line(of, "how many still followed is not reported")
    if starting is None:
        return line(at_risk, unit, " still followed, number at the start not reported")
    return line(starting, unit, " at the start, ", at_risk, " still followed then")


def _head(finding: Finding) -> Line:
    """The numbers with what no number goes without: "39 of 47 eyes (95% CI 70% to 91%; 47 of 55 due were seen)"."""
    if finding.kind in ("rate", "grade"):
        said = [part for part in (interval_alone(finding), _seen(finding)) if part]
        return line(n_of_n(finding), line(" (", joined(said), ")") if said else None)
    if finding.kind == "estimate":
        return _estimate_head(finding)
    return contrast(finding) if finding.kind == "contrast" else main_part(finding)


def _seen(finding: Finding) -> Line:
    """ "47 of 55 due were seen", of a rate of all who were examined; of a part of them, or of a level, nothing.

    Who is known to have done badly though nobody examined them is no part of the rate, and stands beside it.
    """
    if finding.kind != "rate" or finding.level is not None or finding.claim.given is not None or finding.claim.within:
        return ()
    flow = flow_of(finding)
    if flow is None:
        return line("how many were due is not reported")
    if flow.examined is None or flow.examined.number != finding.total:
        return ()
    gone = finding.counted.says("extracted_related")
    beside = line("; ", flow.failed, f" of the others were {gone}") if flow.failed and flow.failed.number else None
    return line(flow.examined, " of ", flow.due, " treated" if flow.is_treated else " due", " were seen", beside)


def _estimate_head(finding: Finding) -> Line:
    """ "71% still so (95% CI 57% to 81%), 85 eyes at the start, 29 still followed then"."""
    at_risk = finding.figure("estimate/at_risk")
    few = ", fewer than ten" if few_followed(finding) else None
    followed = (
        line(at_risk, " still followed then", few) if at_risk else line("how many still followed is not reported")
    )
    return estimate_and(finding, followed)


def _sure(findings: Sequence[Finding], catalogue: Catalogue, is_always: bool) -> Line:
    """How sure: of a comparison always, of a rate of all where a question that the claim answers has its ledger."""
    first = findings[0]
    if first.factor:
        return comparison_sure(findings, catalogue)[1:]
    questions = [catalogue.evidence.questions.get(word.text) for word in first.claim.question]
    found = [ledger(item, first.outcome.id, "", "", first.window or _NO_WINDOW) for item in questions if item]
    judged = next((item for item in found if item is not None), None)
    return how_sure(judged) if judged is not None or is_always else ()


# A number without a window of its own is not covered by a ledger that was written for one.
_NO_WINDOW = -1


def _whole(finding: Finding, said: Line) -> Line:
    """ "16 of 16 eyes (95% CI 81% to 100%)": all or none of so many reads as certain without its interval."""
    is_whole = finding.events is not None and finding.total and finding.events in (0, finding.total)
    ends = interval_alone(finding) if is_whole else ()
    return line(said, line(" (", ends, ")") if ends else None)


def once(findings: Sequence[Finding]) -> Line:
    """Rows of one claim behind each other, what they share said once.

    "up to 3 mm 32 of 35 eyes (91%), over 3 mm 7 of 12 (58%): healed, 24 months after repair".
    """
    first = findings[0]
    if first.kind == "estimate":
        rows = joined([line(_level(finding), _estimate_head(finding)) for finding in findings])
    else:
        rows = joined(
            [line(_level(item, " "), _whole(item, _short(item, has_unit=item is first))) for item in findings], ", "
        )
    given = first.claim.given
    return line(
        rows, ": ", counted_as(first.outcome), ", ", when(first), of_age(first),
        line("; of ", typed(given.text)) if given is not None else None,
    )  # fmt: skip
