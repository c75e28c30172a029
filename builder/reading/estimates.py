"""Time in a report: how long units were followed, and estimates at a time."""

from __future__ import annotations

from typing import Any

from .fields import (
    MISSING,
    confidence,
    count,
    length,
    length_only,
    list_of,
    locator,
    missing_value,
    one_of,
    own_words,
    percentage,
    words,
    words_or_missing,
)
from .form import MISSING_INSTEAD, Form, Slot
from .interval_fields import share_interval
from .kinds import Either, taking
from .report_model import Estimate, FollowUp
from .yaml_text import ScalarNode, Sheet

_LENGTHS = ("at", "tolerance", "minimum", "maximum", "mean", "median", "sd")


def _check_follow_up(values: list[Any], typed: int, node: Any, sheet: Sheet) -> None:
    timing = values[2].text
    if timing in ("at", "by"):
        if not typed & _AT:
            tells = f"`follow_up` with `timing: {timing}` needs the time of the follow-up (`at`)"
            sheet.error(node, "missing-field", tells, "at: 12 months")
        if timing == "by" and typed & _TOLERANCE:
            tells = "`tolerance` is allowed only with `timing: at`"
            sheet.error(node, "field-not-here", tells, "delete it, or type timing: at")
    elif timing and typed & (_AT | _TOLERANCE):
        name = "at" if typed & _AT else "tolerance"
        tells = f"`{name}` is allowed only with `timing: at` or `timing: by`, not with `timing: {timing}`"
        sheet.error(node, "field-not-here", tells, "type minimum, median, mean or maximum, or another `timing`")


FOLLOW_UP = Form(
    "`follow_up`",
    FollowUp,
    Slot("from", words_or_missing, required=True, attribute="start", instead=MISSING_INSTEAD),
    Slot(
        "timing",
        one_of("at", "by", "last recall", "at least", missing=True),
        required=True,
        instead=MISSING_INSTEAD,
    ),
    *(Slot(name, length) for name in _LENGTHS),
    Slot("where", locator),
    Slot("in_words", own_words, instead=()),
    then=_check_follow_up,
)
_AT, _TOLERANCE = FOLLOW_UP.bits("at"), FOLLOW_UP.bits("tolerance")

_competing = list_of(words, "words", single=True)


@taking(Either((missing_value, _competing)))
def _read_competing(node: Any, sheet: Sheet) -> Any:
    is_missing = node.__class__ is ScalarNode and node.value in MISSING
    return words_or_missing(node, sheet) if is_missing else _competing(node, sheet)


def _check_estimate(values: list[Any], typed: int, node: Any, sheet: Sheet) -> None:
    if values[1].text == "yearly rate":
        return
    if not typed & _ESTIMATE_AT:
        tells = f'an estimate of the kind "{values[1].text}" needs the time that it is for (`at`)'
        sheet.error(node, "missing-field", tells, "at: 5 years")


ESTIMATE = Form(
    "`estimate`",
    Estimate,
    Slot("kind", one_of("survival", "cumulative incidence", "yearly rate"), required=True),
    Slot("at", length_only),
    Slot("value", percentage, required=True, instead=MISSING_INSTEAD),
    Slot("interval", share_interval),
    Slot("confidence", confidence),
    Slot("starting", count),
    Slot("at_risk", count),
    Slot("from", words_or_missing, attribute="start"),
    Slot("competing", _read_competing),
    Slot("where", locator),
    Slot("in_words", own_words, instead=()),
    then=_check_estimate,
)
_ESTIMATE_AT = ESTIMATE.bits("at")
