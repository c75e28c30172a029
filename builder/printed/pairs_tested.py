"""Which two of several levels a P value compares: "sonic v syringe, P = .02; sonic v ultrasonic, P = .79"."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from ..numerals.late import late
from ..records import NamedTuple
from .clauses import Span, sentences
from .tables import InCell
from .wordings import Mention


class Pair(NamedTuple):
    """Two levels that a passage puts side by side."""

    start: int
    end: int
    first: str
    second: str

    @property
    def levels(self) -> set[str]:
        """Both."""
        return {self.first, self.second}


_LEAD = r"(?:(?:the|that of|that in|those with|with|in|after)[\s~]+)?"
_joins = late(
    r"[\s~]*(?:(?!(?:and|or)\b)[a-z]+[\s~]+){0,2}?(?:(?:(?:v|vs|versus|against|compared (?:with|to)|than|from|with|to)"
    rf"\b\.?|[/–×-])[\s~]*{_LEAD}|(?P<and>and|&)[\s~]+{_LEAD})",
    re.IGNORECASE,
).fullmatch
_joins_by_verb = late(
    r"[^.;:()|\d]{0,40}?\b(?:differ\w*|better|worse|more|less|fewer|higher|lower|superior|inferior|compared|equal|"
    rf"similar)\b[^.;:()|\d]{{0,30}}?\b(?:than|from|to|with)[\s~]+{_LEAD}",
    re.IGNORECASE,
).fullmatch
_lists = late(r"[\s~]*(?:,|and|or|&|,[\s~]+and)[\s~]+", re.IGNORECASE).fullmatch
_ends_elided = late(rf"\b(?:from|than|against|versus|vs|with|to)[\s~]+{_LEAD}$", re.IGNORECASE).search
_is_straight_behind = late(r"[\s~]*[(\[][\s~]*(?:(?:for|between)[\s~]+)?|[\s~]+(?:for|between)[\s~]+").fullmatch
_FAR = 70
"""Characters within which a P value still goes with the pair before it."""


def pairs_of(text: str, mentions: Sequence[Mention], places: Sequence[Span]) -> dict[Span, Pair]:
    """By place of a P value: the two levels that its sentence or row has for it; others are left out.

    mentions: of the levels, in order; places: of the P values, in order.
    """
    found: dict[Span, Pair] = {}
    for low, high in _stretches(text):
        inside = [place for place in places if low <= place[0] < high]
        if inside:
            named = [mention for mention in mentions if low <= mention.start < high and mention.key]
            found.update(_in_turn(text, list(_pairs(text, named)), inside))
    return found


_is_against = late(
    r"\b(?:v|vs|versus|against|compared (?:with|to)|from|than)\b\.?[\s~]*(?:the[\s~]+)?\Z", re.IGNORECASE
).search


def pairs_in_table(text: str, mentions: Sequence[Mention], places: Sequence[InCell | None]) -> dict[Span, Pair]:
    """The same of a table, by cell: in the row "B", below "P against A", stands that of B and A.

    places: of the P values in the table.
    """
    found: dict[Span, Pair] = {}
    for place in places:
        if place is None or not place.headings:
            continue
        over = [each for each in mentions if each.key and any(low <= each.start < high for low, high in place.headings)]
        left = [span for span in place.others if span[1] <= place.cell[0]]
        beside = [each for each in mentions if each.key and left and left[-1][0] <= each.start < left[-1][1]]
        is_one_each = len(over) == 1 and len(beside) == 1 and over[0].key != beside[0].key
        if is_one_each and _is_against(text[max(over[0].start - _BEFORE, 0) : over[0].start]) is not None:
            found[place.cell] = Pair(beside[0].start, beside[0].end, beside[0].key, over[0].key)
    return found


_BEFORE = 24


def _stretches(text: str) -> Iterator[Span]:
    for low, high in sentences(text, 0, len(text)):
        begin = low
        for end in (*(low + place for place, letter in enumerate(text[low:high]) if letter == "\n"), high):
            yield begin, end
            begin = end


def _pairs(text: str, named: Sequence[Mention]) -> Iterator[Pair]:
    at = 0
    last: Pair | None = None
    while at < len(named):
        one = named[at]
        other = named[at + 1] if at + 1 < len(named) else None
        joined = _joined(text, named, at) if other is not None and other.key != one.key else False
        if other is not None and joined:
            last = Pair(one.start, other.end, one.key, other.key)
            yield last
            at += 2
            continue
        # "Sonic differed from syringe (P = .02) but not from ultrasonic": sonic is meant once more.
        if last is not None and one.key not in last.levels and _ends_elided(text[max(one.start - 30, 0) : one.start]):
            yield Pair(one.start, one.end, last.first, one.key)
        at += 1


def _joined(text: str, named: Sequence[Mention], at: int) -> bool:
    """Whether two names stand side by side, and are no two of three in a list."""
    gap = text[named[at].end : named[at + 1].start]
    joined = _joins(gap)
    if joined is None:
        return _joins_by_verb(gap) is not None
    if joined["and"] is None:
        return True
    is_third = at > 0 and _lists(text[named[at - 1].end : named[at].start]) is not None
    is_first = at + 2 < len(named) and _lists(text[named[at + 1].end : named[at + 2].start]) is not None
    return not is_third and not is_first


def _in_turn(text: str, pairs: Sequence[Pair], places: Sequence[Span]) -> Iterator[tuple[Span, Pair]]:
    if len(pairs) == len(places) > 1 and pairs[-1].end <= places[0][0]:
        yield from zip(places, pairs, strict=True)
        return
    behind = [(place, pair) for place in places for pair in pairs if _is_behind(text, place, pair)]
    if len(behind) == len(pairs):
        yield from behind
        return
    for place in places:
        before = [pair for pair in pairs if pair.end <= place[0]]
        is_next = before and not any(before[-1].end <= other[0] < place[0] for other in places)
        if is_next and ";" not in text[before[-1].end : place[0]] and place[0] - before[-1].end < _FAR:
            yield place, before[-1]


def _is_behind(text: str, place: Span, pair: Pair) -> bool:
    return place[1] <= pair.start and _is_straight_behind(text[place[1] : pair.start]) is not None
