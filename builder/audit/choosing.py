"""The choice among printed numbers: within one claim each proves one field, and nothing is preferred."""

from __future__ import annotations

import re
from bisect import bisect
from collections.abc import Sequence
from typing import Literal, NamedTuple

from builder.audit.field_roles import Quoted, Scope
from builder.audit.level_wordings import clauses
from builder.audit.matching import FAMILIES, Reading, candidates
from builder.numerals import Token

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


def choose(scope: Scope, readings: Sequence[Reading | None]) -> list[Choice | None]:
    """For each field of one claim or one study's facts the printed number that proves it; None where it has no passage.

    Within a scope one printed number proves one field. Nothing is preferred: what could prove a field equally well as
    another number makes it ambiguous, for otherwise a wrong digit in the one would be covered by the other.
    """
    rows = scope.quoted
    chosen: list[Choice | None] = [None] * len(rows)
    options: list[list[int]] = []
    for quoted, reading in zip(rows, readings, strict=True):
        options.append(candidates(quoted, reading, scope) if reading is not None else [])
    within_levels(scope, readings, options)
    linked: dict[int, int] = {}
    for at, quoted in enumerate(rows):
        if quoted.leads and readings[at] is not None and readings[at] is readings[at + 1]:
            _pair(quoted, at, readings[at], options, chosen, linked)  # type: ignore[arg-type]
    taken: dict[tuple[int, int], int] = {}
    waiting = []
    bounds = []
    for at in range(len(rows)):
        if readings[at] is None or chosen[at] is not None:
            continue
        if rows[at].role.kind == "bound":
            bounds.append(at)
            continue
        found = options[at]
        if not found:
            chosen[at] = Choice(-1, "absent")
        elif len(found) == 1 and _take(at, found[0], rows, readings, taken):
            chosen[at] = Choice(found[0])
        else:
            waiting.append(at)
    while waiting:
        left = []
        for at in waiting:
            free = [index for index in options[at] if _is_free(at, index, rows, readings, taken)]
            partner = linked.get(at)
            if partner is not None and chosen[partner] is not None and chosen[partner].at >= 0:  # type: ignore[union-attr]
                mate = readings[at].tokens[chosen[partner].at].pair  # type: ignore[union-attr]
                free = [index for index in free if index == mate]
            if not free:
                holders = (taken.get((id(readings[at]), index)) for index in options[at])
                holder = next((rows[other] for other in holders if other is not None), None)
                chosen[at] = Choice(-1, "taken", tuple(options[at]), holder)
            elif len(free) == 1:
                _take(at, free[0], rows, readings, taken)
                chosen[at] = Choice(free[0])
            else:
                left.append(at)
        if len(left) == len(waiting):
            settled = _settle_equal(left, rows, readings, options, taken, linked)
            if settled is None:
                for at in left:
                    chosen[at] = Choice(-1, "ambiguous", tuple(options[at]))
                break
            at, index = settled
            _take(at, index, rows, readings, taken)
            chosen[at] = Choice(index)
            left.remove(at)
        waiting = left
    if bounds:
        choose_bounds(rows, readings, options, chosen, taken, bounds)
    return chosen


def _take(
    at: int, index: int, rows: list[Quoted], readings: Sequence[Reading | None], taken: dict[tuple[int, int], int]
) -> bool:
    key = (id(readings[at]), index)
    if key in taken and not _may_share(rows[at], rows[taken[key]], readings[at], index):
        return False
    taken[key] = at
    return True


def _is_free(
    at: int, index: int, rows: list[Quoted], readings: Sequence[Reading | None], taken: dict[tuple[int, int], int]
) -> bool:
    holder = taken.get((id(readings[at]), index))
    return holder is None or _may_share(rows[at], rows[holder], readings[at], index)


