"""Which numbers of a passage stand in the words of which level."""

from __future__ import annotations

import re
from collections.abc import Sequence

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


def levels_of(text: str, tokens: Sequence[Token], wordings: tuple[str, ...]) -> list[str | None]:
    """For each number the level in whose words it stands, None where the passage does not say.

    A clause with one level's wording is that level's, unless the passage lacks the words of another level; then, and
    in a clause with several, its parts between commas are looked at, and within a part numbers belong to the wording
    before them, or behind where numbers come first. "respectively" says nothing.
    """
    plain = text.lower()
    places: list[tuple[int, int, str]] = []
    covered: list[tuple[int, int]] = []
    for wording in sorted(set(wordings), key=len, reverse=True):  # "no suture" before "suture"
        sought = wording.lower()
        start = plain.find(sought)
        while start >= 0:
            end = start + len(sought)
            whole = not plain[start - 1 : start].isalnum() and not plain[end : end + 1].isalnum()
            if whole and not any(low < end and start < high for low, high in covered):
                places.append((start, end, wording))
                covered.append((start, end))
            start = plain.find(sought, end)
    levels: list[str | None] = [None] * len(tokens)
    if not places:
        return levels
    if len(places) == 1 and not _falls_apart(plain):
        low, high, wording = places[0]
        return [None if low <= token.start < high else wording for token in tokens]
    places.sort()
    ends = [*clauses(plain), len(plain) + 1]
    begin = 0
    all_said = len({place[2] for place in places}) == len(set(wordings))
    for end in ends:
        inside = [place for place in places if begin <= place[0] < end]
        numbers = [index for index, token in enumerate(tokens) if begin <= token.start < end]
        if all_said and len({place[2] for place in inside}) == 1:
            for index in numbers:
                levels[index] = inside[0][2]
        elif inside and "respectively" not in plain[begin:end]:
            spans = [] if all_said else [(low, high) for low, high, _ in inside]
            for low, high in _parts(plain, begin, min(end, len(plain)), None if all_said else spans):
                _by_order(
                    [place for place in inside if low <= place[0] < high],
                    [index for index in numbers if low <= tokens[index].start < high],
                    tokens, levels,
                )  # fmt: skip
        begin = end
    return levels


_falls_apart = re.compile(
    r"[;,\n]|\.(?=\s|$)|\b(?:than|versus|vs|against|compared|whereas|while|but|respectively)\b"
).search
"""What may part one clause into several, looked for at once before each is."""
_SIDES = re.compile(r"\bthan\b(?!\s*\d)|\bversus\b|\bvs\b|\bagainst\b|\bcompared\b|\bwhereas\b|\bwhile\b|\bbut\b")


def _parts(text: str, begin: int, end: int, wordings: list[tuple[int, int]] | None) -> list[tuple[int, int]]:
    """A clause between its commas, those in brackets and numbers left alone.

    wordings: where it also falls apart at "than", "versus" and the like, the places it must not be cut in.
    """
    parts: list[tuple[int, int]] = []
    if wordings is not None:
        cuts = [
            match.start()
            for match in _SIDES.finditer(text, begin, end)
            if not any(low <= match.start() < high for low, high in wordings)
        ]
        for cut in cuts:
            parts += _parts(text, begin, cut, None)
            begin = cut
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


def _by_order(
    places: list[tuple[int, int, str]], numbers: list[int], tokens: Sequence[Token], levels: list[str | None]
) -> None:
    """Wording first: numbers belong to the last wording before them; numbers first: to the next."""
    outside = [index for index in numbers if not any(low <= tokens[index].start < high for low, high, _ in places)]
    if not places or not outside:
        return
    if len(places) == 1:
        for index in outside:
            levels[index] = places[0][2]
        return
    wording_first = places[0][0] < tokens[outside[0]].start
    owned: dict[int, list[int]] = {}
    for index in outside:
        start = tokens[index].start
        if wording_first:
            owner = max((at for at, place in enumerate(places) if place[0] < start), default=-1)
        else:
            owner = min((at for at, place in enumerate(places) if place[0] > start), default=-1)
        owned.setdefault(owner, []).append(index)
    if len(owned) < len(places) or -1 in owned:  # "over 3 mm against up to 3 mm: HR 2.9" belongs to neither
        return
    for owner, indexes in owned.items():
        for index in indexes:
            levels[index] = places[owner][2]
