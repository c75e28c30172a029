"""To whom a number of a passage belongs, and what says so."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from ..numerals import Token
from ..records import NamedTuple
from .clauses import Span
from .lists import Item
from .wordings import Mention


class Owner(NamedTuple):
    """To whom a number belongs, and what says so."""

    key: str
    """Of the name; "" where names stand beside the number and nothing says which of them is meant."""
    by: Literal["words", "position"]
    words: tuple[Span, ...]
    is_sure: bool = True
    """False where the name is only the last one said before: in the clause or sentence before the number's own."""


UNCLEAR = Owner("", "words", (), is_sure=False)

Owners = list[Owner | None]
"""For each number of a passage; None where its clause, row, heading and list name nobody."""


def is_inside(token: Token, mentions: Sequence[Mention]) -> bool:
    """Whether a number is part of a name: the 3 of "over 3 mm"."""
    return any(mention.holds(token.start) for mention in mentions)


class Owning:
    """The numbers of one passage and what was found of their owners so far."""

    def __init__(
        self, text: str, tokens: Sequence[Token], mentions: list[Mention], owners: Owners, counted: frozenset[str],
        *, is_complete: bool,
    ) -> None:  # fmt: skip
        self.text, self.tokens, self.mentions, self.owners, self.counted = text, tokens, mentions, owners, counted
        self.is_complete = is_complete
        """Whether the passage names all of them: then a clause with one name is that one's."""

    def named(self, span: Span) -> list[Mention]:
        """The names in a slice, each once."""
        found: dict[str, Mention] = {}
        for mention in self.mentions:
            if span[0] <= mention.start < span[1]:
                found.setdefault(mention.key, mention)
        return list(found.values())

    def gone_through(self, region: Span, mentions: Sequence[Mention]) -> list[Mention]:
        """The names of a clause, each once; where all stand in brackets, "52 of 66 (A) and 48 of 67 (B)", several."""
        named = mentions or self.named(region)
        if not mentions and len(named) == 1:
            return []
        return list({mention.key: mention for mention in reversed(named)}.values())[::-1]

    def own_items(self, items: Sequence[Item], mention: Mention, *, is_sure: bool = True) -> None:
        for item in items:
            self.own(item.numbers, mention, is_sure=is_sure)

    def own(
        self, numbers: Sequence[int], mention: Mention, *, by: Literal["words", "position"] = "words",
        is_sure: bool = True,
    ) -> None:  # fmt: skip
        owner = Owner(mention.key, by, ((mention.start, mention.end),), is_sure) if mention.key else UNCLEAR
        for index in numbers:
            self.owners[index] = owner

    def unclear(self, items: Sequence[Item]) -> None:
        for item in items:
            for index in item.numbers:
                self.owners[index] = UNCLEAR
