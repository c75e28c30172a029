"""Ratios and differences between a level and its reference, and what a review pooled."""

from __future__ import annotations

from typing import Any

from ..problems import error, with_article
from .fields import (
    MISSING,
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
from .interval_fields import any_interval
from .kinds import Either, taking
from .refusals import refuse
from .report_model import Absolute, Contrast, Margin, Pooled
from .values import Missing, Percentage
from .yaml_text import ScalarNode, Sheet

RATIOS = ("odds ratio", "risk ratio", "hazard ratio")
"""Of these 1 means no difference; differences and fractions have it at 0."""
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

MARGIN = Form(
    "`margin`",
    Margin,
    Slot("value", measure, required=True),
    Slot("by", words),
    Slot("sides", one_of("one", "two")),
    Slot("where", locator),
    Slot("in_words", own_words, instead=()),
)

_names = list_of(words, "words")


@taking(Either((one_of("none", missing=True), _names)))
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
            node,
            "missing-field",
            f"a contrast with {with_article(measure_name)} needs `event_is`: good or bad",
            "event_is: good, where it is good for whom it befalls, else bad",
        )
    if typed & _CONFIDENCE and not typed & _INTERVAL:
        tells = "a contrast has `confidence` without the `interval` it belongs to"
        sheet.error(node, "field-not-here", tells, "delete it, or type the interval")
    value = values[2]
    if measure_name in (*RATIOS, "mean difference") and value.__class__ is Percentage:
        sheet.error(
            node,
            "not-a-number",
            f'"{value.text}" is not {with_article(measure_name)}: only a difference or a fraction is given in per cent',
            "look at `measure`: risk difference and prevented fraction may be in per cent",
        )
        values[2] = Missing("", value.position)
    elif measure_name in RATIOS and value.text[:1] in ("-", "−"):
        tells = f'"{value.text}" is not {with_article(measure_name)}: a ratio is above zero'
        sheet.error(node, "not-a-number", tells, "look at `measure`: a difference may be below zero")
    if values[_MARGIN] is not None:
        event_is = values[_EVENT_IS_AT]
        _check_margin(values[_MARGIN], measure_name, event_is.text if event_is is not None else "", sheet)


_LIMIT = "type the limit that was fixed beforehand, as the paper prints it"


def _check_margin(margin: Margin, measure_name: str, event_is: str, sheet: Sheet) -> None:
    """A margin lies on the side of harm, of which a ratio's event tells which it is."""
    value = margin.value
    if isinstance(value, Missing):
        return
    says = f'"{value.text}" cannot be the margin of {with_article(measure_name)}'
    if measure_name not in RATIOS:
        if not value.value:
            sheet.problems.append(
                error(value.position, "margin-side", f"{says}: at nothing lies no difference", _LIMIT)
            )
        return
    if value.__class__ is Percentage or value.value <= 0:
        sheet.problems.append(error(value.position, "margin-side", f"{says}: a ratio is a number above zero", _LIMIT))
    elif value.value == 1:
        sheet.problems.append(error(value.position, "margin-side", f"{says}: at 1 lies no difference", _LIMIT))
    elif (margin.sides is None or margin.sides.text == "one") and event_is and (value.value > 1) != (event_is == "bad"):
        side = "above" if event_is == "bad" else "below"
        tells = f"{says}: of {event_is} events harm lies {side} 1"
        hint = "type the limit on the side of harm, or `sides: two` where it was fixed for both"
        sheet.problems.append(error(value.position, "margin-side", tells, hint))


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
    Slot("margin", MARGIN.read),
    Slot("pooled", POOLED.read),
    Slot("as", own_words, attribute="counted_as", instead=()),
    Slot("where", locator),
    Slot("in_words", own_words, instead=()),
    then=_check_contrast,
)
_MARGIN, _EVENT_IS_AT = CONTRAST.index["margin"], CONTRAST.index["event_is"]
_EVENT_IS, _CONFIDENCE, _INTERVAL = CONTRAST.bits("event_is"), CONTRAST.bits("confidence"), CONTRAST.bits("interval")
