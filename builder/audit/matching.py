"""Which printed number proves which field: one passage as numbers, and the choice among them."""

from __future__ import annotations

import re
from collections.abc import Sequence
from decimal import Decimal
from typing import Literal, NamedTuple

from builder.audit.fields import COUNT_UNITS, Quoted, Scope
from builder.numerals import Token, read_numerals
from builder.numerals.words import ROLES
from builder.reading.report_model import Passage

_MONTHS = {"month": 1, "year": 12}
_NEVER_A_BOUND = frozenset({"p", "ratio", "confidence", "interval", "unreadable"})
_OPPOSITE = {"<": ">=", "<=": ">", ">": "<=", ">=": "<"}
_FAMILIES: dict[str, tuple[str, ...]] = {"number": ("count", "length", "number"), "length": ("length",), "count": ("count",)}

Failure = Literal["absent", "role", "precision", "taken", "pair", "ambiguous"]


class Reading:
    """A passage with the numbers printed in it, read once."""

    __slots__ = ("_levels", "by_value", "passage", "shown_roles", "tokens")

    def __init__(self, passage: Passage) -> None:
        self.passage = passage
        self.tokens = read_numerals(passage.text)
        self.by_value: dict[Decimal, list[int]] = {}
        self.shown_roles: set[tuple[str, str]] = set()
        self._levels: dict[tuple[str, ...], list[str | None]] = {}
        for index, token in enumerate(self.tokens):
            self.by_value.setdefault(token.value, []).append(index)
            for role in token.roles:
                for family in _FAMILIES.get(token.kind, (token.kind,)):
                    self.shown_roles.add((role, family))

    def levels(self, wordings: tuple[str, ...]) -> list[str | None]:
        """For each number the level in whose words it stands, None where the passage does not say."""
        found = self._levels.get(wordings)
        if found is None:
            found = self._levels[wordings] = _levels_of(self.passage.text, self.tokens, wordings)
        return found


def fits(quoted: Quoted, token: Token, scope: Scope) -> bool:
    """Whether a printed number of this value may prove the field: kind, unit, role, precision and comparator."""
    return is_like(quoted, token, scope) and has_precision(quoted, token)


def has_precision(quoted: Quoted, token: Token) -> bool:
    """A converted length has the precision of its own unit; everything else is typed as printed."""
    return token.decimals == quoted.decimals or (token.unit != quoted.unit and token.unit in _MONTHS and quoted.unit in _MONTHS)


def is_like(quoted: Quoted, token: Token, scope: Scope) -> bool:
    """The same without the precision."""
    role = quoted.role
    wanted = role.kind
    kind, part = token.kind, token.part
    if wanted == "bound":
        return _is_bound(quoted, token)
    roles = token.roles
    if roles:
        if role.accepts.isdisjoint(roles) and not (scope.names_people and "who" in roles) and wanted not in ("p", "confidence"):
            return False
        if role.refuses and not role.refuses.isdisjoint(roles):
            return False
        if scope.good is not None and quoted.name in _WITH_SIDE and ("bad" if scope.good else "good") in roles:
            if ("good" if scope.good else "bad") not in roles:
                return False
    if wanted == "count":
        unit = token.unit
        return (
            (kind == "count" or kind == "number")
            and not token.comparator
            and (unit == "none" or unit == quoted.unit or (not quoted.unit and unit in COUNT_UNITS))
            and (not part or (part == "events" and quoted.name != "total") or (part == "total" and quoted.name != "events"))
        )
    if wanted == "percent":
        return kind == "percent" and not part and not token.comparator
    if wanted == "interval":
        if kind in ("p", "confidence", "unreadable", "length") or (part or _end_role(roles)) != quoted.part:
            return False
        if quoted.unit == "%":
            return token.unit in ("%", "none") and not token.measure
        return token.unit != "%" and (not token.measure or quoted.unit in (token.measure, "none"))
    if wanted == "length":
        return _is_length(quoted, token)
    if wanted == "ratio":
        if part or token.comparator or token.unit in ("%", "other"):
            return False
        if quoted.unit == "mean difference" and kind in ("length", "size", "minutes"):
            return True
        return (kind == "ratio" and token.measure == quoted.unit) or (kind == "number")
    if wanted == "p":
        return token.comparator == quoted.comparator and (
            kind == "p" or (kind == "number" and not part and bool(token.decimals) and token.value < 1)
        )
    if wanted == "confidence":
        return kind == "confidence"
    return kind in ("number", "count") and not part and not token.comparator


_WITH_SIDE = frozenset({"events", "rate", "success_rate"})


def _end_role(roles: tuple[str, ...]) -> str:
    return "low" if "low" in roles else "high" if "high" in roles else ""


