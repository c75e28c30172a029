"""A long pattern taken apart at its alternatives, so that only those are compiled that may stand in a text."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise

from ..records import NamedTuple

_SIGNS = re.compile(r"\\.|\[\^?\]?(?:\\.|[^\]\\])*\]|\((?:\?(?:P<\w+>|P=|[-aimsux]*:|<?[=!]|\(|>))?|[)|]", re.DOTALL)
"""What builds a pattern: escaped signs and classes of letters, which are passed over; brackets; bars."""
_is_plain = re.compile(r"\(\?(?:P<\w+>|[-aimsux]*:)\Z").match
_names_in = re.compile(r"\(\?P<(\w+)>").findall
_QUANTIFIERS = ("?", "*", "+", "{")
_LONG = 60
"""Characters from which on an alternative is taken apart in turn."""
_SHORTEST = 3
"""Fewer letters stand in most texts."""

_match_lead = re.compile(r"(?:\\b|\(\?<?!(?:[^()\\]|\\.)*\))*(?P<letters>[A-Za-z][A-Za-z '-]+)(?P<next>[?*{]?)").match
_PASSED_OVER = re.compile(r"\\.|\[\^?\]?(?:\\.|[^\]\\])*\]", re.DOTALL)
_INNER_GROUP = re.compile(r"\([^()]*\)")
_OPTIONAL = re.compile(r".(?=[?*{])", re.DOTALL)
_find_letters = re.compile("[a-z '-]*[a-z][a-z '-]*").findall


class Branch(NamedTuple):
    """One alternative."""

    text: str
    stem: str
    """In small letters: whatever it finds holds it, in any case; "" where no such letters are known."""
    inner: Alternatives | None
    """Where it has alternatives in turn."""


class Alternatives(NamedTuple):
    """A pattern as `before`, one of the branches, `behind`."""

    before: str
    branches: tuple[Branch, ...]
    behind: str

    def stems(self) -> Iterator[str]:
        """Of every alternative that has none in turn, in order."""
        for branch in self.branches:
            if branch.inner is not None:
                yield from branch.inner.stems()
            else:
                yield branch.stem

    def of(self, kept: Iterator[bool]) -> str:
        """The pattern of those alternatives alone that are kept, in the order of `stems`; "" of none."""
        texts: list[str] = []
        lost: list[str] = []
        for branch in self.branches:
            text = branch.inner.of(kept) if branch.inner is not None else branch.text if next(kept) else ""
            if text:
                texts.append(text)
            else:
                lost += _names_in(branch.text)
        if not texts:
            return ""
        # Whoever asks for what a group found is answered None.
        texts += [f"(?P<{name}>(?!))" for name in lost]
        return f"{self.before}{'|'.join(texts)}{self.behind}"


def alternatives_of(pattern: str) -> Alternatives | None:
    """None where the pattern has none, or counts or repeats its groups.

    One that was written with re.VERBOSE cannot be taken apart.
    """
    open_groups = [_Group(0, "(?:")]
    for sign in _SIGNS.finditer(pattern):
        what = sign[0]
        if what == "|":
            open_groups[-1].bars.append(sign.start())
        elif what == ")":
            group = open_groups.pop()
            if group.is_plain and pattern[sign.end() : sign.end() + 1] not in _QUANTIFIERS:
                open_groups[-1].take(group.choice(sign.start()))
        elif what[0] == "(":
            if what in ("(", "(?(") or what.startswith("(?P="):
                return None
            open_groups.append(_Group(sign.end(), what))
    start, end, inside = open_groups[0].choice(len(pattern))
    if not inside:
        return None
    cuts = [start - 1, *inside, end]
    branches = tuple(_branch(pattern[low + 1 : high]) for low, high in pairwise(cuts))
    return Alternatives(pattern[:start], branches, pattern[end:])


class _Group:
    """A group of a pattern, while it is read."""

    def __init__(self, start: int, opener: str) -> None:
        self.start, self.is_plain = start, _is_plain(opener) is not None
        self.bars: list[int] = []
        self._longest: tuple[int, int, list[int]] = (0, 0, [])

    def take(self, inner: tuple[int, int, list[int]]) -> None:
        """One group within, as `choice` gives it."""
        if inner[2] and inner[1] - inner[0] > self._longest[1] - self._longest[0]:
            self._longest = inner

    def choice(self, end: int) -> tuple[int, int, list[int]]:
        """Where its alternatives stand, its own or those of the longest group in it, and the bars between them."""
        return (self.start, end, self.bars) if self.bars else self._longest


def _branch(text: str) -> Branch:
    stem = _leading(text)
    if not stem or len(text) >= _LONG:
        inner = alternatives_of(text)
        if inner is not None and (len(text) >= _LONG or all(inner.stems())):
            return Branch(text, "", inner)
    return Branch(text, stem or _longest(text), None)


def _leading(text: str) -> str:
    found = _match_lead(text)
    if found is None:
        return ""
    letters = found["letters"][:-1] if found["next"] else found["letters"]
    return letters.lower() if len(letters) >= _SHORTEST else ""


def _longest(text: str) -> str:
    """The longest run of letters that stands outside of all brackets, and is not optional."""
    flat = _PASSED_OVER.sub("\0", text)
    before = ""
    while flat != before:
        before, flat = flat, _INNER_GROUP.sub("\0", flat)
    runs = _find_letters(_OPTIONAL.sub("\0", flat).lower())
    return max((run for run in runs if len(run) >= _SHORTEST), key=len, default="")
