"""Fields that name a unit: what they may hold, and what is told and taken where nobody declared it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from ..numerals import Unit as CountedUnit
from .fields import MISSING, one_of, words
from .kinds import Reader, Suggested, noted
from .model import Vocabulary
from .parsing import is_id
from .refusals import nearest, or_block, shortened
from .report_model import Report
from .slugs import slug
from .unit_forms import RESERVED_UNITS, in_lower_case
from .values import Missing, Words
from .yaml_text import ScalarNode, Sheet


def unit_name(*, missing: bool = False, block: tuple[str, ...] = ()) -> Reader:
    """What is counted: a unit of format 1, or one that the vocabulary of this compendium declares.

    Another word is a problem and is taken for the unit that was meant, so that nothing else is asked because of it.
    missing: or one of the three missing values. block: fields of the block that may stand instead, which another
    reader takes.
    """

    def read(node: Any, sheet: Sheet) -> Any:
        if node.__class__ is not ScalarNode or not node.value.strip():
            return one_of(*sheet.units.listed)(node, sheet)
        found = words(node, sheet)
        text = found.text
        if text in sheet.units.all or text in sheet.units.unreadable:
            return found
        if missing and text in MISSING:
            return Missing(text, found.position)
        choices = (*sheet.units.listed, *(sorted(MISSING) if missing else ()))
        known = dict(sheet.units.words)
        near = _known_by(unit_as_typed(text), known) or nearest(text, choices) or _named_in(text, known)
        hint = f"did you mean {near}?" if near else _declaration(text)
        message = f'"{shortened(text)}" is not one of: {", ".join(sheet.units.listed)}'
        sheet.error(node, "not-in-list", message, "\n".join(filter(None, (hint, or_block(block)))))
        return Missing(near, found.position) if near in MISSING else Words(near or text, found.position)

    return noted(read, Suggested("a unit of the vocabulary", (), missing))


def unit_or_measure(measures: tuple[str, ...]) -> Reader:
    """What a factor is measured in: what may be counted, or a measure such as mm."""

    def read(node: Any, sheet: Sheet) -> Any:
        if node.__class__ is ScalarNode and (node.value in sheet.units.all or node.value in sheet.units.unreadable):
            return words(node, sheet)
        return one_of(*measures[:1], *sheet.units.listed, *measures[1:])(node, sheet)

    return noted(read, Suggested("a unit of the vocabulary, or what is measured", measures))


def _known_by(typed: CountedUnit, words: Mapping[str, str]) -> str:
    """The unit of which somebody typed another word, that for several or a synonym; "" where it is none of theirs."""
    return words.get(typed.one.casefold()) or words.get(typed.many.casefold()) or words.get(typed.id.casefold(), "")


def _named_in(text: str, words: Mapping[str, str]) -> str:
    """The unit that the first word of several names, "eyes with a scar"; "" for none."""
    return words.get(text.split()[0].casefold(), "") if " " in text.strip() else ""


def _declaration(text: str) -> str:
    """The line of the vocabulary that would declare what somebody typed; "" where no unit can be called so."""
    unit, name = unit_as_typed(text), slug(text)
    is_word = unit.one.replace(" ", "").replace("-", "").isalpha()
    if name in RESERVED_UNITS or not is_id(name) or not is_word:
        return ""
    here = "" if name == text else f" and type `unit: {name}` here"
    return (
        f"declare it under `units` of evidence/vocabulary.yaml{here}:\n  {name}: {{one: {unit.one}, many: {unit.many}}}"
    )


def unit_as_typed(text: str) -> CountedUnit:
    """A unit as its one word lets guess it: "eye" and "eyes" are one eye and many eyes."""
    whole = " ".join(text.split())[:60].rstrip()
    if whole.endswith("ies") and len(whole) > 4:
        return CountedUnit(text, whole[:-3] + "y", whole)
    if whole.endswith("s") and not whole.endswith(("ss", "us", "is")):
        return CountedUnit(text, whole[:-1], whole)
    if whole.endswith("y") and whole[-2:-1] not in tuple("aeiou"):
        return CountedUnit(text, whole, whole[:-1] + "ies")
    return CountedUnit(text, whole, whole + ("es" if whole.endswith(("s", "x", "ch", "sh")) else "s"))


def with_typed_units(vocabulary: Vocabulary, reports: Iterable[Report]) -> tuple[Vocabulary, set[str]]:
    """The vocabulary with the units that studies count though nobody declared them, and the names of these ("unit:id").

    They were told where they stand; with words guessed from their names nothing else is asked because of them.
    """
    typed = [study.unit.unit for report in reports for study in report.studies if study.unit is not None]
    guessed = {
        word.text: unit_as_typed(word.text)
        for word in typed
        if isinstance(word, Words) and word.text not in vocabulary.lexicon.units and word.text not in vocabulary.units
    }
    if not guessed:
        return vocabulary, set()
    lexicon = vocabulary.lexicon.with_units(in_lower_case(unit) for unit in guessed.values())
    whole = vocabulary._replace(units={**vocabulary.units, **guessed}, lexicon=lexicon)
    return whole, {f"unit:{name}" for name in guessed}
