"""Numbers in the words of a claim, which prove nothing and must stand in its passage all the same."""

from __future__ import annotations

import re
from collections.abc import Callable

from ...compiled_patterns import compiled
from ...numerals import Token, read_numerals
from ...numerals.late import late
from ...problems import Problem
from .field_roles import Scope
from .figure_messages import problem_in_passing
from .printed_passage import Reading


def find_in_passing(scope: Scope, reading: Callable[[str], Reading | None]) -> list[Problem]:
    """Numbers in words of the claim must stand in its passage; they prove nothing.

    Only what is written with digits is asked for: "one of the two groups" speaks and quotes nothing. Places in the
    report ("Table 3") and years of the calendar are no figures.
    """
    problems: list[Problem] = []
    for said in scope.in_passing:
        text = said.words.text
        if not _has_digit(text):
            continue
        place = reading(said.where.text)
        if place is None:
            continue
        for token in read_numerals(_LOCATOR.sub(lambda found: " " * len(found[0]), text), scope.lexicon):
            if token.kind != "calendar" and _has_digit(token.text) and not _is_mentioned(token, place):
                problems.append(problem_in_passing(said, token, place))
    return problems


_has_digit = compiled(r"\d").search
_LOCATOR = late(
    r"\b(?:pp?\.|pages?|tab(?:les?|\.)|fig(?:ures?|s?\.)|append(?:ix|ices)|refs?\.|references?|chapters?|sections?)"
    r"\s*[A-Z]?\d+(?:(?:\s*(?:-|–|,|and|to)\s*)\d+)*",
    re.IGNORECASE,
)


def _is_mentioned(token: Token, place: Reading) -> bool:
    return any(
        token.decimals == place.tokens[index].decimals
        and (token.unit == place.tokens[index].unit or "none" in (token.unit, place.tokens[index].unit))
        for index in place.by_value.get(token.value, ())
    )
