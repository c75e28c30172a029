"""questions/<id>.yaml: what a reader asks, and what people tell him."""

from __future__ import annotations

from typing import Any

from ..problems import Position, error
from ..records import NamedTuple
from .advice import IS, RATIFIED, advice, of_a_way, reasons_to_call, steps
from .claims import ACKNOWLEDGED
from .fdi_chart import FIELD, NOTATION
from .fields import (
    count_only,
    date,
    identifier,
    length_only,
    list_of,
    name_of,
    one_of,
    path_of,
    share_only,
    words,
)
from .form import Form, Slot
from .free_names import table
from .kinds import Block, Chosen, Either, Reader, noted, taking
from .model import (
    AbsoluteOf,
    Advice,
    AnswerOf,
    Certainty,
    CertaintyStep,
    Dissent,
    Living,
    Option,
    PatientSheet,
    Question,
    Ratified,
    RecallPlan,
    Searched,
    SituationField,
    Threshold,
)
from .names import RESERVED_ADDRESSES
from .values import Words
from .yaml_text import BROKEN, ScalarNode, SequenceNode, Sheet

_lines = list_of(words, "sentences, each after a dash", single=True)
_factor = name_of("id of a factor")
_level = identifier(what="id of a level")
_outcome = name_of("id of an outcome")
_certain = ("high", "moderate", "low", "very low")

SEARCHED = Form(
    "`searched`",
    Searched,
    Slot("on", date, required=True),
    Slot("where", _lines, instead=()),
    Slot("by", words),
    # Rethlefsen et al. 2021, Syst Rev 10:39 (PRISMA-S): items 1 to 16, of which 13 is `on`.
    Slot("databases", _lines, instead=()),
    Slot("together", _lines, instead=()),
    Slot("registries", _lines, instead=()),
    Slot("browsed", _lines, instead=()),
    Slot("citations", _lines, instead=()),
    Slot("contacts", _lines, instead=()),
    Slot("other", _lines, instead=()),
    Slot("strategies", _lines, instead=()),
    Slot("limits", _lines, instead=()),
    Slot("filters", _lines, instead=()),
    Slot("prior_work", _lines, instead=()),
    Slot("updates", _lines, instead=()),
    Slot("peer_review", _lines, instead=()),
    Slot("records", _lines, instead=()),
    Slot("deduplication", _lines, instead=()),
)


_not_recorded = one_of("not recorded", block=SEARCHED.field_names)


@taking(Either((_not_recorded, SEARCHED.read)))
def _searched(node: Any, sheet: Sheet) -> Any:
    if node.__class__ is ScalarNode and node.value:
        found = _not_recorded(node, sheet)
        return BROKEN if found is BROKEN else None
    return SEARCHED.read(node, sheet)


def _check_situation(values: list[Any], typed: int, node: Any, sheet: Sheet) -> None:
    if typed & _ASKED in (0, _ASKED):
        tells = f"a field of the situation needs either `factor` or `{FIELD}`, not both"
        sheet.error(node, "missing-field", tells, "factor: the id of a factor in vocabulary.yaml")
    elif typed & _DRAWN_CHART == _DRAWN_CHART:
        tells = f"`picture` draws the levels of a `factor`; `{FIELD}` has a chart of its own"
        sheet.error(node, "field-not-here", tells, "delete `picture`")


SITUATION = Form(
    "a field of the situation",
    SituationField,
    Slot("factor", _factor),
    Slot(FIELD, one_of(NOTATION), attribute="charted"),
    Slot("picture", words),
    Slot("ask", words, required=True),
    then=_check_situation,
)
_ASKED = SITUATION.bits("factor", FIELD)
_DRAWN_CHART = SITUATION.bits("picture", FIELD)


class _OptionParts(NamedTuple):
    position: Position
    id: Words
    title: Words
    is_: AnswerOf | None
    asks: tuple[Advice, ...]
    visits: tuple[Advice, ...]
    overall: tuple[Words, ...]
    for_: tuple[Advice, ...]
    against: tuple[Advice, ...]
    steps: tuple[Advice, ...]
    ready: tuple[Words, ...]
    ratified: Ratified | None


