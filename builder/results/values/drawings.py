"""Drawings as values: the scale of a list of studies, rates over time, one mark for each unit."""

from __future__ import annotations

from ...reading.pictures import Picture
from ...records import NamedTuple
from .line import Line


class StudyScale(NamedTuple):
    """What the rows of one list share: one scale down the page."""

    low: float
    high: float
    ticks: tuple[tuple[float, str], ...] = ()
    """Place and printed label of each tick."""
    axis: str = ""
    """What the scale counts."""
    none: float | None = None
    """Where there is no difference; None on a scale of rates."""
    ends: tuple[str, str] = ("", "")
    """The words for the two sides of no difference, in those of the event: "fewer", "more"."""
    is_log: bool = False


class TimePoint(NamedTuple):
    """A share at a stated time."""

    at: float
    """Months."""
    share: float
    """Still good, per cent."""
    low: float | None = None
    high: float | None = None
    """Ends of its interval; None where it has none."""


class TimeBracket(NamedTuple):
    """Several studies at one time, from the lowest share to the highest."""

    at: float
    low: float
    high: float
    label: Line
    """How many they are."""


class TimeSteps(NamedTuple):
    """What one study estimates at one time after the other: until each time no fewer than its share."""

    name: str
    """Its first author; no number."""
    points: tuple[TimePoint, ...]
    followed: tuple[tuple[float, Line], ...]
    """Months, and how many were still followed then; the first at the start."""
    thin_from: int
    """The first of the points behind which fewer than ten were still followed; as many as there are where none is."""


class TimeSpan(NamedTuple):
    """A share when last seen, which belongs to no stated time."""

    low: float
    high: float
    middle: float | None
    label: Line
    """Whose, and how many."""


class TimePlot(NamedTuple):
    """Rates of one definition on one scale of time: share still good upwards, from 0 to 100 per cent."""

    anchor: str
    title: str
    """No number in it."""
    finding: Line
    """What the marks mean."""
    last: float
    """Months that the scale holds."""
    ticks: tuple[tuple[float, str], ...]
    axis: str
    """What is counted across."""
    points: tuple[TimePoint, ...] = ()
    brackets: tuple[TimeBracket, ...] = ()
    steps: tuple[TimeSteps, ...] = ()
    spans: tuple[TimeSpan, ...] = ()
    known_to: float = 0.0
    """The latest stated time in months; later than that nothing is known."""
    opens: str = ""
    """Anchor, on the same page, of the list that a tap on a bracket opens; "" where there is none."""


class Icons(NamedTuple):
    """One mark for each unit, those that did well first and filled."""

    anchor: str
    title: str
    """No number in it."""
    finding: Line
    filled: int
    total: int
    mark: Picture | None = None
    """What is drawn for one unit; None for a plain shape."""
