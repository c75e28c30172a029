"""A second reading at the desk: the report without the first reader's values, then both side by side."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from ..reading.model import Evidence
from ..reading.yaml_text import MappingNode, ScalarNode, Sheet, compose
from ..writing.second_reading import FOLDER, blank_reading, compare, reader
from .typed_files import claim_file_text

Answer = dict[str, Any]


def blank_draft(evidence: Evidence, key: str, text: str) -> Answer:
    """What stands on the desk of a second reader: places and ids, the passages, and no value.

    text: the claim file of the first reading. Raises CannotWrite where it cannot be read.
    """
    source = evidence.sources.get(key)
    said = _plain(compose(Sheet("", blank_reading(text, source), [])))
    said.pop("source", None)
    passages = source.passages if source is not None else ()
    return {
        "second": key,
        "entry": "",
        "passages": [{"where": each.bracket, "text": each.text} for each in passages],
        "claims": said,
    }


def _plain(node: Any) -> Any:
    if node.__class__ is MappingNode:
        return {key.value: _plain(value) for key, value in node.value}
    return node.value if isinstance(node, ScalarNode) else [_plain(item) for item in node.value]


def compared(key: str, first: str, said: Mapping[str, Any]) -> Answer:
    """Where two readings agree, by field, and every place where they do not; nothing of it while one is unfinished.

    first: the claim file of the first reading. said: the fields of the second one.
    Raises CannotWrite where one of them cannot be read.
    """
    empty = list(_empty(said, ()))
    second = claim_file_text({"source": key, **said})
    file = {"path": f"{FOLDER}/{key}.yaml", "text": second}
    if empty:
        # Whoever still reads must not see what the first reader found.
        return {"empty": [list(path) for path in empty], "file": file}
    if reader(first) == reader(second):
        return {"empty": [], "same": reader(first), "file": file}
    found = compare((f"evidence/claims/{key}.yaml", first), (file["path"], second))
    return {
        "empty": [],
        "file": file,
        "alike": found.alike,
        "both": found.both,
        "fields": [each._asdict() for each in found.fields],
        "differing": [{"path": each.path, "first": each.first, "second": each.second} for each in found.differing],
    }


def _empty(said: Any, path: tuple[str | int, ...]) -> Iterator[tuple[str | int, ...]]:
    """Fields in which nothing is typed."""
    if isinstance(said, Mapping):
        for name, value in said.items():
            yield from _empty(value, (*path, name))
    elif isinstance(said, list):
        for place, value in enumerate(said):
            yield from _empty(value, (*path, place))
    elif not str(said).strip():
        yield path
