"""Which printed numbers of a passage may prove a field."""

from __future__ import annotations

import re
from collections.abc import Callable
from decimal import Decimal

from ...compiled_patterns import compiled
from ...numerals import Token
from ...numerals.late import late
from ...numerals.months import of_hours
from ...printed.proportions import proportions_in
from ...printed.signless import has_sign_behind, is_headed_as_share
from ...printed.times import is_in_hours
from ...printed.units import measure_of
from ...reading.slugs import slug
from ...reading.values import Words
from ...synthesis.rounding import is_share_of
from .field_roles import Quoted, Scope
from .likeness import NEVER_A_BOUND, has_precision, is_like, is_like_as_proportion, is_like_in_structure
from .printed_passage import Reading, counts_as
from .seen_again import wholes_in_turn
from .unsigned import told_as_less

STEPS = ("eligible", "treated", "due", "examined")
"""Of the flow of a study, in order."""


def candidates(quoted: Quoted, reading: Reading, scope: Scope) -> list[int]:
    """Places, in the passage's numbers, of all that may prove the field."""
    if quoted.typed[:1] == "0" and quoted.typed[1:2].isdigit():  # "06" is printed nowhere as 6
        return []
    tokens, role = reading.tokens, quoted.role
    found = []
    for index in reading.by_value.get(quoted.value, ()):
        token = tokens[index]
        if (token.decimals == quoted.decimals or has_precision(quoted, token)) and is_like(quoted, token, scope):
            found.append(index)
    found = found or _in_hours(quoted, reading, scope)
    if role.kind in _BY_KIND:
        found = _BY_KIND[role.kind](quoted, reading, scope, found)
    elif role.own == "per" and "per" in reading.by_role:
        found = _only_denominator(reading, found)
    elif not found:
        found = _said_otherwise(quoted, reading, scope)
    if found:
        found = _within_words(quoted, reading, found)
    if role.own:
        found = _of_own_role(quoted, reading, scope, found)
    return found or told_as_less(quoted, reading, scope) or candidates_in_structure(quoted, reading, scope)


def candidates_in_structure(quoted: Quoted, reading: Reading, scope: Scope) -> list[int]:
    """Numbers beside a word for something else that is not bound to them."""
    own = quoted.role.own
    found = []
    for index in reading.by_value.get(quoted.value, ()):
        token = reading.tokens[index]
        if not token.roles or not (token.decimals == quoted.decimals or has_precision(quoted, token)):
            continue
        bound = reading.bound(index)
        if len(bound) < len(token.roles) and is_like_in_structure(quoted, token, bound, scope):
            found.append(index)
    if not found:
        return found
    found = _within_words(quoted, reading, found)
    if own and reading.shows(quoted):  # "a median of 11 in A and 16 in B" names both
        is_measured = quoted.role.kind in ("measured", "spread")
        named = [index for index in found if own in reading.bound(index)]
        found = named or [index for index in found if is_measured and _stands_like(own, reading, index)]
    return found


def _beside_what(quoted: Quoted, reading: Reading, found: list[int]) -> list[int]:
    """Of shares those before the words for what they are of, where there are some: the first of "39 operators" and
    "39 of 47"."""
    _, _, rest = quoted.id.partition("/shares/")
    what = rest.split("/")[0].replace("-", " ")
    text = reading.passage.text

    def is_beside(token: Token) -> bool:
        return slug(text[token.end : token.end + len(what) + 2]).replace("-", " ").startswith(what)

    return ([index for index in found if is_beside(reading.tokens[index])] if what else []) or found


def _within_words(quoted: Quoted, reading: Reading, found: list[int]) -> list[int]:
    """Those inside the words that somebody quoted for the field; of shares those beside their own words."""
    if quoted.name == "of" and len(found) > 1:
        found = _beside_what(quoted, reading, found)
    if not quoted.within_words:
        return found
    inside = reading.inside(quoted.within_words)
    if inside is None:  # words that do not stand there are told by a rule of their own
        return found
    own = [index for index in found if index in inside]
    if not own and quoted.name == "total":  # "A (n = 32)" over the column of a quoted row
        own = [index for index in found if _heads(reading, index, inside)]
    return found if not own and quoted.strays else own


def _heads(reading: Reading, index: int, inside: frozenset[int]) -> bool:
    """Whether a number stands in a heading over one of the numbers in quoted words."""
    places, start = reading.table.places, reading.tokens[index].start
    return any(
        low <= start < high for at in inside if (place := places[at]) is not None for low, high in place.headings
    )


