"""What speaks for or against one printed number as the proof of one field: its kind, unit, role and comparator."""

from __future__ import annotations

from collections.abc import Callable

from ...numerals import Lexicon, Token
from ...numerals.months import MONTHS_IN
from .field_roles import Quoted, Scope
from .printed_passage import counts_as

NEVER_A_BOUND = frozenset({"p", "ratio", "confidence", "interval", "unreadable", "calendar"})
"""Kinds of number that bound no level."""


def has_precision(quoted: Quoted, token: Token) -> bool:
    """A converted length has the precision of its own unit; everything else is typed as printed."""
    return token.decimals == quoted.decimals or (
        token.unit != quoted.unit and token.unit in MONTHS_IN and quoted.unit in MONTHS_IN
    )


def is_like(quoted: Quoted, token: Token, scope: Scope) -> bool:
    """Whether a printed number of this value may prove the field, by kind, unit, role and comparator."""
    kind = quoted.role.kind
    roles = token.roles
    if token.of_whole and quoted.name == "events":
        roles = tuple(role for role in roles if role not in token.of_whole)
    if roles and kind != "bound" and _speaks_against(quoted, roles, scope):
        return False
    return _IS_LIKE[kind](quoted, token, scope)


def is_like_in_structure(quoted: Quoted, token: Token, bound: tuple[str, ...], scope: Scope) -> bool:
    """The same by those roles alone that the structure of the sentence binds to the number."""
    if bound and _speaks_against(quoted, bound, scope):
        return False
    return _IS_LIKE[quoted.role.kind](quoted, token, scope)


def is_of_kind(quoted: Quoted, token: Token, lexicon: Lexicon) -> bool:
    """Whether a printed number has the kind and unit of the field, whatever the words beside it say."""
    if quoted.role.kind == "length" and token.kind == "number" and token.unit == "none" and not token.part:
        return not token.decimals or token.decimals == quoted.decimals  # the unit of a time may stand elsewhere
    if quoted.role.kind != "count":
        return _IS_LIKE[quoted.role.kind](quoted, token, Scope("", [], [], (), lexicon))
    if token.kind not in ("count", "number") or token.part in ("low", "high"):
        return False
    # Papers speak of patients, or of groups, where they counted eyes; what the word is to them, somebody has to say.
    is_counted = token.unit in lexicon.counts or (token.unit == "other" and token.part != "")  # "20 of 50 visits"
    return is_counted or token.unit == quoted.unit


def is_like_as_proportion(quoted: Quoted, token: Token, scope: Scope) -> bool:
    """Whether a printed proportion, 0.84, may prove a percentage or the end of an interval of percentages."""
    if token.roles and _speaks_against(quoted, token.roles, scope):
        return False
    return token.part in ("", quoted.part) if quoted.part else not token.part


def _speaks_against(quoted: Quoted, roles: tuple[str, ...], scope: Scope) -> bool:
    """Whether the words beside a number say that it is something else than the field."""
    role = quoted.role
    is_named = bool(scope.named) and not scope.named.isdisjoint(roles)
    if not is_named and role.accepts.isdisjoint(roles) and role.kind not in ("p", "confidence"):
        return True
    if role.refuses and not role.refuses.isdisjoint(roles):
        return True
    if is_named or not quoted.side or quoted.side in roles:
        return False
    return not _AGAINST[quoted.side].isdisjoint(roles)


_AGAINST = {
    "good": frozenset({"bad", "lost", "dropped out", "discontinued", "died", "extracted"}),
    "bad": frozenset({"good"}),
}
"""Roles that speak against a count of good, or of bad, outcomes."""


def _count(quoted: Quoted, token: Token, scope: Scope) -> bool:
    """ "47 eyes"; no total where the passage prints events, and no events where it prints a total."""
    unit, part = token.unit, token.part
    if token.kind not in ("count", "number") or (token.comparator and not _is_exact(token)):
        return False
    if part and (part not in _OTHER_HALF or (quoted.name == _OTHER_HALF[part] and not is_whole_in_turn(token))):
        return False
    if unit == "none" or unit == quoted.unit or counts_as(unit, quoted.unit, scope.lexicon) or unit in scope.alike:
        return True
    # What a pooled result rests on may be the people whose eyes were counted: it is shown as what was printed.
    return quoted.id.endswith("/pooled/of") and unit in scope.lexicon.holders(quoted.unit)


def _is_exact(token: Token) -> bool:
    """ "No fewer than 103 of the 120" are 103."""
    return token.part == "events" and token.shown.lower().startswith(("no ", "not "))


def is_whole_in_turn(token: Token) -> bool:
    """ "61 of the 88 were examined, 57 of them healed": the 61 are what the 57 are of."""
    return token.part == "events" and not _FLOW.isdisjoint(token.roles)


_FLOW = frozenset({"eligible", "treated", "due", "examined"})
_OTHER_HALF = {"events": "total", "total": "events"}


def _percent(quoted: Quoted, token: Token, scope: Scope) -> bool:
    """ "83%", alone."""
    is_bounded = bool(token.comparator) and "/margin/" not in quoted.id
    return token.kind == "percent" and not token.part and not is_bounded


