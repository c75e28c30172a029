"""A report is read a second time without what the first reader typed; then the two are laid side by side."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal, InvalidOperation
from functools import cache
from pathlib import Path
from typing import Any

from ..describing.files import BLOCKS, FILES, blocks_of
from ..problems import Position
from ..reading.folded import folded
from ..reading.kinds import Chosen, kind_of
from ..reading.source_model import Source
from ..reading.yaml_text import MappingNode, ScalarNode, SequenceNode, Sheet, compose
from ..records import NamedTuple
from ..synthesis.agreement import cohen_kappa
from ..synthesis.results import Refusal
from .adding import comment
from .scalars import typed
from .starting import CannotWrite

FOLDER = "second-readings"
"""Beside evidence/: `check` and the site know nothing of it."""

_HEAD = """\
# A second reading. Fill in what is empty from the paper, without looking at the first reading; delete the line of what
# the paper does not have, and add what it has. Then type `second {key}` again: both are laid side by side.
"""
# Names and places are the first reader's: without them nobody could tell which line answers which.
_KEPT = frozenset(("source", "id", "where"))
# Who read, who checked, and what was answered about it, is each reader's own.
_OWN = frozenset(("read", "checked", "acknowledged", "note"))


def blank_reading(text: str, source: Source | None) -> str:
    """The claim file with the names and places of the first reader, the passages above its claims, and no value.

    Raises CannotWrite where the text is no claim file that can be read.
    """
    root = _composed("", text)
    key = next((value.value for name, value in root.value if name.value == "source"), "")
    lines = [_HEAD.format(key=key)]
    passages = {passage.bracket: passage.text for passage in source.passages} if source is not None else {}
    for name, value in root.value:
        if name.value == "read":
            lines.append("read:\n  by:\n  on:\n  depth:\n")
        elif name.value not in _OWN:
            lines.append("".join(_blank(name.value, value, "", passages)))
    return "".join(lines)


def _blank(name: str, node: Any, indent: str, passages: Mapping[str, str]) -> Iterator[str]:
    """A field with everything below it, emptied."""
    if node.__class__ is ScalarNode or not node.value:
        kept = typed(node.value) if name in _KEPT and node.__class__ is ScalarNode else ""
        yield f"{indent}{name}:{' ' if kept else ''}{kept}\n"
    elif node.__class__ is MappingNode:
        yield f"{indent}{name}:\n"
        yield from _blank_fields(node, indent + "  ", passages)
    elif any(each.__class__ is MappingNode for each in node.value):
        yield f"{indent}{name}:\n"
        for item in node.value:
            yield from _blank_item(item, indent + "  ", passages)
    else:
        yield f"{indent}{name}:\n"


def _blank_item(node: Any, indent: str, passages: Mapping[str, str]) -> Iterator[str]:
    if node.__class__ is not MappingNode:
        return
    fields = {key.value: value for key, value in node.value}
    where = fields["where"].value if fields.get("where").__class__ is ScalarNode else ""
    said = passages.get(" ".join(where.split())) if "id" in fields else None
    if said is not None:
        yield comment(f"[{where}] {said}", indent)
    first = True
    for line in _blank_fields(node, indent + "  ", passages):
        yield f"{indent}- {line[len(indent) + 2 :]}" if first and not line.lstrip().startswith("#") else line
        first = False


def _blank_fields(node: Any, indent: str, passages: Mapping[str, str]) -> Iterator[str]:
    for key, value in node.value:
        if key.value not in _OWN:
            yield from _blank(key.value, value, indent, passages)


def _composed(file: str, text: str) -> Any:
    problems: list[Any] = []
    root = compose(Sheet(file, text, problems))
    if problems or root.__class__ is not MappingNode:
        where = f"{problems[0].position.line}:{problems[0].position.column}: {problems[0].message}" if problems else ""
        raise CannotWrite(f"{file or 'the first reading'} cannot be read{': ' if where else ''}{where}")
    return root


class Differing(NamedTuple):
    """A field that two readers did not type alike."""

    path: str
    """"claims, healed, events"."""
    first: str
    """"" where the first reader has no such field."""
    second: str
    """"" where the second reader has none."""
    first_at: Position | None
    second_at: Position | None


class OfField(NamedTuple):
    """How often two readers agree on one field."""

    name: str
    alike: int
    both: int
    """So often both typed it."""
    kappa: float | None
    """Beyond chance, for a field with a closed list; None where it has none, or is not defined."""


class Compared(NamedTuple):
    """Two readings side by side."""

    differing: tuple[Differing, ...]
    fields: tuple[OfField, ...]
    """In the order of their names."""

    @property
    def alike(self) -> int:
        """Fields on which both agree."""
        return sum(field.alike for field in self.fields)

    @property
    def both(self) -> int:
        """Fields that both typed."""
        return sum(field.both for field in self.fields)


class _Typed(NamedTuple):
    text: str
    position: Position
    field: str


def unfinished(file: str, text: str) -> tuple[Position, ...]:
    """Where the second reader typed nothing yet, the reader's own name too.

    Raises CannotWrite where the text cannot be read.
    """
    root = _composed(file, text)
    empty = [found.position for _, found in _leaves(file, root, (), "") if not found.text]
    return (*(_position(file, value) for value in _reader(root) if not value.value), *empty)


def _reader(root: Any) -> Iterator[Any]:
    """The node with the name of who read."""
    for key, value in root.value:
        if key.value == "read" and value.__class__ is MappingNode:
            yield from (name for field, name in value.value if field.value == "by")


def reader(text: str) -> str:
    """Who read, as typed; "" where nobody is named."""
    return next((str(node.value) for node in _reader(_composed("", text))), "")


def compare(first: tuple[str, str], second: tuple[str, str]) -> Compared:
    """Each reading as its file's name and text.

    Numbers are compared by value, words without capitals and blanks. A level is matched by its name, whatever has an id
    by its id, other items of a list by their place. Raises CannotWrite where one of them cannot be read.
    """
    ours, theirs = (dict(_leaves(name, _composed(name, text), (), "")) for name, text in (first, second))
    differing: list[Differing] = []
    pairs: dict[str, list[tuple[str, str]]] = {}
    for path in dict.fromkeys((*ours, *theirs)):
        one, other = ours.get(path), theirs.get(path)
        if one is not None and other is not None and other.text:
            pairs.setdefault(one.field, []).append((_plain(one.text), _plain(other.text)))
        if one is None or other is None or _plain(one.text) != _plain(other.text):
            differing.append(
                Differing(
                    ", ".join(path),
                    one.text if one is not None else "",
                    other.text if other is not None else "",
                    one.position if one is not None else None,
                    other.position if other is not None else None,
                )
            )
    fields = [
        OfField(name, sum(one == other for one, other in both), len(both), _kappa(both) if name in _closed() else None)
        for name, both in sorted(pairs.items())
    ]
    return Compared(tuple(differing), tuple(fields))


def _leaves(file: str, node: Any, path: tuple[str, ...], field: str) -> Iterator[tuple[tuple[str, ...], _Typed]]:
    """Every value with where it stands: ("claims", "healed", "events")."""
    if node.__class__ is MappingNode:
        for key, value in node.value:
            if key.value not in _OWN and not (path and key.value in _KEPT):
                yield from _leaves(file, value, (*path, key.value), key.value)
    elif node.__class__ is SequenceNode:
        if any(item.__class__ is MappingNode for item in node.value):
            for place, item in enumerate(node.value, 1):
                yield from _leaves(file, item, (*path, _name_of(item, place)), field)
        elif node.value:
            text = ", ".join(sorted(str(item.value) for item in node.value))
            yield path, _Typed(text, _position(file, node), field)
    elif path != ("source",):
        yield path, _Typed(" ".join(node.value.split()), _position(file, node), field)


def _name_of(item: Any, place: int) -> str:
    fields = {key.value: value for key, value in item.value} if item.__class__ is MappingNode else {}
    for name in ("id", "level", "title"):
        if name in fields and fields[name].__class__ is ScalarNode and fields[name].value:
            return folded(fields[name].value)
    return f"item {place}"


def _position(file: str, node: Any) -> Position:
    return Position(file, node.start_mark.line + 1, node.start_mark.column + 1)


def _plain(text: str) -> str:
    try:
        return str(Decimal(text.removesuffix("%")).normalize()) + ("%" if text.endswith("%") else "")
    except InvalidOperation:
        return folded(text)


@cache
def _closed() -> frozenset[str]:
    """Fields of a claim file that hold a word of a closed list."""
    slots = [slot for name in blocks_of(FILES[0]) for slot in BLOCKS[name].form.slots]
    return frozenset(slot.name for slot in slots if isinstance(kind_of(slot.read), Chosen))


def _kappa(pairs: Sequence[tuple[str, str]]) -> float | None:
    words = sorted({word for pair in pairs for word in pair})
    if len(words) < 2:
        return None
    counted = Counter(pairs)
    found = cohen_kappa([[counted[one, other] for other in words] for one in words])
    return None if isinstance(found, Refusal) else found.kappa


def write_blank(root: Path, key: str, source: Source | None) -> str:
    """Writes second-readings/KEY.yaml below root, and gives its path from there.

    Raises CannotWrite where the report has no claims yet, or where the file cannot be written.
    """
    try:
        text = (root / f"evidence/claims/{key}.yaml").read_text("utf-8")
    except (OSError, UnicodeDecodeError) as fault:
        raise CannotWrite(f"evidence/claims/{key}.yaml cannot be read: a first reading has to be there") from fault
    blank = blank_reading(text, source)
    file = f"{FOLDER}/{key}.yaml"
    try:
        (root / FOLDER).mkdir(exist_ok=True)
        with (root / file).open("x", encoding="utf-8", newline="\n") as stream:
            stream.write(blank)
    except OSError as fault:
        raise CannotWrite(f"{file} could not be written: {fault.strerror or fault}") from fault
    return file
