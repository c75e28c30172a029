"""Do two values say the same, wherever they stand in their files?"""

from __future__ import annotations

from collections.abc import Mapping

from ..problems import Position


def same(one: object, other: object) -> bool:
    """True where both hold the same, places in files left aside: a line put in above moves all that stands below."""
    if one is other or isinstance(one, Position):
        return True
    if type(one) is not type(other):
        return False
    if isinstance(one, tuple) and isinstance(other, tuple):
        return len(one) == len(other) and all(map(same, one, other))
    if isinstance(one, Mapping) and isinstance(other, Mapping):
        return list(one) == list(other) and all(map(same, one.values(), other.values()))
    return one == other


def changed(one: Mapping[str, object], other: Mapping[str, object]) -> set[str]:
    """Names that only one of them has, or under which they do not say the same."""
    there = one.keys() & other.keys()
    return (one.keys() ^ other.keys()) | {name for name in there if not same(one[name], other[name])}
