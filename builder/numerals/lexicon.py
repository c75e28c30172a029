"""What is counted in one trade and the words its papers print beside numbers: a value that every reader is handed."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from functools import cached_property
from types import MappingProxyType

from ..records import NamedTuple
from . import meanings, words
from .kinds import Kind

SHOWN_FIELDS = {
    "dentition": "group",
    "extracted": "removed",
    "extracted_related": "removed_related",
    "extracted_other": "removed_other",
}
"""Fields of format 1 that are named for one trade, and the name under which a unit has its own words for each."""

_NOTHING: Mapping[str, str] = MappingProxyType({})
_NO_EVENTS: Mapping[str, tuple[str, str]] = MappingProxyType({})


class Unit(NamedTuple):
    """One kind of thing that is counted."""

    id: str
    """As claim files name it: "eye"."""
    one: str
    many: str
    """Both may be of several words, in lower case: "corneal graft", "corneal grafts"."""
    synonyms: tuple[str, ...] = ()
    """Other words of papers for one or many of it, in lower case: "people" for patients."""
    of: str = ""
    """Id of the unit of which one may hold several of this: "patient" for an eye."""
    is_numbered: bool = False
    """True where a number straight after `one` is a name: "bed 46"."""
    mark: str = ""
    """File under evidence/pictures/ that is drawn for one; "" for a plain shape."""
    shown: tuple[tuple[str, str], ...] = ()
    """Words in which pages show a field of `SHOWN_FIELDS`, by the name that stands there, in pairs."""
    needs: tuple[str, ...] = ()
    """What a study in people that counts these must tell of its population."""
    is_finding: bool = False
    """True where papers count it and mean what has it: "22 of 34 scars healed" tells of 34 eyes, a scar each."""

    @property
    def words(self) -> tuple[str, ...]:
        """Every word of papers for one or many of it."""
        return (self.one, self.many, *self.synonyms)

    def word(self, count: object = None) -> str:
        """The word behind a count: that for one where it is 1 or "1", else that for many."""
        return self.one if count in (1, "1") else self.many

    def says(self, field: str, other: Unit | None = None) -> str:
        """The words for a field of `SHOWN_FIELDS`: its own, else the other's, else plain ones ("removed, related")."""
        own = SHOWN_FIELDS[field]
        shown = {**dict(other.shown if other is not None else ()), **dict(self.shown)}
        return shown.get(own) or own.replace("_", ", ")


ANY_UNIT = Unit("", "unit", "units")
"""Where what was counted is not reported."""


class _Words(NamedTuple):
    """The words of one trade, all in lower case."""

    units: Mapping[str, Unit]
    """By id."""
    adjectives: frozenset[str] = frozenset()
    """May stand between a number and what it counts: "47 adult eyes"."""
    labels: frozenset[str] = frozenset()
    """A number straight after one of these is a name: "PAI 3"."""
    roles: Mapping[str, str] = _NOTHING
    """Words that say what a number is, beside those of every trade (`words.ROLES`), with the role they stand for."""
    participles: frozenset[str] = frozenset()
    """Those of `roles` that before a unit say what was studied, "60 excised grafts", and behind "none" what befell no
    unit, "none excised"."""
    phrases: frozenset[str] = frozenset()
    """In these the word of a unit counts nothing: "eye bank tissue"."""
    good_outcomes: frozenset[str] = frozenset()
    """Words by which the name of an outcome says that it is good for the patient."""
    bad_outcomes: frozenset[str] = frozenset()
    groupings: tuple[tuple[tuple[str, ...], ...], ...] = ()
    """How reports of the trade part what they studied: of each way its parts, and of each part the words for it."""
    treatments: frozenset[str] = frozenset()
    """What is done to a unit, beside "treatment" and the like of every trade: what stands "before" it is no result."""
    events: Mapping[str, tuple[str, str]] = _NO_EVENTS
    """Words for what befell a unit, beside those of every trade (`printed.event_words`), with the kind of event, one
    name for all its forms, and good or bad."""
    states: frozenset[str] = frozenset()
    """Of these words those that tell as often whose a number is, "necrotic": events of an outcome of their own kind
    alone."""


