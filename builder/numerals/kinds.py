"""The kinds of piece that a text falls into, and how a pattern over them is written."""

from __future__ import annotations

from enum import StrEnum, auto

from ..compiled_patterns import compiled


class Kind(StrEnum):
    """What a piece of text is to the numbers beside it.

    A text in kinds is a string, so that a form of print can be a regular expression over it (see `pattern`). Which
    letter stands for which kind is known to this class alone.
    """

    @staticmethod
    def _generate_next_value_(name: str, start: int, count: int, last_values: list[str]) -> str:
        return "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"[count]

    NUMBER = auto()
    """ "39", "4·3", "twelve", "none"."""
    PERCENT = auto()
    """ "%", "per cent"."""
    UNIT = auto()
    """What is counted or measured in: "eyes", "months", "mm"."""
    OF = auto()
    """ "of", "out of"."""
    SLASH = auto()
    TO = auto()
    """ "to", "through"."""
    DASH = auto()
    COMPARATOR = auto()
    """Before its number: "<", "over", "at least"."""
    OR_MORE = auto()
    """Behind its number: "or more", "or less"."""
    CI = auto()
    """ "CI", "confidence interval"."""
    MEASURE = auto()
    """A ratio or difference by its name: "OR", "hazard ratio"."""
    P_SIGN = auto()
    """ "P", "p-value"."""
    N_SIGN = auto()
    """ "n", "N"."""
    ROLE = auto()
    """A word that says what a number is: "healed", "median"."""
    LABEL = auto()
    """A number straight behind it is a name: "Table"; also "per"."""
    ADJECTIVE = auto()
    """May stand between a number and what it counts: "consecutive"."""
    FILLER = auto()
    """Says nothing: "the", "were"."""
    ALL = auto()
    """ "all", "each of"; "any of", which behind "not" is none."""
    AND = auto()
    BETWEEN = auto()
    PLUS_MINUS = auto()
    EQUALS = auto()
    WORD = auto()
    """Any other word."""
    ROUND_OPEN = auto()
    ROUND_CLOSE = auto()
    SQUARE_OPEN = auto()
    SQUARE_CLOSE = auto()
    COMMA = auto()
    SEMICOLON = auto()
    COLON = auto()
    STOP = auto()


_GROUP = compiled(r"\((?!\?)")
_NAMED = compiled(r"\b([a-z_]+):([A-Z][A-Z_]+|\[[A-Z_ ]+\])")
_KIND = compiled(r"\b[A-Z][A-Z_]+\b")


def pattern(written: str, name: str = "") -> str:
    """A regular expression over kinds, from one that is written with their names.

    "events:NUMBER [UNIT ROLE]{0,3} OF total:NUMBER" is a number, up to three units or role words, "of", a number; the
    two numbers are groups named `events` and `total`, behind `name` and an underscore. Everything else is as in `re`,
    but blanks only part names, and a plain bracket makes no group of its own.
    """
    found = _GROUP.sub("(?:", written)
    found = _NAMED.sub(rf"(?P<{name}_\1>\2)", found)
    return "".join(_KIND.sub(lambda kind: Kind[kind[0]].value, found).split())
