"""The numbers of one claim, or of one study's facts, as they are gathered from its fields."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache

from ...numerals import Lexicon, read_numerals
from ...problems import Position
from ...reading.model import Outcome
from ...reading.values import Ends, Length, Number, Percentage, PValue, Range, Words
from .field_roles import ROLES, Quoted

# The same few wordings of levels stand in every claim of a compendium.
_numbers_in = lru_cache(maxsize=4096)(read_numerals)


class Gathered:
    """The quoted numbers of one scope, in the order of the form. A field that holds no number adds nothing."""

    __slots__ = ("lexicon", "outcomes", "quoted")

    def __init__(self, lexicon: Lexicon, outcomes: Mapping[str, Outcome]) -> None:
        self.quoted: list[Quoted] = []
        self.lexicon = lexicon
        self.outcomes = outcomes

    def count(
        self, figure: str, name: str, value: object, role: str, unit: str, where: Words, level: str = "",
        side: str = "", *, leads: bool = False,
    ) -> None:  # fmt: skip
        """A whole number of units."""
        if type(value) is Number:
            self.quoted.append(
                Quoted(
                    figure, value.position, name, value.text, value.value, value.decimals, unit, ROLES[role], where,
                    leads=leads, level=level, side=side,
                )
            )  # fmt: skip

    def percent(
        self, figure: str, name: str, value: object, role: str, where: Words, level: str = "", side: str = ""
    ) -> None:
        """A percentage."""
        if type(value) is Percentage:
            self.quoted.append(
                Quoted(
                    figure, value.position, name, value.text, value.value, value.decimals, "%", ROLES[role], where,
                    level=level, side=side,
                )
            )  # fmt: skip

    def ends(self, figure: str, value: object, unit: str, where: Words, level: str = "") -> None:
        """The two ends of an interval."""
        if type(value) is Ends:
            for part, end in (("low", value.low), ("high", value.high)):
                self.quoted.append(
                    Quoted(
                        f"{figure}/{part}", end.position, "interval", end.text, end.value, end.decimals, unit,
                        ROLES["interval"], where, leads=part == "low", level=level, part=part,
                    )
                )  # fmt: skip

    def measured(self, figure: str, name: str, value: object, unit: str, where: Words, level: str) -> None:
        """The mean, median or deviation of what was measured in a level."""
        if type(value) is Number:
            self.quoted.append(
                Quoted(
                    figure, value.position, name, value.text, value.value, value.decimals, unit,
                    ROLES[f"level {name}"], where, level=level,
                )
            )  # fmt: skip

    def quartiles(self, figure: str, value: object, unit: str, where: Words, level: str) -> None:
        """The two ends of an interquartile range."""
        if type(value) is Ends:
            for part, end in (("low", value.low), ("high", value.high)):
                self.quoted.append(
                    Quoted(
                        f"{figure}/{part}", end.position, "iqr", end.text, end.value, end.decimals, unit,
                        ROLES["level iqr"], where, leads=part == "low", level=level, part=part,
                    )
                )  # fmt: skip

    def p_value(self, figure: str, value: object, where: Words) -> None:
        """A P value with its comparator."""
        if type(value) is PValue:
            self.quoted.append(
                Quoted(
                    figure, value.position, "p", value.text, value.value, value.decimals, "P", ROLES["p"], where,
                    comparator=value.comparator,
                )
            )  # fmt: skip

    def ratio(self, figure: str, value: Number, measure: str, role: str, where: Words) -> None:
        """A ratio or difference."""
        self.quoted.append(
            Quoted(
                figure, value.position, "value", value.text, value.value, value.decimals, measure, ROLES[role], where
            )
        )  # fmt: skip

    def length(
        self, figure: str, name: str, value: object, where: Words, part: str = "", *, leads: bool = False
    ) -> None:
        """A length of time."""
        if type(value) is Length:
            self.quoted.append(
                Quoted(
                    f"{figure}/{name}", value.position, name, value.text, value.value, value.decimals, value.unit,
                    ROLES[name], where, leads=leads, part=part,
                )
            )  # fmt: skip

    def wording(self, figure: str, name: str, words: Words, where: Words, role: str = "bound") -> None:
        """The numbers in the words of a level: "over 3 mm"."""
        text = words.text
        tokens = _numbers_in(text, self.lexicon)
        is_pair = len(tokens) == 2 and tokens[0].pair == 1
        open_end = ">=" if len(tokens) == 1 and text.startswith("from ") else ""
        file, line, column = words.position
        for number, token in enumerate(tokens, start=1):
            step = figure
            if len(tokens) == 2:
                step = f"{figure}/{'low' if number == 1 else 'high'}"
            elif len(tokens) > 2:
                step = f"{figure}/{number}"
            self.quoted.append(
                Quoted(
                    step, Position(file, line, column + token.start), name, text, token.value, token.decimals,
                    token.unit, ROLES[role], where, comparator=token.comparator or open_end,
                    leads=is_pair and number == 1, part=token.part,
                )
            )  # fmt: skip

    def range(self, figure: str, bounds: Range, where: Words) -> None:
        """The bounds of a level that its wording does not hold."""
        both = bounds.low is not None and bounds.high is not None
        for part, value, sign in (
            ("low", bounds.low, ">=" if bounds.low_included else ">"),
            ("high", bounds.high, "<=" if bounds.high_included else "<"),
        ):
            if value is None:
                continue
            exponent = value.as_tuple().exponent
            self.quoted.append(
                Quoted(
                    f"{figure}/{part}" if both else figure, bounds.position, "range", bounds.text, value,
                    max(-exponent, 0) if isinstance(exponent, int) else 0, bounds.unit, ROLES["bound"], where,
                    comparator="" if both else sign, leads=both and part == "low", part=part if both else "",
                )
            )  # fmt: skip
