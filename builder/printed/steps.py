"""Which step of a study's flow a count tells of: those looked at, those who entered, those who were seen at its end."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ..numerals import Token
from ..numerals.late import late
from ..records import NamedTuple
from .clauses import Span

MAY_TELL = frozenset({
    "screened", "assessed", "approached", "invited", "identified", "eligible", "eligibility", "records", "contacted",
    "considered", "asked", "offered", "logged", "interviewed",
    "treated", "operated", "enrolled", "randomised", "randomized", "included", "recruited",
})  # fmt: skip
"""A passage without any of these names no step before another."""

_LOOKED_AT = (
    r"(?:(?:pre-?)?screened|(?:assessed )?for (?:eligibility|inclusion|the (?:study|trial))|approached|"
    r"invited|identified|eligible|contacted|considered(?: for \w+)?|asked(?: to \w+)?|offered|logged|interviewed|"
    r"records\b|candidates)"
)
_ENTERED = (
    r"(?:enrolled|randomi[sz]ed|included|recruited|consented|agreed|accepted|took part|participated|entered|treated|"
    r"operated|(?:met|fulfilled|satisfied) (?:the |all |our )?(?:\w+ )?criteria|underwent|allocated|remained after)"
)
_SEEN = (
    r"(?:(?:re-?)?attended|(?:re-?)?examined|reviewed|returned|came back|(?:could) be (?:seen|examined|reviewed)|"
    r"(?:were|was) (?:seen|available|evaluable|assessable|evaluated)|completed)"
)
_STEPS = (_LOOKED_AT, _ENTERED, _SEEN)
_KINDS = "|".join(f"(?P<step{step}>{words})" for step, words in enumerate(_STEPS))
_match_behind = late(
    rf"\s*(?:(?!(?:not|who|whom|which|and|but|of|had|if|without|never)\b)[\w-]+\s+){{0,5}}?(?:(?:who|that|which)\s+)?"
    rf"(?:(?:was|were|had been)\s+)?(?:{_KINDS})\b",
    re.IGNORECASE,
).match
_ends_before = late(rf"\b(?:{_KINDS})\s+(?:a total of\s+|only\s+|all\s+)?$", re.IGNORECASE).search
_ends_in_denied = late(r"\b(?:not|never|nobody|none|without|no)\s+(?:\w+\s+)?$", re.IGNORECASE).search
_BEFORE = 40
_REACH = 200
"""Characters before a number in which its verb stands, and behind a step in which the next is told."""


class Step(NamedTuple):
    """A step of the flow: 0 of those looked at, 1 of those who entered, 2 of those seen; and the words that say so."""

    step: int
    words: Span


def step_of(text: str, token: Token) -> Step | None:
    """Which step a count tells of."""
    found = _match_behind(text, max(token.end, token.outer_end))
    if found is None:
        found = _ends_before(text, max(token.outer_start - _BEFORE, 0), token.outer_start)
        if found is not None and _ends_in_denied(text, max(found.start() - 12, 0), found.start()):
            return None
    if found is None or found.lastgroup is None:
        return None
    name = next(name for name, words in found.groupdict().items() if words is not None)
    return Step(int(name[-1]), found.span(name))


def later_step(text: str, tokens: Sequence[Token], total: int, events: int) -> tuple[int, Step, Step] | None:
    """The place of a smaller count between a total and its events that tells of a later step, with both steps; None
    where there is none, or where the whole is named again behind it."""
    own = tokens[total]
    first = step_of(text, own) if total < events else None
    if first is None:
        return None
    found = None
    for place in range(total + 1, events):
        token = tokens[place]
        if token.kind not in ("count", "number") or token.decimals or token.part:
            continue
        if token.start - own.end > _REACH or not tokens[events].value <= token.value < own.value:
            continue
        step = step_of(text, token)
        if step is not None and step.step > first.step:
            found = place, first, step
    if found is None or any(each.value == own.value for each in tokens[found[0] + 1 :]):
        return None
    return found
