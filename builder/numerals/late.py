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
