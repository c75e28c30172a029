"""Plots and sheets of a page, apart from the text around them: what somebody took along may be what moved."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from ..records import NamedTuple
from ..results.values.document import Page, Sheet, StudyRows, walk
from ..results.values.drawings import Icons, TimePlot


class Part(NamedTuple):
    """One drawing, or one sheet to print."""

    page: str
    """The page's title."""
    title: str
    kind: Literal["plot", "sheet"]
    holds: object
    """What is drawn, or the blocks of the sheet."""


def parts_of(path: str, page: Page) -> Iterator[tuple[str, Part]]:
    """Each with a name that no other has: the page's path, its kind, and what it is called there.

    path: of the page, under site/.
    """
    number: dict[str, int] = {}
    for block in walk(page.blocks):
        part = _part(page, block)
        if part is not None:
            name = f"{path}#{part.kind}:{part.title}"
            number[name] = number.get(name, 0) + 1
            yield f"{name}:{number[name]}", part


def _part(page: Page, block: object) -> Part | None:
    if isinstance(block, TimePlot | Icons):
        return Part(page.title, block.title, "plot", block)
    if isinstance(block, StudyRows) and block.scale is not None:
        drawn = tuple(
            (row.name, row.point, row.low, row.high, row.shape, row.is_broken, row.margins) for row in block.rows
        )
        return Part(page.title, block.label, "plot", (block.scale, drawn))
    if isinstance(block, Sheet):
        return Part(page.title, block.title, "sheet", block.blocks)
    return None
