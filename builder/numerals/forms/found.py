"""What a printed form is, and one form where it was found in a text."""

from __future__ import annotations

import re
from collections.abc import Callable

from ...records import NamedTuple
from ..printed import Numeral, Printed


class Found:
    """One form where it stands: its numbers by the names that its pattern gives them."""

    __slots__ = ("_match", "_name", "printed")

    def __init__(self, printed: Printed, name: str, match: re.Match[str]) -> None:
        self.printed = printed
        self._name = name
        self._match = match

    def __getitem__(self, name: str) -> Numeral:
        """The number of this name."""
        return self.printed.at[self.place(name)]

    def get(self, name: str) -> Numeral | None:
        """The number of this name, None where the form was printed without."""
        return self.printed.at.get(self.place(name))

    def place(self, name: str) -> int:
        """The place of a named piece among the pieces; -1 where it was not printed."""
        return self._match.start(f"{self._name}_{name}")

    @property
    def start(self) -> int:
        """The place of the first piece."""
        return self._match.start()

    @property
    def end(self) -> int:
        """The place behind the last piece."""
        return self._match.end()


class Form(NamedTuple):
    """One way in which numbers are printed together."""

    name: str
    written: str
    """Its pattern over kinds, as `kinds.pattern` takes it."""
    read: Callable[[Found], None]
    """Tells the numbers of the form what they are."""


def form(written: str) -> Callable[[Callable[[Found], None]], Form]:
    """Make a printed form of its pattern and of the function that reads it, whose docstring is an example."""

    def made(read: Callable[[Found], None]) -> Form:
        return Form(read.__name__, written, read)

    return made
