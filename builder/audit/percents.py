"""Printed percentages against the counts they are of, and counts against each other."""

from __future__ import annotations

from collections.abc import Iterator

from ..problems import Problem
from ..proof.asking import ask
from ..proof.figures_of import Row, count, own_studies, row_of, scaled, totals, typed_total
from ..reading.report_model import Claim, Flow, FollowUp, Grade, Level, Pairs, Report, SharePart, Study
from ..reading.values import Missing, Number, Percentage
from ..synthesis.rounding import PercentMatches, percent_near_misses

RULES = {
    "percent-impossible": (
        "No whole count out of its total gives the printed percentage, rounded half up or half to even, or its "
        "printed count gives another. Often the percentage has another denominator (those examined instead of those "
        "treated), which is just what a reader has to know. The message names denominators of the same study that "
        "would fit. Look at the paper again; correct a typing slip, or write down the explanation. Basis: Brown and "
        "Heathers 2017, Soc Psychol Personal Sci 8:363-369, on granularity, applied to percentages. Without a count "
        "it can find nothing where the total is at least 100 (1,000 with one decimal)."
    ),
    "percent-rounding": (
        "A printed percentage misses its count by one unit in the last place: as if digits were cut off instead of "
        "rounded (13 of 15 printed as 86.66 %), or as if a column was made to add up to 100 (5 of 27 printed as 18 "
        "%). Harmless for a reader, but a miscounted unit looks the same. Look at the table and write down which it "
        "is. Basis: common practice, no source."
    ),
    "events-over-total": (
        "There are more events than there were units to have them, or a rate is out of more units than the report "
        "says were examined. Usually two numbers were swapped, or the rate is of another visit: then give the claim "
        "its own `flow`. Basis: arithmetic."
    ),
    "levels-do-not-add-up": (
        "The levels of one table do not add up to the whole that they divide, in totals or in events. Sometimes units "
        "are missing from a table because the factor was not recorded, and the paper says so; then write that down. "
        "Basis: arithmetic; cross-footing is common practice in reading tables."
    ),
    "shares-do-not-add-up": (
        "The parts of one whole, or the grades of one outcome, do not add up to the number they are parts of, or "
        "their percentages do not add up to 100 within rounding. Categories may overlap, or some units may be in "
        "none: the paper usually says which. Basis: arithmetic."
    ),
}

SIMPLE_MODELS = ("simple", "summed", "sum of", "added", "crude", "unweighted counts", "no model")
"""Words by which a review says that it added up counts; any other pooled rate is never recomputed."""


def is_summed(claim: Claim) -> bool:
    """True where a pooled result says that counts were simply added up."""
    model = claim.pooled.model if claim.pooled is not None else None
    if model is None or isinstance(model, Missing):
        return False
    words = model.text.casefold()
    return any(simple in words for simple in SIMPLE_MODELS)


def find_in_claim(claim: Claim, place: str, flows: tuple[Flow, ...]) -> Iterator[Problem]:
    """Percentages and sums of one claim. flows: of its studies, for denominators that would fit."""
    if claim.events is not None or claim.total is not None:
        row = row_of(claim)
        yield from _events(row, place)
        if claim.pooled is None:
            yield from find_percent(row, place, flows)
        if claim.grades:
            yield from _grades(claim.grades, row, place, flows)
    if claim.levels:
        rows = [row_of(level) for level in claim.levels]
        for row in rows:
            yield from _events(row, place)
            if claim.pooled is None or is_summed(claim):
                yield from find_percent(row, place, flows)
            if isinstance(row.holder, Level) and row.holder.grades:
                yield from _grades(row.holder.grades, row, place, flows)
        if len(rows) > 1 and type(claim.total) is Number:
            yield from levels_against(rows, claim, claim, place)


def _events(row: Row, place: str) -> Iterator[Problem]:
    events, of, _ = row.events, row.totals, row.rate
    if events is not None and of and events > max(of):
        value = row.holder.events
        printed = f"{value.text} of {typed_total(row.holder.total)}" if value is not None else ""
        position = value.position if value is not None else row.holder.position
        yield ask(position, "events-over-total", printed, "more events than there were units to have them", place)


def find_percent(row: Row, place: str, flows: tuple[Flow, ...]) -> Iterator[Problem]:
    """One printed rate against its counts."""
    rate = row.rate
    if rate is None or not row.totals:
        return
    value, decimals = scaled(rate), rate.decimals
    for of in row.totals:
        if of and fits(value, decimals, row.events, of):
            return
    yield from _ask_percent(rate, row.events, row.totals, typed_total(row.holder.total), place, flows)


def fits(value: int, decimals: int, events: int | None, of: int) -> bool:
    """Whether events of `of`, or any count where events is None, print as this percentage (times 10**decimals)."""
    whole = 100 * 10**decimals
    if events is None:
        if of >= whole:
            return True
        # The one or two counts next to the printed share: any other lies further away.
        below = value * of // whole
        return fits(value, decimals, below, of) or fits(value, decimals, below + 1, of)
    if events > of:
        return False
    off = 2 * (whole * events - value * of)
    # A tie goes up (half-up) or to the even digit (half-even): it may lie above `value` only where that is even.
    return -of <= off < of or (off == of and value % 2 == 0)


