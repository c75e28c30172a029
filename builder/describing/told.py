"""How a block of the form and its fields are told."""

from __future__ import annotations

from collections.abc import Mapping

from ..reading.form import Form
from ..records import NamedTuple


class Told(NamedTuple):
    """What is told of one field."""

    says: str
    """What it holds, and what to know of it; no sentence."""
    example: str
    """A value as it is typed behind the name and colon."""


class Described(NamedTuple):
    """One kind of block with what is told of its fields."""

    title: str
    form: Form
    fields: Mapping[str, Told]
    """By name; of those in `SHARED` only where the block has its own words."""


SHARED: Mapping[str, Told] = {
    "where": Told(
        "the passage that holds the numbers of this block, by the words in its square brackets; left out where it is "
        "that of the block around it",
        "p. 12, Methods",
    ),
    "in_words": Told(
        "the very words of the passage that hold these numbers, where one number stands there twice or nothing says "
        "what it counts: one text, or a list in printed order",
        '"at one year 39 of 47"',
    ),
    "as": Told("the paper's own words for what was counted, whole, with any no or not in them", '"no sign of failure"'),
    "confidence": Told("the level of the interval beside it, where the paper prints one; without it 95%", "90%"),
    "acknowledged": Told(
        "answers to questions that the check asked; its message prints the block to paste",
        "[{rule: percent-impossible, printed: 29% of 26, by: XX, reason: the footnote leaves out five}]",
    ),
}
"""Fields that several blocks have, with the same meaning in each."""


def told_of(block: Described, name: str) -> Told:
    """What is told of one field of a block. Raises KeyError for one that nobody describes."""
    own = block.fields.get(name)
    return own if own is not None else SHARED[name]
