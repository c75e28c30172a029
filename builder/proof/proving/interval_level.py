"""The level of confidence that a passage prints for an interval, against the one the claim shows it with."""

from __future__ import annotations

import re
from bisect import bisect
from collections.abc import Callable, Iterable, Iterator, Sequence
from decimal import Decimal

from ...compiled_patterns import compiled
from ...numerals.late import late
from ...problems import Problem, error, with_article
from ...reading.report_model import Passage
from ...records import NamedTuple
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

_WORDS = (
    r"(?:[bs]?c\.?\s*i\.?s?|cris?|hp?dis?|c\.?l\.?s?|confidence|credible|simultaneous|profile|likelihood|intervals?|"
    r"limits?|bounds?|bands?|error|bars|whiskers|conf\.|int\.|two-sided|of|for|from|is|was|=)"
)
_LEADS = compiled(rf"(?:%|\\%|[\s~,:;=()\[\]{{}}-]|\b{_WORDS})*", re.IGNORECASE)
"""What may stand between a level and the interval it leads: "99% CI: ", "99% confidence interval from "."""
_FOLLOWS = compiled(r"(?:%|\\%|[\s~,;()\[\]{}])*")
"""What may stand between an interval and the level behind it: "1.2 to 7.1 (99% CI)"."""
_ends_sentence = compiled(r"[.!?][\s)]").search
_find_level_words = compiled(
    r"\b(?:[bs]?c\.?\s?i\.?s?|cris?|hp?dis?|conf|confidence|credib\w+|intervals?|limits?|bounds?|bands?|bars|whiskers)\b",
    re.IGNORECASE,
).search


class Stated(NamedTuple):
    """A level that a sentence says of all intervals of a source."""

    level: Decimal
    passage: Passage


def find_levels(
    scope: Scope,
    readings: Sequence[Reading | None],
    choices: Sequence[Choice | None],
    source: Callable[[], Sequence[Stated]] = tuple,
) -> Iterator[tuple[Quoted, Problem]]:
    """Each interval of a claim whose printed level is another than the claim's, with the field of its lower end.

    source: gives the levels that sentences of the source say for all its intervals (see `stated_levels`); asked only
    where the passage of an interval prints none.
    """
    lows = [at for at, row in enumerate(scope.quoted) if row.name == "interval" and row.part == "low"]
    if not lows:
        return
    typed = {row.id.removesuffix("confidence"): row for row in scope.quoted if row.name == "confidence"}
    for at in lows:
        row, reading, choice = scope.quoted[at], readings[at], choices[at]
        if reading is None or choice is None or choice.at < 0:
            continue
        # The review's own absolute risks stand inside the ratio and share its level.
        owner = row.id.removesuffix("interval/low").removesuffix("absolute/")
        said = typed.get(owner)
        level = said.value if said is not None else USUAL
        printed = _other_level(reading, choice.at, level, is_typed=said is not None)
        if printed is not None:
            yield row, _problem(row, scope.quoted[at + 1], reading, printed, said)
        elif not _prints_a_level(reading) and (stated := source()) and all(level != each.level for each in stated):
            yield row, _problem(row, scope.quoted[at + 1], reading, stated[0].level, said, stated[0].passage)


def _other_level(reading: Reading, low: int, level: Decimal, *, is_typed: bool) -> Decimal | None:
    """The level printed in the passage that the claim contradicts; None where it agrees, or where none is printed.

    low: index of the lower end among the numbers of the passage. level: the claim's. is_typed: False for the usual one.
    """
    own, before = printed_levels(reading, low)
    if own:  # "0% CI" tells no level
        return None if own == level else own
    if not before:
        said_of_all = _levels_behind(reading, low)
        return None if level in said_of_all or not said_of_all else said_of_all[-1]
    if before[-1] == level or (is_typed and level in before):
        return None
    return before[-1]


def printed_levels(reading: Reading, low: int) -> tuple[Decimal | None, list[Decimal]]:
    """The level printed at an interval, per cent, None where none is; and those printed before it, in order.

    low: index of the lower end among the numbers of the passage.
    """
    tokens, text = reading.tokens, reading.passage.text
    if low and tokens[low - 1].kind == "confidence":
        between = text[tokens[low - 1].end : tokens[low].outer_start].replace("$", "")
        if _LEADS.fullmatch(between):
            return tokens[low - 1].value, []
    high = tokens[low].pair
    if high > low:
        behind = _level_behind(reading, low, high)
        if behind is not None:
            return behind, []
    before = [at for at, token in enumerate(tokens[:low]) if token.kind == "confidence"]
    own = _level_in_order(reading, low, before)
    return own, [tokens[at].value for at in before]


def _level_behind(reading: Reading, low: int, high: int) -> Decimal | None:
    """The level behind an interval in its brackets or its clause: "(1.2 to 7.1; P = .02; 90% CI)"."""
    tokens, text = reading.tokens, reading.passage.text
    for at in range(high + 1, len(tokens)):
        token = tokens[at]
        if token.part == "low":
            return None
        if token.kind != "confidence":
            continue
        between = text[tokens[high].end : token.start]
        if _leads_at_once(reading, at):
            return None
        if _FOLLOWS.fullmatch(between):
            return token.value
        if _leads_an_interval(reading, at) or _ends_sentence(between) or _is_left(between):
            return None
        is_same_clause = ";" not in between or _is_open(text[: tokens[low].start])
        return token.value if is_same_clause else None
    return None


