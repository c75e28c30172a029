"""Which printed numbers may prove a field: one passage as numbers, and what speaks for or against each."""

from __future__ import annotations

import re
from decimal import Decimal

from ...numerals import Lexicon, Token, read_numerals
from ...numerals.months import MONTHS_IN
from ...reading.report_model import Passage
from .field_roles import Quoted, Scope
from .level_wordings import levels_of

_NEVER_A_BOUND = frozenset({"p", "ratio", "confidence", "interval", "unreadable", "calendar"})
_OPPOSITE = {"<": ">=", "<=": ">", ">": "<=", ">=": "<"}
FAMILIES: dict[str, tuple[str, ...]] = {
    "number": ("count", "length", "number"),
    "length": ("length",),
    "count": ("count",),
}


class Reading:
    """A passage with the numbers printed in it, read once."""

    __slots__ = ("_levels", "by_role", "by_value", "lexicon", "passage", "tokens")

    def __init__(self, passage: Passage, lexicon: Lexicon) -> None:
        self.passage = passage
        self.lexicon = lexicon
        self.tokens = read_numerals(passage.text, lexicon)
        self.by_value: dict[Decimal, list[int]] = {}
        self.by_role: dict[str, list[int]] = {}
        self._levels: dict[tuple[str, ...], list[str | None]] = {}
        by_value, by_role = self.by_value, self.by_role
        for index, token in enumerate(self.tokens):
            value = token.value
            if value in by_value:
                by_value[value].append(index)
            else:
                by_value[value] = [index]
            for role in token.roles:
                by_role.setdefault(role, []).append(index)

    def shows(self, quoted: Quoted) -> bool:
        """True where a number of the field's kind and unit has the field's own role in the passage."""
        units = ("none", quoted.unit)
        for index in self.by_role.get(quoted.role.own, ()):
            token = self.tokens[index]
            if quoted.role.kind in FAMILIES.get(token.kind, (token.kind,)) and (
                token.unit in units
                or not quoted.unit
                or quoted.role.kind == "length"
                or _counts_as(token.unit, quoted.unit, self.lexicon)
            ):
                return True
        return False

    def levels(self, wordings: tuple[str, ...]) -> list[str | None]:
        """For each number the level in whose words it stands, None where the passage does not say."""
        found = self._levels.get(wordings)
        if found is None:
            found = self._levels[wordings] = levels_of(self.passage.text, self.tokens, wordings)
        return found


def has_precision(quoted: Quoted, token: Token) -> bool:
    """A converted length has the precision of its own unit; everything else is typed as printed."""
    return token.decimals == quoted.decimals or (
        token.unit != quoted.unit and token.unit in MONTHS_IN and quoted.unit in MONTHS_IN
    )


def is_like(quoted: Quoted, token: Token, scope: Scope) -> bool:
    """Whether a printed number of this value may prove the field, by kind, unit, role and comparator."""
    role = quoted.role
    wanted = role.kind
    kind, part = token.kind, token.part
    if wanted == "bound":
        return _is_bound(quoted, token)
    roles = token.roles
    if roles:
        if (
            role.accepts.isdisjoint(roles)
            and (not scope.named or scope.named.isdisjoint(roles))
            and wanted not in ("p", "confidence")
        ):
            return False
        if role.refuses and not role.refuses.isdisjoint(roles):
            return False
        if quoted.side and quoted.side not in roles:
            against = _AGAINST[quoted.side]
            if not against.isdisjoint(roles) and (not scope.named or scope.named.isdisjoint(roles)):
                return False
    if wanted == "count":
        unit = token.unit
        return (
            (kind == "count" or kind == "number")
            and not token.comparator
            and (unit == "none" or unit == quoted.unit or _counts_as(unit, quoted.unit, scope.lexicon))
            and (
                not part
                or (part == "events" and quoted.name != "total")
                or (part == "total" and quoted.name != "events")
            )
        )
    if wanted == "percent":
        return kind == "percent" and not part and not token.comparator
    if wanted == "interval":
        if kind in ("p", "confidence", "unreadable", "length") or (part or _end_role(roles)) != quoted.part:
            return False
        if quoted.unit == "%":
            return token.unit in ("%", "none") and (not token.measure or "/contrast/" in quoted.id)
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


def _counts_as(printed: str, unit: str, lexicon: Lexicon) -> bool:
    """Where no study tells the unit any will do; a specimen is printed as what it was, a part of somebody."""
    return printed in lexicon.units if not unit else unit == "specimen" and printed in lexicon.held


_AGAINST = {
    "good": frozenset({"bad", "lost", "dropped out", "discontinued", "died", "extracted"}),
    "bad": frozenset({"good"}),
}


def _end_role(roles: tuple[str, ...]) -> str:
    return "low" if "low" in roles else "high" if "high" in roles else ""


def _is_bound(quoted: Quoted, token: Token) -> bool:
    return (
        token.kind not in _NEVER_A_BOUND
        and (token.comparator == quoted.comparator or (not token.comparator and quoted.typed.startswith("from ")))
        and (
            token.unit == quoted.unit
            or quoted.unit == "none"
            or (token.unit == "none" and bool(token.comparator or token.part))
        )
        and (not token.part or not quoted.part or token.part == quoted.part)
    )


