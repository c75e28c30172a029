"""Lists of advice, each entry with what it rests on and who ratified it."""

from __future__ import annotations

from typing import Any

from .fields import date, identifier, list_of, locator, name_of, one_of, path_of, words
from .form import Form, Slot
from .model import Advice, AnswerOf, Basis, Ratified
from .yaml_text import Sheet

_BELONGS = {
    "source": "guideline",
    "where": "guideline",
    "claim": "study",
    "state": "local protocol",
}
_WRITTEN = {"source": "source: the key of its entry", "claim": "claim: key/claim"}
_NEEDS = {"guideline": "source", "study": "claim"}


def _check_basis(values: list[Any], typed: int, node: Any, sheet: Sheet) -> None:
    kind = values[1].text
    for name, owner in _BELONGS.items():
        if typed & BASIS.bits(name) and owner != kind:
            sheet.error(
                node,
                "field-not-here",
                f'`{name}` belongs to a basis of the kind "{owner}", not "{kind}"',
                f"kind: {owner}",
            )
    needed = _NEEDS.get(kind)
    if needed and not typed & BASIS.bits(needed):
        tells = f'a basis of the kind "{kind}" needs `{needed}`'
        sheet.error(node, "missing-field", tells, _WRITTEN[needed])


BASIS = Form(
    "`basis`",
    Basis,
    Slot("kind", one_of("guideline", "study", "common practice", "local protocol"), required=True),
    Slot("source", words),
    Slot("where", locator),
    Slot("claim", path_of("key/claim", (2,))),
    Slot("state", one_of("not set")),
    then=_check_basis,
)

RATIFIED = Form(
    "`ratified`",
    Ratified,
    Slot("by", list_of(words, "initials", single=True), required=True),
    Slot("on", date, required=True),
)

_SLOTS = (
    Slot("words", words, required=True),
    Slot("basis", BASIS.read, required=True),
    Slot("caution", words),
    Slot("ratified", RATIFIED.read),
)
ADVICE = Form("an entry of advice", Advice, *_SLOTS)

WHEN = ("now", "this visit", "later")
"""When a step is due; one without it is due this visit."""

STEP_OF_ADVICE = Form(
    "a step",
    Advice,
    *_SLOTS,
    Slot("when", one_of(*WHEN)),
    Slot("dissent", list_of(words, "initials", single=True), instead=()),
)

IS = Form(
    "`is`",
    AnswerOf,
    Slot("factor", name_of("id of a factor"), required=True),
    Slot("level", identifier(what="id of a level"), required=True),
)
"""One level of a factor: what a way to go on or a reason to call is, or what an entry holds for."""

_answers = list_of(IS.read, "answers, each with factor and level", single=True)
_IF_ANSWERED = Slot("is", _answers, attribute="answers", instead=())
REASON_TO_CALL = Form("a reason to call", Advice, *_SLOTS, _IF_ANSWERED)
OF_A_WAY = Form("an entry of a way to go on", Advice, *_SLOTS, _IF_ANSWERED)

advice = list_of(ADVICE.read, "entries, each with words and basis")
"""A list of advice."""

of_a_way = list_of(OF_A_WAY.read, "entries, each with words and basis")
"""What a way asks, and what speaks for or against it: each entry perhaps with the answers for which it holds."""

steps = list_of(STEP_OF_ADVICE.read, "steps, each with words and basis")
"""A list of advice in the order in which it is done."""

reasons_to_call = list_of(REASON_TO_CALL.read, "reasons to call, each with words and basis")
"""A list of advice, each entry perhaps with the answers of the situation that it is."""