def _end_of_interval(quoted: Quoted, token: Token, scope: Scope) -> bool:
    """The same end of "1.2 to 7.1", of the same measure where one is named."""
    if token.kind in _NO_END or (token.part or _end_by_role(token.roles)) != quoted.part:
        return False
    if quoted.unit == "%":
        return token.unit in ("%", "none") and (not token.measure or "/contrast/" in quoted.id)
    return token.unit != "%" and (not token.measure or quoted.unit in (token.measure, "none"))


_NO_END = frozenset({"p", "confidence", "unreadable", "length"})


def _end_by_role(roles: tuple[str, ...]) -> str:
    """ "lower limit 1.2"."""
    return "low" if "low" in roles else "high" if "high" in roles else ""


def _length(quoted: Quoted, token: Token, scope: Scope) -> bool:
    """ "31 months", in months or years; a bare number only where its role says that it is a time."""
    unit, part = token.unit, token.part
    is_end_of_visit = part == "high" and quoted.name == "at"  # "24-36 months: 91.8%"
    if part and part != quoted.part and not is_end_of_visit:
        return False
    if unit == quoted.unit or (unit in MONTHS_IN and quoted.unit in MONTHS_IN):
        return token.kind == "length" or (unit == "minute" and token.kind == "minutes")  # "6 h"
    # "12 to 60 months (median 31)"
    return unit == "none" and token.kind == "number" and (quoted.role.own in token.roles or bool(part))


def _ratio(quoted: Quoted, token: Token, scope: Scope) -> bool:
    """ "OR 2.9", by the name of the measure or by none; a difference of means may have a unit."""
    # "accepted if the difference lay above -15": of a margin that is its own side.
    if token.part or (token.comparator and "/margin/" not in quoted.id):
        return False
    if token.unit == "%":  # "Difference in healing, % | 3.1": its heading has the sign, the number none
        return quoted.unit == "risk difference" and token.shown == token.text
    if quoted.unit == "mean difference" and token.kind in ("length", "size", "minutes"):
        return True
    if token.unit == "other" and quoted.unit != "mean difference" and "/margin/" not in quoted.id:
        return False
    return token.kind == "number" or (token.kind == "ratio" and token.measure == quoted.unit)


def _measured(quoted: Quoted, token: Token, scope: Scope) -> bool:
    """ "2.6 mm", or a bare "2.6" that belongs to no pair; of what is measured in words also "2.1 points"."""
    if token.comparator or token.kind not in _MAY_BE_MEASURED or (token.part and quoted.role.kind == "measured"):
        return False
    return token.unit in ("none", quoted.unit) or (token.unit in _OF_WORDS and quoted.unit == "none")


_OF_WORDS = frozenset({"other", "%"})
"""Units of what a claim has in words: "points", "per cent of the first volume"."""
_MAY_BE_MEASURED = frozenset({"number", "size", "minutes", "length", "percent"})


def _quartile(quoted: Quoted, token: Token, scope: Scope) -> bool:
    """The same end of "1 to 5", in the unit of what was measured."""
    if (token.part or _end_by_role(token.roles)) not in (quoted.part, "") or token.measure:
        return False
    has_unit = token.unit in ("none", quoted.unit) or (token.unit in _OF_WORDS and quoted.unit == "none")
    return has_unit and not token.comparator and token.kind in _MAY_BE_QUARTILE


_MAY_BE_QUARTILE = _MAY_BE_MEASURED | {"interval"}


def _p_value(quoted: Quoted, token: Token, scope: Scope) -> bool:
    """ "P = .02", or ".02" in a column of a table, with the comparator that was typed."""
    if token.comparator != quoted.comparator:
        return False
    is_bare = token.kind == "number" and not token.part
    return token.kind == "p" or (is_bare and bool(token.decimals) and token.value < 1)


def _confidence(quoted: Quoted, token: Token, scope: Scope) -> bool:
    """The 95 of "95% CI"."""
    return token.kind == "confidence"


def _bound(quoted: Quoted, token: Token, scope: Scope) -> bool:
    """ "over 3 mm": the same comparator and unit, the same end of "1 to 3 mm"."""
    if token.kind in NEVER_A_BOUND or (token.part and quoted.part and token.part != quoted.part):
        return False
    if token.comparator != quoted.comparator and (token.comparator or not quoted.typed.startswith("from ")):
        return False
    is_bare = token.unit == "none" and bool(token.comparator or token.part)
    return token.unit == quoted.unit or quoted.unit == "none" or is_bare


def _number(quoted: Quoted, token: Token, scope: Scope) -> bool:
    """ "per 100"."""
    return token.kind in ("number", "count") and not token.part and not token.comparator


_IS_LIKE: dict[str, Callable[[Quoted, Token, Scope], bool]] = {
    "count": _count,
    "percent": _percent,
    "interval": _end_of_interval,
    "length": _length,
    "ratio": _ratio,
    "measured": _measured,
    "spread": _quartile,
    "p": _p_value,
    "confidence": _confidence,
    "bound": _bound,
    "number": _number,
}
"""By the kind of a field (`Role.kind`)."""