def _leads_at_once(reading: Reading, at: int) -> bool:
    """True for a level straight before an interval: "later 60% (99% CI 50% to 69%)"."""
    tokens, text = reading.tokens, reading.passage.text
    return (
        at + 1 < len(tokens)
        and tokens[at + 1].part == "low"
        and _LEADS.fullmatch(text[tokens[at].end : tokens[at + 1].outer_start]) is not None
    )


def _leads_an_interval(reading: Reading, at: int) -> bool:
    """True for a level before an interval of its own: "later 60% (99% CI 50% to 69%)", "OR (99% CI): 2 (1 to 3)"."""
    tokens, text = reading.tokens, reading.passage.text
    if _leads_at_once(reading, at):
        return True
    low = next((index for index in range(at + 1, len(tokens)) if tokens[index].part == "low"), -1)
    if low < 0:
        return False
    between = text[tokens[at].end : tokens[low].outer_start]
    if _ends_sentence(between) or ";" in between:
        return False
    # "(1.2 to 7.1; 90% CI), HR 3 (2 to 4)": in brackets with an interval it leads no other.
    start = tokens[at].start
    opened = max(text.rfind("(", 0, start), text.rfind("[", 0, start))
    last = next((index for index in range(at - 1, -1, -1) if tokens[index].part == "high"), -1)
    return not _is_left(between) or last < 0 or tokens[last].end < opened


def _is_left(between: str) -> bool:
    """True where brackets that were open before a stretch of text are closed within it."""
    depth = 0
    for character in between:
        if character in "([":
            depth += 1
        elif character in ")]":
            depth -= 1
            if depth < 0:
                return True
    return False


def _is_open(before: str) -> bool:
    """True where a text ends inside brackets."""
    return max(before.rfind("("), before.rfind("[")) > max(before.rfind(")"), before.rfind("]"))


def _level_in_order(reading: Reading, low: int, before: list[int]) -> Decimal | None:
    """A heading with several levels has them in the order of its intervals: "HR (90% CI; 95% CI): 2.9 (..) [..]"."""
    tokens = reading.tokens
    heading: list[int] = []
    behind = 0
    for at in range(low):
        if tokens[at].kind == "confidence":
            heading, behind = ([at], 0) if behind else ([*heading, at], 0)
        elif tokens[at].part == "low":
            behind += 1
    if len({tokens[at].value for at in heading}) < 2 or heading[-1] != before[-1]:
        return None
    return tokens[heading[behind % len(heading)]].value


def _levels_behind(reading: Reading, low: int) -> list[Decimal]:
    """Levels behind an interval that no other has for its own: "...; all intervals are 90% CI"."""
    tokens = reading.tokens
    return [
        token.value
        for at, token in enumerate(tokens[low:], start=low)
        if token.kind == "confidence" and not _leads_an_interval(reading, at) and not _is_anothers(reading, at)
    ]


def _is_anothers(reading: Reading, at: int) -> bool:
    """True for the level straight behind an interval."""
    tokens, text = reading.tokens, reading.passage.text
    before = tokens[at - 1]
    return at > 0 and before.part == "high" and bool(_FOLLOWS.fullmatch(text[before.end : tokens[at].start]))


def _prints_a_level(reading: Reading) -> bool:
    return any(token.kind == "confidence" for token in reading.tokens)


def stated_levels(readings: Iterable[Reading]) -> list[Stated]:
    """Levels that a source says of all its intervals: in a sentence of their own, without an interval in it."""
    out: list[Stated] = []
    for reading in readings:
        tokens, text = reading.tokens, reading.passage.text
        ends = [found.start() for found in _SENTENCE_END.finditer(text)]
        with_interval = {bisect(ends, token.start) for token in tokens if token.part in ("low", "high")}
        out += [
            Stated(token.value, reading.passage)
            for token in tokens
            if token.kind == "confidence"
            and bisect(ends, token.start) not in with_interval
            and not _is_for_something(_sentence_around(text, ends, token.start))
        ]
    return out


_SENTENCE_END = compiled(r"[.!?]\s|\n\s*\n")
_is_for_something = late(
    r"\b(?:margins?|non-?inferior\w*|equivalen\w+|sample size|power|assum\w+|planned|except|apart from)\b",
    re.IGNORECASE,
).search
"""A sentence about these tells the level of no other interval."""


def _sentence_around(text: str, ends: list[int], at: int) -> str:
    place = bisect(ends, at)
    return text[ends[place - 1] if place else 0 : ends[place] if place < len(ends) else len(text)]


def may_state_level(text: str) -> bool:
    """Whether a passage has any word of confidence in it."""
    return _find_level_words(text) is not None


def _problem(
    low: Quoted, high: Quoted, reading: Reading, printed: Decimal, said: Quoted | None, stated: Passage | None = None
) -> Problem:
    """stated: the other passage of the source that tells the level."""
    passage = stated or reading.passage
    shown = f"{USUAL}%, since `confidence` is not given" if said is None else said.typed
    place = f"the passage typed from {passage.bracket} ({passage.position.file}:{passage.position.line})"
    told = f'"{low.typed} to {high.typed}"'
    level = with_article(f"{printed}%")
    return error(
        low.position,
        "interval-level",
        f"{told} is printed as {level} interval in {place}, and would be shown as {shown}"
        if stated is None
        else f"{told} would be shown as {shown}, and {place} says that the intervals of this source are of {printed}%",
        f"confidence: {printed}%",
    )