def _called_so(quoted: Quoted, reading: Reading, scope: Scope, found: list[int]) -> list[int]:
    """ "2.4-fold higher (OR 2.4)": the one that is called by the measure, where there is one."""
    typed = scope.claim.contrast.unit if scope.claim is not None and scope.claim.contrast is not None else None
    if isinstance(typed, Words):
        found = [index for index in found if _is_in_unit(reading, reading.tokens[index], typed.text.casefold())]
    called = [index for index in found if reading.tokens[index].measure == quoted.unit]
    if not found and quoted.unit == "risk difference":
        return _in_points(quoted, reading)
    return called or found


def _of_own_role(quoted: Quoted, reading: Reading, scope: Scope, found: list[int]) -> list[int]:
    """Where the passage itself names the field's role, no number without it will do."""
    tokens, own = reading.tokens, quoted.role.own
    if own in STEPS:  # "4 groups of 10 specimens each": a part is no step of the whole
        found = [index for index in found if tokens[index].roles or not _is_each(reading, tokens[index])]
    if found and reading.shows(quoted):
        named = [index for index in found if own in tokens[index].roles]
        if quoted.role.kind in ("measured", "spread"):
            # "mean (SD): A 1.7 (0.6), B 1.2 (0.6)": whose each is decides between them.
            is_of_several = bool(quoted.level) and len(scope.names) > 1
            like = [index for index in found if _stands_like(own, reading, index)] if is_of_several or not named else []
            named = sorted({*named, *like})
        # Of quoted words a person said that they speak of the field, where its own word stands elsewhere.
        found = named or (found if quoted.within_words and reading.inside(quoted.within_words) else [])
    return found


def _in_its_unit(quoted: Quoted, reading: Reading, scope: Scope, found: list[int]) -> list[int]:
    """Of what is measured in words ("points", "µm") only those with no other unit behind them."""
    typed = scope.claim.unit if scope.claim is not None else None
    words = typed.text.casefold() if typed is not None else ""
    return [index for index in found if _is_in_unit(reading, reading.tokens[index], words)]


def _is_in_unit(reading: Reading, token: Token, words: str) -> bool:
    """Whether a number has no unit but the one typed. words: of what is measured, in small letters."""
    if token.unit == "%":
        return "%" in words or "per cent" in words or "percent" in words
    behind = _match_unit(reading.passage.text, token.end)
    return token.unit != "other" or (behind is not None and behind[1].casefold() in words)


_match_unit = compiled(
    r"[\s~{}$-]*(?:\([^()]*\d[^()]*\)[\s~]*|\[[^\[\]]*\d[^\[\]]*\][\s~]*|(?:±|\+/-|\\pm)[\s$~]*[\d.]+[\s$~]*)?"
    r"[\s~(){}$\]-]*(?:[\d.]+\)\s*)?([^\W\d]+|°)"
).match
"""The word behind a number, "MPa" also in "3.7 (SD 1.0) MPa" and "3.7 ± 1.0 MPa"."""


MAY_BE_IN_HOURS = frozenset({"measured", "spread", "ratio", "interval"})
"""Kinds of field whose claim may be measured in hours."""


def _in_hours(quoted: Quoted, reading: Reading, scope: Scope) -> list[int]:
    """ "11.4 hours", which are read as 684 minutes, proves 11.4 of a claim that measures in hours."""
    claim = scope.claim if quoted.role.kind in MAY_BE_IN_HOURS else None
    is_difference = "/contrast/" in quoted.id
    unit = None if claim is None else claim.contrast.unit if is_difference and claim.contrast else claim.unit
    if not isinstance(unit, Words) or measure_of(unit.text) != "hour":
        return []
    value, read_as, _ = of_hours(quoted.value)
    own = quoted if is_difference else quoted._replace(unit=read_as)
    return [
        index
        for index in reading.by_value.get(value, ())
        if is_in_hours(token := reading.tokens[index])
        and token.unit == read_as
        and _printed_decimals(token.shown or token.text) == quoted.decimals
        and is_like(own, token, scope)
    ]


def _printed_decimals(shown: str) -> int:
    """Of a number that was read in another unit than it is printed in."""
    behind = _find_decimals(shown)
    return len(behind[1] or behind[2]) if behind is not None else 0


_find_decimals = compiled(r"\d?[.·](\d+)|\d,(\d{1,2})(?!\d)").search


