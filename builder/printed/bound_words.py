"""Which role words are bound to a number by structure, and do not merely stand in its clause.

Bound is what is said of the number itself: "9 were followed", "71 treated", "median 31", "lost: 9", the heading of its
column. Of "the median of the treated eyes was 16 minutes" the 16 is no number of treated.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache

from ..compiled_patterns import compiled
from ..numerals import Lexicon, Token
from ..numerals.late import late
from ..records import NamedTuple
from .tables import InCell

_STATISTICS = frozenset({
    "median", "mean", "minimum", "maximum", "sd", "se", "iqr", "range", "tolerance", "low", "high", "i2",
    "adjusted", "crude",
})  # fmt: skip
_ENDS = frozenset({"low", "high"})
"""Of an interval; "lower" and "upper" may also say where something is."""
_ALWAYS = frozenset({"label", "per", "n", "good", "bad"})
"""Roles that are no role of the flow and no statistic: of events other readers tell more (`ties.events`)."""
_FLOW = frozenset({"eligible", "treated", "due", "examined"})
_OTHER_NAMES = {"n": r"n|number", "at risk": r"at risk", "lost": r"lost|missing|not examined"}
_ARE = r"(?:(?:were|was|are|is|had|have|has|could be|can be|been|being|remained|got|became)\s+)"
_LED_BY = r"\b(?:in|among|for|from|by|after|at|with|on|between|within|than|to|per|during|without|over|under)\b"
_SUBJECT = r"(?:we|they|authors?|investigators?|researchers?|operators?|were|was|and|number|of whom|nos?\.?|n|been)"
_LINK = (
    r"(?:\s*(?:follow-?\s?up|recall|of|was|were|is|are|a|an|the|total|about|only|all|another|further|or|and|number|"
    r"value|time|up|to|n)\b)"
)
_VERB = (
    r"\b(?:had|have|has|were|was|are|is|did|showed?|healed|failed|remained|survived|developed|became|became|felt|"
    r"reported|needed|required|lost|died|kept|succeeded|presented|exhibited|demonstrated|received|got|stayed)\b"
)


class _Patterns(NamedTuple):
    """Of one role."""

    behind_at_once: re.Pattern[str]
    """ "71 treated", "71 adult eyes treated"."""
    behind_a_verb: re.Pattern[str]
    """ "9 of them were followed"."""
    before: re.Pattern[str]
    """ "followed: 9", "median follow-up of 31"."""
    heading: re.Pattern[str]
    """A cell that says nothing else."""
    named: re.Pattern[str]
    """One of its words."""
    counted: frozenset[str]
    """Words of what is counted, and of what is said of it."""


@lru_cache(maxsize=512)
def _patterns(role: str, lexicon: Lexicon) -> _Patterns:
    words = [re.escape(word) for word, stands in lexicon.all_roles.items() if stands == role]
    names = "|".join([*sorted(words, key=len, reverse=True), *filter(None, [_OTHER_NAMES.get(role)])]) or re.escape(
        role
    )
    named = rf"\b(?P<word>{names})\b"
    counted = "|".join(re.escape(word) for word in sorted(lexicon.beside_numbers, key=len, reverse=True))
    other = rf"(?:(?!{_LED_BY}|\b(?:that|which|who|whose|and|or|but)\b)[\w%'’-]+\s+)"
    silent = rf"(?:{counted}|n|no|numbers?|of|total|all|the|to|follow|up|recall|at|after|months?|years?|days?|[\W\d])"
    return _Patterns(
        re.compile(rf"\s*(?:(?:{counted})\s+){{0,3}}{named}", re.IGNORECASE),
        re.compile(rf"\s*(?:of\s+(?:them|these|those|whom|which)\s+)?{other}{{0,4}}?{_ARE}+(?:\w+ly\s+|also\s+|"
                   rf"not\s+|all\s+|still\s+|then\s+|later\s+)?{named}", re.IGNORECASE),
        re.compile(rf"(?:{named}){_LINK}*\s*(?P<sign>[:=(\[,]?)\s*(?:n\s*=\s*)?$", re.IGNORECASE),
        re.compile(rf"(?:(?:{silent})\s*)*{named}(?:\s*(?:{silent}))*", re.IGNORECASE),
        re.compile(named, re.IGNORECASE),
        lexicon.beside_numbers,
    )  # fmt: skip


def bound_roles(text: str, tokens: Sequence[Token], at: int, cell: InCell | None, lexicon: Lexicon) -> tuple[str, ...]:
    """Those of the roles of a number that are bound to it. cell: its place in a table, None in prose."""
    return tuple(role for role in tokens[at].roles if _is_bound(role, text, tokens, at, cell, lexicon))


def _is_bound(role: str, text: str, tokens: Sequence[Token], at: int, cell: InCell | None, lexicon: Lexicon) -> bool:
    if role in _ALWAYS:
        return True
    patterns = _patterns(role, lexicon)
    if cell is not None and _is_headed(role, text, tokens[at], cell, patterns):
        return True
    if _is_said_before(role, _words_before(text, tokens, at), patterns):
        return True
    if role not in _STATISTICS and _is_said_behind(role, text, tokens, at, patterns):
        return True
    return any(
        role in tokens[parent].roles and _is_bound(role, text, tokens, parent, cell, lexicon)
        for parent in _parents(text, tokens, at)
    )


def _is_headed(role: str, text: str, token: Token, cell: InCell, patterns: _Patterns) -> bool:
    heads = [*cell.headings, *(span for span in cell.others if span[1] <= token.start)]
    find = patterns.heading.search if role in _STATISTICS else patterns.heading.fullmatch
    return any(find(text, *span) is not None for span in heads)


# Before the number


def _words_before(text: str, tokens: Sequence[Token], at: int) -> str:
    """The words between a number, or the first of a range, and the number or the sentence before it; what stands in
    brackets of its own left out."""
    token = tokens[at]
    if token.part == "high" and 0 <= token.pair < at:
        at = token.pair
        token = tokens[at]
    start = token.outer_start
    words = text[tokens[at - 1].end if at else 0 : start]
    words = _BRACKETS.sub(" ", words)
    opening = _opening(words)
    body = words[: opening.start()] if opening is not None else words
    cut = max((found.end() for found in _ends_before(body)), default=0)
    return words[cut:]


_BRACKETS = late(r"\([^()]*\)|\[[^\[\]]*\]")
_opening = late(r"[(\[]\s*(?:n\s*=\s*)?$", re.IGNORECASE).search
_ends_before = late(r"[.;|\n](?=\s|$)|[()\[\]]").finditer


def _is_said_before(role: str, words: str, patterns: _Patterns) -> bool:
    if role in _ENDS:
        return _names_an_end(words) is not None
    if role in _STATISTICS:
        found = None
        for found in patterns.named.finditer(words):  # noqa: B007
            pass
        if found is None:  # of another number before it: "mean (SD) 31 (12)"
            return True
        between = words[found.end() :]
        return _is_led(between) is None or (role == "range" and _is_range(between) is not None)
    found = patterns.before.search(words)
    if found is None:
        return False
    if found["sign"]:
        return True
    subject = words[: found.start()].rpartition(",")[2].strip().lower()
    if role in _FLOW and _is_of_them(subject):  # "of those examined 62 healed"
        return False
    last = subject.rpartition(" ")[2]
    return not last or last in patterns.counted or _is_somebody(last) is not None or role not in _FLOW


_names_an_end = compiled(
    r"\b(?:lower|upper)\s+(?:(?:95%?|90%?|99%?|ci|confidence|credible)\s+)*(?:limits?|bounds?|ends?|quartiles?|ci)?"
    r"(?:\s+(?:of|was|is|were|the|interval|at|about))*\W*$",
    re.IGNORECASE,
).search
_is_led = late(rf"{_LED_BY}(?:\s+(?:the|a|an|all|these|those|our|another|further|about|total of))*\s*[(\[]?\s*$").search
_is_range = compiled(r"\W*(?:from|between)\s*$").match
_is_of_them = compiled(r"(?:of|among|in|for|from|with)\b").match
_is_somebody = late(_SUBJECT).fullmatch

# Behind it


def _is_said_behind(role: str, text: str, tokens: Sequence[Token], at: int, patterns: _Patterns) -> bool:
    token = tokens[at]
    last = token.pair if token.part in ("events", "low") and token.pair > at else at
    behind = last + 1
    start = max(tokens[last].end, tokens[last].outer_end)
    own = _own_bracket(text, start)
    if own is not None:
        start = own.end()
        while behind < len(tokens) and tokens[behind].start < start:
            behind += 1
    words = text[start : tokens[behind].start if behind < len(tokens) else len(text)]
    stop = _stop(words)
    words = words[: stop.start()] if stop is not None else words
    if patterns.behind_a_verb.match(words) is not None:
        return True
    found = patterns.behind_at_once.match(words)
    if found is None:
        return False
    if role not in _FLOW:
        return True
    rest = words[found.end() :]
    if (
        token.part == "events"
    ):  # "39 of 47 examined"; of "39 of 47 treated with A", "kept: 39 of 47 examined" the 47 were
        is_alone = _words_before(text, tokens, at).strip(" ,").lower() in ("", "and", "then")
        return is_alone and (not rest.strip() or rest.lstrip()[0] == ",")
    return _find_verb(rest) is None  # "9 treated with A had pain"


_own_bracket = compiled(r"\s*(?:\([^()]*\)|\[[^\[\]]*\])").match
_stop = compiled(r"[.;|\n](?=\s|$)").search
_find_verb = late(_VERB, re.IGNORECASE).search


def _parents(text: str, tokens: Sequence[Token], at: int) -> list[int]:
    """The number before the brackets in which a number stands first, with the other half of its pair."""
    token = tokens[at]
    if token.part == "high" and 0 <= token.pair < at:
        at = token.pair
    if not at or _leads_into_brackets(text, tokens[at - 1].end, tokens[at].start) is None:
        return []
    before = tokens[at - 1]
    return [at - 1, before.pair] if before.part == "total" and 0 <= before.pair < at else [at - 1]


_leads_into_brackets = late(r"[^()\[\].;|\n]*[(\[]\s*(?:\w+\s*[=,:]?\s*){0,2}[<>=]?\s*").fullmatch
