"""Bounds of levels and times: printed again and again, each field takes the one in the clause of its own figures."""

from __future__ import annotations

from bisect import bisect
from collections.abc import Sequence

from ...numerals import Token
from .field_roles import Quoted
from .level_wordings import clauses, segments
from .matching import Reading
from .sharing import Choice, is_free, taken_choice


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
        found = [index for index in found if is_free(at, index, rows, readings, taken)]
        if not found:
            chosen[at] = taken_choice(at, rows, readings, options, taken)
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


# Times

_SPREAD = frozenset({"mean", "median", "sd", "range", "iqr", "minimum", "maximum", "tolerance"})
"""Times with these words say how long all were followed, not when the figure was taken."""
_FIGURES = frozenset({"value", "events", "total", "rate", "success_rate", "low", "high"})


def choose_times(
    rows: list[Quoted],
    readings: Sequence[Reading | None],
    options: list[list[int]],
    chosen: list[Choice | None],
    taken: dict[tuple[int, int], int],
    times: list[int],
) -> None:
    """ "97% at 1 year, 89% at 5 years": the time of a figure is the one printed beside it, where one is.

    Where the words of the figure hold another time, none from elsewhere will do.
    """
    typed = {row.value for row in rows if row.role.kind == "length"}
    for at in times:
        reading = readings[at]
        found = options[at]
        if reading is None or not found:
            chosen[at] = Choice(-1, "absent")
            continue
        found = [index for index in found if is_free(at, index, rows, readings, taken)]
        if not found:
            chosen[at] = taken_choice(at, rows, readings, options, taken)
            continue
        tokens = reading.tokens
        rivals = [
            index
            for index, token in enumerate(tokens)
            if token.kind == "length"
            and _SPREAD.isdisjoint(token.roles)
            and token.part != "low"
            and token.value not in typed
        ]
        if len(found) > 1 or rivals:
            ends = segments(reading.passage.text)
            own = {bisect(ends, tokens[index].start) for index in _figures_of(at, rows, readings, chosen)}
            near = [index for index in found if bisect(ends, tokens[index].start) in own]
            if near:
                found = near
            elif any(bisect(ends, tokens[index].start) in own for index in rivals):
                found = []
        if not found:
            chosen[at] = Choice(-1, "absent")
        elif len(found) > 1:
            chosen[at] = Choice(-1, "ambiguous", tuple(found))
        else:
            taken[id(reading), found[0]] = at
            chosen[at] = Choice(found[0])


def _figures_of(
    at: int, rows: list[Quoted], readings: Sequence[Reading | None], chosen: list[Choice | None]
) -> list[int]:
    """What proves the figure that this time is about: an estimate's value, or the counts and rates of the claim."""
    block = rows[at].id.rpartition("/")[0]
    if block.endswith("/follow_up"):
        block = block.removesuffix("/follow_up")
        names = _FIGURES
    else:
        names = frozenset({"value"})
    return [
        choice.at
        for row, choice, place in zip(rows, chosen, readings, strict=True)
        if choice is not None and choice.at >= 0 and place is readings[at] and row.name in names
        and row.id.startswith(block + "/") and row.role.shares != "bound"
    ]  # fmt: skip
