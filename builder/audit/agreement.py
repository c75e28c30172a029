"""Claims of one report, and claims that quote another, against each other."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator

from ..problems import Position, Problem
from ..proof.asking import ask
from ..proof.figures_of import count, percent_of, row_of, scaled, typed_total
from ..proof.follow_ups import follow_up_of, time_of
from ..proof.two_ends import are_linked, are_two_ends
from ..reading.folded import folded
from ..reading.model import Outcome
from ..reading.report_model import Claim, Estimate, FollowUp, Level, Report
from ..reading.values import Length, Number, Percentage, Words
from ..synthesis.consistency import sd_exceeds_range
from .over_time import find_in_estimates_over_time, find_in_rates_over_time
from .percents import fits, is_summed, levels_against

RULES = {
    "one-figure-two-values": (
        "One report prints two values for what reads as one figure: the same units, outcome, level and follow-up. One "
        "of them may be for a subgroup, for the units still in place, or by another method of assessment: say so with "
        "`within`, `given` or another outcome. If the report itself does not say which, type the total as "
        "`candidates`, or answer the question. Basis: common practice, no source."
    ),
    "follow-up-disagrees": (
        "Two claims about the same units at their last recall give different follow-up times. Basis: arithmetic."
    ),
    "complement-disagrees": (
        "The share with the good ending and the share with the bad one, of the same units at the same time, do not "
        "add up to 100 % within rounding, or their counts do not add up to the total. Some units may have neither "
        "ending. Basis: arithmetic. Example: a review that prints 85.57 % kept and 14.28 % lost of 42 (Pisano et al. "
        "2023)."
    ),
    "pooled-disagrees": (
        "A review that says it added up counts prints a rate that its counts do not give, or counts out of another "
        "number than the one it says it pooled. A rate pooled by a model is never recomputed: it is not a share of "
        "the units. Basis: arithmetic. Example: 75 of 86 printed as 86.7 % (Pisano et al. 2023)."
    ),
    "quote-disagrees": (
        "A figure taken over from another report differs from that report, which is in this guide. About a quarter of "
        "references in medical papers misquote their source (Jergas and Baethge 2015, PeerJ 3:e1364), so the original "
        "counts, and the question is which of the two was misread."
    ),
}


def find_in_report(report: Report, outcomes: dict[str, Outcome], printed: str = "") -> Iterator[Problem]:
    """What the claims of one report say about the same units. printed: its passages, one behind another."""
    if len(report.claims) < 2:
        if report.claims and report.claims[0].levels:
            yield from _levels_over_time(report.claims[0], report)
        return
    groups: dict[tuple[str, tuple[str, ...], str, tuple[str, ...]], list[tuple[Claim, FollowUp | None]]] = defaultdict(
        list
    )
    every = tuple(sorted(study.id.text for study in report.studies))
    for claim in report.claims:
        if claim.quotes is None:
            given = claim.given.text if claim.given is not None else ""
            within = tuple(f"{each.factor.text}={each.level.text}" for each in claim.within)
            studies = tuple(sorted(word.text for word in claim.study)) or every
            groups[claim.outcome.text, studies, given, within].append((claim, follow_up_of(claim, report)))
    for group in groups.values():
        if len(group) > 1:
            yield from _one_figure(group, report)
            yield from _whole_and_levels(group, report)
            yield from _same_follow_up(group, report)
        yield from _over_time(group, report, outcomes)
    yield from _complements(groups, report, outcomes, printed)


_Group = list[tuple[Claim, FollowUp | None]]


def _one_figure(group: _Group, report: Report) -> Iterator[Problem]:
    seen: dict[tuple[object, ...], tuple[Claim | Level, Claim]] = {}
    for claim, block in group:
        time = time_of(block)
        if time is None or claim.pooled is not None or claim.flow is not None:
            continue
        holders: list[tuple[str, Claim | Level]] = [("", claim)]
        if claim.factor is not None:
            holders += [(f"{claim.factor.text}={folded(level.level.text)}", level) for level in claim.levels]
        for name, holder in holders:
            if holder.events is None and holder.total is None:
                continue
            if name == "" and claim.factor is not None and not claim.levels:
                continue  # which level it is of is not said here
            earlier = seen.setdefault((name, time), (holder, claim))
            if earlier[0] is not holder:
                yield from _two_values(earlier, (holder, claim), report)


def _two_values(
    one: tuple[Claim | Level, Claim], other: tuple[Claim | Level, Claim], report: Report
) -> Iterator[Problem]:
    (first, first_claim), (second, second_claim) = one, other
    place = f"{report.key}/{second_claim.id.text}"
    for name in ("total", "events"):
        a, b = count(getattr(first, name)), count(getattr(second, name))
        if a is not None and b is not None and a != b:
            printed = f"{_shown(second)}, {_shown(first)}"
            tells = f'claim "{first_claim.id.text}" gives another value for the same figure'
            yield ask(getattr(second, name).position, "one-figure-two-values", printed, tells, place)
            return
    a_rate, b_rate = percent_of(first), percent_of(second)
    if a_rate is not None and b_rate is not None and not _print_alike(a_rate, b_rate):
        tells = f'claim "{first_claim.id.text}" gives another value for the same figure'
        yield ask(b_rate.position, "one-figure-two-values", f"{b_rate.text}, {a_rate.text}", tells, place)


def _shown(holder: Claim | Level) -> str:
    events = holder.events.text if isinstance(holder.events, Number) else "not reported"
    return f"{events} of {typed_total(holder.total)}"


def _print_alike(one: Percentage, other: Percentage) -> bool:
    """True where two percentages can be one figure at two precisions."""
    half = 10 ** max(one.decimals, other.decimals)
    room = (half // 10**one.decimals if one.decimals < other.decimals else 0) + (
        half // 10**other.decimals if other.decimals < one.decimals else 0
    )
    return 2 * abs(int((one.value - other.value) * half)) <= room


def _whole_and_levels(group: _Group, report: Report) -> Iterator[Problem]:
    wholes = [
        (claim, time_of(block))
        for claim, block in group
        if claim.factor is None and type(claim.total) is Number and not claim.levels and claim.pooled is None
    ]
    for claim, block in group:
        if len(claim.levels) < 2 or type(claim.total) is Number or claim.pooled is not None:
            continue
        time = time_of(block)
        same = [whole for whole, other in wholes if other is not None and other == time]
        if len(same) == 1:
            rows = [row_of(level) for level in claim.levels]
            yield from levels_against(rows, same[0], claim, f"{report.key}/{claim.id.text}")


def _same_follow_up(group: _Group, report: Report) -> Iterator[Problem]:
    first_of: dict[tuple[str, int, str], tuple[Claim, FollowUp]] = {}
    for claim, block in group:
        total = count(claim.total)
        # Only a claim's own block: one that is taken over is the same by construction.
        if block is None or block is not claim.follow_up or total is None or not isinstance(block.timing, Words):
            continue
        if block.timing.text != "last recall" or not isinstance(block.start, Words):
            continue
        earlier = first_of.setdefault(
            (block.start.text, total, claim.factor.text if claim.factor else ""), (claim, block)
        )
        if earlier[1] is block:
            continue
        for name in ("minimum", "maximum", "mean", "median"):
            a, b = getattr(earlier[1], name), getattr(block, name)
            if type(a) is Length and type(b) is Length and a.months != b.months and a.unit == b.unit:
                printed = f"{name} {b.text}, {a.text}"
                tells = f'claim "{earlier[0].id.text}" gives another {name} follow-up for the same {total}'
                yield ask(b.position, "follow-up-disagrees", printed, tells, f"{report.key}/{claim.id.text}")


def _over_time(group: _Group, report: Report, outcomes: dict[str, Outcome]) -> Iterator[Problem]:
    points: dict[tuple[str, ...], list[tuple[Claim, Estimate, str]]] = defaultdict(list)
    rates: list[tuple[Claim, FollowUp, str]] = []
    for claim, block in group:
        place = f"{report.key}/{claim.id.text}"
        if claim.estimate is not None:
            points[_curve(claim.estimate, "")].append((claim, claim.estimate, place))
        for level in claim.levels:
            if level.estimate is not None and claim.factor is not None:
                name = f"{claim.factor.text}={folded(level.level.text)}"
                points[_curve(level.estimate, name)].append((claim, level.estimate, place))
        has_rate = claim.factor is None and percent_of(claim) is not None
        if has_rate and block is not None and block.timing is not None and block.timing.text in ("at", "by"):
            rates.append((claim, block, place))
    for curve in points.values():
        if len(curve) > 1:
            yield from find_in_estimates_over_time(curve)
    outcome = outcomes.get(group[0][0].outcome.text)
    if len(rates) > 1 and outcome is not None:
        yield from find_in_rates_over_time(rates, outcome)


def _levels_over_time(claim: Claim, report: Report) -> Iterator[Problem]:
    points: dict[tuple[str, ...], list[tuple[Claim, Estimate, str]]] = defaultdict(list)
    for level in claim.levels:
        if level.estimate is not None:
            name = folded(level.level.text)
            points[_curve(level.estimate, name)].append((claim, level.estimate, f"{report.key}/{claim.id.text}"))
    for curve in points.values():
        if len(curve) > 1:
            yield from find_in_estimates_over_time(curve)


def _curve(estimate: Estimate, level: str) -> tuple[str, ...]:
    start = estimate.start.text if estimate.start is not None else ""
    return estimate.kind.text, start, level


def _complements(
    groups: dict[tuple[str, tuple[str, ...], str, tuple[str, ...]], _Group],
    report: Report,
    outcomes: dict[str, Outcome],
    printed: str,
) -> Iterator[Problem]:
    if len(groups) < 2:
        return
    names = [name for name in groups if name[0] in outcomes]
    for index, one in enumerate(names):
        for other in names[index + 1 :]:
            if one[1:] != other[1:] or outcomes[one[0]].good == outcomes[other[0]].good:
                continue
            is_same = are_two_ends(outcomes[one[0]], outcomes[other[0]])
            if is_same or are_linked(outcomes[one[0]], outcomes[other[0]]):
                yield from _pairs(groups[one], groups[other], is_same, report, printed)


def _pairs(one: _Group, other: _Group, is_same: bool, report: Report, printed: str) -> Iterator[Problem]:
    for first, first_block in one:
        for second, second_block in other:
            time = time_of(first_block)
            if time is None or time != time_of(second_block) or first.pooled is not None or second.pooled is not None:
                continue
            if first.factor is None and second.factor is None:
                yield from _complement(first, second, first, second, is_same, report, printed)
            elif first.factor is not None and second.factor is not None and first.factor.text == second.factor.text:
                rows = {folded(level.level.text): level for level in first.levels}
                for level in second.levels:
                    if (match := rows.get(folded(level.level.text))) is not None:
                        yield from _complement(match, level, first, second, is_same, report, printed)


def _complement(
    one: Claim | Level, other: Claim | Level, first: Claim, second: Claim, is_same: bool, report: Report, passages: str
) -> Iterator[Problem]:
    total = count(one.total)
    if not total or total != count(other.total):
        return
    place = f"{report.key}/{second.id.text}"
    events, others = count(one.events), count(other.events)
    # A reversal is counted among those who had the first ending: where all had it, the two totals are equal by right.
    if not is_same and total in (events, others):
        return
    if (
        events is not None
        and others is not None
        and _is_filled(total - events - others, first, second, report, passages)
    ):
        return
    if events is not None and others is not None and events + others != total and other.events is not None:
        printed = f"{others} + {events} of {total}"
        tells = f'together with claim "{first.id.text}" the two endings add up to {events + others}'
        yield ask(other.events.position, "complement-disagrees", printed, tells, place)
        return
    rate, opposite = percent_of(one), percent_of(other)
    if rate is None or opposite is None:
        return
    unit = 10 ** max(rate.decimals, opposite.decimals)
    off = abs(int((rate.value + opposite.value - 100) * unit))
    if 2 * off > unit // 10**rate.decimals + unit // 10**opposite.decimals:
        printed = f"{opposite.text} + {rate.text} of {total}"
        tells = f'together with claim "{first.id.text}" the two endings add up to {rate.value + opposite.value}%'
        yield ask(opposite.position, "complement-disagrees", printed, tells, place)


def _is_filled(missing: int, first: Claim, second: Claim, report: Report, passages: str) -> bool:
    """True where another claim, or the report itself, prints what lies between the two endings: healing, uncertain, or
    both good together."""
    if missing <= 0:
        return False
    if re.search(rf"(?<![\d.,]){missing}(?![\d%]|[.,]\d)", passages):
        return True
    endings = [events for one in (first, second) if (events := count(one.events)) is not None]
    between = {missing, *(missing + events for events in endings)}
    return any(
        not between.isdisjoint({count(claim.events), *(count(grade.events) for grade in claim.grades)})
        for claim in report.claims
        if claim is not first and claim is not second and count(claim.total) == count(first.total)
    )


def find_pooled(claim: Claim, place: str) -> Iterator[Problem]:
    """A rate that was pooled by adding up, against its counts."""
    pooled = claim.pooled
    if pooled is None:
        return
    of, total = count(pooled.of), count(claim.total)
    if type(pooled.sd) is Percentage and sd_exceeds_range(pooled.sd.text, "0", "100", count(pooled.studies)):
        tells = "percentages between 0 and 100 cannot spread so far"
        yield ask(pooled.sd.position, "sd-over-range", f"SD {pooled.sd.text}", tells, place)
    if of is not None and total is not None and of != total and pooled.of is not None:
        printed = f"{pooled.of.text} pooled, {typed_total(claim.total)}"
        yield ask(pooled.of.position, "pooled-disagrees", printed, "the rate is out of a different number", place)
        return
    rate, events = percent_of(claim), count(claim.events)
    of = total if total is not None else of
    if rate is None or not of or not is_summed(claim):
        return
    if not fits(scaled(rate), rate.decimals, events, of):
        made = f"{events} of {of}" if events is not None else f"no whole number out of {of}"
        printed = f"{rate.text} of {of}"
        tells = f"counts were added up, and {made} {'is ' + _share(events, of) if events is not None else 'gives it'}"
        yield ask(rate.position, "pooled-disagrees", printed, tells, place)


def _share(events: int, of: int) -> str:
    return f"{100 * events / of:.2f}%"


def find_quoted(claim: Claim, place: str, reports: dict[str, Report]) -> Iterator[Problem]:
    """A figure taken over from a report of this guide, against that report."""
    if claim.quotes is None:
        return
    key, _, name = claim.quotes.text.partition("/")
    report = reports.get(key)
    original = report.claim(name) if report is not None else None
    if original is None:
        return
    pairs: list[tuple[Claim | Level, Claim | Level]] = [(claim, original)]
    rows = {folded(level.level.text): level for level in original.levels}
    pairs += [(level, rows[folded(level.level.text)]) for level in claim.levels if folded(level.level.text) in rows]
    for quoted, printed_there in pairs:
        yield from _quote(quoted, printed_there, claim, place)


def _quote(quoted: Claim | Level, original: Claim | Level, claim: Claim, place: str) -> Iterator[Problem]:
    source = claim.quotes.text if claim.quotes is not None else ""
    key = source.partition("/")[0]
    own_key = place.partition("/")[0]
    # Answered in the file of the key that sorts later; the place stays the quoting claim where that is this file.
    where, other = (place, key) if own_key > key else (source, own_key)
    for position, printed, what in _differences(quoted, original):
        tells = f"taken over from {source}, which has another {what}"
        yield ask(position, "quote-disagrees", printed, tells, where, other)
    ratio, ratio_there = claim.contrast, getattr(original, "contrast", None)
    if quoted is claim and ratio is not None and ratio_there is not None:
        one, two = ratio.value, ratio_there.value
        if type(one) is Number and type(two) is Number and ratio.measure.text == ratio_there.measure.text:
            places = min(one.decimals, two.decimals)
            if round(one.value, places) != round(two.value, places):
                tells = f"taken over from {source}, which has another value"
                yield ask(one.position, "quote-disagrees", f"{one.text}, {two.text}", tells, where, other)


def _differences(quoted: Claim | Level, original: Claim | Level) -> Iterator[tuple[Position, str, str]]:
    """Counts, rates and estimates that differ: where, both as printed, and what they are."""
    for name in ("events", "total"):
        a, b = count(getattr(quoted, name)), count(getattr(original, name))
        if a is not None and b is not None and a != b:
            yield getattr(quoted, name).position, f"{a} {name}, {b}", "number"
    rate, printed_rate = percent_of(quoted), percent_of(original)
    if rate is not None and printed_rate is not None and not _print_alike(rate, printed_rate):
        yield rate.position, f"{rate.text}, {printed_rate.text}", "rate"
    if quoted.estimate is not None and original.estimate is not None:
        value, there = quoted.estimate.value, original.estimate.value
        if type(value) is Percentage and type(there) is Percentage and not _print_alike(value, there):
            yield value.position, f"{value.text}, {there.text}", "estimate"
