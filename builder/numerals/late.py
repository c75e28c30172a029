"""Patterns that are compiled when they are first asked, and asked only where their words may stand."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from functools import cached_property
from typing import Any, cast


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

    @cached_property
    def _compiled(self) -> re.Pattern[str]:
        return re.compile(self.pattern, self.flags)

    def _may(self, text: str) -> bool:
        if not self.holds:
            return True
        small = text.lower()
        return holds_any(small, self.holds) and (not self.also or holds_any(small, self.also))

    def search(self, text: str, *where: int) -> re.Match[str] | None:
        return self._compiled.search(text, *where) if self._may(text) else None

    def match(self, text: str, *where: int) -> re.Match[str] | None:
        return self._compiled.match(text, *where) if self._may(text) else None

    def fullmatch(self, text: str, *where: int) -> re.Match[str] | None:
        return self._compiled.fullmatch(text, *where) if self._may(text) else None

    def finditer(self, text: str, *where: int) -> Iterable[re.Match[str]]:
        return self._compiled.finditer(text, *where) if self._may(text) else ()

    def findall(self, text: str, *where: int) -> list[Any]:
        return self._compiled.findall(text, *where) if self._may(text) else []

    def sub(self, instead: str, text: str) -> str:
        return self._compiled.sub(instead, text) if self._may(text) else text

    def split(self, text: str) -> list[Any]:
        return self._compiled.split(text) if self._may(text) else [text]
