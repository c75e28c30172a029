"""How many units came and went: the flow of a study or claim, and its recall rate."""

from __future__ import annotations

from typing import Any

from .fields import count, list_of, locator, one_of, own_words, percentage
from .form import Form, Slot
from .report_model import Flow, Recall
from .values import Words
from .yaml_text import Sheet

COUNTS = (
    "eligible",
    "treated",
    "due",
    "examined",
    "lost",
    "discontinued",
    "died",
    "extracted_related",
    "extracted_other",
    "extracted",
)
"""The counts of a flow, in the order of the form."""

_names = list_of(one_of(*COUNTS), "names of flow fields", single=True)


def _check_recall(values: list[Any], typed: int, node: Any, sheet: Sheet) -> None:
    if not typed & _RATE:
        sheet.error(node, "missing-field", "`recall` needs `rate`", "rate: the share that was seen again, such as 85%")
    # The form's defaults; "of: [treated]" is typed where the number due is missing.
    values[2] = values[2] or (Words("examined", values[0]),)
    values[3] = values[3] or (Words("due", values[0]),)


RECALL = Form(
    "`recall`",
    Recall,
    Slot("rate", percentage),
    Slot("seen", _names, instead=()),
    Slot("of", _names, instead=()),
    Slot("less", _names, instead=()),
    Slot("where", locator),
    Slot("in_words", own_words, instead=()),
    then=_check_recall,
)
_RATE = RECALL.bits("rate")

FLOW = Form(
    "a flow",
    Flow,
    *(Slot(name, count) for name in COUNTS),
    Slot("recall", RECALL.read),
    Slot("where", locator),
    Slot("in_words", own_words, instead=()),
)
