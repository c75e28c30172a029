"""Numbers whose clause names nobody: they go with the names of the clause or the sentence before, in their order."""

from __future__ import annotations

from collections.abc import Sequence

from ..numerals import Token
from .clauses import Span
from .lists import Item, in_step, runs_of, says_respectively
from .owner import Owners, Owning, is_inside
from .wordings import Mention


class Earlier(Owning):
    """The names that were said before, and the numbers that go with them."""

    def __init__(
        self, text: str, tokens: Sequence[Token], mentions: list[Mention], owners: Owners, counted: frozenset[str],
        *, is_complete: bool,
    ) -> None:  # fmt: skip
        super().__init__(text, tokens, mentions, owners, counted, is_complete=is_complete)
        self.before: list[Mention] = []
        """The names of the last clause that had some, each once."""
        self.told: list[Mention] = []
        """Those of the last sentence that had several, each once."""
        self.is_headed = False
        """Whether the last of these stands over what follows it."""
        self.is_timed = False
        """Whether these stood beside as many times as there are of them, so that lists may be of either."""

    def from_before(self, region: Span, free: list[Item]) -> None:
        """A clause that names nobody goes with the name, or the names in their order, of the clause before."""
        if self.is_timed:
            self.unclear(free)
        elif len(self.before) == 1:
            self.own_items(free, self.before[0], is_sure=self.is_headed)
        if self.is_timed:
            return
        is_told = says_respectively(self.text, *region)
        for items in runs_of(free):
            if not is_told and self.times_in(region) == len(items) > 1:
                continue
            for names in (self.before, self.told) if not self.is_headed else (self.before,):
                found = in_step(self.text, items, self.tokens, len(names)) if len(names) > 1 else None
                if found is None:
                    continue
                for at, mention in enumerate(names):
                    self.own(found[at], mention, by="position", is_sure=is_told or len(items) > 1)
                break

    def times_in(self, region: Span) -> int:
        """How many times a clause names."""
        return sum(
            region[0] <= token.start < region[1] and token.kind == "length" and not token.part
            and not is_inside(token, self.mentions)
            for token in self.tokens
        )  # fmt: skip
