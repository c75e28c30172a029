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
    return cast("re.Pattern[str]", _Late(pattern, flags, holds, also))


def holds_any(small: str, stems: Iterable[str]) -> bool:
    """Whether one of some stems stands anywhere in a text of small letters."""
    for stem in stems:  # noqa: SIM110 (half the time of `any`)
        if stem in small:
            return True
    return False


class _Late:
    def __init__(self, pattern: str, flags: int, holds: Sequence[str], also: Sequence[str]) -> None:
        self.pattern, self.flags, self.holds, self.also = pattern, flags, holds, also
        self._last: tuple[str, re.Pattern[str] | None] = "", None
        expect(pattern, flags)

    @cached_property
    def _whole(self) -> re.Pattern[str]:
        return compiled(self.pattern, self.flags)

    def of(self, text: str) -> re.Pattern[str] | None:
        """What finds in this text all that the pattern finds; None where it can find nothing."""
        if self._last[0] is not text or not text:  # a passage is asked once for each of its numbers
            self._last = text, self._of(text)
        return self._last[1]

    def _of(self, text: str) -> re.Pattern[str] | None:
        if self.holds or self.also:
            small = text.lower()
            if (self.holds and not holds_any(small, self.holds)) or (self.also and not holds_any(small, self.also)):
                return None
        return self._whole

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
