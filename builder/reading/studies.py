"""The study of a report: the people, animals or specimens behind it."""

from __future__ import annotations

from typing import Any

from .claims import ACKNOWLEDGED
from .fields import (
    count,
    either,
    id_typed,
    identifier,
    list_of,
    locator,
    one_of,
    own_words,
    percentage,
    words,
)
from .flows import FLOW
from .form import MISSING_INSTEAD, Form, Slot
from .free_names import table, table_or_missing
from .kinds import kind_of, taking
from .named_units import unit_name
from .report_model import SharePart, Shares, Study, Unit
from .values import Missing, Words
from .wordings import check_slugs
from .yaml_text import MappingNode, Sheet

UNIT = Form(
    "`unit`",
    Unit,
    Slot("unit", unit_name(missing=True), required=True, instead=MISSING_INSTEAD),
    Slot("per", unit_name()),
    Slot("rule", one_of("worst", "best", "each")),
)

_unit_word = unit_name(missing=True, block=UNIT.field_names)


@taking(kind_of(_unit_word))
def _unit(node: Any, sheet: Sheet) -> Any:
    found = _unit_word(node, sheet)
    return Unit(found.position, found, None, None) if isinstance(found, (Words, Missing)) else found


PART = Form(
    "a part",
    SharePart,
    Slot("level", words, required=True),
    Slot("count", count),
    Slot("share", percentage),
    Slot("in_words", own_words, instead=()),
)


def _check_shares(values: list[Any], typed: int, node: Any, sheet: Sheet) -> None:
    check_slugs([part.level for part in values[3]], _SHARE_NAMES, "these shares", sheet)


SHARES = Form(
    "shares",
    Shares,
    Slot("of", count),
    Slot("what", words, required=True),
    Slot("parts", list_of(PART.read, "parts", breaks=True), required=True),
    Slot("where", locator),
    Slot("in_words", own_words, instead=()),
    then=_check_shares,
)
_SHARE_NAMES = frozenset(SHARES.field_names + PART.field_names)


def _check_study(values: list[Any], typed: int, node: Any, sheet: Sheet) -> bool:
    for name, value in node.value:
        if name.value in ("population", "setting") and (inner := _field_inside(value)) is not None:
            blanks = name.start_mark.column
            tells = f'"{inner.value}" is a field of a study, and stands here inside `{name.value}`'
            hint = f"begin its line with {blanks} blanks, as that of `{name.value}`"
            sheet.error(inner, "unknown-field", tells, hint)
            return False
    if len(values[_SHARES]) > 1:
        check_slugs([shares.what for shares in values[_SHARES]], frozenset(), "this study", sheet)
    return True


_BLOCKS_OF_STUDY = frozenset(("population", "setting", "unit", "flow", "patients", "shares", "selection", "design"))


def _field_inside(block: Any) -> Any:
    """A field of the study that was indented as if it were one of a block above it."""
    for name, value in block.value if block.__class__ is MappingNode else ():
        # Who the patients were is a word of a population; how many, a block of the study.
        if name.value in _BLOCKS_OF_STUDY and (name.value != "patients" or value.__class__ is MappingNode):
            return name
    return None


@taking(kind_of(table))
def _population(node: Any, sheet: Sheet) -> Any:
    return {} if _field_inside(node) is not None else table(node, sheet)  # the study says so


@taking(kind_of(table_or_missing))
def _setting(node: Any, sheet: Sheet) -> Any:
    return {} if _field_inside(node) is not None else table_or_missing(node, sheet)


STUDY = Form(
    "a study",
    Study,
    Slot("id", id_typed(), required=True),
    Slot("species", one_of("human", "animal", "bench")),
    Slot("design", words),
    Slot("selection", one_of("consecutive", "selected", "unclear", "not applicable")),
    Slot("population", _population, instead={}),
    Slot("setting", _setting),
    Slot("unit", either(_unit, UNIT.read)),
    Slot("flow", FLOW.read),
    Slot("patients", FLOW.read),
    Slot("shares", list_of(SHARES.read, "shares"), instead=()),
    Slot("covers", count),
    Slot("includes", list_of(identifier(what="id of a study"), "ids of studies", single=True), instead=()),
    Slot("where", locator),
    Slot("in_words", own_words, instead=()),
    Slot("acknowledged", list_of(ACKNOWLEDGED.read, "acknowledgements"), instead=()),
    then=_check_study,
)
_SHARES = STUDY.index["shares"]
