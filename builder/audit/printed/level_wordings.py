"""Which numbers of a passage stand in the words of which level."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import NamedTuple

from ...numerals import Token

_CLAUSE_END = re.compile(r";|\.(?=\s|$)|\n(?=[^\n]*\|)")
"""Rows of a table typed with "|" are clauses of their own."""
_SEGMENT_END = re.compile(r";|\.(?=\s|$)|,(?=\s)(?![^()\n]*\))|\band\b(?![^()\n]*\))|\n(?=[^\n]*\|)", re.IGNORECASE)


def clauses(text: str) -> list[int]:
    """Where the clauses of a passage end: at semicolons and full stops."""
    return [match.start() for match in _CLAUSE_END.finditer(text)]


def segments(text: str) -> list[int]:
    """Where the smallest parts of a passage end: at semicolons, full stops, commas between blanks and "and"."""
    return [match.start() for match in _SEGMENT_END.finditer(text)]


class Place(NamedTuple):
    """Where a passage has the wording of a level."""

    start: int
    end: int
    wording: str

    def holds(self, at: int) -> bool:
        """True inside the words."""
        return self.start <= at < self.end


def levels_of(text: str, tokens: Sequence[Token], wordings: tuple[str, ...]) -> list[str | None]:
    """For each number the level in whose words it stands, None where the passage does not say.

    A clause with one level's wording is that level's, unless the passage lacks the words of another level; then, and
    in a clause with several, its parts between commas are looked at, and within a part numbers belong to the wording
    before them, or behind where numbers come first. "respectively" says nothing.
    """
    plain = text.lower()
    places = _places_of(plain, wordings)
    levels: list[str | None] = [None] * len(tokens)
    if not places:
        return levels
    if len(places) == 1 and not _falls_apart(plain):
        return [None if places[0].holds(token.start) else places[0].wording for token in tokens]
    begin = 0
    is_complete = len({place.wording for place in places}) == len(set(wordings))
    for end in (*clauses(plain), len(plain) + 1):
        inside = [place for place in places if begin <= place.start < end]
        numbers = [index for index, token in enumerate(tokens) if begin <= token.start < end]
        if inside and numbers:
            _in_clause(plain, (begin, end), inside, numbers, tokens, levels, is_complete=is_complete)
        begin = end
    return levels


def _in_clause(
    plain: str, clause: tuple[int, int], places: list[Place], numbers: list[int], tokens: Sequence[Token],
    levels: list[str | None], *, is_complete: bool,
) -> None:  # fmt: skip
    """Fill in the levels of the numbers of one clause that has wordings. is_complete: the passage has every level's."""
    begin, end = clause
    if is_complete and len({place.wording for place in places}) == 1:
        for index in numbers:
            levels[index] = places[0].wording
    elif "respectively" not in plain[begin:end]:
        for low, high in _parts(plain, begin, min(end, len(plain)), None if is_complete else places):
            _by_order(
                [place for place in places if low <= place.start < high],
                [index for index in numbers if low <= tokens[index].start < high],
                tokens,
                levels,
            )


def _places_of(plain: str, wordings: tuple[str, ...]) -> list[Place]:
    """Where the wordings stand as whole words, in order; none inside a longer one."""
    places: list[Place] = []
    for wording in sorted(set(wordings), key=len, reverse=True):  # "no suture" before "suture"
        sought = wording.lower()
        start = plain.find(sought)
        while start >= 0:
            end = start + len(sought)
            is_whole = not plain[start - 1 : start].isalnum() and not plain[end : end + 1].isalnum()
            if is_whole and not any(place.start < end and start < place.end for place in places):
                places.append(Place(start, end, wording))
            start = plain.find(sought, end)
    return sorted(places)


_falls_apart = re.compile(
    r"[;,\n]|\.(?=\s|$)|\b(?:than|versus|vs|against|compared|whereas|while|but|respectively)\b"
).search
"""What may part one clause into several, looked for at once before each is."""
_SIDES = re.compile(r"\bthan\b(?!\s*\d)|\bversus\b|\bvs\b|\bagainst\b|\bcompared\b|\bwhereas\b|\bwhile\b|\bbut\b")


def _parts(text: str, begin: int, end: int, wordings: list[Place] | None) -> list[tuple[int, int]]:
    """A clause between its commas, those in brackets and numbers left alone.

    wordings: where it also falls apart at "than", "versus" and the like, the places it must not be cut in.
    """
    if wordings is None:
        return _between_commas(text, begin, end)
    parts: list[tuple[int, int]] = []
    for match in _SIDES.finditer(text, begin, end):
        if not any(place.holds(match.start()) for place in wordings):
            parts += _between_commas(text, begin, match.start())
            begin = match.start()
    return parts + _between_commas(text, begin, end)


def _between_commas(text: str, begin: int, end: int) -> list[tuple[int, int]]:
    parts: list[tuple[int, int]] = []
    depth = 0
    comma = text.find(",", begin, end)
    for at in range(begin, end) if comma >= 0 else ():
        character = text[at]
        if character in "([":
            depth += 1
        elif character in ")]":
            depth -= 1
        elif character == "," and depth <= 0 and not text[at + 1 : at + 2].isdigit():
            parts.append((begin, at))
            begin = at + 1
    parts.append((begin, end))
    return parts


def _by_order(places: list[Place], numbers: list[int], tokens: Sequence[Token], levels: list[str | None]) -> None:
    """Wording first: numbers belong to the last wording before them; numbers first: to the next."""
    outside = [index for index in numbers if not any(place.holds(tokens[index].start) for place in places)]
    if not places or not outside:
        return
    if len(places) == 1:
        for index in outside:
            levels[index] = places[0].wording
        return
    is_wording_first = places[0].start < tokens[outside[0]].start
    owned: dict[int, list[int]] = {}
    for index in outside:
        owner = _owner(places, tokens[index].start, is_wording_first=is_wording_first)
        owned.setdefault(owner, []).append(index)
    if len(owned) < len(places) or -1 in owned:  # "over 3 mm against up to 3 mm: HR 2.9" belongs to neither
        return
    for owner, indexes in owned.items():
        for index in indexes:
            levels[index] = places[owner].wording


def _owner(places: list[Place], start: int, *, is_wording_first: bool) -> int:
    """The last wording before a number, or the first behind it; -1 where there is none."""
    before = sum(place.start < start for place in places)
    if is_wording_first:
        return before - 1
    behind = sum(place.start <= start for place in places)
    return behind if behind < len(places) else -1
