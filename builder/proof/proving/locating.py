"""The second look at numbers that found no proof: the passage has them, and its words may say something else of them.

Words can be misread. What stands in the passage with the value, kind and unit of a field is therefore located, and
asked about; a number that does not stand there stays an error.
"""

from __future__ import annotations

from collections.abc import Sequence

from ...numerals import Token
from .field_roles import Quoted, Scope
from .likeness import has_precision, is_like, is_of_kind
from .matching import converted
from .printed_passage import Reading
from .sharing import Choice


def locate(scope: Scope, readings: Sequence[Reading | None], choices: Sequence[Choice | None]) -> list[Choice | None]:
    """The choices, each failed one with the number that it may have been: of those nobody has, the one against which
    least speaks."""
    found = list(choices)
    if all(choice is None or choice.at >= 0 for choice in choices):
        return found
    taken = {
        (id(reading), choice.at): at
        for at, (reading, choice) in enumerate(zip(readings, choices, strict=True))
        if choice is not None and choice.at >= 0
    }
    for at, (row, reading, choice) in enumerate(zip(scope.quoted, readings, choices, strict=True)):
        if choice is None or reading is None or choice.at >= 0:
            continue
        if row.role.kind == "bound":
            if choice.failure == "ambiguous":  # it stands there more than once, and bounds are shared
                found[at] = choice._replace(at=choice.among[0])
            continue
        found_there = standing(row, reading)
        if not found_there:
            continue
        mate = _mate(at, scope.quoted, readings, found)
        best = min(
            found_there,
            key=lambda index: ((id(reading), index) in taken, index != mate, *_against(row, reading, index, scope)),
        )
        holder = taken.get((id(reading), best))
        if holder is None:
            taken[id(reading), best] = at
            # "71 were examined; 62 of the 71 ..": beside the 62 no other 71 is meant.
            is_settled = choice.failure == "ambiguous" and best == mate
            found[at] = Choice(best) if is_settled else choice._replace(at=best, failure=choice.failure or "absent")
        else:
            found[at] = Choice(best, "taken", (best,), scope.quoted[holder])
    return found


def standing(row: Quoted, reading: Reading) -> list[int]:
    """Numbers of the value, precision, kind and unit of a field, whatever the words beside them say, in the words that
    were quoted for it."""
    if row.typed[:1] == "0" and row.typed[1:2].isdigit():
        return []
    tokens = reading.tokens
    same = [index for index in reading.by_value.get(row.value, ()) if not _is_name(tokens[index])]
    if row.role.kind == "length":  # 30 months are no 30 years
        value, unit = converted(row)
        same = [index for index in same if tokens[index].unit in (row.unit, "none")]
        same += [index for index in reading.by_value.get(value, ()) if unit and tokens[index].unit == unit]
    inside = reading.inside(row.within_words) if row.within_words and not row.strays else None
    return [
        index
        for index in same
        if (inside is None or index in inside)
        and (tokens[index].decimals == row.decimals or has_precision(row, tokens[index]))
        and is_of_kind(row, tokens[index], reading.lexicon)
    ]


def _is_name(token: Token) -> bool:
    """ "Table 12", "per 100"."""
    return "label" in token.roles or "per" in token.roles


def _mate(at: int, rows: Sequence[Quoted], readings: Sequence[Reading | None], choices: Sequence[Choice | None]) -> int:
    """The other half of the pair that proves the field's partner; -1 where there is none."""
    partner = at + 1 if rows[at].leads else at - 1 if at and rows[at - 1].leads else -1
    if partner < 0 or readings[partner] is not readings[at]:
        return -1
    choice, reading = choices[partner], readings[at]
    if choice is None or choice.at < 0 or reading is None:
        return -1
    return reading.tokens[choice.at].pair


def _against(row: Quoted, reading: Reading, index: int, scope: Scope) -> tuple[bool, bool, bool, int]:
    """What speaks against a number, the weightiest first."""
    owner = reading.owners(scope.names)[index] if row.level and scope.names else None
    key = owner.key if owner is not None else ""
    return key not in ("", row.level), not is_like(row, reading.tokens[index], scope), not key, index
