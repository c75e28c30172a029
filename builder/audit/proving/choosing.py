"""The choice among printed numbers: within one claim each proves one field, and nothing is preferred."""

from __future__ import annotations

from collections.abc import Sequence

from ...numerals import Token
from .field_roles import Quoted, Scope
from .matching import Reading, candidates, has_precision, is_like
from .own_clause import choose_bounds, choose_times
from .sharing import Choice, is_free, may_share, taken_choice


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
            _pair(at, rows, readings[at], options, chosen, linked)  # type: ignore[arg-type]
    taken: dict[tuple[int, int], int] = {}
    waiting = []
    bounds: list[int] = []
    times: list[int] = []
    for at in range(len(rows)):
        if readings[at] is None or chosen[at] is not None:
            continue
        shares = rows[at].role.shares
        if shares == "bound" or shares == "at":
            (bounds if shares == "bound" else times).append(at)
            continue
        found = options[at]
        if not found:
            chosen[at] = _ABSENT
        elif len(found) == 1 and _take(at, found[0], rows, readings, taken):
            chosen[at] = _choice(found[0])
        else:
            waiting.append(at)
    while waiting:
        left = []
        for at in waiting:
            free = [index for index in options[at] if is_free(at, index, rows, readings, taken)]
            partner = linked.get(at)
            if partner is not None and chosen[partner] is not None and chosen[partner].at >= 0:  # type: ignore[union-attr]
                mate = readings[at].tokens[chosen[partner].at].pair  # type: ignore[union-attr]
                free = [index for index in free if index == mate]
            if not free:
                chosen[at] = taken_choice(at, rows, readings, options, taken)
            elif len(free) == 1:
                _take(at, free[0], rows, readings, taken)
                chosen[at] = _choice(free[0])
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
    if times:
        choose_times(rows, readings, options, chosen, taken, times)
    if bounds:
        choose_bounds(rows, readings, options, chosen, taken, bounds)
    return chosen


_ABSENT = Choice(-1, "absent")
_CHOICES = tuple(Choice(index) for index in range(256))


def _choice(index: int) -> Choice:
    return _CHOICES[index] if index < 256 else Choice(index)


def _take(
    at: int, index: int, rows: list[Quoted], readings: Sequence[Reading | None], taken: dict[tuple[int, int], int]
) -> bool:
    key = (id(readings[at]), index)
    if key in taken and not may_share(rows[at], rows[taken[key]], readings[at], index):
        return False
    taken[key] = at
    return True


def _settle_equal(
    left: list[int], rows: list[Quoted], readings: Sequence[Reading | None], options: list[list[int]],
    taken: dict[tuple[int, int], int], linked: dict[int, int],
) -> tuple[int, int] | None:  # fmt: skip
    """One field and its number, where as many fields want some equal numbers as there are of them.

    "51, 55 and 51" for three arms: whichever 51 is whose, both are proved, and a wrong digit leaves one field without.
    """
    wanting: dict[tuple[int, tuple[int, ...]], list[int]] = {}
    for at in left:
        free = tuple(index for index in options[at] if is_free(at, index, rows, readings, taken))
        wanting.setdefault((id(readings[at]), free), []).append(at)
    for (_, free), fields in wanting.items():
        if len(fields) >= len(free):
            return fields[0], free[0]
    return None


def _pair(
    at: int,
    rows: list[Quoted],
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
    elif rest := _of_the_rest(at, rows, alone, second, tokens):
        options[at], options[at + 1] = rest
    elif first and second:
        chosen[at + 1] = Choice(
            -1, "pair", tuple(tokens[index].pair for index in first if tokens[index].pair >= 0) or tuple(first)
        )


def _of_the_rest(
    at: int, rows: list[Quoted], alone: list[int], second: list[int], tokens: Sequence[Token]
) -> tuple[list[int], list[int]] | None:
    """ "23 of 29 healed; 6 did not heal" also prints that 6 of 29 did not: the two add up, and a word says which.

    "9 of the 50 patients on day 1; by day 7 one (2%)": here the printed share says that the one is of the 50 too.
    """
    quoted, total = rows[at], rows[at + 1]
    paired = [index for index in second if tokens[index].part == "total"]
    if not alone or not paired:
        return None
    block = quoted.id.removesuffix("events")
    for row in rows:
        if row.role.kind == "percent" and row.id in (f"{block}rate", f"{block}success_rate"):
            off = abs(100 * quoted.value - row.value * total.value) * 10**row.decimals
            return (alone, paired) if 2 * off <= total.value else None
    named = [index for index in alone if quoted.side and quoted.side in tokens[index].roles]
    rest = [index for index in paired if tokens[tokens[index].pair].value + quoted.value == total.value]
    return (named, rest) if named and rest else None


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
    wanted = [
        row
        for at, row in enumerate(scope.quoted)
        if row.level == quoted.level and row.role.kind == kind and readings[at] is reading
    ]
    named = [row.role.own for row in wanted if row.role.own and reading.shows(row)]
    printed = sum(
        level == quoted.level
        and any(
            is_like(row, token, scope)
            and has_precision(row, token)
            and (row.role.own not in named or row.role.own in token.roles)
            for row in wanted
        )
        for level, token in zip(levels, reading.tokens, strict=True)
    )
    return printed >= len(wanted)