def _stands_like(own: str, reading: Reading, index: int) -> bool:
    """Whether a number without a word of its own stands as a deviation does, behind its mean: "1.6 (1.2)", "1.6 ± 1.2".

    A list names both once: "the mean was 2.1 (SD 1.4) after one visit and 1.6 (1.2) after two".
    """
    text, token = reading.passage.text, reading.tokens[index]
    opens = text[: token.start].rstrip(" ~$")[-1:] in ("(", "[")
    closes = text[token.end :].lstrip(" ~$")[:1] in (")", "]")
    if own == "mean" and _match_plus_minus(text, token.end) and not token.roles:
        return True
    stands_so = opens if own == "sd" else not (opens and closes)
    if own == "iqr":
        stands_so = opens if token.part == "low" else closes
    return stands_so and not (token.roles and frozenset(reading.bound(index)) - {"who"})


_match_plus_minus = compiled(r"[\s~$]*(?:±|\+/-|\\pm\b)").match
_match_each = compiled(r"\s*(?:[\w-]+\s+){0,2}(?:each|per|apiece)\b", re.IGNORECASE).match


def _is_each(reading: Reading, token: Token) -> bool:
    return _match_each(reading.passage.text, token.end) is not None


def _in_months_or_years(quoted: Quoted, reading: Reading, scope: Scope, found: list[int]) -> list[int]:
    """ "1 year" proves "12 months", which 12 years do not."""
    value, unit = converted(quoted)
    if not unit:
        return found
    tokens = reading.tokens
    return [index for index in found if tokens[index].unit != unit] + [
        index
        for index in reading.by_value.get(value, ())
        if tokens[index].unit == unit and is_like(quoted, tokens[index], scope)
    ]


def converted(quoted: Quoted) -> tuple[Decimal, str]:
    """A length of months in years, or of years in months; any other stays, without a unit."""
    if quoted.unit == "month":
        return quoted.value / 12, "year"
    if quoted.unit == "year":
        return quoted.value * 12, "month"
    return quoted.value, ""


_BY_KIND: dict[str, Callable[[Quoted, Reading, Scope, list[int]], list[int]]] = {
    "ratio": _called_so,
    "measured": _in_its_unit,
    "spread": _in_its_unit,
    "length": _in_months_or_years,
}
"""What more a kind of field asks of the numbers found."""


def _only_denominator(reading: Reading, found: list[int]) -> list[int]:
    """The first of several equal "per 100"; none where the passage has another one too."""
    values = {reading.tokens[index].value for index in reading.by_role["per"]}
    return found[:1] if len(values) == 1 else []


def _said_otherwise(quoted: Quoted, reading: Reading, scope: Scope) -> list[int]:
    """What proves a field that is printed nowhere as it was typed."""
    if quoted.role.own == "reference" or quoted.name == "range":
        return _other_side(quoted, reading)
    if quoted.unit == "%" and quoted.role.kind in ("percent", "interval"):
        return (
            _in_points(quoted, reading) or _as_proportions(quoted, reading, scope) or _signless(quoted, reading, scope)
        )
    if quoted.role.kind == "count" and quoted.role.own in STEPS and not reading.shows(quoted):
        return _unsaid_step(quoted, reading, scope)
    return wholes_in_turn(quoted, reading, scope)


def _in_points(quoted: Quoted, reading: Reading) -> list[int]:
    """ "-5.1 percentage points" proves -5.1% of a difference."""
    if "/contrast/" not in quoted.id or quoted.part:
        return []
    tokens, text = reading.tokens, reading.passage.text
    return [
        index
        for index in reading.by_value.get(quoted.value, ())
        if tokens[index].decimals == quoted.decimals and not tokens[index].part
        and _match_points(text, tokens[index].end) is not None
    ]  # fmt: skip


_match_points = late(r"[\s~-]*(?:(?:(?:percentage|percent|per\s?cent|%)[\s-]?)?points?|pp)\b", re.IGNORECASE).match


def _as_proportions(quoted: Quoted, reading: Reading, scope: Scope) -> list[int]:
    """ "The proportion healed was 0.84" proves 84%."""
    found = [
        index
        for index in reading.by_value.get(quoted.value / 100, ())
        if reading.tokens[index].decimals == quoted.decimals + 2
        and is_like_as_proportion(quoted, reading.tokens[index], scope)
    ]
    return [index for index in found if index in reading.told(_proportions)] if found else found


def _signless(quoted: Quoted, reading: Reading, scope: Scope) -> list[int]:
    """ "83.1 with A and 71.4% with B" proves 83.1%, "the percentage healed was 83.1" too."""
    if quoted.role.kind != "percent":
        return []
    text, tokens = reading.passage.text, reading.tokens
    return [
        index
        for index in reading.by_value.get(quoted.value, ())
        if tokens[index].decimals == quoted.decimals and is_like_as_proportion(quoted, tokens[index], scope)
        and (
            has_sign_behind(text, tokens, index)
            or is_headed_as_share(text, tokens[index])
            or _follows_in_brackets(quoted, reading, index, scope)
        )
    ]  # fmt: skip