OPTION = Form(
    "an option",
    _OptionParts,
    Slot("id", identifier(what="id of an option"), required=True),
    Slot("title", words, required=True),
    Slot("is", IS.read, attribute="is_"),
    Slot("asks", of_a_way, instead=()),
    Slot("visits", advice, instead=()),
    Slot("overall", list_of(_outcome, "ids of outcomes", single=True), instead=()),
    Slot("for", of_a_way, attribute="for_", instead=()),
    Slot("against", of_a_way, instead=()),
    Slot("steps", advice, instead=()),
    Slot("ready", _lines, instead=()),
    Slot("ratified", RATIFIED.read),
)


@taking(Block(OPTION))
def _option(node: Any, sheet: Sheet) -> Any:
    parts = OPTION.read(node, sheet)
    if parts is BROKEN:
        return BROKEN
    factor, level = (parts.is_.factor, parts.is_.level) if parts.is_ else (None, None)
    return Option(
        parts.position,
        parts.id,
        parts.title,
        factor,
        level,
        parts.asks,
        parts.visits,
        parts.overall,
        parts.for_,
        parts.against,
        parts.steps,
        parts.ready,
        parts.ratified,
    )


THRESHOLD = Form(
    "a threshold",
    Threshold,
    Slot("outcome", _outcome, required=True),
    Slot("at", length_only, required=True),
    Slot("at_least", share_only, required=True),
    Slot("agreed", date),
    Slot("by", words),
)


def _steps(*allowed: str) -> Reader:
    def read(node: Any, sheet: Sheet) -> Any:
        found = count_only(node, sheet)
        if found is not BROKEN and found.text not in allowed:
            return sheet.error(
                node, "not-in-list", f'"{found.text}" is not one of: {", ".join(allowed)}', "type one of them"
            )
        return found

    return noted(read, Chosen(allowed))


def _check_step(values: list[Any], typed: int, node: Any, sheet: Sheet) -> None:
    if typed & _MOVES in (0, _MOVES):
        sheet.error(
            node,
            "missing-field",
            "a step of certainty needs either `down` (0, 1 or 2) or `up` (1 or 2), not both",
            "down: 1",
        )


STEP = Form(
    "a step of certainty",
    CertaintyStep,
    Slot("for", words, required=True, attribute="for_"),
    Slot("down", _steps("0", "1", "2")),
    Slot("up", _steps("1", "2")),
    Slot("reason", words, required=True),
    Slot("by", words, required=True),
    then=_check_step,
)
_MOVES = STEP.bits("down", "up")


def _check_certainty(values: list[Any], typed: int, node: Any, sheet: Sheet) -> None:
    if typed & _FACTOR_LEVEL == _LEVEL_ALONE:
        tells = "a certainty with a `level` needs the `factor` it belongs to"
        sheet.error(node, "missing-field", tells, "factor: the id of a factor in vocabulary.yaml")


CERTAINTY = Form(
    "a certainty",
    Certainty,
    Slot("outcome", _outcome, required=True),
    Slot("at", length_only),
    Slot("factor", _factor),
    Slot("level", _level),
    Slot("start", one_of("high", "low"), required=True),
    Slot("steps", list_of(STEP.read, "steps", breaks=True), instead=(), needed=False),
    Slot("final", one_of(*_certain), required=True),
    then=_check_certainty,
)
_FACTOR_LEVEL, _LEVEL_ALONE = CERTAINTY.bits("factor", "level"), CERTAINTY.bits("level")

ABSOLUTE_OF = Form(
    "an absolute figure",
    AbsoluteOf,
    Slot("ratio", path_of("key/claim", (2,)), required=True),
    Slot("baseline", path_of("key/claim or key/claim/level", (2, 3)), required=True),
)

PATIENT = Form(
    "`patient`",
    PatientSheet,
    Slot("show", list_of(path_of("key/claim", (2,)), "claims, written key/claim"), instead=()),
    Slot("chair", _lines, instead=()),
    Slot("afterwards", _lines, instead=()),
)

