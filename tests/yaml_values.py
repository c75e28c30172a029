"""YAML as an editor reads it: the core schema of YAML 1.2, in which yes and days are texts, and 39 is a number."""

from __future__ import annotations

import re
from typing import Any

import yaml


class CoreLoader(yaml.CSafeLoader):
    """Resolves plain scalars as YAML 1.2.2, section 10.3.2, says, in place of PyYAML's YAML 1.1."""

    yaml_implicit_resolvers: dict[str, Any] = {}  # noqa: RUF012 -- how PyYAML keeps them


for tag, pattern, first in (
    ("null", r"null|Null|NULL|~|", [*"nN~", ""]),
    ("bool", r"true|True|TRUE|false|False|FALSE", [*"tTfF"]),
    ("int", r"[-+]?[0-9]+", [*"-+0123456789"]),
    ("float", r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?", [*"-+.0123456789"]),
):
    CoreLoader.add_implicit_resolver(f"tag:yaml.org,2002:{tag}", re.compile(rf"^(?:{pattern})$"), first)


def _whole(loader: CoreLoader, node: yaml.ScalarNode) -> int:
    return int(node.value)  # of YAML 1.1, 012 would be ten


CoreLoader.add_constructor("tag:yaml.org,2002:int", _whole)


def core_values(text: str) -> Any:
    """What an editor makes of a file: names of fields as texts, as JSON has them."""
    return _with_text_keys(yaml.load(text, Loader=CoreLoader))


def _with_text_keys(value: Any) -> Any:
    if isinstance(value, dict):
        return {str(name): _with_text_keys(inner) for name, inner in value.items()}
    return [_with_text_keys(item) for item in value] if isinstance(value, list) else value
