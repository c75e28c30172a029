"""The outcome for one field, and which fields one printed number may prove together."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Literal, NamedTuple

from .field_roles import Quoted
from .matching import Reading

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


def is_free(
    at: int, index: int, rows: list[Quoted], readings: Sequence[Reading | None], taken: dict[tuple[int, int], int]
) -> bool:
    """True where no other field has this number, or one that may share it."""
    holder = taken.get((id(readings[at]), index))
    return holder is None or may_share(rows[at], rows[holder], readings[at], index)


def taken_choice(
    at: int, rows: list[Quoted], readings: Sequence[Reading | None], options: list[list[int]],
    taken: dict[tuple[int, int], int],
) -> Choice:  # fmt: skip
    """The failure of a field whose numbers prove others already, with one of those."""
    holders = (taken.get((id(readings[at]), index)) for index in options[at])
    holder = next((rows[other] for other in holders if other is not None), None)
    return Choice(-1, "taken", tuple(options[at]), holder)


_EACH = re.compile(r"\b(?:each|both|per|every|either|equal(?:ly)?)\b", re.IGNORECASE)
_NEAR = 40
"""Characters on either side of a number within which "per group" or "each" speaks of it."""


def may_share(one: Quoted, other: Quoted, reading: Reading | None, index: int) -> bool:
    """Only a total, a time, a bound or equal steps of a flow, and only with its like; a count of two parts where the
    passage prints it once for both."""
    shares = one.role.shares
    if not shares or shares != other.role.shares or reading is None:
        return False
    if shares in ("units", "part") and (shares == "part" or (one.level and other.level)) and one.level != other.level:
        token = reading.tokens[index]
        return _EACH.search(reading.passage.text, max(token.start - _NEAR, 0), token.end + _NEAR) is not None
    return shares != "part"
