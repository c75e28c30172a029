"""At which time each P value of a sentence was found: "P = .004 at 24 hours and P = .31 at 72 hours"."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import pairwise

from ..compiled_patterns import compiled
from ..numerals import Token
from .clauses import Span
from .owner import Owner
from .p_words import PValues
from .times import Times
from .wordings import Mention

_is_listed = compiled(
    r"[\s~,;]*(?:(?:and|or|versus|vs\.?)\b)?[\s~]*(?:P[\s~]*)?[=<>≤≥]?[\s~]*", re.IGNORECASE
).fullmatch


def p_times(text: str, tokens: Sequence[Token], values: PValues, times: Times) -> dict[int, Owner]:
    """By the place of each P value: the time that its words name, or that stands in its place in a list of times."""
    if not times.mentions or not values.places:
        return {}
    found: dict[int, Owner] = {}
    for sentence, places in _by_sentence(values, tokens):
        mentions = [each for each in times.mentions if sentence[0] <= each.start < sentence[1]]
        if mentions:
            found.update(_in_sentence(text, tokens, sentence, _with_listed(text, tokens, places, sentence), mentions))
    return found


def _by_sentence(values: PValues, tokens: Sequence[Token]) -> Iterator[tuple[Span, list[int]]]:
    places: dict[Span, list[int]] = {}
    for at in values.places:
        if values.cells[at] is None:
            places.setdefault(values.around.sentence(tokens[at].start), []).append(at)
    yield from places.items()


def _with_listed(text: str, tokens: Sequence[Token], places: Sequence[int], sentence: Span) -> list[int]:
    """The P values with those behind them that have no P of their own: "P = .004 and .31"."""
    found = list(places)
    for at in range(1, len(tokens)):
        token, before = tokens[at], tokens[at - 1]
        if at in found or at - 1 not in found or not sentence[0] <= token.start < sentence[1]:
            continue
        is_p = token.kind == "number" and token.decimals > 0 and token.value <= 1 and not token.part
        if is_p and _is_listed(text[before.end : token.outer_start]):
            found.append(at)
    return sorted(found)


def _in_sentence(
    text: str, tokens: Sequence[Token], sentence: Span, places: Sequence[int], mentions: Sequence[Mention]
) -> dict[int, Owner]:
    cuts = [sentence[0], *(tokens[at].start for at in places), sentence[1]]
    between = [[each for each in mentions if low <= each.start < high] for low, high in pairwise(cuts)]
    for own, is_there in ((between[:-1], True), (between[1:], not between[0])):
        if is_there and all(len({each.key for each in said}) == 1 for said in own):
            return {at: _owner(said[0], "words") for at, said in zip(places, own, strict=True)}
    is_list = all(_is_listed(text[tokens[one].end : tokens[other].outer_start]) for one, other in pairwise(places))
    keys = list(dict.fromkeys(each.key for each in mentions))
    if is_list and len(places) == len(keys) == len(mentions) > 1:
        return {at: _owner(mention, "position") for at, mention in zip(places, mentions, strict=True)}
    return {}


def _owner(mention: Mention, by: str) -> Owner:
    return Owner(mention.key, "position" if by == "position" else "words", ((mention.start, mention.end),))
