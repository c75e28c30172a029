"""Times in order, times inside their range, and what may happen to a rate as time goes on."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from itertools import pairwise

from ..numerals.months import MEAN_MONTHS_IN
from ..problems import Position, Problem
from ..proof.asking import ask
from ..proof.figures_of import count, percent_of
from ..reading.model import Outcome
from ..reading.report_model import Claim, Estimate, FollowUp
from ..reading.values import Length, Percentage, Words
from ..synthesis.consistency import sd_exceeds_range

RULES = {
    "times-out-of-order": (
        "The shortest follow-up is longer than the longest, or the mean or median lies outside both. Usually months "
        "were read as years. Basis: arithmetic."
    ),
    "timing-against-range": (
        "A rate or an estimate is for a time outside the printed follow-up, when nobody was seen. The follow-up may "
        "be that of another group of units. Basis: arithmetic."
    ),
    "sd-over-range": (
        "A standard deviation is larger than any values between the printed minimum and maximum can have. Often it is "
        "really a standard error or a range, or it is in another unit. Basis: Popoviciu 1935 (from memory): a "
        "variance is at most a quarter of the squared range, times n / (n - 1) for a sample."
    ),
    "survival-rises": (
        "The share still good grows with time, the share with the event shrinks, or the number at risk grows. In one "
        "group of units that cannot happen. In a review the points come from different studies at each time, and then "
        "they must not be read as one curve. Basis: definition of a survival curve; seen in print in a review (97.4 % "
        "at one year, 97.8 % at five)."
    ),
    "at-risk-over-starting": (
        "More units are at risk at a time than there were at the start. Basis: definition of a survival table."
    ),
    "crude-as-survival": (
        "An estimate at a time equals the plain share of units without the event, although many were not followed for "
        "that long. A plain share treats every unit as if it had been seen until then: 48 of 115 reversals are 42 %, "
        "while the estimate at 14 years was 62 % (Gorni et al. 2022). Was it estimated by a method that allows for "
        "this? Then answer so; if not, type it as `events` and `total`. Basis: Kaplan and Meier 1958, J Am Stat Assoc "
        "53:457-481 (from memory)."
    ),
}


def find_in_claim(claim: Claim, follow_up: FollowUp | None, place: str) -> Iterator[Problem]:
    """Times of one claim. follow_up: the block that is meant, its own or that of the claim it names, or None."""
    if type(claim.follow_up) is FollowUp:
        yield from _block(claim.follow_up, claim, place)
    estimate = claim.estimate
    if estimate is not None:
        yield from _at(estimate, follow_up, place)
        yield from _crude(claim, estimate, follow_up, place)
    for level in claim.levels:
        if level.estimate is not None:
            yield from _at(level.estimate, follow_up, place)


def _most(length: Length) -> Decimal:
    """The longest time, in months, that a printed length may stand for."""
    return length.months + _half(length)


def _least(length: Length) -> Decimal:
    return length.months - _half(length)


def _half(length: Length) -> Decimal:
    # Half of the last printed place: "3.4 years" is 3.35 to 3.45; a month is 28 to 31 days, which this covers too.
    return MEAN_MONTHS_IN[length.unit] / (2 * Decimal(10) ** length.decimals)


def _exceeds(one: Length, other: Length) -> bool:
    """True where one is longer than the other by more than printing explains."""
    if one.unit == other.unit and not one.decimals and not other.decimals:
        return one.value > other.value
    return _least(one) > _most(other)


def _block(block: FollowUp, claim: Claim, place: str) -> Iterator[Problem]:
    minimum = block.minimum if type(block.minimum) is Length else None
    maximum = block.maximum if type(block.maximum) is Length else None
    if minimum is not None and maximum is not None and _exceeds(minimum, maximum):
        printed = f"{minimum.text} to {maximum.text}"
        tells = "the shortest follow-up is longer than the longest"
        yield ask(minimum.position, "times-out-of-order", printed, tells, place)
        return
    for name, middle in (("mean", block.mean), ("median", block.median)):
        if type(middle) is Length:
            yield from _inside(middle, name, minimum, maximum, "times-out-of-order", place)
    if type(block.at) is Length:
        yield from _visit(block, block.at, minimum, maximum, place)
    if type(block.sd) is Length and minimum is not None and maximum is not None:
        yield from _deviation(block.sd, minimum, maximum, claim, place)


def _visit(
    block: FollowUp, at: Length, minimum: Length | None, maximum: Length | None, place: str
) -> Iterator[Problem]:
    """A stated time against the shortest and the longest follow-up."""
    room = block.tolerance.months if type(block.tolerance) is Length else Decimal(0)
    timing = block.timing.text if isinstance(block.timing, Words) else ""
    # Who was seen `by` a time may all have been seen earlier; `at` a time somebody must have been seen.
    if maximum is not None and timing in ("at", "by") and _least(at) - room > _most(maximum):
        yield _outside(at.position, f"{timing} {at.text}", f"the longest follow-up, {maximum.text}", place)
    elif minimum is not None and timing == "at" and _most(at) + room < _least(minimum):
        yield _outside(at.position, f"{timing} {at.text}", f"the shortest follow-up, {minimum.text}", place)


def _inside(
    value: Length, name: str, minimum: Length | None, maximum: Length | None, rule: str, place: str
) -> Iterator[Problem]:
    if minimum is not None and _exceeds(minimum, value):
        tells = f"the {name} is below the shortest follow-up, {minimum.text}"
        yield ask(value.position, rule, f"{name} {value.text}", tells, place)
    elif maximum is not None and _exceeds(value, maximum):
        tells = f"the {name} is above the longest follow-up, {maximum.text}"
        yield ask(value.position, rule, f"{name} {value.text}", tells, place)


def _outside(position: Position, printed: str, beyond: str, place: str) -> Problem:
    return ask(position, "timing-against-range", printed, f"this lies beyond {beyond}: nobody was seen then", place)


def _deviation(sd: Length, minimum: Length, maximum: Length, claim: Claim, place: str) -> Iterator[Problem]:
    total = count(claim.total)
    least_sd, lowest, highest = _least(sd), _least(minimum), _most(maximum)
    if sd_exceeds_range(float(least_sd), float(lowest), float(highest), total):
        printed = f"SD {sd.text}"
        tells = f"follow-up times between {minimum.text} and {maximum.text} cannot spread so far"
        yield ask(sd.position, "sd-over-range", printed, tells, place)


def _at(estimate: Estimate, follow_up: FollowUp | None, place: str) -> Iterator[Problem]:
    at = estimate.at
    longest = follow_up.maximum if follow_up is not None else None
    if type(at) is Length and type(longest) is Length and _exceeds(at, longest):
        yield _outside(at.position, f"at {at.text}", f"the longest follow-up, {longest.text}", place)
    starting, at_risk = count(estimate.starting), count(estimate.at_risk)
    if starting is not None and at_risk is not None and at_risk > starting and estimate.at_risk is not None:
        printed = f"{at_risk} at risk of {starting}"
        tells = "more at risk at this time than there were at the start"
        yield ask(estimate.at_risk.position, "at-risk-over-starting", printed, tells, place)


# A plain share and an estimate that differ less than this, in points, are not told apart. Common practice, no source.
_POINTS = 3


def _plain_share(value: Percentage, events: int, total: int) -> int | None:
    """The count, with or without the event, whose share of the total prints as the value; None where none does."""
    scale = 100 * 10**value.decimals
    printed = int(value.value * 10**value.decimals)
    shares = (events, total - events)
    return next((share for share in shares if abs(2 * (scale * share - printed * total)) <= total), None)


def _gained_by_actuaries(failed: int, total: int, unseen: int) -> float:
    """Points of per cent by which failures grow where those not followed so long count as half at risk.

    The actuarial method.
    """
    return 100 * (failed / (total - unseen / 2) - failed / total)


def _crude(claim: Claim, estimate: Estimate, follow_up: FollowUp | None, place: str) -> Iterator[Problem]:
    events, total, value = count(claim.events), count(claim.total), estimate.value
    if events is None or not total or events > total:
        return
    if type(value) is not Percentage or type(estimate.at) is not Length:
        return
    equal = _plain_share(value, events, total)
    if equal is None:
        return
    failed = total - equal if estimate.kind.text == "survival" else equal
    if failed < 3 or (percent_of(claim) is None and claim.pooled is not None):
        return
    unseen = _unseen(estimate, estimate.at, failed, total, follow_up)
    if unseen:
        printed = f"{value.text} at {estimate.at.text}"
        tells = f"this is also the plain share of {total}, though {unseen}"
        yield ask(value.position, "crude-as-survival", printed, tells, place)


def _unseen(estimate: Estimate, at: Length, failed: int, total: int, follow_up: FollowUp | None) -> str:
    """Who was not followed up to the time of an estimate, "" where that changes nothing or is not told."""
    at_risk = count(estimate.at_risk)
    if at_risk is not None:
        unseen = total - failed - at_risk
        is_felt = unseen > 0 and _gained_by_actuaries(failed, total, unseen) >= _POINTS
        return f"{unseen} without the event were no longer at risk" if is_felt else ""
    if follow_up is not None and type(follow_up.median) is Length and _exceeds(at, follow_up.median):
        return f"half were followed for {follow_up.median.text} at most"
    return ""


def find_in_estimates_over_time(points: list[tuple[Claim, Estimate, str]]) -> Iterator[Problem]:
    """Estimates of one kind, of one group of units, that must not turn round with time."""
    dated = [
        (estimate.at.months, claim, estimate, place)
        for claim, estimate, place in points
        if estimate.at is not None and type(estimate.at) is Length and estimate.kind.text != "yearly rate"
    ]
    dated.sort(key=lambda point: point[0])
    for (earlier_at, _, earlier, _), (later_at, _, later, place) in pairwise(dated):
        if earlier_at == later_at:
            continue
        first, second = earlier.value, later.value
        if type(first) is Percentage and type(second) is Percentage and first.value != second.value:
            rises = second.value > first.value
            if rises == (later.kind.text == "survival"):
                moves = "rises" if rises else "falls"
                yield _against_time(
                    later, f"{first.text} at {_text(earlier)}, {second.text} at {_text(later)}", moves, place
                )
        first_risk, second_risk = count(earlier.at_risk), count(later.at_risk)
        if first_risk is not None and second_risk is not None and second_risk > first_risk:
            printed = f"{first_risk} at risk at {_text(earlier)}, {second_risk} at {_text(later)}"
            yield _against_time(later, printed, "rises", place)


def _text(estimate: Estimate) -> str:
    return estimate.at.text if estimate.at is not None else ""


def _against_time(later: Estimate, printed: str, moves: str, place: str) -> Problem:
    tells = f"in one group of units this never {moves} with time"
    return ask(later.position, "survival-rises", printed, tells, place)


def find_in_rates_over_time(points: list[tuple[Claim, FollowUp, str]], outcome: Outcome) -> Iterator[Problem]:
    """Rates of units kept at several times that rise: pooled ones, or ones out of the same total."""
    if outcome.construct.text != "survival" or not outcome.good:
        return
    dated = [(block.at.months, block.at, claim, place) for claim, block, place in points if type(block.at) is Length]
    dated.sort(key=lambda point: point[0])
    for (earlier_at, first_at, earlier, _), (later_at, second_at, later, place) in pairwise(dated):
        first, second = percent_of(earlier), percent_of(later)
        if first is None or second is None or earlier_at == later_at or second.value <= first.value:
            continue
        both_pooled = earlier.pooled is not None and later.pooled is not None
        total = count(later.total)
        if both_pooled or (total is not None and total == count(earlier.total)):
            printed = f"{first.text} at {first_at.text}, {second.text} at {second_at.text}"
            tells = "in one group of units this never rises with time"
            yield ask(second.position, "survival-rises", printed, tells, place)
