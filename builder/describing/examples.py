"""Examples of values, read as they are typed."""

from __future__ import annotations

from typing import Any

from ..reading.yaml_text import MappingNode, ScalarNode, Sheet, compose


def example_value(example: str) -> Any:
    """The value of an example, every single one in it a text. Raises ValueError where it cannot stand in one line."""
    problems: list[Any] = []
    root = compose(Sheet("", f"x: {example}\n", problems))
    if problems:
        raise ValueError(f"{example!r}: {problems[0].message}")
    return _plain(root.value[0][1])


def _plain(node: Any) -> Any:
    if isinstance(node, ScalarNode):
        return node.value
    if isinstance(node, MappingNode):
        return {name.value: _plain(value) for name, value in node.value}
    return [_plain(item) for item in node.value]
