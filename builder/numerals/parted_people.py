"""Whether a mean or median is where people were parted, and no figure of theirs: "older than the median"."""

from __future__ import annotations

from .kinds import Kind
from .printed import Printed


def parts_people(printed: Printed, word: str, place: int) -> bool:
    """ "Older versus younger than the median: HR 1.38": nobody says that 1.38 is a median."""
    if printed.lexicon.all_roles.get(word) not in ("median", "mean"):
        return False
    before = (place - 2, place - 1)
    is_compared = Kind.COMPARATOR in map(printed.kind, before)  # "younger than the"
    if not is_compared and _PARTING.isdisjoint(map(printed.word, before)):
        return False
    behind = printed.kinds[place + 1 : place + 3]
    if not behind or behind[0] not in (Kind.OF, Kind.EQUALS, Kind.NUMBER, Kind.ROUND_OPEN):
        return True
    if behind[0] == Kind.ROUND_OPEN:  # "longer than the median (31 months)", "... than the mean (older as reference)"
        return behind[1:] != Kind.NUMBER
    start, end = printed.spans[place][1], printed.spans[place + 1][0]
    return "|" in printed.text[start:end]


_PARTING = frozenset({"than", "above", "below", "over", "under", "around", "exceeding"})
