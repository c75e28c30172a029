"""Readers of confidence intervals: of percentages, of plain numbers, or of either."""

from __future__ import annotations

from typing import Any

from . import parsing
from .fields import MISSING, beyond_of, position_of
from .kinds import Reader, Text, noted
from .refusals import refuse, shortened
from .values import Ends, Missing, Number, Percentage
from .yaml_text import ScalarNode, SequenceNode, Sheet

_new = tuple.__new__


def _ends(*, percent: bool, plain: bool) -> Reader:
    """An interval: of percentages, of plain numbers, or of either."""
    example = "62% to 80%" if percent else "1.2 to 7.1"
    if percent and plain:
        example += " or 1.2 to 7.1"
    pattern = f"{parsing.SHARE_ENDS}|{parsing.PLAIN_ENDS}" if percent else parsing.PLAIN_ENDS

    def read(node: Any, sheet: Sheet) -> Any:
        if node.__class__ is not ScalarNode or not node.value.strip():
            return refuse(node, sheet, f"an interval such as {example}", _ends_of_list(node, example, percent))
        text = node.value
        found = parsing.interval(text)
        if found is None:
            if text in MISSING:
                return Missing(text, position_of(node, sheet))
            if (beyond := beyond_of(text, Ends)) is not None:
                return sheet.error(node, "beyond-limit", *beyond)
            return sheet.error(
                node,
                "not-an-interval",
                f'"{shortened(text)}" is not an interval such as {example}',
                _ends_meant(text, example, percent),
            )
        low, high, is_percent = found
        if is_percent and not percent:
            hint = f"did you mean {text.replace('%', '')}?"
            return sheet.error(node, "not-an-interval", f'"{text}" should be written like {example}', hint)
        position = position_of(node, sheet)
        make: Any = Percentage if is_percent else Number
        sign = "%" if is_percent else ""
        first = make(low + sign, position, *parsing.number(low) or ())
        place = position._replace(column=position.column + text.index(" to ") + 4 + (node.style not in ("", None)))
        second = make(high + sign, place, *parsing.number(high) or ())
        if first.value > second.value:
            hint = f"look at the paper again; did you mean {high}{sign} to {low}{sign}?"
            return sheet.error(node, "interval-reversed", f'"{text}": the lower end comes first', hint)
        if not is_percent and not plain and second.value > LARGEST_FRACTION:
            hint = f"did you mean {text.replace(' to ', '% to ', 1)}%?"
            return sheet.error(node, "not-an-interval", f'"{text}" should be written like {example}', hint)
        return _new(Ends, (text, position, first, second))

    what = "an interval" if percent and plain else "an interval of percentages" if percent else "an interval of numbers"
    return noted(read, Text(f"{what} such as {example}", pattern, missing=True))


def _ends_of_list(node: Any, example: str, percent: bool) -> str:
    """What to type in place of a list of two ends; "" for what is none."""
    if node.__class__ is not SequenceNode:
        return ""
    return _ends_meant(" to ".join(each.value for each in node.value if each.__class__ is ScalarNode), example, percent)


def _ends_meant(text: str, example: str, percent: bool) -> str:
    from .likely_values import interval_meant  # only a message needs it

    return interval_meant(text, example, percent=percent)


# Some papers print the interval of a share as fractions of one, and some print limits that no share can have: both are
# typed as printed, and the audit asks about the second. Beyond this, a percent sign was forgotten.
LARGEST_FRACTION = 2

share_interval = _ends(percent=True, plain=False)
any_interval = _ends(percent=True, plain=True)
plain_interval = _ends(percent=False, plain=True)
