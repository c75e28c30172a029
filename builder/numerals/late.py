"""Patterns that are compiled when they are first asked, and asked only where their words may stand."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from functools import cached_property
from typing import Any, cast

from ..compiled_patterns import compiled, expect


def late(pattern: str, flags: int = 0, *, holds: Sequence[str] = (), also: Sequence[str] = ()) -> re.Pattern[str]:
    """As re.compile; a fault in the pattern is raised at its first use.

    holds: stems in small letters, of which whatever the pattern finds holds one, in any case. Most passages hold none,
    and to see this takes a tenth of the time that a long pattern takes. also: stems of which it holds one as well.
    """
    made = _Stemmed(pattern, flags, holds, also) if holds or also else _Late(pattern, flags)
    return cast("re.Pattern[str]", made)


def in_small(pattern: str, *, holds: Sequence[str] = (), also: Sequence[str] = ()) -> re.Pattern[str]:
    """As `late` with re.IGNORECASE, for patterns in small letters of which nobody reads the words that they find.

    It is looked for in the text made small, at the same places: Python passes over an alternative whose first letter is
    another one at once, but only where case counts, so that a long pattern takes a fifth of the time.
    """
    return cast("re.Pattern[str]", _Small(pattern, holds, also))


def lowered(text: str) -> str:
    """A text in small letters, each at its place."""
    small = text.lower()
    if len(small) != len(text):  # "İ" becomes two characters, and every place behind it would be wrong
        small = "".join(low if len(low := character.lower()) == 1 else character for character in text)
    return small


def holds_any(small: str, stems: Iterable[str]) -> bool:
    """Whether one of some stems stands anywhere in a text of small letters."""
    for stem in stems:  # noqa: SIM110 (half the time of `any`)
        if stem in small:
            return True
    return False


class _Late:
    """A pattern that any text may hold."""

    holds: Sequence[str] = ()
    also: Sequence[str] = ()

    def __init__(self, pattern: str, flags: int) -> None:
        self.pattern, self.flags = pattern, flags
        expect(pattern, flags)

    @cached_property
    def _whole(self) -> re.Pattern[str]:
        return compiled(self.pattern, self.flags)

    def of(self, text: str) -> re.Pattern[str] | None:
        """What finds in this text all that the pattern finds; None where it can find nothing."""
        return self._whole

    def search(self, text: str, *where: int) -> re.Match[str] | None:
        return self._whole.search(text, *where)

    def match(self, text: str, *where: int) -> re.Match[str] | None:
        return self._whole.match(text, *where)

    def fullmatch(self, text: str, *where: int) -> re.Match[str] | None:
        return self._whole.fullmatch(text, *where)

    def finditer(self, text: str, *where: int) -> Iterable[re.Match[str]]:
        return self._whole.finditer(text, *where)

    def findall(self, text: str, *where: int) -> list[Any]:
        return self._whole.findall(text, *where)

    def sub(self, instead: str, text: str) -> str:
        return self._whole.sub(instead, text)

    def split(self, text: str) -> list[Any]:
        return self._whole.split(text)


class _Small(_Late):
    """One that is looked for in small letters."""

    def __init__(self, pattern: str, holds: Sequence[str], also: Sequence[str]) -> None:
        super().__init__(pattern, 0)
        self.holds, self.also = holds, also

    def of(self, text: str) -> re.Pattern[str] | None:
        return cast("re.Pattern[str]", self) if self._may_stand_in(lowered(text)) else None

    def _may_stand_in(self, small: str) -> bool:
        may = not self.holds or holds_any(small, self.holds)
        return may and (not self.also or holds_any(small, self.also))

    def search(self, text: str, *where: int) -> re.Match[str] | None:
        small = lowered(text)
        return self._whole.search(small, *where) if self._may_stand_in(small) else None

    def match(self, text: str, *where: int) -> re.Match[str] | None:
        small = lowered(text)
        return self._whole.match(small, *where) if self._may_stand_in(small) else None

    def fullmatch(self, text: str, *where: int) -> re.Match[str] | None:
        small = lowered(text)
        return self._whole.fullmatch(small, *where) if self._may_stand_in(small) else None

    def finditer(self, text: str, *where: int) -> Iterable[re.Match[str]]:
        small = lowered(text)
        return self._whole.finditer(small, *where) if self._may_stand_in(small) else ()

    findall = sub = split = None  # type: ignore[assignment]  # what they give would be in small letters


class _Stemmed(_Late):
    """One of which stems are known."""

    def __init__(self, pattern: str, flags: int, holds: Sequence[str], also: Sequence[str]) -> None:
        super().__init__(pattern, flags)
        self.holds, self.also = holds, also
        self._asked = ""
        self._may: re.Pattern[str] | None = None

    def of(self, text: str) -> re.Pattern[str] | None:
        if self._asked is not text or not text:  # a passage is asked once for each of its numbers
            small = text.lower()
            may = not self.holds or holds_any(small, self.holds)
            may = may and (not self.also or holds_any(small, self.also))
            self._asked, self._may = text, self._whole if may else None
        return self._may

    def search(self, text: str, *where: int) -> re.Match[str] | None:
        pattern = self.of(text)
        return pattern.search(text, *where) if pattern is not None else None

    def match(self, text: str, *where: int) -> re.Match[str] | None:
        pattern = self.of(text)
        return pattern.match(text, *where) if pattern is not None else None

    def fullmatch(self, text: str, *where: int) -> re.Match[str] | None:
        pattern = self.of(text)
        return pattern.fullmatch(text, *where) if pattern is not None else None

    def finditer(self, text: str, *where: int) -> Iterable[re.Match[str]]:
        pattern = self.of(text)
        return pattern.finditer(text, *where) if pattern is not None else ()

    def findall(self, text: str, *where: int) -> list[Any]:
        pattern = self.of(text)
        return pattern.findall(text, *where) if pattern is not None else []

    def sub(self, instead: str, text: str) -> str:
        pattern = self.of(text)
        return pattern.sub(instead, text) if pattern is not None else text

    def split(self, text: str) -> list[Any]:
        pattern = self.of(text)
        return pattern.split(text) if pattern is not None else [text]