RECALL_PLAN = Form(
    "`recall`",
    RecallPlan,
    Slot("from", words, attribute="start"),
    Slot("visits", list_of(length_only, "lengths of time"), instead=()),
    Slot("record", _lines, instead=()),
    Slot("failing", _lines, instead=()),
)

# Akl et al. 2024, BMJ 387:e079183 (PRISMA-LSR): item L1, and the status of a living review.
LIVING = Form(
    "`living`",
    Living,
    Slot("status", one_of("living", "paused", "retired")),
    Slot("schedule", length_only),
    Slot("triggers", _lines, instead=()),
    Slot("retirement", _lines, instead=()),
)

DISSENT = Form(
    "a dissent",
    Dissent,
    Slot("by", words, required=True),
    Slot("on", date, required=True),
    Slot("words", words, required=True),
)

QUESTION = Form(
    "a question",
    Question,
    Slot("id", identifier(RESERVED_ADDRESSES, "id of a question"), required=True, needed=False),
    Slot("title", words, required=True),
    Slot("about", table, instead={}),
    Slot("searched", _searched),
    Slot("ratified", RATIFIED.read),
    Slot("answer", words),
    Slot("urgent", list_of(name_of("id"), "ids in urgent.yaml", single=True), instead=()),
    Slot("stop", advice, instead=()),
    Slot("is_it_this", advice, instead=()),
    Slot("medical", advice, instead=()),
    Slot("situation", list_of(SITUATION.read, "fields, each with factor and ask"), instead=()),
    Slot("options", list_of(_option, "options, each with id and title"), instead=()),
    Slot("steps", steps, instead=()),
    Slot("call", reasons_to_call, instead=()),
    Slot("factors", list_of(_factor, "ids of factors", single=True), instead=()),
    Slot("thresholds", list_of(THRESHOLD.read, "thresholds"), instead=()),
    Slot("certainty", list_of(CERTAINTY.read, "certainties"), instead=()),
    Slot("absolute", list_of(ABSOLUTE_OF.read, "absolute figures"), instead=()),
    Slot("patient", PATIENT.read),
    Slot("recall", RECALL_PLAN.read),
    Slot("dissent", list_of(DISSENT.read, "dissents"), instead=()),
    Slot("seen_not_read", list_of(words, "keys", single=True), instead=()),
    Slot("acknowledged", list_of(ACKNOWLEDGED.read, "acknowledgements"), instead=()),
    Slot("living", LIVING.read),
)


def read_question(root: Any, sheet: Sheet, name: str) -> Question | None:
    """The question of this file, or None where it could not be read.

    name: the file's name without its ending, which is the question's id.
    """
    question = QUESTION.read(root, sheet)
    if question is BROKEN:
        return None
    typed = question.id
    if typed is not None and typed.text != name:
        message = f'`id` is "{typed.text}" but the file is named "{name}": they must be the same'
        hint = f"id: {name}, or call this file {typed.text}.yaml"
        sheet.problems.append(error(typed.position, "name-differs", message, hint))
    seen: set[str] = set()
    for option in question.options:
        if option.id.text in seen:
            message = f'another option of this question has the id "{option.id.text}"'
            sheet.problems.append(error(option.id.position, "duplicate-id", message, "rename one of the two"))
        seen.add(option.id.text)
    _refuse_too_many_now(question, sheet)
    fields = next((value for key, value in root.value if getattr(key, "value", "") == "situation"), None)
    is_whole = not isinstance(fields, SequenceNode) or len(fields.value) == len(question.situation)
    result: Question = question._replace(id=name, is_situation_whole=is_whole)
    return result


AT_MOST_NOW = 5
"""House rule: more than these are not done at once, and push the way to help off the first screens."""


def _refuse_too_many_now(question: Question, sheet: Sheet) -> None:
    now = [step.when for step in question.steps if step.when is not None and step.when.text == "now"]
    if len(now) > AT_MOST_NOW:
        message = f"{len(now)} steps have `when: now`, and at most {AT_MOST_NOW} may"
        hint = "give the others `when: this visit` or `when: later`, or make one step of two"
        sheet.problems.append(error(now[AT_MOST_NOW].position, "too-many-now", message, hint))
