"""What kind of statistic a number is: a spread or an error, a counted share or an estimate, of one year or more."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

from ...numerals.late import late
from ...printed.clauses import Span
from ...printed.other_numbers import coefficient_of, range_of
from ...printed.statistics import Label, Statistics, names_error
from ...printed.within_change import change_within
from ...problems import with_article
from ...reading.contrasts import RATIOS
from ...reading.report_model import Claim, Estimate
from ..asking import in_yaml
from ..proving.printed_passage import Reading, surroundings_in
from .other_analysis import labels_in
from .tie import Known, Stands, Ties

RULES: dict[str, str] = {
    "other-statistic": (
        "The passage says that a number is another kind of statistic than the field it is typed in: a standard error "
        "as `sd`, an estimate from times (Kaplan-Meier, a life table) as a counted share or the other way round, a "
        "rate of each year as one of several years, an incidence as a survival, an odds ratio as a risk ratio, a "
        "prediction interval or a range over centres as one of confidence, a coefficient (B) as a ratio, "
        "a change within one group as the difference between two. "
        "Such numbers differ by far and are never compared. Type it in the field for what it is; leave out a "
        "standard error."
    ),
}


def find_statistics(standing: Sequence[Stands], ties: Ties, known: Known) -> None:
    """Every spread, share and estimate of a claim."""
    for stands in standing:
        name = stands.row.name
        if name in _OF_LENGTHS:
            _find_other_length(stands, ties)
        elif name == "sd":
            _find_error(stands, ties)
        elif name == "interval" and stands.row.part == "low":
            _find_prediction(stands, ties)
        elif name in ("rate", "success_rate") and stands.row.role.own != "recall":
            if not _is_out_of_those_at_risk(stands, standing, ties):
                _find_estimate_as_share(stands, ties)
        elif name == "starting":
            _find_left_as_starting(stands, ties)
        elif name == "value" and stands.block.endswith("/estimate"):
            _find_in_estimate(stands, ties)
        elif name == "value":
            _find_in_contrast(stands, ties)


_OF_LENGTHS = {
    "mean": "the mean", "median": "the median", "minimum": "the shortest", "maximum": "the longest",
}  # fmt: skip
_match_extreme_behind = late(
    r"\s*(?:years?|months?|weeks?|days?)?\s*(?:at the (?P<shortest>earliest|soonest)|at the (?P<longest>latest))\b",
    re.I,
    holds=("earliest", "soonest", "latest"),
).match
_ends_in_extreme = late(
    r"\b(?:the\s+)?(?:(?P<shortest>shortest|minimum|least)|(?P<longest>longest|maximum))"
    r"(?:\s+(?:follow-up|observation(?: time| period)?|time|period|recall))?\s*(?:was|being|of|:|=)?\s*$",
    re.IGNORECASE,
    holds=("shortest", "minimum", "least", "longest", "maximum"),
).search


def _find_other_length(stands: Stands, ties: Ties) -> None:
    """The shortest follow-up as the mean one: "12 months at the earliest"."""
    token, text = stands.token, stands.reading.passage.text
    if stands.row.role.kind != "length":
        return
    found = _match_extreme_behind(text, token.end) or _ends_in_extreme(
        text, max(token.outer_start - _NEAR, 0), token.outer_start
    )
    if found is None:
        return
    own = "minimum" if found["shortest"] else "maximum"
    if own != stands.row.name:
        ties.ask(
            stands, "other-statistic", f'calls it {_OF_LENGTHS[own]} ("{stands.printed(found.span())}")',
            f"the claim {_OF_LENGTHS[stands.row.name]}", f"{own}: {stands.row.typed}",
        )  # fmt: skip


def _find_in_contrast(stands: Stands, ties: Ties) -> None:
    if stands.row.unit not in RATIOS:
        _find_change_within(stands, ties)
    elif not stands.token.measure:
        _find_measure(stands, ties)


_left_then = late(
    r"\s*(?:[a-z]+\s+){0,2}?(?:were|was|remained)\s+(?:(?:still|yet)\s+)?(?:left|under (?:observation|follow-up)|"
    r"at risk|watched|followed|observed|in the (?:analysis|risk set))\b",
    re.IGNORECASE,
).match
_then = late(
    r"\b(?:by|at) (?:which|that) (?:time|point|date|moment)\b|\b(?:then|by then|still|remained|left)\b", re.IGNORECASE
).search


def _find_left_as_starting(stands: Stands, ties: Ties) -> None:
    """Those still watched at the time of an estimate, as those with whom it began: "by which time 212 were left"."""
    reading, token = stands.reading, stands.token
    text = reading.passage.text
    left = _left_then(text, max(token.end, token.outer_end))
    has_more = any(each.value > token.value and each.kind in ("count", "number") for each in reading.tokens)
    if left is None or not has_more:
        return
    low, high = reading.told(surroundings_in).sentence(token.start)
    if _then(text, max(low, token.start - _NEAR), min(high, left.end() + _NEAR)) is not None:
        ties.ask(
            stands, "other-statistic", f'counts those still there ("{stands.printed((token.start, left.end()))}")',
            "the claim those with whom the estimate begins", f"at_risk: {stands.row.typed}",
        )  # fmt: skip


_NEAR = 40
"""Characters beside a number in which its time is said."""


def _ask_about_coefficient(stands: Stands, ties: Ties, label: Span) -> None:
    """A coefficient of a model or the statistic of its test as a ratio: "B 0.92, Exp(B) 2.51"."""
    ties.ask(
        stands, "other-statistic", f'calls it "{stands.printed(label)}"',
        f"the claim {with_article(stands.row.unit)}", "type the ratio, Exp(B), where the report prints it",
    )  # fmt: skip


def _find_measure(stands: Stands, ties: Ties) -> None:
    """An odds ratio typed as a risk ratio, where only the heading or the words around it say which it is."""
    coefficient = coefficient_of(stands.reading.passage.text, stands.token, stands.reading.cells()[stands.at])
    if coefficient is not None:
        _ask_about_coefficient(stands, ties, coefficient)
        return
    statistics = stands.reading.told(_statistics)
    found = statistics.measure_of(stands.at)
    if found is None:
        label = stands.reading.told(labels_in).get(stands.at)
        found = statistics.measure_in(label.spans) if label is not None else None
    if found is None:
        return
    measure, said = found
    if measure == stands.row.unit:
        ties.tie(stands, "statistic", measure, "words", said)
        return
    words = stands.printed(said)
    ties.ask(
        stands, "other-statistic", f'makes it {with_article(measure)} ("{words}")',
        f"the claim {with_article(stands.row.unit)}", f"measure: {measure}",
    )  # fmt: skip


def _statistics(reading: Reading) -> Statistics:
    return Statistics(reading.passage.text, reading.tokens, reading.told(surroundings_in), reading.cells())


def _said(stands: Stands, of: Callable[[Statistics, int], Label | None]) -> tuple[Label, str] | None:
    """What the passage says of a number, with the words as typed."""
    found = of(stands.reading.told(_statistics), stands.at)
    if found is None:
        return None
    return found, stands.printed(found)


def _find_error(stands: Stands, ties: Ties) -> None:
    said = _said(stands, Statistics.error_of)
    if said is not None:
        what = "a standard error" if names_error(said[1]) else "another spread"
        ties.ask(
            stands, "other-statistic", f'calls it {what} ("{said[1]}")', "the claim a standard deviation",
            "sd: not reported",
        )  # fmt: skip


def _find_prediction(stands: Stands, ties: Ties) -> None:
    said = _said(stands, Statistics.prediction_of)
    if said is None:
        _find_range(stands, ties)
    else:
        ties.ask(
            stands, "other-statistic", f'calls it where a further study would lie ("{said[1]}")',
            "the claim an interval of confidence", "interval: not reported",
        )  # fmt: skip


def _find_change_within(stands: Stands, ties: Ties) -> None:
    reading = stands.reading
    if not stands.block.endswith("/contrast"):
        return
    sentence = reading.told(surroundings_in).sentence(stands.token.start)
    said = change_within(reading.passage.text, stands.token, sentence)
    if said is not None:
        ties.ask(
            stands, "other-statistic", f'has it as the change of one group ("{stands.printed(said)}")',
            "the claim as the difference between two", "type the difference that the passage gives",
        )  # fmt: skip


def _find_range(stands: Stands, ties: Ties) -> None:
    reading, token = stands.reading, stands.token
    if token.pair < 0 or token.measure:
        return
    high = reading.tokens[token.pair]
    label = range_of(reading.passage.text, token, max(high.end, high.outer_end))
    if label is not None:
        ties.ask(
            stands, "other-statistic", f'gives the least and the most ("{stands.printed(label)}")',
            "the claim an interval of confidence", "interval: not reported",
        )  # fmt: skip


def _find_estimate_as_share(stands: Stands, ties: Ties) -> None:
    if not stands.reading.told(_statistics).may_tell():
        return
    yearly = _said(stands, Statistics.yearly_of)
    if yearly is not None and not _is_of_counts(stands):
        mend = f"estimate: {{kind: yearly rate, value: {stands.row.typed}, from: treatment}}"
        ties.ask(
            stands,
            "other-statistic",
            f'calls it a rate of each year ("{yearly[1]}")',
            "the claim a counted share",
            mend,
        )
        return
    said = _said(stands, Statistics.estimate_of)
    if said is not None and not _is_of_counts(stands):
        kind = "cumulative incidence" if _said(stands, Statistics.incidence_of) is not None else "survival"
        at = in_yaml(_time_of(ties.scope.claim))
        mend = f"estimate: {{kind: {kind}, at: {at}, value: {stands.row.typed}, from: treatment}}"
        ties.ask(
            stands,
            "other-statistic",
            f'calls it an estimate at a time ("{said[1]}")',
            "the claim a counted share",
            mend,
        )


def _is_out_of_those_at_risk(stands: Stands, standing: Sequence[Stands], ties: Ties) -> bool:
    """A share without its count, whose total is what a life table has left at that time: asked about."""
    at_risk = (each for each in standing if each.row.name == "total" and "at risk" in each.token.roles)
    total = next((each for each in at_risk if each.block == stands.block), None)
    has_count = any(each.row.name == "events" and each.block == stands.block for each in standing)
    if total is None or has_count or _is_of_counts(stands):
        return False
    at = in_yaml(_time_of(ties.scope.claim))
    ties.ask(
        total, "other-statistic", "has it as the number still at risk", "the claim as what the share is out of",
        f"estimate: {{kind: survival, at: {at}, value: {stands.row.typed}, at_risk: {total.row.typed}, "
        "from: treatment}",
    )  # fmt: skip
    return True


def _is_of_counts(stands: Stands) -> bool:
    return stands.reading.told(_statistics).is_share_of_counts(stands.at) is not None


def _time_of(claim: Claim | None) -> str:
    at = getattr(claim.follow_up, "at", None) if claim is not None else None
    return getattr(at, "text", None) or "THE TIME"


def _find_in_estimate(stands: Stands, ties: Ties) -> None:
    estimate = _estimate_of(stands, ties.scope.claim)
    if estimate is None:
        return
    yearly = _said(stands, Statistics.yearly_of)
    is_yearly = estimate.kind.text == "yearly rate"
    if yearly is not None and not is_yearly:
        ties.ask(
            stands, "other-statistic", f'calls it a rate of each year ("{yearly[1]}")',
            f"the claim for {getattr(estimate.at, 'text', 'several years')} together", "kind: yearly rate",
        )  # fmt: skip
    elif is_yearly:
        _find_whole_as_yearly(stands, ties, yearly)
    else:
        _find_share_as_estimate(stands, ties, estimate)


def _estimate_of(stands: Stands, claim: Claim | None) -> Estimate | None:
    if claim is None:
        return None
    if not stands.row.level:
        return claim.estimate
    return next((each.estimate for each in claim.levels if each.level.text == stands.row.level), None)


def _find_whole_as_yearly(stands: Stands, ties: Ties, yearly: tuple[Label, str] | None) -> None:
    if yearly is not None:
        ties.tie(stands, "statistic", "yearly rate", "words", yearly[0])
        return
    whole = _said(stands, Statistics.whole_of)
    if whole is not None:
        ties.ask(
            stands, "other-statistic", f'gives it for several years together ("{whole[1]}")',
            "the claim for each year", "kind: cumulative incidence, with the time in `at`",
        )  # fmt: skip


def _find_share_as_estimate(stands: Stands, ties: Ties, estimate: Estimate) -> None:
    incidence = _said(stands, Statistics.incidence_of)
    counted = _said(stands, Statistics.is_share_of_counts)
    # Where the passage has no counts for it, what makes it an estimate is only asked for the tie.
    said = _said(stands, Statistics.estimate_of) if ties.wanted or counted is not None else None
    kind = estimate.kind.text
    if kind == "survival" and incidence is not None and "survival" not in _clause_of(stands):
        if stands.row.id not in ties.asked:
            ties.ask(
                stands, "other-statistic", f'calls it the share that had the event ("{incidence[1]}")',
                "the claim the share still good", "kind: cumulative incidence",
            )  # fmt: skip
    elif said is not None:
        ties.tie(stands, "statistic", kind, "words", said[0])
    elif counted is not None and "at risk" not in _clause_of(stands):
        ties.ask(
            stands, "other-statistic", f'gives it as a counted share ("{counted[1]}")',
            "the claim as an estimate from times", "type it as `events`, `total` and `rate`",
        )  # fmt: skip


def _clause_of(stands: Stands) -> str:
    reading = stands.reading
    low, high = reading.told(surroundings_in).sentence(stands.token.start)
    return reading.passage.text[low:high].lower()