def _follows_in_brackets(quoted: Quoted, reading: Reading, index: int, scope: Scope) -> bool:
    """Whether a number stands in brackets behind the count typed with it, and is its share: the 40.7 of "22 (40.7)"."""
    block = quoted.id.rpartition("/")[0]
    beside = {row.name: row.value for row in scope.quoted if row.id.rpartition("/")[0] == block}
    events, total = beside.get("events"), beside.get("total")
    if events is None or not total or index == 0 or reading.tokens[index - 1].value != events:
        return False
    gap = reading.passage.text[reading.tokens[index - 1].outer_end : reading.tokens[index].outer_start]
    return gap.strip(" ~") == "(" and is_share_of(quoted.value, quoted.decimals, events, total)


def _proportions(reading: Reading) -> frozenset[int]:
    return proportions_in(reading.passage.text, reading.tokens, reading.cells())


_OPPOSITE = {"<": ">=", "<=": ">", ">": "<=", ">=": "<"}
_END_LEFT_OUT = {"<": "low", ">": "high"}
""" "under 2 mm" is what "2 mm to 3 mm" leaves below it."""


def _other_side(quoted: Quoted, reading: Reading) -> list[int]:
    """ "up to 3 mm" is the other side of a printed "over 3 mm", unless the passage prints this side itself."""
    tokens = reading.tokens
    opposite = _OPPOSITE.get(quoted.comparator)
    end = _END_LEFT_OUT.get(quoted.comparator) if quoted.name == "range" else None
    is_printed = any(token.comparator == quoted.comparator and token.unit == quoted.unit for token in tokens)
    if is_printed or opposite is None:
        return []

    def bounds_it(token: Token) -> bool:
        is_beside = token.comparator == opposite or (end is not None and token.part == end)
        return is_beside and token.unit == quoted.unit and token.kind not in NEVER_A_BOUND

    return [index for index in reading.by_value.get(quoted.value, ()) if bounds_it(tokens[index])]


def _unsaid_step(quoted: Quoted, reading: Reading, scope: Scope) -> list[int]:
    """A step of the flow that the passage does not name has the number of the step before it, or after where none is
    before.

    "58 eyes treated, all examined": the 58 is the number examined too. "40 treated, 38 examined": 40 were due.
    """
    is_of_all = quoted.role.own in _roles_of_all(reading)
    if is_of_all:
        steps = frozenset(STEPS)
    elif _has_nameless(quoted, reading):
        return []
    else:
        steps = _equal_step_beside(quoted, scope)

    def counts_the_step(token: Token) -> bool:
        is_count = token.kind in ("count", "number") and not token.comparator and token.part in ("", "total")
        has_unit = token.unit in ("none", quoted.unit) or not quoted.unit
        has_role = not steps.isdisjoint(token.roles) or (is_of_all and not token.roles)
        return is_count and has_unit and has_role

    return [index for index in reading.by_value.get(quoted.value, ()) if counts_the_step(reading.tokens[index])]


_find_all = compiled(r"\b(?:all|each|every one)\b[^.,;:\d]*").findall


def _roles_of_all(reading: Reading) -> set[str | None]:
    """Roles that the passage says all have: "all examined"."""
    stands_for = reading.lexicon.all_roles
    return {stands_for.get(word) for said in _find_all(reading.passage.text.lower()) for word in said.split()}


def _equal_step_beside(quoted: Quoted, scope: Scope) -> frozenset[str]:
    """The step typed before the field's own, else the one behind it, where it has the same value."""
    block = quoted.id.rpartition("/")[0]
    typed = {row.name: row.value for row in scope.quoted if row.id.rpartition("/")[0] == block}
    at = STEPS.index(quoted.role.own)
    nearest = next((step for step in (*reversed(STEPS[:at]), *STEPS[at + 1 :]) if step in typed), "")
    return frozenset({nearest}) if typed.get(nearest) == quoted.value else frozenset()


def _has_nameless(quoted: Quoted, reading: Reading) -> bool:
    """True where another number of the same unit stands without a role: it may be the one that was meant."""

    def is_other(token: Token) -> bool:
        has_unit = token.unit == quoted.unit or not quoted.unit or counts_as(token.unit, quoted.unit, reading.lexicon)
        is_bare_count = token.kind == "count" and not token.roles and not token.part
        return is_bare_count and has_unit and token.value != quoted.value

    return any(is_other(token) for token in reading.tokens)