def _is_length(quoted: Quoted, token: Token) -> bool:
    unit, part = token.unit, token.part
    if part and part != quoted.part and not (part == "high" and quoted.name == "at"):  # "24-36 months: 91.8%"
        return False
    if unit == quoted.unit or (unit in MONTHS_IN and quoted.unit in MONTHS_IN):
        return token.kind == "length"
    # "12 to 60 months (median 31)": a bare number is a time only where its role says so.
    return unit == "none" and token.kind == "number" and (quoted.role.own in token.roles or bool(part))


def candidates(quoted: Quoted, reading: Reading, scope: Scope) -> list[int]:
    """Places, in the passage's numbers, of all that may prove the field."""
    tokens = reading.tokens
    role = quoted.role
    if quoted.typed[:1] == "0" and quoted.typed[1:2].isdigit():  # "06" is printed nowhere as 6
        return []
    found = []
    for index in reading.by_value.get(quoted.value, ()):
        token = tokens[index]
        if is_like(quoted, token, scope) and (token.decimals == quoted.decimals or has_precision(quoted, token)):
            found.append(index)
    if not role.own and role.kind != "length" and quoted.name != "range":
        return found
    if role.kind == "length":
        converted, unit = _converted(quoted)
        if unit:
            found = [index for index in found if tokens[index].unit != unit]
            found += [
                index
                for index in reading.by_value.get(converted, ())
                if tokens[index].unit == unit and is_like(quoted, tokens[index], scope)
            ]
    elif (role.own == "reference" or quoted.name == "range") and not found:
        found = _other_side(quoted, reading)
    elif role.kind == "count" and role.own and not found:
        found = _unsaid_step(quoted, reading, scope)
    elif role.own == "per" and "per" in reading.by_role:
        same = len({tokens[index].value for index in reading.by_role.get("per", ())}) == 1
        return found[:1] if same else []
    if found and role.own in _STEPS:  # "4 groups of 10 specimens each": a part is no step of the whole
        found = [index for index in found if tokens[index].roles or not _is_each(reading.passage.text, tokens[index])]
    if found and role.own and reading.shows(quoted):
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
    # "under 2 mm" is also what "2 mm to 3 mm" leaves below it.
    end = {"<": "low", ">": "high"}.get(quoted.comparator) if quoted.name == "range" else None
    if any(token.comparator == quoted.comparator and token.unit == quoted.unit for token in tokens):
        return []
    return [
        index
        for index in reading.by_value.get(quoted.value, ())
        if opposite and tokens[index].unit == quoted.unit and tokens[index].kind not in _NEVER_A_BOUND
        and (tokens[index].comparator == opposite or (end is not None and tokens[index].part == end))
    ]  # fmt: skip


_EACH = re.compile(r"\s*(?:[\w-]+\s+){0,2}(?:each|per|apiece)\b", re.IGNORECASE)


def _is_each(text: str, token: Token) -> bool:
    return _EACH.match(text, token.end) is not None


_ALL = re.compile(r"\b(?:all|each|every one)\b[^.,;:\d]*")
_STEPS = ("eligible", "treated", "due", "examined")


def _has_nameless(quoted: Quoted, reading: Reading) -> bool:
    """True where another number of the same unit stands without a role: it may be the one that was meant."""
    return any(
        token.kind == "count" and not token.roles and not token.part and token.value != quoted.value
        and (token.unit == quoted.unit or not quoted.unit
             or _counts_as(token.unit, quoted.unit, reading.lexicon))
        for token in reading.tokens
    )  # fmt: skip


def _unsaid_step(quoted: Quoted, reading: Reading, scope: Scope) -> list[int]:
    """A step of the flow that the passage does not name has the number of the step before it, or after where none is
    before.

    "58 eyes treated, all examined": the 58 is the number examined too. "40 treated, 38 examined": 40 were due.
    """
    own = quoted.role.own
    if own not in _STEPS or reading.shows(quoted):
        return []
    stands_for = reading.lexicon.all_roles
    said = {stands_for.get(word) for match in _ALL.finditer(reading.passage.text.lower()) for word in match[0].split()}
    if own in said:
        steps = set(_STEPS)
    else:
        block = quoted.id.rpartition("/")[0]
        typed = {row.name: row.value for row in scope.quoted if row.id.rpartition("/")[0] == block}
        at = _STEPS.index(own)
        if _has_nameless(quoted, reading):
            return []
        near = next((step for step in (*_STEPS[at - 1 :: -1][:at], *_STEPS[at + 1 :]) if step in typed), "")
        steps = {near} if typed.get(near) == quoted.value else set()
    tokens = reading.tokens
    return [
        index
        for index in reading.by_value.get(quoted.value, ())
        if not steps.isdisjoint(tokens[index].roles or ("",)) or (own in said and not tokens[index].roles)
        if tokens[index].kind in ("count", "number") and not tokens[index].comparator and tokens[index].part in ("",
        "total")
        and (tokens[index].unit in ("none", quoted.unit) or not quoted.unit)
    ]  # fmt: skip