def _is_bound(quoted: Quoted, token: Token) -> bool:
    return (
        token.kind not in _NEVER_A_BOUND
        and token.comparator == quoted.comparator
        and (token.unit == quoted.unit or "none" in (token.unit, quoted.unit))
        and (not token.part or not quoted.part or token.part == quoted.part)
    )


def _is_length(quoted: Quoted, token: Token) -> bool:
    unit, part = token.unit, token.part
    if part and part != quoted.part:
        return False
    if unit == quoted.unit or (unit in _MONTHS and quoted.unit in _MONTHS):
        return token.kind == "length"
    # "12 to 60 months (median 31)": a bare number is a time only where its role says so.
    return unit == "none" and token.kind == "number" and (quoted.role.own in token.roles or bool(part))


def candidates(quoted: Quoted, reading: Reading, scope: Scope) -> list[int]:
    """Places, in the passage's numbers, of all that may prove the field."""
    tokens = reading.tokens
    role = quoted.role
    found = [index for index in reading.by_value.get(quoted.value, ()) if fits(quoted, tokens[index], scope)]
    if role.kind == "length":
        converted, unit = _converted(quoted)
        if unit:
            found = [index for index in found if tokens[index].unit != unit]
            found += [
                index
                for index in reading.by_value.get(converted, ())
                if tokens[index].unit == unit and fits(quoted, tokens[index], scope)
            ]
    elif role.own == "reference" and not found:
        found = _other_side(quoted, reading)
    elif role.kind == "count" and role.own and not found:
        found = _all_of(quoted, reading)
    if found and role.own and (role.own, role.kind) in reading.shown_roles:
        # Where the passage itself names this role, no number without it will do.
        found = [index for index in found if role.own in tokens[index].roles]
    return found


def _converted(quoted: Quoted) -> tuple[Decimal, str]:
    if quoted.unit == "month":
        return quoted.value / 12, "year"
    if quoted.unit == "year":
        return quoted.value * 12, "month"
    return quoted.value, ""


def _other_side(quoted: Quoted, reading: Reading) -> list[int]:
    """ "up to 3 mm" is the other side of a printed "over 3 mm", unless the passage prints this side itself."""
    tokens = reading.tokens
    opposite = _OPPOSITE.get(quoted.comparator)
    if any(token.comparator == quoted.comparator and token.unit == quoted.unit for token in tokens):
        return []
    return [
        index
        for index in reading.by_value.get(quoted.value, ())
        if opposite and tokens[index].comparator == opposite and tokens[index].unit == quoted.unit
        and tokens[index].kind not in _NEVER_A_BOUND
    ]  # fmt: skip


_ALL = re.compile(r"\b(?:all|each|every one)\b[^.,;:\d]*")


def _all_of(quoted: Quoted, reading: Reading) -> list[int]:
    """ "58 teeth treated, all examined": the 58 is the number examined too."""
    if quoted.role.shares != "units" or (quoted.role.own, "count") in reading.shown_roles:
        return []
    said = {ROLES.get(word) for match in _ALL.finditer(reading.passage.text.lower()) for word in match[0].split()}
    if quoted.role.own not in said:
        return []
    tokens = reading.tokens
    return [
        index
        for index in reading.by_value.get(quoted.value, ())
        if tokens[index].kind in ("count", "number") and not tokens[index].comparator and not tokens[index].part
        and (tokens[index].unit in ("none", quoted.unit) or not quoted.unit)
    ]  # fmt: skip


class Choice(NamedTuple):
    """The outcome for one field."""

    index: int
    """Of the number that proves it, in the passage's numbers; -1: none."""
    failure: Failure | None = None
    among: tuple[int, ...] = ()
    """Numbers that the message may point at."""


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
    _within_levels(scope, readings, options)
    linked: dict[int, int] = {}
    for at, quoted in enumerate(rows):
        if quoted.leads and readings[at] is not None and readings[at] is readings[at + 1]:
            _pair(at, readings[at], options, chosen, linked)  # type: ignore[arg-type]
    taken: dict[tuple[int, int], int] = {}
    waiting = []
    for at in range(len(rows)):
        if readings[at] is None or chosen[at] is not None:
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
            if partner is not None and chosen[partner] is not None and chosen[partner].index >= 0:  # type: ignore[union-attr]
                mate = readings[at].tokens[chosen[partner].index].pair  # type: ignore[union-attr]
                free = [index for index in free if index == mate]
            if not free:
                chosen[at] = Choice(-1, "taken", tuple(options[at]))
            elif len(free) == 1:
                _take(at, free[0], rows, readings, taken)
                chosen[at] = Choice(free[0])
            else:
                left.append(at)
        if len(left) == len(waiting):
            for at in left:
                chosen[at] = Choice(-1, "ambiguous", tuple(options[at]))
            break
        waiting = left
    return chosen


def _take(
    at: int, index: int, rows: list[Quoted], readings: Sequence[Reading | None], taken: dict[tuple[int, int], int]
) -> bool:
    key = (id(readings[at]), index)
    if key in taken and not _may_share(rows[at], rows[taken[key]], readings[at]):
        return False
    taken[key] = at
    return True


