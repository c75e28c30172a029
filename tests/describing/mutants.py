"""Files of the evidence with one thing changed, for comparing what the forms and the schemas say of each."""

from __future__ import annotations

import copy
import random
from collections.abc import Iterator
from typing import Any

import yaml

SCALARS = (
    "39", "1.5", "-1", "042", "42,300", ".02", "83%", "101%", "12 months", "2 moons", "over 3 mm", "1.2 to 7.1",
    "62% to 80%", "9 to 2", "<.05", "2026-02-28", "2026-02-30", "not reported", "yes", "not set", "key/claim", "a b",
    "healed", "human", "at", "zzz", "Zzz", "",
)  # fmt: skip


_TAG = "tag:yaml.org,2002:{}"


def mutants(texts: list[str], number: int, seed: int) -> Iterator[tuple[str, str]]:
    """What was done, and the file with it."""
    chance = random.Random(seed)
    roots = [yaml.compose(text, Loader=yaml.CBaseLoader) for text in texts]
    fields = [pair for root in roots for pair in _pairs(root)]
    for _ in range(number):
        root = copy.deepcopy(chance.choice(roots))
        said = _change(root, fields, chance)
        yield said, yaml.serialize(root, Dumper=yaml.CBaseDumper, allow_unicode=True)


def _pairs(node: Any) -> Iterator[tuple[Any, Any]]:
    if isinstance(node, yaml.MappingNode):
        for pair in node.value:
            yield pair
            yield from _pairs(pair[1])
    elif isinstance(node, yaml.SequenceNode):
        for item in node.value:
            yield from _pairs(item)


def _blocks(node: Any) -> Iterator[Any]:
    if isinstance(node, yaml.MappingNode):
        yield node
        for _, value in node.value:
            yield from _blocks(value)
    elif isinstance(node, yaml.SequenceNode):
        for item in node.value:
            yield from _blocks(item)


def _change(root: Any, fields: list[tuple[Any, Any]], chance: random.Random) -> str:
    block = chance.choice([block for block in _blocks(root) if block.value])
    at = chance.randrange(len(block.value))
    key, value = block.value[at]
    match chance.choice(("delete", "rename", "scalar", "scalar", "list", "block", "add", "add", "empty")):
        case "delete":
            del block.value[at]
            return f"without {key.value}"
        case "rename":
            block.value[at] = (_scalar(f"{key.value}x"), value)
            return f"{key.value} has another name"
        case "scalar":
            typed = chance.choice(SCALARS)
            block.value[at] = (key, _scalar(typed))
            return f"{key.value}: {typed}"
        case "list":
            block.value[at] = (key, yaml.SequenceNode(_TAG.format("seq"), [value]))
            return f"{key.value} as a list"
        case "block":
            block.value[at] = (key, yaml.MappingNode(_TAG.format("map"), [(_scalar("x"), value)]))
            return f"{key.value} as a block"
        case "empty":
            block.value[at] = (key, yaml.SequenceNode(_TAG.format("seq"), []))
            return f"{key.value} as an empty list"
    other, found = chance.choice(fields)
    if other.value not in [name.value for name, _ in block.value]:
        block.value.append((other, found))
    return f"{other.value} beside {key.value}"


def _scalar(text: str) -> Any:
    return yaml.ScalarNode(_TAG.format("str"), text, style=None if text else '"')