def _settle_equal(
    left: list[int], rows: list[Quoted], readings: Sequence[Reading | None], options: list[list[int]],
    taken: dict[tuple[int, int], int], linked: dict[int, int],
) -> tuple[int, int] | None:  # fmt: skip
    """One field and its number, where as many fields want some equal numbers as there are of them.

    "51, 55 and 51" for three arms: whichever 51 is whose, both are proved, and a wrong digit leaves one field without.
    """
    wanting: dict[tuple[int, tuple[int, ...]], list[int]] = {}
    for at in left:
        free = tuple(index for index in options[at] if _is_free(at, index, rows, readings, taken))
        wanting.setdefault((id(readings[at]), free), []).append(at)
    for (_, free), fields in wanting.items():
        if len(fields) >= len(free):
            return fields[0], free[0]
    return None


_EACH = re.compile(r"\b(?:each|both|per|every|either|equal(?:ly)?)\b", re.IGNORECASE)
_NEAR = 40
"""Characters on either side of a number within which "per group" or "each" speaks of it."""


def _may_share(one: Quoted, other: Quoted, reading: Reading | None, index: int) -> bool:
    """Only a total, a time, a bound or equal steps of a flow, and only with its like; a count of two parts where the
    passage prints it once for both."""
    shares = one.role.shares
    if not shares or shares != other.role.shares or reading is None:
        return False
    if shares in ("units", "part") and (shares == "part" or one.level and other.level) and one.level != other.level:
        token = reading.tokens[index]
        return _EACH.search(reading.passage.text, max(token.start - _NEAR, 0), token.end + _NEAR) is not None
    return shares != "part"


def _pair(
    quoted: Quoted,
    at: int,
    reading: Reading,
    options: list[list[int]],
    chosen: list[Choice | None],
    linked: dict[int, int],
) -> None:
    """Two fields that are printed as a pair must match one pair, or two numbers that stand alone."""
    tokens = reading.tokens
    first, second = options[at], options[at + 1]
    mates = [index for index in first if tokens[index].part and tokens[index].pair in second]
    if mates:
        options[at] = mates
        options[at + 1] = [tokens[index].pair for index in mates]
        linked[at], linked[at + 1] = at + 1, at
        return
    alone = [index for index in first if not tokens[index].part]
    others = [index for index in second if not tokens[index].part]
    if alone and others:
        options[at], options[at + 1] = alone, others
    elif rest := _of_the_rest(quoted, alone, second, tokens):
        options[at], options[at + 1] = rest
    elif first and second:
        chosen[at + 1] = Choice(
            -1, "pair", tuple(tokens[index].pair for index in first if tokens[index].pair >= 0) or tuple(first)
        )


def _of_the_rest(
    quoted: Quoted, alone: list[int], second: list[int], tokens: Sequence[Token]
) -> tuple[list[int], list[int]] | None:
    """ "23 of 29 healed; 6 did not heal" also prints that 6 of 29 did not: the two add up, and a word says which."""
    named = [index for index in alone if quoted.side and quoted.side in tokens[index].roles]
    totals = [
        index
        for index in second
        if tokens[index].part == "total" and tokens[tokens[index].pair].value + quoted.value == tokens[index].value
    ]
    return (named, totals) if named and totals else None


# Bounds of levels


