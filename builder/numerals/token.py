"""A number as it was printed: its place, value, unit, precision and what it counts."""

from __future__ import annotations

from decimal import Decimal


class Token:
    """One number in a text. Nothing is guessed: what the text does not show is "" or "none".

    `read_numerals` makes them; whoever is handed one leaves it as it is.
    """

    start: int
    """Offset of the number itself (its sign or first digit, not its comparator) in the text as typed."""
    end: int
    value: Decimal
    """4.3 for "4·3", 1125 for "1,125", 0.02 for ".02", 12 for "twelve"; a length in two units counts in the smaller."""
    decimals: int
    """Digits behind the decimal sign as printed: 2 for "5.40"."""
    text: str
    """As printed, with its sign and TeX forms resolved only by `value`."""
    unit: str
    """%, a unit of the trade ("eye"), day, week, month, year, mm, minute, "other" (a unit that none of our figures
    has, such as cm), or "none"."""
    kind: str
    """percent, count, length, size, minutes, ratio, p, confidence (the 95 of "95% CI"), interval (an end of one),
    number, calendar (a year such as 2012), or unreadable."""
    role: str
    """What the words beside it say it is, in lower case as printed ("healed", "lost", "due", "median", "or"); "" where
    nothing is said."""
    comparator: str
    """"<", "<=", ">", ">=" or ""; "up to", "at most" are "<=", "over", "more than" are ">"."""
    pair: int
    """Index (in the tuple returned) of the other half of "n of N", "n/N" or of a range "a to b"; -1 where alone."""
    outer_start: int
    """Where what belongs to the printed number begins: its comparator, where it has one."""
    outer_end: int
    """Where it ends, a percent sign that follows at once included, other units not."""
    shown: str
    """What a page prints for text[outer_start:outer_end]: TeX resolved, signs as printed: "83%", "< .05", "1,125"."""
    part: str
    """With `pair`: "events" or "total" of an n of N, "low" or "high" of a range or interval."""
    roles: tuple[str, ...]
    """What the words of `role` stand for, one word for all its forms: "examined" for "recalled", see `words.ROLES`."""
    of_whole: tuple[str, ...]
    """Those of `roles` that say what was counted from: "treated" of "39 of 47 eyes treated by residents healed"."""
    stands_for: str
    """ "hour" where the unit stands elsewhere and `value` was reckoned from it: the 24 of "24 to 48 hours" is one day,
    and a page that shows it says hours."""
    measure: str
    """Of a ratio or difference, by its whole name: "hazard ratio" for "aHR"."""

    # No dataclass: to import that module and all that it imports takes a thirtieth of a small check.
    __slots__ = tuple(__annotations__)

    def __repr__(self) -> str:
        return f"{type(self).__name__}({self.text!r}, {self.value}, {self.unit}, {self.kind}, at {self.start})"
