"""What a statistic comes back as: an interval, or a reason why there is none."""

from __future__ import annotations

from ..records import NamedTuple


class Interval(NamedTuple):
    """Lower and upper limit, on the scale of the figure they belong to."""

    low: float
    high: float


class Refusal:
    """What stands in place of a number that cannot honestly be computed; it counts as false."""

    reason: str
    """A sentence for a reader of the guide."""

    def __init__(self, reason: str) -> None:
        self.reason = reason

    def __bool__(self) -> bool:
        return False

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Refusal) and other.reason == self.reason

    def __hash__(self) -> int:
        return hash((Refusal, self.reason))

    def __repr__(self) -> str:
        return f"Refusal({self.reason!r})"
