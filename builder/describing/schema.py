"""The forms as JSON Schema, for editors that say what is wrong while somebody types.

JSON Schema, draft 2020-12: json-schema.org/draft/2020-12. Values are those of YAML 1.2, core schema (10.3 there), in
which yes, no and days are texts. A schema refuses nothing that the check accepts, but for texts that YAML takes for
null, and names that it takes for true or false. What needs more than one file is for the check alone.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from functools import partial
from typing import Any

from ..reading.form import Form, Slot
from ..reading.kinds import Block, Chosen, Either, Kind, Many, Named, Suggested, Table, Text, kind_of
from ..reading.limits import NAME, TEXT
from ..reading.parsing import ID, MISSING
from ..reading.slugs import slug
from .conditions import CONDITIONS
from .examples import example_value
from .files import BLOCKS, FILES, FileKind, block_name, blocks_of
from .told import told_of

Schema = dict[str, Any]

DIALECT = "https://json-schema.org/draft/2020-12/schema"


def schema_path(file: FileKind) -> str:
    """Where the schema of a kind of file stands in the site."""
    return f"data/schema/{file.name}.json"


def schema_text(file: FileKind) -> str:
    """The schema of one kind of file; the same bytes from the same release."""
    return json.dumps(schema_of(file), ensure_ascii=False, indent=1) + "\n"


def schema_writers() -> dict[str, Callable[[], Iterator[str]]]:
    """What writes each schema, by its path in the site."""
    return {schema_path(file): partial(_written, file) for file in FILES}


def _written(file: FileKind) -> Iterator[str]:
    yield schema_text(file)


def schema_of(file: FileKind) -> Schema:
    """The schema of one kind of file, whole in itself."""
    values = _Values()
    whole = {"$schema": DIALECT, "title": file.title, "description": file.path, **values.of(file.takes)}
    blocks = {name: _block(name, values) for name in blocks_of(file)}
    return {**whole, "$defs": {**blocks, **dict(sorted(values.texts.items()))}}


def _block(name: str, values: _Values) -> Schema:
    form = BLOCKS[name].form
    out: Schema = {
        "title": BLOCKS[name].title,
        "type": "object",
        "properties": {slot.name: _field(name, slot, values) for slot in form.slots},
        "additionalProperties": False,
    }
    required = [slot.name for slot in form.slots if slot.required]
    if required:
        out["required"] = required
    conditions = CONDITIONS.get(name)
    if conditions:
        out["allOf"] = list(conditions)
    return out


def _field(block: str, slot: Slot, values: _Values) -> Schema:
    told = told_of(BLOCKS[block], slot.name)
    return {"description": told.says, "examples": [example_value(told.example)], **values.of(kind_of(slot.read))}


class _Values:
    """What values have to be, kind by kind."""

    def __init__(self) -> None:
        self.texts: dict[str, Schema] = {}
        """Kinds of text by name: most fields hold one of a dozen, whose patterns are long."""
        self._writers: dict[type[Kind], Callable[[Any], Schema]] = {
            Text: self._text,
            Chosen: self._chosen,
            Suggested: self._suggested,
            Many: self._many,
            Either: self._either,
            Block: lambda kind: _refer(kind.form),
            Named: self._named,
            Table: self._table,
        }

    def of(self, kind: Kind) -> Schema:
        """What a value of this kind has to be."""
        return self._writers[type(kind)](kind)

    def _called(self, name: str, text: Schema) -> Schema:
        if self.texts.setdefault(name, text) != text:
            raise ValueError(f"two kinds of text are called {name!r}")
        return {"$ref": f"#/$defs/{name}"}

    def _any_text(self) -> Schema:
        return self._called("words", {"type": ["string", "number", "boolean"], "pattern": r"\S", "maxLength": TEXT})

    def _text(self, kind: Text) -> Schema:
        if not kind.pattern:
            return self._any_text()
        pattern = "|".join([*(sorted(MISSING) if kind.missing else ()), kind.pattern])
        text: Schema = {"description": kind.what, "type": "string", "pattern": f"^(?:{pattern})$"}
        if kind.plain is not None:
            text["type"] = ["string", "integer" if kind.is_whole else "number"]
            limits = zip(("minimum", "maximum"), kind.plain, strict=True)
            text.update((name, limit) for name, limit in limits if limit is not None)
        if kind.reserved:
            text["not"] = {"enum": list(kind.reserved)}
        name = slug(kind.what.split(" such as ")[0]) + ("-not-reserved" if kind.reserved else "")
        return self._called(f"{name}-or-missing" if kind.missing else name, text)

    def _chosen(self, kind: Chosen) -> Schema:
        values = (*kind.values, *(sorted(MISSING) if kind.missing else ()))
        # YAML takes a word that is a number for one, unless it is quoted.
        return {"enum": [each for text in values for each in ((int(text), text) if text.isdecimal() else (text,))]}

    def _suggested(self, kind: Suggested) -> Schema:
        return self._any_text()

    def _many(self, kind: Many) -> Schema:
        item = self.of(kind_of(kind.item))
        limits = {"minItems": kind.least, "maxItems": kind.most}
        some: Schema = {"type": "array", "items": item, **{name: limit for name, limit in limits.items() if limit}}
        return {"anyOf": [item, some]} if kind.single else some

    def _either(self, kind: Either) -> Schema:
        return {"anyOf": [self.of(kind_of(read)) for read in kind.readers]}

    def _named(self, kind: Named) -> Schema:
        out: Schema = {"type": "object", "additionalProperties": _refer(kind.form)}
        if not kind.any_name:
            out["propertyNames"] = {"pattern": f"^(?:{ID})$", "maxLength": NAME, "not": {"enum": list(kind.reserved)}}
        return {**out, "maxProperties": kind.most} if kind.most else out

    def _table(self, kind: Table) -> Schema:
        return {"type": "object", "propertyNames": {"maxLength": NAME}, "additionalProperties": self._any_text()}


def _refer(form: Form) -> Schema:
    return {"$ref": f"#/$defs/{block_name(form)}"}
