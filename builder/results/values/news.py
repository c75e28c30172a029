"""One thing that changed, for whoever is told of it without looking."""

from __future__ import annotations

import datetime

from ...records import NamedTuple


class News(NamedTuple):
    """An entry of the feed; of numbers it holds none of the evidence."""

    name: str
    """What it is of, the same as long as it is told: "key/retracted", "release/1.2.0"."""
    title: str
    says: str
    address: str
    """Of the page that tells more, from the root of the site."""
    on: datetime.date
    """The day of the notice, of the reading, or of the evidence."""