def _ask_percent(
    rate: Percentage,
    events: int | None,
    of: tuple[int, ...],
    typed: str,
    place: str,
    flows: tuple[Flow, ...],
    is_of_100: bool = False,
) -> Iterator[Problem]:
    # is_of_100: it stands in a column that prints as 100 % together, the one place where a figure is made to fit.
    printed = f"{rate.text} of {typed}"
    total = of[0]
    if not total:
        yield ask(rate.position, "percent-impossible", printed, "nothing can be a percentage of none", place)
        return
    near = [percent_near_misses(rate.text, each) for each in of if each]
    cut = [k for each in near for k in each.truncated if events in (None, k)]
    adjusted = [k for each in near for k in each.adjusted if is_of_100 and events in (None, k)]
    if events is not None and (cut or adjusted):
        how = "cut off instead of rounded" if cut else "made to fit a sum of 100"
        tells = f"{events} of {total} is {_percent(events, total, rate.decimals + 1)}; the digits may have been {how}"
        yield ask(rate.position, "percent-rounding", printed, tells, place)
        return
    if cut and not any(each.exact for each in near):
        count_cut = cut[0]
        tells = (
            f"no whole number out of {total} rounds to it; {count_cut} would be "
            f"{_percent(count_cut, total, rate.decimals + 1)}, cut off instead of rounded"
        )
        yield ask(rate.position, "percent-rounding", printed, tells, place)
        return
    tells = _impossible(rate, events, total, near[0])
    other = "".join(_fitting(rate, events, flows, of))
    yield ask(rate.position, "percent-impossible", printed, tells + other, place)


def _impossible(rate: Percentage, events: int | None, total: int, near: PercentMatches) -> str:
    if events is not None:
        return f"{events} of {total} is {_percent(events, total, rate.decimals)}"
    below = scaled(rate) * total // (100 * 10**rate.decimals)
    around = " and ".join(
        f"{each} is {_percent(each, total, rate.decimals + 1)}" for each in (below, below + 1) if each <= total
    )
    return f"no whole number out of {total} rounds to it ({around})"


def _fitting(
    rate: Percentage, events: int | None, flows: tuple[Flow, ...], not_these: tuple[int, ...]
) -> Iterator[str]:
    value, decimals = scaled(rate), rate.decimals
    seen = set(not_these)
    for flow in flows:
        for name in ("examined", "due", "treated", "eligible"):
            other = count(getattr(flow, name))
            if other and other not in seen and other < 100 * 10**decimals and fits(value, decimals, events, other):
                seen.add(other)
                yield f"; it fits {other}, the number {name}"


def _percent(events: int, total: int, decimals: int) -> str:
    quotient, rest = divmod(100 * 10**decimals * events, total)
    quotient += 2 * rest >= total
    if not decimals:
        return f"{quotient}%"
    return f"{quotient // 10**decimals}.{quotient % 10**decimals:0{decimals}}%"


def _grades(grades: tuple[Grade, ...], row: Row, place: str, flows: tuple[Flow, ...]) -> Iterator[Problem]:
    of = row.totals
    typed = typed_total(row.holder.total)
    is_of_100 = _come_to_100([grade.rate for grade in grades])
    for grade in grades:
        events = count(grade.events)
        if type(grade.rate) is Percentage and of:
            value = scaled(grade.rate)
            if not any(each and fits(value, grade.rate.decimals, events, each) for each in of):
                yield from _ask_percent(grade.rate, events, of, typed, place, flows, is_of_100)
    counts = [count(grade.events) for grade in grades]
    rates = [grade.rate for grade in grades]
    yield from _parts(counts, rates, of, typed, grades[0], "grades", place)


def _come_to_100(rates: list[Percentage | Missing | None]) -> bool:
    printed = [rate.value for rate in rates if type(rate) is Percentage]
    return len(printed) == len(rates) and sum(printed) == 100


def _parts(
    counts: list[int | None],
    rates: list[Percentage | Missing | None],
    of: tuple[int, ...],
    typed: str,
    first: Grade | SharePart,
    what: str,
    place: str,
) -> Iterator[Problem]:
    if len(counts) < 2:
        return
    reported = [each for each in counts if each is not None]
    if len(reported) == len(counts) and of and sum(reported) not in of:
        printed = f"{' + '.join(map(str, reported))} of {typed}"
        yield ask(first.position, "shares-do-not-add-up", printed, f"the {what} add up to {sum(reported)}", place)
        return
    printed_rates = [each for each in rates if type(each) is Percentage]
    if len(printed_rates) == len(rates):
        places = max(each.decimals for each in printed_rates)
        unit = 10**places
        added = sum(scaled(each) * 10 ** (places - each.decimals) for each in printed_rates)
        room = sum(10 ** (places - each.decimals) for each in printed_rates)
        # Each rounded figure may be off by half of its last place.
        if 2 * abs(added - 100 * unit) > room:
            printed = " + ".join(each.text for each in printed_rates)
            whole = f"{added // unit}.{added % unit:0{places}}" if places else str(added)
            tells = f"the {what} add up to {whole}%, further from 100% than rounding explains"
            yield ask(printed_rates[0].position, "shares-do-not-add-up", printed, tells, place)


