"""What each reader takes, noted beside it: from this the form describes itself to people and to their editors.

Nothing of it is asked while evidence is read.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from ..records import NamedTuple

Reader = Callable[[Any, Any], Any]
"""Takes a node of the YAML and the file it stands in."""


class Text(NamedTuple):
    """One text of a certain form."""

    what: str = "words"
    """With its article where it has one: "a whole number"."""
    pattern: str = ""
    """What the whole of it matches, for Python and ECMA-262 alike; "" for any text."""
    plain: tuple[int | None, int | None] | None = None
    """The lowest and highest number that it may be, where YAML may take it for a number; None: for none."""
    is_whole: bool = False
    """True where a number has no decimals."""
    reserved: tuple[str, ...] = ()
    """What it may not be."""
    missing: bool = False
    """Or one of the three missing values."""


class Chosen(NamedTuple):
    """A word of a closed list."""

    values: tuple[str, ...]
    missing: bool = False


class Suggested(NamedTuple):
    """A word of a list that a compendium may lengthen."""

    what: str
    values: tuple[str, ...]
    missing: bool = False


class Many(NamedTuple):
    """A list."""

    item: Reader
    single: bool = False
    """One item may stand alone."""
    least: int = 0
    most: int = 0
    """0: no limit."""


class Either(NamedTuple):
    """What any of these readers takes."""

    readers: tuple[Reader, ...]


class Block(NamedTuple):
    """The fields of a form."""

    form: Any


class Named(NamedTuple):
    """Blocks of one form under their names."""

    form: Any
    any_name: bool
    """The names are initials or keys, and not ids of ours."""
    reserved: tuple[str, ...]
    most: int = 0


class Table(NamedTuple):
    """Free names with a text each."""

    what: str = "names of your own, each with a text"


Kind = Text | Chosen | Suggested | Many | Either | Block | Named | Table


def noted(read: Reader, kind: Kind) -> Reader:
    """The reader, with what it takes noted on it."""
    vars(read)[_NOTE] = kind
    return read


def taking(kind: Kind) -> Callable[[Reader], Reader]:
    """Notes what the reader below takes."""
    return lambda read: noted(read, kind)


def kind_of(read: Reader) -> Kind:
    """What a reader takes. Raises KeyError for one that does not say so."""
    form = getattr(read, "__self__", None)
    kind: Kind = Block(form) if form is not None else vars(read)[_NOTE]
    return kind


_NOTE = "takes"
