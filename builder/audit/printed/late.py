"""Patterns that are compiled when they are first asked, since few checks ask all of them."""

from __future__ import annotations

import re
from functools import cached_property
from typing import Any, cast


def late(pattern: str, flags: int = 0) -> re.Pattern[str]:
    """As re.compile; a fault in the pattern is raised at its first use."""
    return cast("re.Pattern[str]", _Late(pattern, flags))


class _Late:
    def __init__(self, pattern: str, flags: int) -> None:
        self.pattern, self.flags = pattern, flags

    @cached_property
    def _compiled(self) -> re.Pattern[str]:
        return re.compile(self.pattern, self.flags)

    def search(self, *where: Any) -> re.Match[str] | None:
        return self._compiled.search(*where)

    def match(self, *where: Any) -> re.Match[str] | None:
        return self._compiled.match(*where)

    def fullmatch(self, *where: Any) -> re.Match[str] | None:
        return self._compiled.fullmatch(*where)

    def finditer(self, *where: Any) -> Any:
        return self._compiled.finditer(*where)

    def findall(self, *where: Any) -> list[Any]:
        return self._compiled.findall(*where)

    def split(self, *what: Any) -> list[Any]:
        return self._compiled.split(*what)
