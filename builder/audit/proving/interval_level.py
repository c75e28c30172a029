"""The level of confidence that a passage prints for an interval, against the one the claim shows it with."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from decimal import Decimal

from ...problems import Problem, error, with_article
from .field_roles import Quoted, Scope
from .printed_passage import Reading
from .sharing import Choice

INTERVAL_LEVEL_RULES: dict[str, str] = {
    "interval-level": (
        "The passage prints the interval at another level of confidence than the claim shows it with, 95% where the "
        "claim does not give `confidence`. A 99% interval is wider than a 95% one and a 90% interval narrower: shown "
        "at the wrong level, either says more or less than the report found. Type the printed level beside the "
        "interval, `confidence: 99%`. Such an interval is shown with its level, and never pooled."
    ),
}
USUAL = Decimal(95)
"""Per cent: the level of an interval beside which neither the passage nor the claim names one."""

_WORDS = r"(?:c\.?\s*i\.?s?|confidence|intervals?|limits?|two-sided|of|for|from|is|was|=)"
_LEADS = re.compile(rf"(?:%|\\%|[\s~,:;=()\[\]{{}}-]|\b{_WORDS})*", re.IGNORECASE)
"""What may stand between a level and the interval it leads: "99% CI: ", "99% confidence interval from "."""
_FOLLOWS = re.compile(r"(?:%|\\%|[\s~,;()\[\]{}])*")
"""What may stand between an interval and the level behind it: "1.2 to 7.1 (99% CI)"."""


def find_levels(
    scope: Scope, readings: Sequence[Reading | None], choices: Sequence[Choice | None]
) -> Iterator[tuple[Quoted, Problem]]:
    """Each interval of a claim whose printed level is another than the claim's, with the field of its lower end."""
    lows = [at for at, row in enumerate(scope.quoted) if row.name == "interval" and row.part == "low"]
    if not lows:
        return
    typed = {row.id.removesuffix("confidence"): row for row in scope.quoted if row.name == "confidence"}
    for at in lows:
        row, reading, choice = scope.quoted[at], readings[at], choices[at]
        if reading is None or choice is None or choice.at < 0:
            continue
        own, before = printed_levels(reading, choice.at)
        # The review's own absolute risks stand inside the ratio and share its level.
        owner = row.id.removesuffix("interval/low").removesuffix("absolute/")
        said = typed.get(owner)
        printed = _other_level(own, before, said)
        if printed is not None:
            yield row, _problem(row, scope.quoted[at + 1], reading, printed, said)


def _other_level(own: Decimal | None, before: list[Decimal], said: Quoted | None) -> Decimal | None:
    """The printed level that the claim contradicts; None where it agrees, or where none is printed.

    own: printed at the interval. before: printed before it. said: the claim's `confidence`.
    """
    level = said.value if said is not None else USUAL
    if own:  # "0% CI" tells no level
        return None if own == level else own
    if not before or before[-1] == level or (said is not None and level in before):
        return None
    return before[-1]


def printed_levels(reading: Reading, low: int) -> tuple[Decimal | None, list[Decimal]]:
    """The level printed at an interval, per cent, None where none is; and those printed before it, in order.

    low: index of the lower end among the numbers of the passage.
    """
    tokens, text = reading.tokens, reading.passage.text
    before = [token.value for token in tokens[:low] if token.kind == "confidence"]
    if low and tokens[low - 1].kind == "confidence":
        between = text[tokens[low - 1].end : tokens[low].outer_start]
        if _LEADS.fullmatch(between):
            return tokens[low - 1].value, []
    high = tokens[low].pair
    if high > low and high + 1 < len(tokens) and tokens[high + 1].kind == "confidence":
        after = tokens[high + 1]
        leads_on = (
            high + 2 < len(tokens)
            and tokens[high + 2].part == "low"
            and _LEADS.fullmatch(text[after.end : tokens[high + 2].outer_start])
        )
        if not leads_on and _FOLLOWS.fullmatch(text[tokens[high].end : after.start]):
            return after.value, []
    return None, before


def _problem(low: Quoted, high: Quoted, reading: Reading, printed: Decimal, said: Quoted | None) -> Problem:
    passage = reading.passage
    shown = f"{USUAL}%, since `confidence` is not given" if said is None else said.typed
    return error(
        low.position,
        "interval-level",
        f'"{low.typed} to {high.typed}" is printed as {with_article(f"{printed}%")} interval in the passage typed from '
        f"{passage.bracket} ({passage.position.file}:{passage.position.line}), and would be shown as {shown}",
        f"confidence: {printed}%",
    )
