"""How the literature of a question was searched, and how its review is kept alive."""

from __future__ import annotations

from ..problems import Position
from ..records import NamedTuple
from .values import Date, Length, Words


class Searched(NamedTuple):
    """When and where the literature was searched."""

    position: Position
    on: Date
    where: tuple[Words, ...]
    by: Words | None
    # From here on the items of a full record, in the order of their list; each in lines.
    databases: tuple[Words, ...] = ()
    together: tuple[Words, ...] = ()
    registries: tuple[Words, ...] = ()
    browsed: tuple[Words, ...] = ()
    citations: tuple[Words, ...] = ()
    contacts: tuple[Words, ...] = ()
    other: tuple[Words, ...] = ()
    strategies: tuple[Words, ...] = ()
    limits: tuple[Words, ...] = ()
    filters: tuple[Words, ...] = ()
    prior_work: tuple[Words, ...] = ()
    updates: tuple[Words, ...] = ()
    peer_review: tuple[Words, ...] = ()
    records: tuple[Words, ...] = ()
    deduplication: tuple[Words, ...] = ()


class Living(NamedTuple):
    """How a review is kept alive."""

    position: Position
    status: Words | None
    """living, paused or retired."""
    schedule: Length | None
    """How often it is searched again."""
    triggers: tuple[Words, ...]
    """What has it searched again sooner."""
    retirement: tuple[Words, ...]
    """When nobody keeps it alive any more."""
