"""What an audit gives: where each quoted figure stands in its source, and what does not agree."""

from __future__ import annotations

from decimal import Decimal

from ..problems import Position, Problem
from ..reading.model import Passage
from ..records import NamedTuple


class Tie(NamedTuple):
    """One thing that a claim says of a number, and what says it in the passage."""

    of: str
    """level, time, event, group, direction, adjustment, ..."""
    says: str
    """As the claim has it: "over 3 mm"."""
    by: str
    """words: the passage's own; position: its place in a list or column; reader: a person, in `as` or `in_words`."""
    words: tuple[tuple[int, int], ...] = ()
    """The slices of the passage that say so."""


class Proof(NamedTuple):
    """One number of a claim or study that agrees with one number of the passage its `where` names."""

    id: str
    """The figure's id: "marlow2019furcal/overall/events"."""
    written_in: Position
    """Where the claim file has it."""
    typed: str
    """As the claim file has it: "12 months"."""
    value: Decimal
    """In `unit`; the value as printed, so that "1 year" proves "12 months" with value 1."""
    unit: str
    """One of the units of the public interface: %, patient, month, P, hazard ratio, none, ..."""
    text: str
    """What a page prints, as the passage has it: "83%", "< .05", "31"."""
    passage: Passage
    start: int
    """Offset of the number itself in passage.text."""
    outer_start: int
    outer_end: int
    """The slice of passage.text that `text` stands for on the source page."""
    ties: tuple[Tie, ...] = ()
    """What ties it to its claim; empty where it is located only."""

    @property
    def position(self) -> Position:
        """Where the number stands in the file of the source."""
        return self.passage.place(self.start)


class Audit(NamedTuple):
    """The outcome of checking one Evidence."""

    problems: tuple[Problem, ...]
    """Sorted, each once, those of the reading included, acknowledgements already applied."""
    proofs: dict[str, Proof]
    """By id, reports in order of key, fields in the order of the form."""
    unproved: int
    """How many quoted numbers found no proof."""

    @property
    def passes(self) -> bool:
        """True where nothing is left to mend or to answer."""
        return not any(problem.is_open for problem in self.problems)
