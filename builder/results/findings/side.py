"""What one study says of a level against its reference."""

from __future__ import annotations

from ...records import NamedTuple
from ..values.figures import Figure
from .comparable import people_of
from .findings import Finding
from .which_way import Direction

PAIRS = ("pairs/both", "pairs/only_a", "pairs/only_b", "pairs/neither")


class Side(NamedTuple):
    """What one study says of a level against its reference, for one outcome."""

    finding: Finding
    """The level's row, or the ratio."""
    reference: Finding | None
    """The reference level's row of the same table; None beside a ratio, and where it was not reported."""
    direction: Direction
    is_adjusted: bool
    reference_ids: tuple[str, ...]
    """Levels of the vocabulary that the reference's wording stands for; empty where it stands for none."""
    ratio: Finding | None = None
    """The ratio or difference that the same claim prints of these two levels; None beside a ratio itself."""
    covers: tuple[str, ...] = ()
    """Levels of the vocabulary of which the level covers a part, in their order."""
    is_allotted: bool = False
    """True where chance made the groups that it compares."""

    @property
    def is_in_words(self) -> bool:
        """True where the report says which way, and prints no number of it."""
        return self.finding.kind == "words" and self.direction != "not stated"

    @property
    def reaches_over(self) -> bool:
        """True where the paper's level lies in two or more bands of the guide: it belongs to none of them alone."""
        return len(self.covers) > 1 and self.finding.kind not in ("pairs", "test")

    @property
    def people(self) -> frozenset[str]:
        """Ids of the studies behind it."""
        return people_of(self.finding)

    @property
    def units(self) -> int:
        """How many units stand behind it, 0 where not reported."""
        if self.finding.kind == "pairs":
            return sum(int(figure.number) for figure in self.figures)
        return (self.finding.total or 0) + ((self.reference.total or 0) if self.reference else 0)

    @property
    def figures(self) -> tuple[Figure, ...]:
        """The figures that the direction was derived from."""
        rows = (self.finding, self.reference) if self.reference else (self.finding,)
        return tuple(figure for row in rows for figure in _deciding(row))


def _deciding(row: Finding) -> list[Figure]:
    """The ratio or the pairs of such a row; of others the counts, else the printed rate or the estimate."""
    own = {"contrast": (("contrast/value",),), "pairs": (PAIRS,), "measured": (("mean",), ("median",))}
    for names in own.get(row.kind, (("events", "total"), ("success_rate",), ("rate",), ("estimate/value",))):
        found = [figure for name in names if (figure := row.figure(name)) is not None]
        if len(found) == len(names):
            return found
    return []