def levels_against(rows: list[Row], whole: Claim, claim: Claim, place: str) -> Iterator[Problem]:
    """The levels of a claim against the whole they split. whole: the claim that holds it, the same or another."""
    of = count(whole.total)
    if of is None or any(len(row.totals) != 1 for row in rows):
        return
    added = sum(row.totals[0] for row in rows)
    position = claim.levels[0].position
    typed = " + ".join(typed_total(row.holder.total) for row in rows)
    beside = "" if whole is claim else f' in claim "{whole.id.text}"'
    if added != of:
        printed = f"{typed} of {typed_total(whole.total)}"
        yield ask(
            position, "levels-do-not-add-up", printed, f"the levels add up to {added}, not to {of}{beside}", place
        )
        return
    events = count(whole.events)
    reported = [row.events for row in rows if row.events is not None]
    if events is not None and len(reported) == len(rows) and sum(reported) != events:
        printed = f"{' + '.join(map(str, reported))} of {events}"
        tells = f"the events of the levels add up to {sum(reported)}, not the {events}{beside}"
        yield ask(position, "levels-do-not-add-up", printed, tells, place)


def find_shares(study: Study, place: str) -> Iterator[Problem]:
    """Who the units of a study were: each part's percentage, and their sum."""
    flows = (study.flow,) if study.flow is not None else ()
    for shares in study.shares:
        of = totals(shares.of)
        typed = typed_total(shares.of)
        is_of_100 = _come_to_100([part.share for part in shares.parts])
        for part in shares.parts:
            events = count(part.count)
            if events is not None and of and events > of[0]:
                printed = f"{events} of {typed}"
                yield ask(part.position, "events-over-total", printed, "the part is larger than the whole", place)
            elif type(part.share) is Percentage and of:
                value = scaled(part.share)
                if not any(each and fits(value, part.share.decimals, events, each) for each in of):
                    yield from _ask_percent(part.share, events, of, typed, place, flows, is_of_100)
        if shares.parts:
            counts = [count(part.count) for part in shares.parts]
            rates = [part.share for part in shares.parts]
            yield from _parts(counts, rates, of, typed, shares.parts[0], f"parts of {shares.what.text}", place)


def find_over_examined(report: Report, claim: Claim, follow_up: FollowUp | None, place: str) -> Iterator[Problem]:
    """A rate out of more units than there were. follow_up: the block that is meant, or None."""
    if claim.pooled is not None or claim.quotes is not None:
        return
    flow = claim.flow
    if flow is None:
        studies = own_studies(claim, report.studies)
        if len(studies) != 1:
            return
        flow = studies[0].flow
    examined = count(flow.examined) if flow is not None else None
    if examined is None or flow is None or flow.examined is None:
        return
    for total in (claim.total, *(level.total for level in claim.levels)):
        of = totals(total)
        if total is not None and of and min(of) > examined:
            limit, name = _limit(flow, claim, follow_up, report)
            if min(of) <= limit:
                continue
            printed = f"{typed_total(total)} of {limit}"
            tells = f"the rate is out of more units than the {limit} {name}"
            yield ask(total.position, "events-over-total", printed, tells, place)
    if isinstance(claim.pairs, Pairs):
        limit, name = _limit(flow, claim, follow_up, report)
        yield from _pairs_over(claim.pairs, limit, name, place)


def _pairs_over(pairs: Pairs, limit: int, name: str, place: str) -> Iterator[Problem]:
    """More pairs than there were units to judge. name: what the limit counts."""
    cells = [count(cell) for cell in (pairs.both, pairs.only_a, pairs.only_b, pairs.neither)]
    known = [cell for cell in cells if cell is not None]
    if sum(known) > limit:
        printed = f"{' + '.join(map(str, known))} of {limit}"
        yield ask(pairs.position, "events-over-total", printed, f"more pairs than the {limit} {name}", place)


def _limit(flow: Flow, claim: Claim, follow_up: FollowUp | None, report: Report) -> tuple[int, str]:
    """The count that no total of this claim may exceed, and its name."""
    examined = count(flow.examined) or 0
    # What happens at treatment is known of all treated; `given` names other units; and of several visits the flow of
    # the study tells one.
    times = {block.at.text for each in report.claims if (block := _timed(each)) is not None and block.at is not None}
    if follow_up is not None and claim.given is None and (_timed(claim) is None or len(times) < 2 or claim.flow):
        return examined, "examined"
    counts = [(number, name) for name in ("treated", "due", "examined") if (number := count(getattr(flow, name)))]
    return max(counts, default=(examined, "examined"))


def _timed(claim: Claim) -> FollowUp | None:
    block = claim.follow_up
    is_timed = type(block) is FollowUp and block.timing is not None and block.timing.text in ("at", "by")
    return block if type(block) is FollowUp and is_timed else None
