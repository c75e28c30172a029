"""A passage with the numbers printed in it, read once for all that is quoted from it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from decimal import Decimal
from functools import lru_cache
from typing import TypeVar

from ...numerals import Lexicon, read_numerals
from ...printed.belonging import is_all_of_one, owners_of
from ...printed.bound_words import bound_roles
from ...printed.columns import read_columns
from ...printed.owner import Owner, Owners
from ...printed.p_words import PValues
from ...printed.participles import read_participles
from ...printed.surroundings import Surroundings
from ...printed.tables import InCell, Table, table_of
from ...printed.times import Times, times_of
from ...printed.told_beside import Beside, told_beside
from ...printed.typed_rows import with_bars
from ...printed.word_stream import Word, different_words, words_of
from ...printed.wordings import Mention, Names, Plain, mentions_of
from ...reading.report_model import Passage
from ...reading.values import Words
from .displayed import refuse_shown_otherwise
from .field_roles import Quoted
from .quoted_words import spans_in_order

FAMILIES: dict[str, tuple[str, ...]] = {
    "number": ("count", "length", "number", "measured", "spread"),
    "length": ("length", "measured", "spread"),
    "count": ("count",),
    "size": ("size", "measured", "spread"),
    "minutes": ("minutes", "measured", "spread"),
    "percent": ("percent", "measured", "spread"),
    "interval": ("interval", "spread"),
}
"""Kinds of field that a printed number of a kind may speak of, where that is more than its own."""


Told = TypeVar("Told")
_NOT_TOLD = object()


class Reading:
    """A passage with its numbers, and where each value and role stands among them."""

    __slots__ = (
        "_bound", "_by_bracket", "_inside", "_mentions", "_owners", "_sole_owner", "_told", "by_role", "by_value",
        "lexicon", "otherwise", "passage", "small", "table", "tokens", "typed",
    )  # fmt: skip

    def __init__(self, passage: Passage, lexicon: Lexicon) -> None:
        self.typed = passage
        """As somebody typed it, for all that is shown."""
        barred = with_bars(passage.text)
        self.passage = passage if barred == passage.text else passage._replace(text=barred)
        """With bars between the cells of its tables, for all that looks for something in it."""
        self.lexicon = lexicon
        self.small = barred.lower()
        """In small letters, where a reader sees at once whether the passage may hold its words."""
        self.tokens = read_numerals(barred, lexicon)
        self.table: Table = table_of(barred, self.tokens)
        """Its rows and columns, as the numbers stood before these told more of them."""
        read_columns(barred, self.tokens, self.table, lexicon)
        read_participles(barred, self.tokens, lexicon)
        self.otherwise = refuse_shown_otherwise(barred, self.tokens, lexicon)
        """What the page shows in place of numbers that it would not show as they were read, by their place."""
        self.by_value: dict[Decimal, list[int]] = {}
        self.by_role: dict[str, list[int]] = {}
        self._owners: dict[Names, Owners] = {}
        self._sole_owner: dict[Names, str] = {}
        self._mentions: dict[Names, list[Mention]] = {}
        self._by_bracket: dict[Names, Owner | None] = {}
        self._told: dict[Callable[[Reading], object], object] = {}
        self._bound: dict[int, tuple[str, ...]] = {}
        self._inside: dict[tuple[Words, ...], frozenset[int] | None] = {}
        by_value, by_role = self.by_value, self.by_role
        for index, token in enumerate(self.tokens):
            if token.kind == "unreadable":  # it proves nothing
                continue
            value = token.value
            if value in by_value:
                by_value[value].append(index)
            else:
                by_value[value] = [index]
            for role in token.roles:
                by_role.setdefault(role, []).append(index)

    def shows(self, quoted: Quoted) -> bool:
        """True where a number of the field's kind and unit has the field's own role in the passage."""
        kind, unit = quoted.role.kind, quoted.unit
        any_unit = not unit or kind == "length"
        for index in self.by_role.get(quoted.role.own, ()):
            token = self.tokens[index]
            if quoted.role.own in token.of_whole:  # "39 of the 47 eyes treated with A" tells no step of a flow
                continue
            has_unit = any_unit or token.unit in ("none", unit) or counts_as(token.unit, unit, self.lexicon)
            if has_unit and kind in FAMILIES.get(token.kind, (token.kind,)):
                return True
        return False

    def told(self, reader: Callable[[Reading], Told]) -> Told:
        """What a reader finds in this passage, asked once for all that is quoted from it."""
        found = self._told.get(reader, _NOT_TOLD)
        if found is _NOT_TOLD:
            found = self._told[reader] = reader(self)
        return found  # type: ignore[return-value]

    def forget(self) -> None:
        """Let go of what was told, which may hold this reading in turn: the check looks for no such circles."""
        self._told.clear()

    def bound(self, index: int) -> tuple[str, ...]:
        """Those of the roles of a number that the structure of its sentence, row or heading binds to it."""
        if index not in self._bound:
            self._bound[index] = bound_roles(
                self.passage.text, self.tokens, index, self.table.places[index], self.lexicon
            )
        return self._bound[index]

    def inside(self, pieces: tuple[Words, ...]) -> frozenset[int] | None:
        """The numbers in words quoted from the passage; None where these do not stand in it once each, in order."""
        if pieces not in self._inside:
            spans = spans_in_order(self.typed.text, pieces)
            self._inside[pieces] = (
                None
                if spans is None
                else frozenset(
                    index
                    for index, token in enumerate(self.tokens)
                    if any(start <= token.start and token.end <= end for start, end in spans)
                )
            )
        return self._inside[pieces]

    def owners(self, names: Names) -> Owners:
        """For each number to which of the names it belongs, None where the passage does not say."""
        found = self._owners.get(names)
        if found is None:
            found = self._owners[names] = owners_of(
                self.passage.text,
                self.mentions(names),
                self.tokens,
                self.table,
                names,
                self.lexicon.beside_numbers,
            )
        return found

    def sole_owner(self, names: Names) -> str:
        """The key of the name that all its numbers behind it belong to; "" where to see that takes reading it."""
        key = self._sole_owner.get(names)
        if key is None:
            mentions = self.mentions(names)
            is_of_one = is_all_of_one(self.passage.text, mentions, self.table, names)
            key = self._sole_owner[names] = mentions[0].key if is_of_one else ""
        return key

    def mentions(self, names: Names) -> list[Mention]:
        """Where the passage has each of the names."""
        found = self._mentions.get(names)
        if found is None:
            found = self._mentions[names] = mentions_of(self.passage.text, self.told(_plain), self.tokens, names)
        return found

    def owner_by_bracket(self, names: Names) -> Owner | None:
        """Whom the bracket before the passage names, where it is one alone: "[Table 2, over 3 mm]"."""
        if names not in self._by_bracket:
            bracket = self.passage.bracket
            mentions = mentions_of(bracket, Plain(bracket), read_numerals(bracket, self.lexicon), names)
            keys = {mention.key for mention in mentions}
            self._by_bracket[names] = Owner(keys.pop(), "words", ()) if len(keys) == 1 else None
        return self._by_bracket[names]

    def cells(self) -> Sequence[InCell | None]:
        """For each number its place in a table, None in prose."""
        return self.table.places


# Several claims of a report look at the same few passages beside their own.
read_passage = lru_cache(maxsize=64)(Reading)


def _plain(reading: Reading) -> Plain:
    return Plain(reading.passage.text)


def times_in(reading: Reading) -> Times:
    """At which time each figure of a passage was taken; for `Reading.told`."""
    return times_of(reading.passage.text, reading.tokens, reading.table, reading.lexicon.beside_numbers)


def surroundings_in(reading: Reading) -> Surroundings:
    """The sentences, clauses and brackets of a passage; for `Reading.told`."""
    return Surroundings(reading.passage.text, reading.table)


def p_values_in(reading: Reading) -> PValues:
    """The P values of a passage; for `Reading.told`."""
    return PValues(reading.passage.text, reading.tokens, reading.told(surroundings_in), reading.cells())


def beside_in(reading: Reading) -> dict[int, Beside]:
    """Whom each number is of by the words straight beside it; for `Reading.told`."""
    return told_beside(reading.passage.text, reading.tokens, reading.lexicon.unit_words)


def words_in(reading: Reading) -> list[Word]:
    """The words of a passage; for `Reading.told`."""
    return words_of(reading.passage.text)


def different_words_in(reading: Reading) -> frozenset[str]:
    """The same, each once and without its place: what a passage cannot say is seen at once."""
    return different_words(reading.passage.text)


def counts_as(printed: str, unit: str, lexicon: Lexicon) -> bool:
    """Where no study tells the unit any will do; a specimen is printed as what it was, a part of somebody, or that as
    a specimen."""
    if not unit:
        return printed in lexicon.units
    return (unit == "specimen" and printed in lexicon.held) or (printed == "specimen" and unit in lexicon.held)
