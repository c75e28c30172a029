"""LaTeX in a source's fields, decoded for display without losing a figure."""

from __future__ import annotations

import re

_find_commands = re.compile(r"\\([A-Za-z]+|.)", re.DOTALL).finditer


def unknown_commands(text: str) -> list[tuple[int, str]]:
    """Offset and name of each command that cannot be shown."""
    return []
