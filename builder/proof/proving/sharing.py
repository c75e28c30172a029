"""The fields of one scope with the printed numbers that could prove them, and which of them one number may share."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache
from typing import Literal

from ...numerals import Token
from ...numerals.late import late
from ...records import NamedTuple
from ...synthesis.rounding import is_share_of
from .field_roles import Quoted
from .printed_passage import Reading

Failure = Literal["absent", "taken", "pair", "ambiguous"]


class Choice(NamedTuple):
    """The outcome for one field."""

    at: int
    """Of the number that proves it, in the passage's numbers; -1: none."""
    failure: Failure | None = None
    among: tuple[int, ...] = ()
    """Numbers that the message may point at."""
    holder: Quoted | None = None
    """The field that the number proves already, where it was taken."""


_ABSENT = Choice(-1, "absent")
_by = lru_cache(maxsize=256)(Choice)
"""A number of the passage without anything against it, which most choices are; made once for each place."""


class Fields:
    """The fields of one claim or one study's facts while their proofs are chosen, each by its place among them."""

    __slots__ = ("_taken", "chosen", "of_one_whole", "options", "readings", "rows")

    def __init__(self, rows: Sequence[Quoted], readings: Sequence[Reading | None], options: list[list[int]]) -> None:
        self.rows = rows
        self.readings = readings
        """Of each field the passage that should prove it; None where it has none."""
        self.options = options
        """Of each field the numbers of its passage that could prove it."""
        self.chosen: list[Choice | None] = [None] * len(rows)
        self.of_one_whole: set[int] = set()
        """Totals that the passage prints once for several counts of one sentence."""
        self._taken: dict[tuple[int, int], int] = {}
        """By passage and number the field that it proves."""

    def tokens(self, at: int) -> Sequence[Token]:
        """The numbers of the passage of a field that has one."""
        reading = self.readings[at]
        return reading.tokens if reading is not None else ()

    def free(self, at: int) -> list[int]:
        """Those of the numbers that could prove a field which no other field has, or one that may share them."""
        return [index for index in self.options[at] if self.is_free(at, index)]

    def is_free(self, at: int, index: int) -> bool:
        """True where no other field has this number, or one that may share it."""
        holder = self._taken.get((id(self.readings[at]), index))
        return holder is None or self._may_share(at, holder, index)

    def _may_share(self, at: int, holder: int, index: int) -> bool:
        one, other = self.rows[at], self.rows[holder]
        if may_share(one, other, self.readings[at], index):
            return True
        if not one.name == other.name == "total":
            return False
        is_one_whole = at in self.of_one_whole or holder in self.of_one_whole
        if is_one_whole or (self._is_of_pair(at, index) and self._is_of_pair(holder, index)):
            return True
        return self._share_follows(at, index) and self._share_follows(holder, index)

    def _is_of_pair(self, at: int, index: int) -> bool:
        """Whether the passage prints the events beside a total in one pair with it: "70, 16 and 14 of 100"."""
        tokens = self.tokens(at)
        options = self.options[at - 1] if at and self.rows[at - 1].leads else []
        return bool(options) and all(tokens[option].pair == index for option in options)

    def _share_follows(self, at: int, index: int) -> bool:
        """Whether the share typed beside a total follows from it: "64 (51.2%) of 125 with A and 79 (63.2%) with B"."""
        block = self.rows[at].id.rpartition("/")[0]
        beside = {row.name: row for row in self.rows if row.id.rpartition("/")[0] == block}
        events, share = beside.get("events"), beside.get("rate") or beside.get("success_rate")
        total = self.tokens(at)[index].value
        if events is None or share is None:
            return False
        return is_share_of(share.value, share.decimals, events.value, total)

    def prove(self, at: int, index: int) -> None:
        """This number proves the field."""
        self._taken[id(self.readings[at]), index] = at
        self.chosen[at] = _by(index)

    def prove_if_free(self, at: int, index: int) -> bool:
        """The same, unless another field has the number and may not share it."""
        place = (id(self.readings[at]), index)
        holder = self._taken.get(place)
        if holder is not None and not self._may_share(at, holder, index):
            return False
        self._taken[place] = at
        self.chosen[at] = _by(index)
        return True

    def proved_in(self, reading: Reading) -> list[tuple[Quoted, int]]:
        """The fields that a passage proves, with the number of each."""
        return [
            (row, choice.at)
            for row, choice, place in zip(self.rows, self.chosen, self.readings, strict=True)
            if place is reading and choice is not None and choice.at >= 0
        ]

    def fail_as_absent(self, at: int) -> None:
        """No number of the passage could prove the field."""
        self.chosen[at] = _ABSENT

    def fail_as_ambiguous(self, at: int, among: Sequence[int]) -> None:
        """Several numbers could, and nothing says which."""
        self.chosen[at] = Choice(-1, "ambiguous", tuple(among))

    def fail_as_taken(self, at: int) -> None:
        """All that could prove the field prove others already."""
        holders = (self._taken.get((id(self.readings[at]), index)) for index in self.options[at])
        holder = next((self.rows[other] for other in holders if other is not None), None)
        self.chosen[at] = Choice(-1, "taken", tuple(self.options[at]), holder)


_EACH = late(
    r"\b(?:each|both|per|every|either|equal(?:ly)?|a\s+group|an\s+arm|all\s+(?:groups|arms)|(?:groups|arms)\s+of)\b",
    re.IGNORECASE,
)
_NEAR = 40
"""Characters on either side of a number within which "per group" or "each" speaks of it."""


def may_share(one: Quoted, other: Quoted, reading: Reading | None, index: int) -> bool:
    """Only a total, a time, a bound or equal steps of a flow, and only with its like; a count of two parts where the
    passage prints it once for both."""
    shares = one.role.shares
    if _is_one_grade(one, other):
        return True
    if reading is not None and _are_events_of_two_levels(one, other):
        return is_of_each(reading.passage.text, reading.tokens[index].end) is not None
    if not shares or shares != other.role.shares or reading is None:
        return False
    if shares in ("units", "part") and (shares == "part" or (one.level and other.level)) and one.level != other.level:
        token = reading.tokens[index]
        if shares == "units" and "n" in token.roles and _stands_over_table(reading, index):
            return True
        return _EACH.search(reading.passage.text, max(token.start - _NEAR, 0), token.end + _NEAR) is not None
    return shares != "part"


def _is_one_grade(one: Quoted, other: Quoted) -> bool:
    """The events of a claim and their grade in it: "healed, 54; healing, 5; failed, 3" counts 54 once."""
    if one.name != other.name or one.value != other.value or one.level != other.level:
        return False
    first, second = sorted((one.id.rpartition("/")[0], other.id.rpartition("/")[0]), key=len)
    return second.startswith(f"{first}/") and second.count("/") == first.count("/") + 1


def _are_events_of_two_levels(one: Quoted, other: Quoted) -> bool:
    return one.name == other.name == "events" and bool(one.level and other.level) and one.level != other.level


is_of_each = late(
    r"\s*(?:[a-z]+\s+){0,2}?(?:each|apiece|in\s+(?:each|either|both)\b|per\s+(?:group|arm))(?!\s+(?:other|time|visit))",
    re.IGNORECASE,
    holds=("each", "apiece", "either", "both", "per"),
).match
""" "Nine cases each"."""


def _stands_over_table(reading: Reading, index: int) -> bool:
    """Whether a number stands in a line of words over the rows of a table: "mean (SD), n = 12"."""
    places = reading.table.places
    return places[index] is None and any(place is not None for place in places[index + 1 :])
