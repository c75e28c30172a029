"""Readers of blocks whose names are the writer's own, each with a text."""

from __future__ import annotations

from typing import Any

from .fields import MISSING, missing_value, position_of, too_long, words
from .kinds import Either, Table, taking
from .limits import NAME
from .refusals import is_cut_by_comma, refuse, refuse_comma_cut
from .values import Missing, Words
from .yaml_text import BROKEN, MappingNode, ScalarNode, Sheet


@taking(Table())
def table(node: Any, sheet: Sheet) -> Any:
    """Free names with a text each, in the order typed."""
    if node.__class__ is not MappingNode:
        return refuse(node, sheet, "a block of names, each with a text")
    result: dict[str, Words] = {}
    for name, value in node.value:
        if name.__class__ is not ScalarNode or not name.value:
            sheet.error(name, "not-a-text", "a name is expected here", "type a name, a colon and a text: age: 18 to 65")
        elif len(name.value) > NAME:
            too_long(name, sheet, NAME)
        elif is_cut_by_comma(value, sheet):
            refuse_comma_cut(name, node, sheet)
            if result:
                result.popitem()
        elif name.value in result:
            tells = f'"{name.value}" is given twice in this block'
            sheet.error(name, "duplicate-field", tells, "delete one of the two")
        else:
            found = words(value, sheet)
            if found is not BROKEN:
                result[name.value] = found
    return result


@taking(Either((table, missing_value)))
def table_or_missing(node: Any, sheet: Sheet) -> Any:
    """A table, or one of the three missing values."""
    if node.__class__ is ScalarNode and node.value in MISSING:
        return Missing(node.value, position_of(node, sheet))
    return table(node, sheet)
