"""What local.yaml and status.yaml hold, as immutable values: whom to call here, and what became of reports."""

from __future__ import annotations

from ..problems import Position
from ..records import NamedTuple
from .values import Date, Words


class Protocol(NamedTuple):
    """A local document to follow."""

    position: Position
    title: Words
    link: Words | None


class Local(NamedTuple):
    """local.yaml: whom to call here. None: "contact not set by this programme"."""

    call_name: Words | None
    call_number: Words | None
    kit: tuple[Words, ...]
    protocols: tuple[Protocol, ...]
    closed: tuple[Words, ...]
    """Days of the week on which nobody is seen here; empty where not set."""


class Notice(NamedTuple):
    """The correction or retraction as its publisher announced it."""

    doi: Words | None
    on: Date | None
    words: Words | None


class Status(NamedTuple):
    """What is known of a report's standing, and since when."""

    position: Position
    key: str
    state: Words
    """none found, corrected, concern, retracted, unknown."""
    on: Date
    by: Words
    notice: Notice | None
