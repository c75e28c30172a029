"""`units` of vocabulary.yaml: what another trade counts, in its own words."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from typing import Any

from ..numerals import FORMAT_1, Lexicon, Unit as CountedUnit, lexicon_of
from ..numerals.format_units import COUNTED_IN_A_STUDY
from ..numerals.lexicon import SHOWN_FIELDS
from ..problems import Position, error
from ..records import NamedTuple
from .fields import list_of, words
from .form import Form, Slot, named_blocks
from .kinds import Many, Named, Reader, Text, noted, taking
from .names import UnitNames, words_of_units
from .refusals import meant, shortened
from .values import Words
from .yaml_text import BROKEN, MappingNode, ScalarNode, Sheet

_LONGEST_WORD = 60
"""Characters of a unit's word: every word of it is looked for beside every number."""
_MOST_SYNONYMS = 40
_MOST_UNITS = 40


@taking(Text("a word or two without a digit", r"[^0-9]*[^0-9\s][^0-9]*"))
def unit_word(node: Any, sheet: Sheet) -> Any:
    """A word that pages print behind a number: short, and no digit in it, which would read like one more figure."""
    found = words(node, sheet)
    if found is BROKEN:
        return BROKEN
    text = found.text
    if len(text) > _LONGEST_WORD:
        message = f'"{shortened(text)}" is longer than {_LONGEST_WORD} characters, too long for the word of a unit'
        return sheet.error(node, "unit-word-unfit", message, "give the word that reports print after a number")
    digit = next((sign for sign in text if sign.isnumeric()), "")
    if digit:
        message = f'"{text}" holds "{digit}": the words of a unit may hold no digit, since they stand beside figures'
        return sheet.error(node, "unit-word-unfit", message, "write it in letters, or leave the number out")
    return found


@taking(Many(unit_word, single=True, most=_MOST_SYNONYMS))
def _synonyms(node: Any, sheet: Sheet) -> Any:
    found = list_of(unit_word, "words", single=True)(node, sheet)
    if found is not BROKEN and len(found) > _MOST_SYNONYMS:
        message = f"{len(found)} synonyms are given: a unit may have {_MOST_SYNONYMS}"
        return sheet.error(node, "unit-word-unfit", message, "keep those that the reports print")
    return found


class _Shown(NamedTuple):
    position: Position
    group: Words | None
    removed: Words | None
    removed_related: Words | None
    removed_other: Words | None


_PART = "name the unit that several of them may be in, or delete the field"


class DeclaredUnit(NamedTuple):
    """A unit as the vocabulary declares it.

    What is left out stays as format 1 has it, where the format has a unit of this id and this word for one.
    """

    position: Position
    id: str
    one: Words | None
    many: Words | None
    synonyms: tuple[Words, ...]
    of: Words | None
    mark: Words | None
    shown: _Shown | None


SHOWN = Form("`shown`", _Shown, *(Slot(name, unit_word) for name in SHOWN_FIELDS.values()))


def _unit_then(values: list[Any], typed: int, node: Any, sheet: Sheet) -> bool:
    is_whole = typed & _WORDS == _WORDS or values[1] in COUNTED_IN_A_STUDY
    if not is_whole:
        sheet.error(node, "missing-field", "a unit needs `one` and `many`", "one: its word; many: the word for several")
    return is_whole


UNIT = Form(
    "a unit",
    DeclaredUnit,
    Slot("one", unit_word),
    Slot("many", unit_word),
    Slot("synonyms", _synonyms, instead=()),
    Slot("of", words),
    Slot("mark", words),
    Slot("shown", SHOWN.read),
    then=_unit_then,
)
_WORDS = UNIT.bits("one", "many")

RESERVED_UNITS = ("%", "study", "day", "week", "month", "year", "mm", "minute", "none", "other", "P")
"""Units of figures that no study counts, so no vocabulary may mean something else by them."""

_named_units = named_blocks(UNIT, "units", RESERVED_UNITS)


def declared_units(unreadable: set[str], prefix: str) -> Reader:
    """A reader of `units`, once it is told where to note the unreadable ones, and by what prefix."""
    read_all = _named_units(unreadable, prefix)

    def read(node: Any, sheet: Sheet) -> Any:
        if node.__class__ is MappingNode and len(node.value) > _MOST_UNITS:
            unreadable.update(prefix + name.value for name, _ in node.value if name.__class__ is ScalarNode)
            message = f"{len(node.value)} units are declared: a compendium may have {_MOST_UNITS}"
            return sheet.error(node, "unit-word-unfit", message, "declare the units that studies count")
        return read_all(node, sheet)

    return noted(read, Named(UNIT, any_name=False, reserved=tuple(sorted(RESERVED_UNITS)), most=_MOST_UNITS))