def _is_free(
    at: int, index: int, rows: list[Quoted], readings: Sequence[Reading | None], taken: dict[tuple[int, int], int]
) -> bool:
    holder = taken.get((id(readings[at]), index))
    return holder is None or _may_share(rows[at], rows[holder], readings[at])


_EACH = re.compile(r"\b(?:each|both|per|every|either|equal)\b", re.IGNORECASE)


def _may_share(one: Quoted, other: Quoted, reading: Reading | None) -> bool:
    """Only a total, a time, a bound or equal steps of a flow, and only with its like."""
    if not one.role.shares or one.role.shares != other.role.shares:
        return False
    if one.level and other.level and one.level != other.level and one.role.shares == "units":
        return reading is not None and _EACH.search(reading.passage.text) is not None
    return True


def _pair(at: int, reading: Reading, options: list[list[int]], chosen: list[Choice | None], linked: dict[int, int]) -> None:
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
    elif first and second:
        chosen[at + 1] = Choice(-1, "pair", tuple(tokens[index].pair for index in first if tokens[index].pair >= 0) or tuple(first))


# Levels


def _within_levels(scope: Scope, readings: Sequence[Reading | None], options: list[list[int]]) -> None:
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
        row.level == quoted.level and row.role.kind == kind and readings[at] is reading for at, row in enumerate(scope.quoted)
    )
    printed = sum(
        level == quoted.level and kind in _FAMILIES.get(token.kind, (token.kind,))
        for level, token in zip(levels, reading.tokens, strict=True)
    )
    return printed >= wanted


_CLAUSE_END = re.compile(r";|\.(?=\s|$)")


def _levels_of(text: str, tokens: Sequence[Token], wordings: tuple[str, ...]) -> list[str | None]:
    plain = text.lower()
    places: list[tuple[int, int, str]] = []
    covered: list[tuple[int, int]] = []
    for wording in sorted(set(wordings), key=len, reverse=True):  # "no post" before "post"
        sought = wording.lower()
        start = plain.find(sought)
        while start >= 0:
            end = start + len(sought)
            whole = not plain[start - 1 : start].isalnum() and not plain[end : end + 1].isalnum()
            if whole and not any(low < end and start < high for low, high in covered):
                places.append((start, end, wording))
                covered.append((start, end))
            start = plain.find(sought, end)
    levels: list[str | None] = [None] * len(tokens)
    if not places:
        return levels
    places.sort()
    ends = [match.start() for match in _CLAUSE_END.finditer(plain)] + [len(plain) + 1]
    begin = 0
    for end in ends:
        inside = [place for place in places if begin <= place[0] < end]
        numbers = [index for index, token in enumerate(tokens) if begin <= token.start < end]
        if len({place[2] for place in inside}) == 1:
            for index in numbers:
                levels[index] = inside[0][2]
        elif inside and "respectively" not in plain[begin:end]:
            for low, high in _parts(plain, begin, min(end, len(plain))):
                _by_order(
                    [place for place in inside if low <= place[0] < high],
                    [index for index in numbers if low <= tokens[index].start < high],
                    tokens, levels,
                )  # fmt: skip
        begin = end
    return levels


def _parts(text: str, begin: int, end: int) -> list[tuple[int, int]]:
    """A clause between its commas, those in brackets and numbers left alone."""
    parts = []
    depth = 0
    for at in range(begin, end):
        character = text[at]
        if character in "([":
            depth += 1
        elif character in ")]":
            depth -= 1
        elif character == "," and depth <= 0 and not text[at + 1 : at + 2].isdigit():
            parts.append((begin, at))
            begin = at + 1
    parts.append((begin, end))
    return parts


def _by_order(
    places: list[tuple[int, int, str]], numbers: list[int], tokens: Sequence[Token], levels: list[str | None]
) -> None:
    """Wording first: numbers belong to the last wording before them; numbers first: to the next."""
    outside = [index for index in numbers if not any(low <= tokens[index].start < high for low, high, _ in places)]
    if not places or not outside:
        return
    if len(places) == 1:
        for index in outside:
            levels[index] = places[0][2]
        return
    wording_first = places[0][0] < tokens[outside[0]].start
    owned: dict[int, list[int]] = {}
    for index in outside:
        start = tokens[index].start
        if wording_first:
            owner = max((at for at, place in enumerate(places) if place[0] < start), default=-1)
        else:
            owner = min((at for at, place in enumerate(places) if place[0] > start), default=-1)
        owned.setdefault(owner, []).append(index)
    if len(owned) < len(places) or -1 in owned:  # "over 3 mm against up to 3 mm: HR 2.9" belongs to neither
        return
    for owner, indexes in owned.items():
        for index in indexes:
            levels[index] = places[owner][2]
