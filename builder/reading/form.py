"""The form as data: which fields a block has, what each holds, and which it cannot do without."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

from ..problems import Position
from .field_meanings import described_field
from .fields import check_id, locator
from .kinds import Block, Chosen, Either, Many, Named, Reader, Text, kind_of, noted
from .refusals import (
    field_meant,
    home_of,
    is_cut_by_comma,
    refuse,
    refuse_comma_cut,
    refuse_given_twice,
    shortened,
)
from .values import Missing, Words
from .yaml_text import BROKEN, MappingNode, ScalarNode, Sheet

_new = tuple.__new__

Rule = Callable[[list[Any], int, Any, Sheet], bool | None]
"""What a block must hold beyond its single fields.

Takes its values in order, the bits of the typed fields, the node and the file; False makes the block unreadable."""


class Slot:
    """One field of a block."""

    def __init__(
        self,
        name: str,
        read: Reader,
        *,
        required: bool = False,
        attribute: str = "",
        instead: Any = None,
        needed: bool | None = None,
    ) -> None:
        self.name = name
        self.read = read
        self.required = required
        self.attribute = attribute or name
        self.instead = instead
        """What the value is where nothing readable was typed; `MISSING_INSTEAD` makes it a Missing without text."""
        self.needed = required and instead is None if needed is None else needed
        """True where the block cannot be read without it."""


MISSING_INSTEAD: Any = object()


class Form:
    """One kind of block, read into one kind of NamedTuple whose first attribute is its position."""

    def __init__(self, what: str, make: Any, *slots: Slot, then: Rule | None = None) -> None:
        """what: as a message calls it, "a claim". Attributes of `make` without a slot stay None."""
        self.what = what
        self.make = make
        self.then = then
        self.slots = slots
        names = make._fields
        self._template: list[Any] = [None] * len(names)
        self._fields: dict[Any, tuple[int, int, Reader]] = {}
        self._required = self._needed = 0
        self._missing_instead: list[tuple[int, int]] = []
        self.index = {slot.name: names.index(slot.attribute) for slot in slots}
        self._bits = {slot.name: 1 << order for order, slot in enumerate(slots)}
        self._where = 0
        self._where_index = 0
        for slot in slots:
            index, bit = self.index[slot.name], self._bits[slot.name]
            if slot.read is locator:
                self._where, self._where_index = bit, index
            self._fields[slot.name] = (index, bit, slot.read)
            self._required |= bit * slot.required
            self._needed |= bit * slot.needed
            if slot.instead is MISSING_INSTEAD:
                self._missing_instead.append((index, bit))
            else:
                self._template[index] = slot.instead

    def bits(self, *names: str) -> int:
        """The bits of these fields, to be compared with those of the typed ones."""
        return sum(self._bits[name] for name in names)

    @property
    def field_names(self) -> tuple[str, ...]:
        """All fields in the order of the form."""
        return tuple(self._fields)

    def read(self, node: Any, sheet: Sheet, name: str | None = None) -> Any:
        """The block as its NamedTuple, or BROKEN. name: the id it stands under, kept as its second attribute."""
        if node.__class__ is not MappingNode:
            return refuse(node, sheet, f"{self.what} with its fields", self._written_as())
        values = self._template.copy()
        mark = node.start_mark
        values[0] = position = _new(Position, (sheet.file, mark.line + 1, mark.column + 1))
        if name is not None:
            values[1] = name
        fields = self._fields
        typed = broken = 0
        for key, value in node.value:
            if key.__class__ is ScalarNode and key.value in fields:
                index, bit, read = fields[key.value]
                if not typed & bit:
                    typed |= bit
                    found = read(value, sheet) if value.value != "" else self._empty(read, key, value, node, sheet)
                    if found is BROKEN:
                        broken |= bit
                    else:
                        values[index] = found
                    continue
            spoilt = self._odd(key, value, node, sheet, values)
            typed |= spoilt
            broken |= spoilt
        if broken & self._where:
            # A place that could not be read is no other place: what it should prove stays unproved, in silence.
            values[self._where_index] = Words("", position)
        if typed & self._required != self._required:
            self._say_missing(typed, node, sheet)
        unread = broken | ~typed
        for index, bit in self._missing_instead:
            if unread & bit:
                values[index] = Missing("", position)
        if unread & self._needed or (self.then is not None and self.then(values, typed, node, sheet) is False):
            return BROKEN
        return _new(self.make, values)

    def _empty(self, read: Reader, key: Any, value: Any, node: Any, sheet: Sheet) -> Any:
        """A field with nothing behind it, or one that is no field: the rest of a text that its comma cut."""
        if not is_cut_by_comma(value, sheet):
            return read(value, sheet)
        refuse_comma_cut(key, node, sheet)
        return BROKEN

    def _odd(self, key: Any, value: Any, node: Any, sheet: Sheet, values: list[Any]) -> int:
        """Says what is wrong with a field that is unknown, typed twice or cut; gives the bits of spoilt fields."""
        if key.__class__ is not ScalarNode:
            sheet.error(
                key,
                "unknown-field",
                f"a field of {self.what} is expected here",
                f"its fields are: {', '.join(self._fields)}",
            )
            return 0
        if is_cut_by_comma(value, sheet):
            refuse_comma_cut(key, node, sheet)
            previous = sheet.previous(node, key)
            if previous is None or previous[0].__class__ is not ScalarNode or previous[0].value not in self._fields:
                return 0
            index, bit, _ = self._fields[previous[0].value]
            values[index] = self._template[index]
            return bit
        if key.value in self._fields:
            return (1 << len(self.slots)) - 1 if refuse_given_twice(key, node, self.what, sheet) else 0
        near = field_meant(key.value, self._fields)
        hint = f"did you mean {near}?" if near else self._where_else(key.value)
        sheet.error(key, "unknown-field", f'"{shortened(key.value)}" is not a field of {self.what}', hint)
        # The field that was meant is not missing as well.
        return self._bits[near] if near else 0
        return 0

    def _where_else(self, name: str) -> str:
        """What may stand here, for somebody who typed a field of no such name."""
        own = f"its fields are: {', '.join(self._fields)}"
        home = home_of(name)
        return f"it belongs to {home}; here {own}" if home and home != self.what else own

    def _written_as(self) -> str:
        """The block as it is written, with the fields it cannot do without."""
        names = [slot.name for slot in self.slots if slot.required] or [slot.name for slot in self.slots][:3]
        return f"type a block: {{{', '.join(f'{name}: …' for name in names)}}}"

    def _say_missing(self, typed: int, node: Any, sheet: Sheet) -> None:
        for slot in self.slots:
            if slot.required and not typed & self._bits[slot.name]:
                tells = f"{self.what} needs {described_field(slot.name, self.what.strip('`'))}"
                sheet.error(node, "missing-field", tells, f"{slot.name}: {_typed_as(slot.read)}")


def _typed_as(read: Reader) -> str:
    """What a field takes, in a few words."""
    kind = kind_of(read)
    if isinstance(kind, Chosen):
        return ", or ".join(kind.values)
    if isinstance(kind, Text):
        return f"{kind.what}{', or not reported' if kind.missing else ''}"
    if isinstance(kind, Block):
        return f"{{{', '.join(f'{slot.name}: …' for slot in kind.form.slots if slot.required)}}}"
    if isinstance(kind, Either):
        return ", or ".join(dict.fromkeys(map(_typed_as, kind.readers)))
    if isinstance(kind, Many):
        return f"{_typed_as(kind.item)}; of several each after a dash"
    return "…"


def named_blocks(
    form: Form, what: str, reserved: Iterable[str] = (), *, any_name: bool = False
) -> Callable[[set[str], str], Reader]:
    """A reader of blocks under their ids, once it is told where to note the unreadable ones, and by what prefix.

    any_name: the names are initials or keys, and not ids of ours.
    """
    taken = frozenset(reserved)

    def noting(unreadable: set[str], prefix: str) -> Reader:
        def read(node: Any, sheet: Sheet) -> Any:
            if node.__class__ is not MappingNode:
                return refuse(node, sheet, f"a block of {what} under their names")
            result: dict[str, Any] = {}
            seen: set[str] = set()
            for key, value in node.value:
                name = key.value
                if key.__class__ is not ScalarNode:
                    mend = "type its id in lower-case letters, digits and hyphens, then a colon"
                    sheet.error(key, "not-an-id", f"the name of {form.what} is expected here", mend)
                    continue
                if name in seen:
                    tells = f'"{name}" is given twice among the {what}'
                    sheet.error(key, "duplicate-id", tells, "call one of the two otherwise, or delete it")
                    continue
                seen.add(name)
                block = form.read(value, sheet, name)
                if (not any_name and not check_id(name, taken, "id", key, sheet)) or block is BROKEN:
                    unreadable.add(prefix + name)
                else:
                    result[name] = block._replace(position=sheet.place(key))
            return result

        return noted(read, Named(form, any_name, tuple(sorted(taken))))

    return noting
