"""What changed as an Atom feed (RFC 4287): the same bytes from the same evidence, and no word of the clock."""

from __future__ import annotations

import datetime
import re
import uuid
from typing import Any

from ..results.values.guide import Guide
from .blocks import INVENTED

FEED = "feed.xml"

# What XML 1.0, section 2.2, lets no document hold, and signs that turn the direction of all text behind them
# (Unicode Standard Annex 9, section 2): a reader of feeds shows many sites in one list.
_UNWANTED = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069\ud800-\udfff\ufffe\uffff]"
)


def feed(guide: Guide) -> str:
    """The feed of a guide. Its links are relative to its own address, since the evidence does not say where the site is
    published; ids are names made of the repository, or of the guide's titles where none is named.
    """
    # Loaded when the feed is written: nobody else needs it, and it takes as long to import as a small page to make.
    from feedgen.feed import FeedGenerator  # type: ignore[import-untyped]

    out = FeedGenerator()
    out.id(_id(guide, ""))
    out.title(_clean(f"{guide.title}: what changed" + (f" ({INVENTED})" if guide.is_demonstration else "")))
    out.author({"name": _clean(guide.programme)})
    out.link(href=FEED, rel="self")
    out.link(href="changes/", rel="alternate")
    out.generator("passageproof")
    out.updated(_at(max((item.on for item in guide.news), default=guide.evidence_date)))
    for item in guide.news:
        entry: Any = out.add_entry(order="append")
        entry.id(_id(guide, item.name))
        mark = f"{INVENTED}: " if guide.is_demonstration else ""
        entry.title(_clean(mark + item.title))
        entry.updated(_at(item.on))
        entry.link(href=item.address, rel="alternate")
        entry.summary(_clean(mark + item.says))
    return str(out.atom_str(pretty=True).decode("utf-8"))


def _id(guide: Guide, name: str) -> str:
    """A name that stays: version 5 of RFC 9562, section 5.5, of whose guide it is and what the entry is of."""
    whose = guide.repository or f"{guide.programme}/{guide.title}"
    return uuid.uuid5(uuid.NAMESPACE_URL, f"{whose}#{name}").urn


def _at(day: datetime.date) -> datetime.datetime:
    return datetime.datetime(day.year, day.month, day.day, tzinfo=datetime.UTC)


def _clean(text: str) -> str:
    return " ".join(_UNWANTED.sub(" ", text).split())