def units_typed(root: Any) -> list[str]:
    """Ids below `units`, before anything of the file is read."""
    for key, value in root.value if root.__class__ is MappingNode else ():
        if key.__class__ is ScalarNode and key.value == "units" and value.__class__ is MappingNode:
            return [name.value for name, _ in value.value if name.__class__ is ScalarNode]
    return []


def unit_names(
    declared: Iterable[str], lost: Collection[str], units: Mapping[str, CountedUnit] = FORMAT_1.units
) -> UnitNames:
    """What `unit` may name, and which of it a message lists.

    declared: ids of the vocabulary's own units. lost: names that could not be read, of units "unit:id". units: all
    that are known, by id.
    """
    own = tuple(declared)
    lexicon = lexicon_of({name: FORMAT_1.units.get(name, CountedUnit(name, "", "")) for name in own})
    known = [name for name in COUNTED_IN_A_STUDY if name in lexicon.units]
    listed = tuple(dict.fromkeys((*own, *known)))
    return UnitNames(
        tuple(dict.fromkeys((*own, *COUNTED_IN_A_STUDY))),
        frozenset(name.removeprefix("unit:") for name in lost if name.startswith("unit:")),
        listed,
        words_of_units(units[name] for name in listed if name in units),
    )


def counted_units(
    declared: Mapping[str, DeclaredUnit], pictures: Collection[str], sheet: Sheet
) -> dict[str, CountedUnit]:
    """Every unit by id, the declared ones first; says what does not fit between them."""
    units = {name: _counted(unit) for name, unit in declared.items()}
    units |= {name: unit for name, unit in FORMAT_1.units.items() if name not in units}
    for name, unit in declared.items():
        if unit.of is not None:
            if unit.of.text not in sheet.units.all:
                tells = f'"{unit.of.text}" is not one of the units: {", ".join(sheet.units.listed)}'
                _say(sheet, unit.of, "not-in-list", tells, meant(unit.of.text, sheet.units.listed))
            elif name in (unit.of.text, *Lexicon(units).holders(unit.of.text)):
                _say(sheet, unit.of, "not-in-list", f'a unit "{name}" cannot be part of itself (`of`)', _PART)
            else:
                continue
            units[name] = units[name]._replace(of="")
    for unit in declared.values():
        if unit.mark is not None and unit.mark.text not in pictures:
            message = f'evidence/pictures/ has no drawing "{unit.mark.text}" that could be read'
            _say(sheet, unit.mark, "unknown-picture", message, meant(unit.mark.text, pictures))
            units[unit.id] = units[unit.id]._replace(mark="")
    _say_words_twice(declared, units, sheet)
    return units


def _counted(unit: DeclaredUnit) -> CountedUnit:
    known = FORMAT_1.units.get(unit.id)
    if known is None or (unit.one is not None and unit.one.text != known.one):
        known = CountedUnit(unit.id, "", "")
    typed = {name: word.text for name in SHOWN_FIELDS.values() if unit.shown and (word := getattr(unit.shown, name))}
    return known._replace(
        one=unit.one.text if unit.one else known.one,
        many=unit.many.text if unit.many else known.many,
        synonyms=tuple(word.text for word in unit.synonyms) or known.synonyms,
        of=unit.of.text if unit.of else known.of,
        mark=unit.mark.text if unit.mark else known.mark,
        shown=tuple({**dict(known.shown), **typed}.items()),
    )


def in_lower_case(unit: CountedUnit) -> CountedUnit:
    """The unit with its words as they are looked for in print."""
    one, many, *synonyms = (word.casefold() for word in unit.words)
    return unit._replace(one=one, many=many, synonyms=tuple(synonyms))


def _say_words_twice(declared: Mapping[str, DeclaredUnit], units: Mapping[str, CountedUnit], sheet: Sheet) -> None:
    # A word of the format's own trade is free: another trade that needs it does not count those units.
    taken = {
        word.casefold(): unit.id
        for unit in units.values()
        if unit.id not in declared and not unit.needs
        for word in unit.words
    }
    for name, unit in declared.items():
        for word in (unit.one, unit.many, *unit.synonyms):
            if word is None:
                continue
            other = taken.setdefault(word.text.casefold(), name)
            if other != name:
                tells = f'"{word.text}" is already a word of the unit "{other}"'
                _say(sheet, word, "unit-word-twice", tells, "keep it at one of the two")


def _say(sheet: Sheet, word: Words, rule: str, message: str, hint: str) -> None:
    sheet.problems.append(error(word.position, rule, message, hint))
