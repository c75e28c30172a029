"""Ratios and differences between a level and its reference, and what a review pooled."""

from __future__ import annotations

from typing import Any

from ..problems import with_article
from .fields import (
    MISSING,
    any_interval,
    confidence,
    count,
    list_of,
    locator,
    measure,
    number,
    one_of,
    own_words,
    p_value,
    percentage,
    words,
    words_or_missing,
)
from .form import MISSING_INSTEAD, Form, Slot
from .refusals import refuse
from .report_model import Absolute, Contrast, Pooled
from .values import Missing, Percentage
from .yaml_text import ScalarNode, Sheet

RATIOS = ("odds ratio", "risk ratio", "hazard ratio")
MEASURES = (*RATIOS, "risk difference", "mean difference", "prevented fraction")
"""What a contrast may be measured by."""

POOLED = Form(
    "`pooled`",
    Pooled,
    Slot("studies", count),
    Slot("of", count),
    Slot("model", words_or_missing),
    Slot("i2", percentage),
    Slot("sd", percentage),
    Slot("where", locator),
    Slot("in_words", own_words, instead=()),
)

ABSOLUTE = Form(
    "`absolute`",
    Absolute,
    Slot("per", number, required=True, instead=MISSING_INSTEAD),
    Slot("reference", number),
    Slot("level", number),
    Slot("interval", any_interval),
    Slot("where", locator),
    Slot("in_words", own_words, instead=()),
)

_names = list_of(words, "words")


def _adjusted_for(node: Any, sheet: Sheet) -> Any:
    if node.__class__ is ScalarNode and node.value:
        if node.value in MISSING or node.value == "none":
            return words_or_missing(node, sheet)
        return refuse(node, sheet, "none, not reported, or a list such as [age, size]")
    return _names(node, sheet)


def _check_contrast(values: list[Any], typed: int, node: Any, sheet: Sheet) -> None:
    measure_name = values[1].text
    if measure_name in RATIOS and not typed & _EVENT_IS:
        sheet.error(
            node, "missing-field", f"a contrast with {with_article(measure_name)} needs `event_is`: good or bad"
        )
    if typed & _CONFIDENCE and not typed & _INTERVAL:
        sheet.error(node, "field-not-here", "a contrast has `confidence` without the `interval` it belongs to")
    value = values[2]
    if measure_name in (*RATIOS, "mean difference") and value.__class__ is Percentage:
        sheet.error(
            node,
            "not-a-number",
            f'"{value.text}" is not {with_article(measure_name)}: only a difference or a fraction is given in per cent',
        )
        values[2] = Missing("", value.position)
    elif measure_name in RATIOS and value.text[:1] in ("-", "−"):
        sheet.error(node, "not-a-number", f'"{value.text}" is not {with_article(measure_name)}: a ratio is above zero')


CONTRAST = Form(
    "`contrast`",
    Contrast,
    Slot("measure", one_of(*MEASURES), required=True),
    Slot("value", measure, required=True, instead=MISSING_INSTEAD),
    Slot("interval", any_interval),
    Slot("confidence", confidence),
    Slot("p", p_value),
    Slot("level", words),
    Slot("reference", words_or_missing),
    Slot("per", words),
    Slot("event", words),
    Slot("event_is", one_of("good", "bad")),
    Slot("adjusted_for", _adjusted_for, required=True, instead=MISSING_INSTEAD),
    Slot("model", words_or_missing),
    Slot("proportional", one_of("yes", "no", missing=True)),
    Slot("unit", words_or_missing),
    Slot("absolute", ABSOLUTE.read),
    Slot("pooled", POOLED.read),
    Slot("as", own_words, attribute="counted_as", instead=()),
    Slot("where", locator),
    Slot("in_words", own_words, instead=()),
    then=_check_contrast,
)
_EVENT_IS, _CONFIDENCE, _INTERVAL = CONTRAST.bits("event_is"), CONTRAST.bits("confidence"), CONTRAST.bits("interval")
