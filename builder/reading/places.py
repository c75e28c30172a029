"""Where the characters of a text stand in its file."""

from __future__ import annotations

from ..problems import Position


class Places:
    """A text with its places, asked for in rising order or nearly so: then each costs the way from the last one."""

    def __init__(self, file: str, text: str, begins: Position | None = None) -> None:
        """text: with "\\n" line ends. begins: where its first character stands; None: at the beginning of the file."""
        self.file = file
        self.text = text
        self._offset = 0
        self._line = begins.line if begins is not None else 1
        self._indent = begins.column if begins is not None else 1
        self._begin = 0

    def place(self, offset: int) -> Position:
        """Line and column of the character at this offset, from 1."""
        text = self.text
        if offset < self._begin:
            self._line -= text.count("\n", offset, self._begin)
            self._begin = text.rfind("\n", 0, offset) + 1
        elif offset > self._offset:
            passed = text.count("\n", self._offset, offset)
            if passed:
                self._line += passed
                self._begin = text.rfind("\n", self._offset, offset) + 1
        self._offset = offset
        return Position(self.file, self._line, offset - self._begin + (1 if self._begin else self._indent))
