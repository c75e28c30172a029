"""At which time a figure was taken, as the passage says it and as the claim does."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from decimal import Decimal

from ...numerals.late import holds_any, late
from ...printed.between_times import Stretch, stretch_of, stretches
from ...printed.lengths import what_else
from ...printed.owner import Owner
from ...printed.p_times import p_times
from ...printed.times import MONTHS_IN, Time, Times
from ...reading.report_model import Claim, Estimate, FollowUp
from ...reading.values import Length, Words
from ...records import NamedTuple
from ..proving.printed_passage import Reading, p_values_in, surroundings_in, times_in
from .pinned import is_pinned_away
from .tie import Known, Stands, Ties

RULES: dict[str, str] = {
    "other-time": (
        "The passage gives a figure at another time than the claim does: in the words of its clause, in its row or "
        'column, or by its place in a list ("at 6, 12 and 24 months 35, 39 and 41 of 47" gives 39 at 12 months). What '
        "healed by one year says nothing of five. Type the time that the passage gives, or the figure of the time that "
        "is meant; where the passage means it as it was typed, answer the question."
    ),
    "time-of-something-else": (
        "A length of time is typed as the follow-up, or as the time of an estimate, and the passage prints it as "
        "something else: an age, the time between two visits, how long people were recruited or a medicine was taken. "
        "Type the time for which the units were followed, or `not reported`; where the words do mean the follow-up, "
        "answer the question."
    ),
    "time-is-a-bound": (
        'The passage prints a length of follow-up as a bound, "at least 12 months", and the claim types it as the time '
        "of all, as a mean or as the other end: whoever was seen after at least a year may have been seen after ten. "
        "Type it as `minimum` or `maximum`; where the passage means it as typed, answer the question."
    ),
}

_FIGURES = frozenset({"events", "rate", "success_rate", "value", "mean", "median", "p", "at_risk"})
"""Fields that were found at a time; totals and intervals go with them."""
_LENGTHS = frozenset({"at", "minimum", "maximum", "mean", "median"})
_ALIKE = Decimal("0.1")
"""Lengths in two units are one where they differ by less than this share: 12 weeks and 3 months."""


class Window(NamedTuple):
    """When a claim says that its figure was taken."""

    low: Decimal | None
    """Months; both ends are one where it was at a time."""
    high: Decimal | None
    unit: str
    words: str

    def holds(self, time: Time) -> bool:
        """Whether a time lies inside."""
        return not (
            (self.low is not None and _is_before(time, self.low, self.unit))
            or (self.high is not None and _is_before(time, self.high, self.unit, after=True))
        )

    @property
    def is_one_time(self) -> bool:
        """True for "at 12 months"."""
        return self.low is not None and self.low == self.high


def _is_before(time: Time, end: Decimal, unit: str, *, after: bool = False) -> bool:
    off = time.months - end if after else end - time.months
    return off > (0 if unit == time.unit else _ALIKE * end)


def find_time_ties(standing: Sequence[Stands], ties: Ties, known: Known) -> None:
    """Every figure of a claim whose passage says when it was taken; every length that is the time of something else."""
    claim = ties.scope.claim
    if claim is None:
        return
    among: list[tuple[Stands, Times]] = []
    for stands in standing:
        if stands.row.role.kind == "length":
            _ask_what_else(stands, ties)
            _ask_bound(stands, claim, ties)
        elif stands.row.role.shares != "bound":
            times = stands.reading.told(times_in)
            if times.by_key or holds_any(stands.reading.small, _LAST):
                among.append((stands, times))
    timed = list(_with_windows(among, claim, standing, ties)) if among else []
    _ask_stretches(standing, claim, ties)
    # Where all times that a passage has fit, whatever figure has which, there is nothing to ask.
    if ties.wanted or any(not window.holds(time) for _, window, times in timed for time in times.by_key.values()):
        _tell([(stands, window, *said) for stands, window, times in timed if (said := _time_of(stands, times))], ties)
    _ask_last_visits(timed, ties)


_LAST = ("last", "latest", "final", "recent")
_last_visit = late(
    r"\b(?:at|by|until|up to)\s+(?:the|their|its|this|each)?\s*(?:last|latest|final|most recent)\s+"
    r"(?:recall|visit|follow-?up|review|examination|control|check-?up|appointment|observation|contact)s?\b",
    re.IGNORECASE,
    holds=_LAST,
).search


def _ask_last_visits(timed: Sequence[tuple[Stands, Window, Times]], ties: Ties) -> None:
    """Figures of the last visit, whenever that was, that the claim gives at one time."""
    for stands, window, times in timed:
        if stands.row.name not in _FIGURES or not window.is_one_time or stands.row.id in ties.asked:
            continue
        clause = stands.reading.told(surroundings_in).clause(stands.token.start)
        found = _last_visit(stands.reading.passage.text, *clause)
        if found is None or any(clause[0] <= mention.start < clause[1] for mention in times.mentions):
            continue
        if stands.reading.cells()[stands.at] is None and not is_pinned_away(stands, found.span()):
            ties.ask(
                stands, "other-time", f'gives it at the last visit ("{found[0]}")', f"the claim at {window.words}",
                "timing: last recall, with the mean or median of the follow-up",
            )  # fmt: skip


def _ask_stretches(standing: Sequence[Stands], claim: Claim, ties: Ties) -> None:
    """Counts of what happened between two times alone, where the claim has all that happened up to the later one."""
    if not any(reading.told(_stretches) for reading in ties.readings):
        return
    window = _window_of(_block(claim, ties))
    if window is None or window.high is None or (window.low is not None and not window.is_one_time):
        return
    for stands in standing:
        among = stands.reading.told(_stretches) if stands.row.name == "events" else []
        if not among:
            continue
        found = stretch_of(stands.reading.passage.text, stands.reading.tokens, stands.at, among)
        if found is None or abs(found.high - window.high) > _ALIKE * window.high or stands.row.id in ties.asked:
            continue
        if is_pinned_away(stands, found.words):
            continue
        said = stands.printed(found.words)
        ties.ask(
            stands, "other-time", f'counts what happened in a part of the time alone: "{said}"',
            f"the claim all up to {window.words.removeprefix('up to ')}",
            "type the count of the whole time; where the part is meant, type its two ends as `minimum` and `maximum`",
        )  # fmt: skip


def _stretches(reading: Reading) -> list[Stretch]:
    return stretches(reading.passage.text)


def _time_of(stands: Stands, times: Times) -> tuple[Time, Owner] | None:
    """The time of a number, where it is beyond doubt."""
    if stands.row.name != "p" or stands.reading.cells()[stands.at] is not None:
        return times.of(stands.at)
    owner = stands.reading.told(_p_times).get(stands.at)
    return (times.by_key[owner.key], owner) if owner is not None else times.of(stands.at)


def _p_times(reading: Reading) -> dict[int, Owner]:
    return p_times(reading.passage.text, reading.tokens, reading.told(p_values_in), reading.told(times_in))


def _with_windows(
    among: Sequence[tuple[Stands, Times]], claim: Claim, standing: Sequence[Stands], ties: Ties
) -> Iterator[tuple[Stands, Window, Times]]:
    """Each figure with the time that the claim gives to it, where it gives one."""
    standing_ids = {stands.row.id for stands in standing}
    follow_up = _window_of(_block(claim, ties))
    if type(claim.follow_up) is FollowUp and type(claim.follow_up.at) is Length:
        follow_up = follow_up if f"{ties.scope.name}/follow_up/at" in standing_ids else None
    at_once: dict[str, Window | None] = {}
    for level, estimate in (("", claim.estimate), *((level.level.text, level.estimate) for level in claim.levels)):
        if estimate is not None:
            at_once[level] = _window_at(estimate)
    for stands, times in among:
        window = follow_up
        if stands.block.endswith("/estimate"):  # a time that is nowhere printed is told already
            window = at_once.get(stands.row.level) if f"{stands.block}/at" in standing_ids else None
        if window is not None:
            yield stands, window, times


def _block(claim: Claim, ties: Ties) -> FollowUp | None:
    """The follow-up of a claim, where it names another claim's that one's."""
    block = claim.follow_up
    if type(block) is Words and ties.scope.report is not None:
        other = ties.scope.report.claim(block.text)
        block = other.follow_up if other is not None else block
    return block if type(block) is FollowUp else None


def _window_of(block: FollowUp | None) -> Window | None:
    if block is None:
        return None
    if type(block.at) is Length:
        return _at(block.at)
    low = block.minimum if type(block.minimum) is Length else None
    high = block.maximum if type(block.maximum) is Length else None
    if low is None and high is None:
        return None
    words = " to ".join(end.text for end in (low, high) if end is not None)
    words = words if low is not None and high is not None else f"{'from' if low is not None else 'up to'} {words}"
    ends = [end.months if end is not None else None for end in (low, high)]
    return Window(ends[0], ends[1], (low or high or block.at).unit, words)  # type: ignore[union-attr]


def _window_at(estimate: Estimate) -> Window | None:
    return _at(estimate.at) if type(estimate.at) is Length else None


def _at(time: Length) -> Window:
    months = time.value * MONTHS_IN[time.unit]
    return Window(months, months, time.unit, time.text)


Found = tuple[Stands, Window, Time, Owner]


def _tell(found: Sequence[Found], ties: Ties) -> None:
    """Tie what agrees; ask about figures that do not."""
    for stands, window, time, owner in found:
        if window.holds(time):
            if window.is_one_time:
                ties.tie(stands, "time", window.words, owner.by, *owner.words)
        elif (
            stands.row.name in _FIGURES
            and not _is_given(time, owner, stands, ties)
            and not _is_doubtful(stands, owner, window, found)
            and not (owner.by == "words" and is_pinned_away(stands, *owner.words))
        ):
            _ask_other(stands, window, time, owner, ties)


def _is_given(time: Time, owner: Owner, stands: Stands, ties: Ties) -> bool:
    """Whether the claim itself says so: "of those healed at one year", typed in `given`."""
    claim = ties.scope.claim
    given = claim.given.text.casefold() if claim is not None and claim.given is not None else ""
    return bool(given) and (time.shown.casefold() in given or stands.printed(*owner.words).casefold() in given)


def _is_doubtful(stands: Stands, owner: Owner, window: Window, found: Sequence[Found]) -> bool:
    """Whether the claim's own time may be meant after all.

    "At 6 and 12 months, A and B healed in ...": two levels of one claim have no two times. "At 5 years, 41 of the 47
    healed at 1 year were still healed": the time that leads the sentence has no other figure.
    """
    if stands.row.name == "p":
        return False
    if owner.by == "position" and stands.row.level:
        others = {other.key for each, _, _, other in found if each.row.level and each.row.name == stands.row.name}
        if len(others) > 1:
            return True
    times = stands.reading.told(times_in)
    leading = times.leading(stands.reading.passage.text, stands.token.start)
    return any(window.holds(times.by_key[mention.key]) for mention in leading)


def _ask_other(stands: Stands, window: Window, time: Time, owner: Owner, ties: Ties) -> None:
    said = stands.printed(*owner.words)
    how = " by its place" if owner.by == "position" else ""
    also = f' ("{said}")' if said.casefold() != time.shown.casefold() else ""
    word = "at " if window.is_one_time else ""
    ties.ask(
        stands, "other-time", f"gives it{how} at {time.shown}{also}", f"the claim {word}{window.words}",
        f"where the passage is right, type the time that it gives: {time.shown}",
    )  # fmt: skip
    # The same is not asked once more about the time that was typed.
    ties.asked.update(f"{block}/at" for block in (stands.block, f"{ties.scope.name}/follow_up"))


_BOUNDS = {"<": "at most", "<=": "at most", ">": "at least", ">=": "at least"}


def _ask_bound(stands: Stands, claim: Claim, ties: Ties) -> None:
    """ "At least 12 months" typed as a time, a mean or a maximum, where it stands nowhere without the bound."""
    token, name = stands.token, stands.row.name
    said = _BOUNDS.get(token.comparator)
    if stands.reading.small.startswith("over", token.outer_start):  # "over 5 years" is in five
        return
    if said is None or stands.row.id in ties.asked or name not in _LENGTHS or not stands.block.endswith("/follow_up"):
        return
    timing = claim.follow_up.timing if type(claim.follow_up) is FollowUp else None
    is_at = name == "at" and type(timing) is Words and timing.text == "at"
    is_turned = (name, said) in (("minimum", "at most"), ("maximum", "at least"))
    if not (is_at or is_turned or name in ("mean", "median")):
        return
    tokens = stands.reading.tokens
    if not any(
        tokens[index].unit == token.unit and not tokens[index].comparator
        for index in stands.reading.by_value.get(token.value, ())
    ):
        end = "minimum" if said == "at least" else "maximum"
        ties.ask(
            stands, "time-is-a-bound", f"prints it as a bound: {said} {token.shown.lstrip('<>=≤≥ ')}",
            f"the claim as `{name}`", f"{end}: {stands.row.typed}, with `timing` as the report has it",
        )  # fmt: skip


def _ask_what_else(stands: Stands, ties: Ties) -> None:
    """A length typed as follow-up that the passage prints as something else, and nowhere as a time of follow-up."""
    if stands.row.name not in _LENGTHS:
        return
    tokens, text = stands.reading.tokens, stands.reading.passage.text
    what = what_else(text, tokens, stands.token)
    if not what:
        return
    same = [
        index for index in stands.reading.by_value.get(stands.token.value, ())
        if tokens[index].unit == stands.token.unit and not what_else(text, tokens, tokens[index])
    ]  # fmt: skip
    if not same:
        ties.ask(
            stands, "time-of-something-else", f"prints it as {what}", f"the claim as follow-up (`{stands.row.name}`)"
        )
