"""What stands behind the answer of a page, one tap away."""

from __future__ import annotations

from collections.abc import Sequence

from ...results.values.document import Block, Details, Section


def closed(blocks: Sequence[Block]) -> list[Block]:
    """Every section by its title, closed; other blocks as they are."""
    return [
        Details(block.title, block.blocks, "part", anchor=block.anchor) if isinstance(block, Section) else block
        for block in blocks
    ]
