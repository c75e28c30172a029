"""Which field of the desk a place in the claim file is."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from ..compiled_patterns import compiled
from ..problems import Problem
from ..reading.yaml_text import MappingNode, SequenceNode, Sheet, compose
from .wording import INCOMPLETE

_find_block = compiled(r"\(in (\w+)\)").search

Step = str | int
Path = tuple[Step, ...]
"""From the top of the claim file: ("claims", 0, "levels", 1, "events")."""


class Places:
    """Where each field of one claim file begins."""

    def __init__(self, text: str) -> None:
        root = compose(Sheet("", text, []))
        found = sorted(_places(root, ())) if root is not None else []
        self._starts = [(line, column) for line, column, _ in found]
        self._paths = [path for *_, path in found]
        self._blocks = {(line, column): path for line, column, path in reversed(found)}

    def path_of(self, problem: Problem) -> Path:
        """The field that a problem of this file is about; of a field that is missing the one that lacks it."""
        at = problem.position.line, problem.position.column
        if problem.rule == "missing-field" and at in self._blocks:
            return self._blocks[at]
        if problem.rule == INCOMPLETE and (inner := _find_block(problem.message)):
            study = next(path for start, path in zip(self._starts, self._paths, strict=True) if start == at)
            return (*study[:2], inner[1])
        before = [path for start, path in zip(self._starts, self._paths, strict=True) if start <= at]
        return before[-1] if before else ()


def _places(node: Any, path: Path) -> Iterator[tuple[int, int, Path]]:
    """Line and column, from 1, of each block before those of the fields in it."""
    yield node.start_mark.line + 1, node.start_mark.column + 1, path
    if isinstance(node, MappingNode):
        for key, value in node.value:
            inner = (*path, key.value)
            yield key.start_mark.line + 1, key.start_mark.column + 1, inner
            yield from _places(value, inner)
    elif isinstance(node, SequenceNode):
        for order, item in enumerate(node.value):
            yield from _places(item, (*path, order))
