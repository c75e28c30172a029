"""What a field takes, in words for whoever fills it in."""

from __future__ import annotations

from ..reading.kinds import Block, Chosen, Either, Kind, Many, Named, Suggested, Text, kind_of
from ..reading.parsing import MISSING
from ..records import NamedTuple
from .files import block_name

NOT_REPORTED = "not reported"
"""Stands for all three missing values."""


class Taken(NamedTuple):
    """One piece of what a field takes: words, or one word that is typed as it stands, then the block that it names."""

    words: str
    block: str = ""
    """By its name in `BLOCKS`; "" for none."""
    is_typed: bool = False


_NOT_REPORTED = Taken(NOT_REPORTED, is_typed=True)


def taken(kind: Kind, *, of_many: bool = False) -> list[Taken]:
    """What a value of this kind is, in pieces to be set one behind the other.

    of_many: in the words for several.
    """
    if isinstance(kind, Text):
        what = f"an {kind.what}" if kind.what.startswith("id") else kind.what
        return [Taken(what), *([Taken(", or "), _NOT_REPORTED] if kind.missing else [])]
    if isinstance(kind, Chosen):
        return _chosen(kind)
    if isinstance(kind, Suggested):
        such = [Taken(", such as "), *_listed(kind.values)] if kind.values else []
        return [Taken(kind.what), *such, *([Taken(", or "), _NOT_REPORTED] if kind.missing else [])]
    if isinstance(kind, Block):
        return [Taken("" if of_many else "a block, ", block_name(kind.form))]
    if isinstance(kind, Named):
        return [Taken("by name, each ", block_name(kind.form))]
    if isinstance(kind, Many):
        return _many(kind)
    if isinstance(kind, Either):
        return _either(kind)
    return [Taken(kind.what)]


def _listed(values: tuple[str, ...]) -> list[Taken]:
    out = [Taken(values[0], is_typed=True)]
    for value in values[1:]:
        out.extend((Taken(", "), Taken(value, is_typed=True)))
    return out


def _chosen(kind: Chosen) -> list[Taken]:
    values = (*kind.values, *((NOT_REPORTED,) if kind.missing else ()))
    if len(values) <= 2:
        return _listed(values) if len(values) == 1 else [*_listed(values[:1]), Taken(" or "), *_listed(values[1:])]
    return [Taken("one of: "), *_listed(values)]


def _many(kind: Many) -> list[Taken]:
    items = taken(kind_of(kind.item), of_many=True)
    ending = [Taken("; one may stand alone")] if kind.single else []
    return [Taken("a list of: "), *items, *ending]


def _either(kind: Either) -> list[Taken]:
    out: list[Taken] = []
    for read in kind.readers:
        found = kind_of(read)
        is_missing = isinstance(found, Chosen) and set(found.values) == MISSING
        out.extend([Taken(", or ")] if out else [])
        out.extend([_NOT_REPORTED] if is_missing else taken(found))
    return out
