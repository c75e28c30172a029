"""A publication as typed: one BibTeX entry with its fields and passages; immutable values with their place."""

from __future__ import annotations

from ..problems import Position
from ..records import NamedTuple


class Field(NamedTuple):
    """One BibTeX field as typed, without its outer braces or quotes, strings and joins resolved."""

    name: str
    """In lower case."""
    text: str
    position: Position
    """Of the first character of the value's text."""
    literal: bool
    """True where the text stands in the file as it is, so that an offset in it has a place."""


class Passage(NamedTuple):
    """The words and figures of a report behind one locator, as typed in `annotation`."""

    key: str
    bracket: str
    """The locator as typed, blanks collapsed: "p. 46, Table 2"."""
    slug: str
    """The anchor on the source page: "p-46-table-2"."""
    text: str
    """As typed, line breaks included."""
    position: Position
    """Of the first character of `text`."""

    def place(self, offset: int) -> Position:
        """Where the character at this offset stands in the file."""
        file, line, column = self.position
        breaks = self.text.count("\n", 0, offset)
        if not breaks:
            return Position(file, line, column + offset)
        return Position(file, line + breaks, offset - self.text.rfind("\n", 0, offset))


class Source(NamedTuple):
    """A publication: one BibTeX entry."""

    key: str
    type: str
    """The entry type in lower case: article, book, ..."""
    position: Position
    """Of the `@`."""
    fields: dict[str, Field]
    """By name in lower case, in the order typed; crossref and xdata already inherited."""
    passages: tuple[Passage, ...]
    raw: str
    """The whole entry as typed, never changed."""
    strings: tuple[str, ...] = ()
    """The @string definitions of its file as typed, where it uses any."""

    def passage(self, bracket: str) -> Passage | None:
        """The passage behind a locator, blanks and case of the locator as typed."""
        for passage in self.passages:
            if passage.bracket == bracket:
                return passage
        return None
