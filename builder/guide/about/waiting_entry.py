"""One thing that waits for somebody."""

from __future__ import annotations

import datetime

from ...records import NamedTuple
from ...results.values.line import Line


class Waits(NamedTuple):
    """What, where, since when and for whom."""

    kind: str
    """One of the names of `waiting.KINDS`."""
    what: Line
    where: Line
    """Leads to its page."""
    since: datetime.date | None = None
    """The day on which somebody last did something about it."""
    who: str = ""
    """Who did, or stands behind it; "" where nobody is named."""
    due: datetime.date | None = None
    """The day set for it."""
