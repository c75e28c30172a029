"""Healing that has only begun: "84 were healed, 11 were healing"."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ...numerals.late import late
from ...printed.clauses import Span
from ...printed.event_mentions import EventMention
from .tie import Stands


def only_begun(stands: Stands, fitting: Sequence[EventMention]) -> Span | None:
    """Where "healing" stands in "84 were healed, 11 were healing": of these no healing is complete."""
    text = stands.reading.passage.text
    if len(fitting) != 1 or fitting[0].is_denied:
        return None
    start, end = fitting[0].start, fitting[0].end
    if text[start:end].lower() != "healing":
        return None
    if _is_row(text, text.rfind("\n", 0, start) + 1) is not None:
        return (start, end) if _is_healed_row(text) is not None else None
    places = stands.reading.cells()
    own = places[stands.at]
    if own is not None and own.headings and own.headings[0][0] <= start < own.headings[0][1]:
        heads = {place.headings[0] for place in places if place is not None and place.headings}
        return (start, end) if any(_is_healed(text, *head) for head in heads) else None
    is_going_on = _is_found(text, end) is None and _were(text[max(start - 20, 0) : start]) is not None
    return (start, end) if is_going_on else None


_is_row = late(r"[\s|]*healing\s*(?:\||\t| {2,})", re.IGNORECASE).match
_is_healed_row = late(r"^[^\S\n|]*\|?[^\S\n]*healed\s*(?:\||\t| {2,})", re.IGNORECASE | re.MULTILINE).search
_is_healed = late(r"healed\b[^|\n]*", re.IGNORECASE).fullmatch
_were = late(r"\b(?:were|was|are|is)\s+(?:still\s+)?$", re.IGNORECASE).search
_is_found = late(
    r"\s+(?:(?:only|first|also|never|not|then)\s+)?(?:seen|found|\w+ed\b|complete|present|evident|absent|taking)",
    re.IGNORECASE,
).match
""" "Was healing seen": no verb that goes on."""
