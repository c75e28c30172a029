"""Every difference between two versions of a guide, what is turned round first."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from difflib import SequenceMatcher
from typing import TypeVar

from ..records import NamedTuple
from .facts import Direction, Facts, PageText
from .parts import Part
from .same import same

T = TypeVar("T")


class Move(NamedTuple):
    """One thing that is not what it was."""

    of: str
    """What moved, in words."""
    before: str
    """"" where it is new."""
    after: str
    """"" where it is gone."""


class PageMove(NamedTuple):
    """A page that is not what it was."""

    path: str
    """Under site/."""
    title: str
    kind: str
    state: str
    """new, gone or changed."""
    lines: tuple[Move, ...]
    """Lines of a page that was there before and still is."""


class PartMove(NamedTuple):
    """A plot or a sheet that is not what it was."""

    path: str
    """Of its page, under site/."""
    page: str
    """The title of that."""
    title: str
    kind: str
    """plot or sheet."""
    state: str
    """new, gone or changed."""


class FigureMove(NamedTuple):
    """A row of the ledger that is not what it was."""

    id: str
    before: Mapping[str, object] | None
    after: Mapping[str, object] | None


class Impact(NamedTuple):
    """All that a change moves."""

    turned_round: tuple[Move, ...]
    """Comparisons whose studies now point the other way, then single studies that do."""
    directions: tuple[Move, ...]
    """All other comparisons that lie otherwise, or less or more clearly."""
    pooled: tuple[Move, ...]
    certainty: tuple[Move, ...]
    gaps: tuple[Move, ...]
    overlaps: tuple[Move, ...]
    figures: tuple[FigureMove, ...]
    pages: tuple[PageMove, ...]
    parts: tuple[PartMove, ...]
    """Plots and sheets."""

    @property
    def is_nothing(self) -> bool:
        """True where no reader meets anything else than before."""
        return not any(self)


def moves_between(old: Facts, new: Facts) -> Impact:
    """Every difference, in the order of names."""
    pages = tuple(_pages(old.pages, new.pages))
    directions = list(_both(old.directions, new.directions))
    turned = [(one, other) for one, other in directions if _is_turned(one, other)]
    return Impact(
        (
            *(_direction_move(*both) for both in turned),
            *(move for both in directions for move in _turned_studies(*both)),
        ),
        tuple(_direction_move(*both) for both in directions if both not in turned),
        tuple(_named(old.pooled, new.pooled)),
        tuple(_named(old.certainty, new.certainty)),
        tuple(move for page in pages if page.kind == "gaps" for move in page.lines),
        tuple(Move(said or was, was, said) for was, said in _texts(old.overlaps, new.overlaps)),
        tuple(FigureMove(name, *both) for name, both in _differing(old.figures, new.figures)),
        pages,
        tuple(_parts(old.parts, new.parts)),
    )


def _differing(old: Mapping[str, T], new: Mapping[str, T]) -> Iterator[tuple[str, tuple[T | None, T | None]]]:
    for name in sorted(old.keys() | new.keys()):
        both = old.get(name), new.get(name)
        if both[0] != both[1]:
            yield name, both


def _both(old: Mapping[str, T], new: Mapping[str, T]) -> Iterator[tuple[T | None, T | None]]:
    for _, both in _differing(old, new):
        yield both


def _texts(old: Mapping[str, str], new: Mapping[str, str]) -> Iterator[tuple[str, str]]:
    for was, said in _both(old, new):
        yield was or "", said or ""


def _named(old: Mapping[str, tuple[str, str]], new: Mapping[str, tuple[str, str]]) -> Iterator[Move]:
    for was, said in _both(old, new):
        title = (said or was or ("", ""))[0]
        yield Move(title, was[1] if was else "", said[1] if said else "")


_SIDES = {"better", "worse"}


def _is_turned(old: Direction | None, new: Direction | None) -> bool:
    """True where all studies pointed to one side and now all point to the other, or most of them do."""
    if old is None or new is None:
        return False
    if {old.verdict, new.verdict} == _SIDES:
        return True
    was, is_now = old.better - old.worse, new.better - new.worse
    return was * is_now < 0


def _turned_studies(old: Direction | None, new: Direction | None) -> Iterator[Move]:
    """Studies of a comparison that were on one side of it and are now on the other."""
    if old is None or new is None:
        return
    was = dict(old.sides)
    for key, side in new.sides:
        if {was.get(key), side} == _SIDES:
            yield Move(f"{new.question}: {new.title}, {key} alone", f"on the {was[key]} side", f"on the {side} side")


def _direction_move(old: Direction | None, new: Direction | None) -> Move:
    named = new or old
    assert named is not None
    return Move(f"{named.question}: {named.title}", _lies(old), _lies(new))


def _lies(item: Direction | None) -> str:
    """The sentence of the guide, and how many studies stand behind it on each side."""
    if item is None:
        return ""
    sides = ((item.better, "better"), (item.worse, "worse"), (item.level, "neither"))
    told = ", ".join(f"{number} {side}" for number, side in sides if number) or "none with a number"
    return f"{item.says} (studies: {told}; clear by themselves: {item.clear})"


def _pages(old: Mapping[str, PageText], new: Mapping[str, PageText]) -> Iterator[PageMove]:
    for path, (was, said) in _differing(old, new):
        page = said or was
        assert page is not None
        state = "new" if was is None else "gone" if said is None else "changed"
        lines = tuple(_lines(was.lines, said.lines)) if was is not None and said is not None else ()
        yield PageMove(path, page.title, page.kind, state, lines)


def _parts(old: Mapping[str, Part], new: Mapping[str, Part]) -> Iterator[PartMove]:
    for name, (was, said) in _differing(old, new):
        # Where a number is typed moves with every line above it, and nobody sees that in a drawing.
        if was is not None and said is not None and same(was, said):
            continue
        part = said or was
        assert part is not None
        state = "new" if was is None else "gone" if said is None else "changed"
        yield PartMove(name.partition("#")[0], part.page, part.title, part.kind, state)


def _lines(old: tuple[str, ...], new: tuple[str, ...]) -> Iterator[Move]:
    """Lines that are not what they were, beside those in whose place they stand."""
    for kind, start, end, first, last in SequenceMatcher(None, old, new, autojunk=False).get_opcodes():
        if kind == "equal":
            continue
        was, said = old[start:end], new[first:last]
        for place in range(max(len(was), len(said))):
            yield Move("", was[place] if place < len(was) else "", said[place] if place < len(said) else "")