class Lexicon(_Words):
    """The words of one trade, with what is made of them once; two are equal only where they are one."""

    __eq__ = object.__eq__
    __ne__ = object.__ne__
    __hash__ = object.__hash__

    def with_units(self, units: Iterable[Unit]) -> Lexicon:
        """These words and more units; one of the same id takes the other's place."""
        return self._replace(units=MappingProxyType({**self.units, **{unit.id: unit for unit in units}}))

    def name(self, unit: str, count: object = 2) -> str:
        """ "eye" for 1, else "eyes"; what is no unit of this lexicon stays as it is."""
        named = self.units.get(unit)
        return unit if named is None else named.one if count == 1 else named.many

    def holders(self, unit: str) -> tuple[str, ...]:
        """Ids of what may hold several of a unit, the nearest first: of a graft the eye, then the patient."""
        out: list[str] = []
        above = self.units[unit].of if unit in self.units else ""
        while above and above not in out:
            out.append(above)
            above = self.units[above].of if above in self.units else ""
        return tuple(out)

    @cached_property
    def held(self) -> frozenset[str]:
        """Ids of the units of which several may be in another."""
        return frozenset(unit.id for unit in self.units.values() if unit.of)

    @cached_property
    def all_roles(self) -> Mapping[str, str]:
        """The role that a word stands for, of this trade or of every one."""
        return {**words.ROLES, **self.roles}

    def roles_of(self, words: Sequence[str]) -> tuple[str, ...]:
        """What role words stand for, each once."""
        stands_for = self.all_roles
        if len(words) == 1:
            return (stands_for.get(words[0], words[0]),)
        return tuple(dict.fromkeys([stands_for.get(word, word) for word in words]))

    @cached_property
    def unit_words(self) -> frozenset[str]:
        """Every word that stands in one of them."""
        return frozenset(part for word in self.unit_by_word for part in word.split())

    @cached_property
    def word_meanings(self) -> Mapping[str, meanings.Meaning]:
        """What one word is to a number beside it."""
        return meanings.of_words(self.unit_by_word, self.adjectives, self.labels, self.roles)

    @cached_property
    def pieces(self) -> Mapping[str, meanings.Meaning]:
        """Words, signs and TeX commands that mean the same wherever they stand."""
        fixed = {
            word: meaning
            for word, meaning in self.word_meanings.items()
            if word not in self.phrase_starts and meaning[0] != Kind.NUMBER
        }
        return {**meanings.MARKS, **fixed}

    @cached_property
    def phrase_meanings(self) -> Mapping[str, meanings.Meaning]:
        """What several words together, with one blank between two, are to a number beside them."""
        units = {word: (Kind.UNIT, unit) for word, unit in self.unit_by_word.items() if " " in word}
        return {**meanings.PHRASES, **dict.fromkeys(self.phrases, meanings.DESCRIBES), **units}

    @cached_property
    def phrase_starts(self) -> frozenset[str]:
        """Whatever a phrase may go on from: "no" and "no more" of "no more than"."""
        return frozenset(
            " ".join(phrase.split(" ")[:length])
            for phrase in self.phrase_meanings
            for length in range(1, max(2, phrase.count(" ") + 1))
        )

    @cached_property
    def befalls_none(self) -> frozenset[str]:
        """Words behind which "none" is a number: "none of", "none healed"."""
        return words.BEHIND_NONE | self.participles

    @cached_property
    def unit_by_word(self) -> Mapping[str, str]:
        """Ids of units by every word for them."""
        return {word: unit.id for unit in self.units.values() for word in unit.words}

    @cached_property
    def kinds(self) -> Mapping[str, str]:
        """The kind of a number whose form says nothing, by its unit."""
        return {**meanings.KINDS_OF_NUMBER, **dict.fromkeys(self.units, "count")}

    @cached_property
    def counts(self) -> frozenset[str]:
        """Units that a count may have, "none" included."""
        return frozenset({"none", *self.units})

    @cached_property
    def beside_numbers(self) -> frozenset[str]:
        """What is counted, and what is said of it: words of "39 of 47 adult eyes healed"."""
        units = frozenset(part for word in self.unit_by_word for part in word.split())
        return units | self.adjectives | frozenset(self.all_roles)

    @cached_property
    def numbered(self) -> frozenset[str]:
        """Words straight after which a number is a name: "bed" of "bed 46"."""
        return frozenset(unit.one for unit in self.units.values() if unit.is_numbered)
