"""One file while it is read: its lines, the places in it, and what is wrong there."""

from __future__ import annotations

from collections.abc import Callable
from enum import Enum
from itertools import pairwise
from typing import TYPE_CHECKING, Any, Final, TypeVar

from ..problems import Position, Problem, error
from .names import UnitNames

if TYPE_CHECKING:
    from yaml.nodes import Node

T = TypeVar("T")


class Broken(Enum):
    """What a reader gives for something it could not read, once it has said so."""

    BROKEN = 0


BROKEN: Final = Broken.BROKEN


class Sheet:
    """One file while it is read: its name and text, and the problems found in it so far."""

    def __init__(self, file: str, text: str, problems: list[Problem], units: UnitNames | None = None) -> None:
        """units: what `unit` may name in this compendium; None: what it may name in every one."""
        self.file = file
        self.text = text
        self.problems = problems
        self.units = units if units is not None else UnitNames()
        self._lines: list[str] | None = None
        self._block: Any = None
        self._previous: dict[int, Any] = {}
        self._known: tuple[Any, Any] = (None, None)

    def place(self, node: Node) -> Position:
        """Where a value or key begins."""
        mark = node.start_mark
        return Position(self.file, mark.line + 1, mark.column + 1)

    def error(self, node: Node, rule: str, message: str, hint: str) -> Broken:
        """Notes what the writer has to mend, and gives the mark of something unreadable."""
        self.problems.append(error(self.place(node), rule, message, hint))
        return BROKEN

    def ask(self, node: Node, rule: str, message: str, hint: str) -> None:
        """Notes what may be meant and may be a slip."""
        self.problems.append(error(self.place(node), rule, message, hint)._replace(severity="ask"))

    def line(self, number: int) -> str:
        """A line by its number from 0; "" behind the last one."""
        if self._lines is None:
            self._lines = self.text.split("\n")
        return self._lines[number] if number < len(self._lines) else ""

    def before(self, node: Node) -> str:
        """What stands on the line before a value."""
        return self.line(node.start_mark.line)[: node.start_mark.column]

    def behind(self, node: Node) -> str:
        """What stands on the line from where a value ends."""
        return self.line(node.end_mark.line)[node.end_mark.column :]

    def known_of(self, block: Any, find: Callable[[Any], T]) -> T:
        """What `find` gives for a block, found once for the block that is read now."""
        if self._known[0] is not block:
            self._known = (block, find(block))
        found: T = self._known[1]
        return found

    def previous(self, block: Any, key: Any) -> Any:
        """The pair of key and value that stands before this key in its block, or None."""
        if self._block is not block:
            pairs = block.value
            self._block = block
            self._previous = {id(pair[0]): before for before, pair in pairwise(pairs)}
        return self._previous.get(id(key))


def first_of(text: str) -> str:
    """The beginning of a text, short enough for a message."""
    text = text.rstrip()
    return text if len(text) <= 30 else text[:29].rstrip() + "…"


_LONGEST_LINE = 1000  # nobody pastes a longer one


def quoted_value(line: str) -> str:
    """The same line with its value in quotes, ready to paste; "" where the line has several fields in brackets."""
    if len(line) > _LONGEST_LINE:
        return ""
    name, colon, value = line.partition(": ")
    value = value.strip()
    if not colon or not value or "{" in name or value[0] in "{[\"'":
        return ""
    if '"' in value or "\\" in value:
        return f"{name}: '" + value.replace("'", "''") + "'"
    return f'{name}: "{value}"'
