"""A text while its numbers are being read: the pieces it falls into and the numbers among them."""

from __future__ import annotations

from decimal import Decimal

from .joining import join_numbers
from .lexicon import Lexicon
from .pieces import read_pieces
from .token import Token


class Numeral(Token):
    """A number while it is being read, with what leads to the rest."""

    __slots__ = ("form", "index", "is_destroyed", "is_dropped", "mate", "parent", "piece", "share", "words")

    def __init__(self, piece: int, index: int, start: int, end: int, value: Decimal, decimals: int) -> None:
        self.start = self.outer_start = start
        self.end = self.outer_end = end
        self.value = value
        self.decimals = decimals
        self.unit = "none"
        self.comparator = self.part = self.measure = self.role = self.stands_for = ""
        self.roles = self.of_whole = ()
        self.pair = -1
        self.piece = piece
        """Its place among the pieces."""
        self.index = index
        """Its place among the numbers."""
        self.form = ""
        """The kind that its form gives it: ratio, interval, count, ...; "" where none does."""
        self.mate: Numeral | None = None
        """The other half, of which `pair` will be the index."""
        self.parent: Numeral | None = None
        """For a number in brackets the one before them."""
        self.share: Numeral | None = None
        """For the 47 of "83% of 47" the 83%."""
        self.words: list[str] = []
        """Role words beside it."""
        self.is_destroyed = False
        """True where copying from the paper spoilt it."""
        self.is_dropped = False
        """True where it is part of another number: the months of "3 years 5 months"."""


class Printed:
    """One text as pieces, and its numbers."""

    __slots__ = ("at", "commas", "kinds", "lexicon", "numerals", "said", "said_of", "spans", "spoilt", "text")

    def __init__(self, text: str, lexicon: Lexicon) -> None:
        pieces = read_pieces(text, lexicon)
        join_numbers(pieces)
        self.text = text
        self.lexicon = lexicon
        self.kinds = "".join([kind for kind, _ in pieces.meanings])
        """The kind of each piece, as one string for patterns."""
        self.said = [said for _, said in pieces.meanings]
        """What each piece says: of a unit its id, of a comparator its sign."""
        self.spans = pieces.spans
        """Where each piece begins and ends in the text."""
        self.commas: set[int] = set()
        """Places of pieces inside a form, where a comma ends no clause."""
        self.at: dict[int, Numeral] = {
            place: Numeral(place, index, *pieces.spans[place], *value)
            for index, (place, value) in enumerate(pieces.values.items())
        }
        """The numbers by their place among the pieces."""
        for place in pieces.destroyed:
            if place in self.at:
                self.at[place].is_destroyed = True
        self.spoilt = pieces.spoilt
        """Places of numbers that stay destroyed in whatever form they stand."""
        self.numerals = list(self.at.values())
        self.said_of: list[Numeral] = []
        """Numbers that words say of a whole and nobody printed: the first 20 of "all 20", 20 of 20."""

    def kind(self, place: int) -> str:
        """The kind of a piece; "" before the first and behind the last."""
        return self.kinds[place] if 0 <= place < len(self.kinds) else ""

    def word(self, place: int) -> str:
        """A piece as printed, in lower case; "" before the first and behind the last."""
        return self.text[slice(*self.spans[place])].lower() if 0 <= place < len(self.spans) else ""