def choose_bounds(
    rows: list[Quoted],
    readings: Sequence[Reading | None],
    options: list[list[int]],
    chosen: list[Choice | None],
    taken: dict[tuple[int, int], int],
    bounds: list[int],
) -> None:
    """The wording of a level may stand in its row and again beside a ratio: each field takes the one in its own clause.

    Where that clause prints another bound of the same side, the wording does not fit its numbers and nothing is proved.
    """
    late = []
    for at in bounds:
        reading = readings[at]
        found = options[at]
        if reading is None or not found:
            chosen[at] = Choice(-1, "absent")
            continue
        found = [index for index in found if _is_free(at, index, rows, readings, taken)]
        if not found:
            chosen[at] = Choice(-1, "taken", tuple(options[at]))
        elif len(found) == 1 and len(_sides(reading, reading.tokens[found[0]])) == 1:
            taken[id(reading), found[0]] = at
            chosen[at] = Choice(found[0])
        else:
            near, strange = _in_own_clause(at, found, rows, readings, chosen)
            if strange:
                chosen[at] = Choice(-1, "absent")
            elif len(near) == 1 or len(found) == 1:
                index = near[0] if len(near) == 1 else found[0]
                taken[id(reading), index] = at
                chosen[at] = Choice(index)
            else:
                late.append((at, found))
    for at, found in late:  # the claim's `reference` is one of its levels, said once more
        same = {
            taken_at.at
            for other in bounds
            if (taken_at := chosen[other]) is not None and taken_at.at in found and readings[other] is readings[at]
            and rows[other].typed == rows[at].typed
        }  # fmt: skip
        if rows[at].role.own == "reference" and same:
            chosen[at] = Choice(min(same))
        else:
            chosen[at] = Choice(-1, "ambiguous", tuple(found))


def _sides(reading: Reading, like: Token) -> set[int]:
    """Places of the numbers that bound the same side in the same unit."""
    return {
        index
        for index, token in enumerate(reading.tokens)
        if token.unit == like.unit and token.comparator == like.comparator and token.part == like.part
        and (token.comparator or token.kind == like.kind)
    }  # fmt: skip


def _in_own_clause(
    at: int, found: list[int], rows: list[Quoted], readings: Sequence[Reading | None], chosen: list[Choice | None]
) -> tuple[list[int], bool]:
    """Those of the numbers found that share a clause with what proves the same block; and whether a strange bound
    does."""
    reading = readings[at]
    assert reading is not None
    block = rows[at].id[: rows[at].id.rindex(f"/{rows[at].name}") + 1]
    tokens = reading.tokens
    ends = clauses(reading.passage.text)
    own = {
        bisect(ends, tokens[choice.at].start)
        for row, choice, place in zip(rows, chosen, readings, strict=True)
        if choice is not None and choice.at >= 0 and place is reading and row.role.kind != "bound"
        and row.id.startswith(block) and row.id.count("/", len(block)) <= 1
    }  # fmt: skip
    near = [index for index in found if bisect(ends, tokens[index].start) in own]
    values = {row.value for row in rows if row.role.kind == "bound"}
    strange = not near and any(
        bisect(ends, tokens[index].start) in own and tokens[index].value not in values
        for index in _sides(reading, tokens[found[0]])
        if tokens[index].comparator
    )
    return near, strange


# Levels


def within_levels(scope: Scope, readings: Sequence[Reading | None], options: list[list[int]]) -> None:
    """A number in the words of another level proves nothing of this one."""
    wordings = scope.wordings
    if len(wordings) < 1:
        return
    for at, quoted in enumerate(scope.quoted):
        found = options[at]
        reading = readings[at]
        if not found or not quoted.level or reading is None:
            continue
        levels = reading.levels(wordings)
        own = [index for index in found if levels[index] == quoted.level]
        if len(own) == len(found):
            continue
        neutral = [index for index in found if levels[index] is None]
        if neutral and _is_complete(scope, quoted, readings, reading, levels):
            neutral = []
        options[at] = own + neutral


def _is_complete(
    scope: Scope, quoted: Quoted, readings: Sequence[Reading | None], reading: Reading, levels: list[str | None]
) -> bool:
    """True where the words of a level hold as many numbers of this kind as the level has fields of it."""
    kind = quoted.role.kind
    wanted = sum(
        row.level == quoted.level and row.role.kind == kind and readings[at] is reading
        for at, row in enumerate(scope.quoted)
    )
    printed = sum(
        level == quoted.level and kind in FAMILIES.get(token.kind, (token.kind,))
        for level, token in zip(levels, reading.tokens, strict=True)
    )
    return printed >= wanted
