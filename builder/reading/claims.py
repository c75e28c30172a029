"""One claim of a report: its outcome, time, and the shape in which the report says it."""

from __future__ import annotations

from typing import Any

from ..problems import Position
from .contrasts import CONTRAST, POOLED
from .estimates import ESTIMATE, FOLLOW_UP
from .fields import (
    MISSING,
    confidence,
    count,
    count_only,
    deviation,
    either,
    id_typed,
    identifier,
    list_of,
    locator,
    measured_range,
    missing_value,
    name_of,
    number,
    one_of,
    own_words,
    p_value,
    path_of,
    percentage,
    words,
    words_or_missing,
)
from .flows import FLOW
from .form import MISSING_INSTEAD, Form, Slot
from .interval_fields import plain_interval, share_interval
from .kinds import Either, taking
from .measured_levels import MEASURED, check_measured, check_unit
from .names import RESERVED_CLAIMS
from .parsing import length as length_typed
from .report_model import Acknowledged, Candidates, Claim, Grade, Level, Pairs, SignificanceTest, Within
from .values import Words
from .wordings import check_slugs
from .yaml_text import MappingNode, ScalarNode, SequenceNode, Sheet

DIRECTIONS = ("better", "worse", "no clear difference", "not stated")
"""What a level does beside its reference level, for the patient."""

_UNREAD = Words("", Position("", 1, 1))  # its name "" is among the unreadable ones

ACKNOWLEDGED = Form(
    "an acknowledgement",
    Acknowledged,
    Slot("rule", words, required=True),
    Slot("printed", words, required=True),
    Slot("by", words, required=True),
    Slot("reason", words, required=True),
    Slot("with", words, attribute="with_key"),
)


def _check_candidates(values: list[Any], typed: int, node: Any, sheet: Sheet) -> bool:
    if len(values[1]) > 1:
        return True
    tells = "`candidates` needs two numbers or more"
    sheet.error(node, "missing-field", tells, "if there is only one, type it as the total: total: 41")
    return False


CANDIDATES = Form(
    "`total`",
    Candidates,
    Slot("candidates", list_of(count_only, "whole numbers", breaks=True), required=True),
    Slot("reason", words, required=True),
    Slot("where", locator),
    Slot("in_words", own_words, instead=()),
    then=_check_candidates,
)
_total = either(count, CANDIDATES.read)


def _check_grade(values: list[Any], typed: int, node: Any, sheet: Sheet) -> None:
    if typed & _GRADE_NAMES in (0, _GRADE_NAMES):
        tells = "a grade needs either `outcome` or `words`, not both"
        sheet.error(node, "missing-field", tells, "outcome: the id of an outcome, or words: as the paper has it")


GRADE = Form(
    "a grade",
    Grade,
    Slot("outcome", name_of("id of an outcome")),
    Slot("words", words),
    Slot("events", count),
    Slot("rate", percentage),
    Slot("where", locator),
    Slot("in_words", own_words, instead=()),
    then=_check_grade,
)
_GRADE_NAMES = GRADE.bits("outcome", "words")
_grades = list_of(GRADE.read, "grades", breaks=True)


def _named(grades: tuple[Grade, ...]) -> list[Words]:
    return [name for grade in grades for name in (grade.outcome or grade.words,) if name is not None]


def _check_rate(typed: int, bits: tuple[int, ...], what: str, node: Any, sheet: Sheet, is_excused: bool) -> None:
    """A rate stands with its counts, an interval with a rate, a confidence with an interval."""
    rate, success_rate, events, total, interval, confidence_, grades = bits
    has_rate = typed & (rate | success_rate)
    if typed & rate and typed & success_rate:
        tells = f"{what} has both `rate` and `success_rate`: keep one of the two"
        sheet.error(node, "field-not-here", tells, "delete the one that the paper does not print")
    if (has_rate or typed & events) and not is_excused:
        if not typed & events:
            sheet.error(
                node,
                "missing-field",
                f"{what} has a rate without the number with the outcome (`events`): type it, or not reported",
                "events: not reported",
            )
        if not typed & total:
            sheet.error(
                node,
                "missing-field",
                f"{what} has a rate without the number that it is out of (`total`): type it, or not reported",
                "total: not reported",
            )
    if typed & grades and not typed & total:
        sheet.error(
            node,
            "missing-field",
            f"{what} has `grades` without the number that they add up to (`total`): type it, or not reported",
            "total: not reported",
        )
    if typed & interval and not has_rate and not typed & events:
        sheet.error(node, "field-not-here", f"{what} has an `interval` without the rate it belongs to", _BESIDE_RATE)
    if typed & confidence_ and not typed & interval:
        tells = f"{what} has `confidence` without the `interval` it belongs to"
        sheet.error(node, "field-not-here", tells, "delete it, or type the interval")


_BESIDE_RATE = "type the rate, or move the interval into the estimate or contrast it belongs to"

LEVEL = Form(
    "a level",
    Level,
    Slot("level", words, required=True),
    Slot("range", measured_range),
    Slot("events", count),
    Slot("total", _total),
    Slot("rate", percentage),
    Slot("success_rate", percentage),
    Slot("interval", share_interval),
    Slot("confidence", confidence),
    Slot("estimate", ESTIMATE.read),
    Slot("grades", _grades, instead=()),
    Slot("mean", number),
    Slot("sd", deviation),
    Slot("median", number),
    Slot("iqr", plain_interval),
    Slot("direction", one_of(*DIRECTIONS)),
    Slot("stated", one_of("words only")),
    Slot("as", own_words, attribute="counted_as", instead=()),
    Slot("where", locator),
    Slot("in_words", own_words, instead=()),
)
_LEVEL_RATE = tuple(
    LEVEL.bits(name) for name in ("rate", "success_rate", "events", "total", "interval", "confidence", "grades")
)
_LEVEL_NAMES = frozenset(LEVEL.field_names)


WITHIN = Form(
    "`within`",
    Within,
    Slot("factor", name_of("id of a factor"), required=True),
    Slot("level", words, required=True),
    Slot("where", locator),
    Slot("in_words", own_words, instead=()),
)


def _check_test(values: list[Any], typed: int, node: Any, sheet: Sheet) -> None:
    between = values[1]
    if between.__class__ is tuple and len(between) < 2:
        tells = "`between` takes a list of the two that were compared, or not reported"
        sheet.error(node, "missing-field", tells, "between: [words for the one, words for the other]")


_between = list_of(words, "words")


@taking(Either((missing_value, _between)))
def _read_between(node: Any, sheet: Sheet) -> Any:
    return words_or_missing(node, sheet) if _is_missing(node) else _between(node, sheet)


def _is_missing(node: Any) -> bool:
    return node.__class__ is ScalarNode and node.value in MISSING


TEST = Form(
    "`test`",
    SignificanceTest,
    Slot("between", _read_between, required=True, instead=MISSING_INSTEAD),
    Slot("p", p_value),
    Slot("method", words_or_missing),
    Slot("where", locator),
    Slot("in_words", own_words, instead=()),
    then=_check_test,
)

PAIRS = Form(
    "`pairs`",
    Pairs,
    Slot("a", words, required=True),
    Slot("b", words, required=True),
    *(Slot(name, count, required=True, instead=MISSING_INSTEAD) for name in ("both", "only_a", "only_b", "neither")),
    Slot("where", locator),
    Slot("in_words", own_words, instead=()),
)


@taking(Either((missing_value, PAIRS.read)))
def _read_pairs(node: Any, sheet: Sheet) -> Any:
    return words_or_missing(node, sheet) if _is_missing(node) else PAIRS.read(node, sheet)


_claim_id = identifier(what="id of a claim", block=FOLLOW_UP.field_names)


@taking(Either((missing_value, _claim_id, FOLLOW_UP.read)))
def _follow_up(node: Any, sheet: Sheet) -> Any:
    if node.__class__ is ScalarNode and node.value:
        if length_typed(node.value):
            tells = f'"{node.value}" is given where a block with its fields is expected'
            return sheet.error(node, "wrong-shape", tells, f"{{from: …, timing: at, at: {node.value}}}")
        return words_or_missing(node, sheet) if _is_missing(node) else _claim_id(node, sheet)
    return FOLLOW_UP.read(node, sheet)


def _check_claim(values: list[Any], typed: int, node: Any, sheet: Sheet) -> bool:
    if not typed & _SHAPES:
        sheet.error(
            node,
            "missing-field",
            "a claim needs a result: events and total, levels, an estimate, a contrast, a test, pairs or grades",
            "type what the passage says, or delete the claim",
        )
    if typed & _COMPARING:
        for name, bit in _COMPARISON:
            if not typed & bit:
                also = ", or not reported" if name == "reference" else ""
                tells = f"a claim with levels or a contrast needs `{name}`{also}"
                sheet.error(node, "missing-field", tells, f"{name}: {_COMPARED_BY[name]}")
    if typed & _CLAIM_RATE_ANY:
        is_excused = bool(typed & _EXCUSES) or (values[_CONTRAST] is not None and values[_CONTRAST].pooled is not None)
        is_excused |= bool(typed & _EVENTS) and values[CLAIM.index["events"]] is None  # "39 of 47", told there
        _check_rate(typed, _CLAIM_RATE, "a claim", node, sheet, is_excused)
    if typed & _POOLED and not typed & _POOLABLE:
        tells = "`pooled` is given only together with a rate, an estimate, levels or a contrast"
        sheet.error(node, "field-not-here", tells, "type the result that was pooled beside it, or delete it")
    if typed & _LEVELS_OR_GRADES:
        levels: tuple[Level, ...] = values[_LEVELS]
        wordings = [level.level for level in levels] + _named(values[_GRADES])
        check_slugs(wordings, _CLAIM_NAMES, "this claim", sheet)
        for order, level in enumerate(levels):
            _check_level(level, node, order, typed, sheet)
    _check_unit_of_measure(values[_LEVELS], node, sheet, has_unit=bool(typed & _UNIT))
    return True


def _check_unit_of_measure(levels: tuple[Level, ...], node: Any, sheet: Sheet, *, has_unit: bool) -> None:
    is_measured = any(level.mean is not None or level.median is not None for level in levels)
    if has_unit or is_measured:
        check_unit(has_unit=has_unit, needs_unit=is_measured or _has_measured(node), node=node, sheet=sheet)


def _check_level(level: Level, node: Any, order: int, typed: int, sheet: Sheet) -> None:
    """A level has figures, or says in words what it does; its own rate stands with its counts."""
    if _is_plain(level):
        return
    names = _fields_of_level(node, order)
    level_node = names.pop("")
    what = f'the level "{level.level.text}"'
    fields = sum(LEVEL.bits(name) for name in names if name in _LEVEL_NAMES)
    if names.keys() & _MEASURED:
        check_measured(level, names, what, level_node, sheet)
    else:
        is_excused = bool(typed & _EXCUSES) or ("events" in names and level.events is None)
        _check_rate(fields, _LEVEL_RATE, what, level_node, sheet, is_excused)
    if level.grades:
        check_slugs(_named(level.grades), _LEVEL_NAMES, what, sheet)
    # A field that was typed but could not be read is None in the level: only the node tells the two apart.
    if names.keys() & _FIGURES_OF_LEVEL or (typed & _CONTRAST_BIT and "direction" in names):
        return
    if "direction" not in names:
        message = f"{what} has no result: it needs counts, a mean, a median, an estimate, grades or a `direction`"
        sheet.error(level_node, "missing-field", message, "events: ..., total: ... (or not reported)")
    elif "stated" not in names:
        message = f"{what} has a direction but no figures: it needs `stated: words only`"
        sheet.error(level_node, "missing-field", message, "stated: words only")


def _is_plain(level: Level) -> bool:
    """Counts with one rate at most and nothing that must stand beside something else, as most levels have it."""
    if level.events is None or level.total is None or level.interval is not None or level.grades:
        return False
    if level.mean is not None or level.sd is not None or level.median is not None or level.iqr is not None:
        return False
    return (level.rate is None or level.success_rate is None) and level.confidence is None


def _fields_of_level(claim: Any, order: int) -> dict[str, Any]:
    """The fields typed in a level, and the level itself under ""."""
    for key, value in claim.value:
        if key.value == "levels":
            node = value.value[order]
            return {name.value: field for name, field in node.value if name.__class__ is ScalarNode} | {"": node}
    raise ValueError("a claim with levels has no field of that name")


def _has_measured(claim: Any) -> bool:
    """Whether a mean or median is typed in a level, one that could not be read included."""
    levels = next((value for key, value in claim.value if key.value == "levels"), None)
    return levels.__class__ is SequenceNode and any(
        key.value in ("mean", "median")
        for level in levels.value
        if level.__class__ is MappingNode
        for key, _ in level.value
    )


CLAIM = Form(
    "a claim",
    Claim,
    Slot("id", id_typed(RESERVED_CLAIMS), required=True),
    Slot(
        "question",
        list_of(name_of("id of a question"), "ids of questions", single=True),
        required=True,
        instead=(),
    ),
    Slot("outcome", name_of("id of an outcome"), required=True, instead=_UNREAD),
    Slot("where", locator, required=True),
    Slot("follow_up", _follow_up, required=True, instead=MISSING_INSTEAD),
    Slot("study", list_of(identifier(what="id of a study"), "ids of studies", single=True), instead=()),
    Slot("factor", name_of("id of a factor")),
    Slot("known_at", one_of("before", "during", "after")),
    Slot("reference", words_or_missing),
    Slot("differ_in", list_of(words, "words", single=True), instead=()),
    Slot("planned", one_of("yes", "no", "unclear")),
    Slot("cut", one_of("fixed beforehand", "chosen from the data", "not reported")),
    Slot("within", list_of(WITHIN.read, "factors with a level", breaks=True), instead=()),
    Slot("given", words),
    Slot("flow", FLOW.read),
    Slot("quotes", path_of("key/claim", (2,))),
    Slot("events", count),
    Slot("total", _total),
    Slot("rate", percentage),
    Slot("success_rate", percentage),
    Slot("interval", share_interval),
    Slot("confidence", confidence),
    Slot("pooled", POOLED.read),
    Slot("levels", list_of(LEVEL.read, "levels", breaks=True), instead=()),
    Slot("estimate", ESTIMATE.read),
    Slot("contrast", CONTRAST.read),
    Slot("test", list_of(TEST.read, "tests", single=True), attribute="tests", instead=()),
    Slot("pairs", _read_pairs),
    Slot("grades", _grades, instead=()),
    Slot("unit", words_or_missing),
    Slot("acknowledged", list_of(ACKNOWLEDGED.read, "acknowledgements"), instead=()),
    Slot("note", words),
    Slot("as", own_words, attribute="counted_as", instead=()),
    Slot("in_words", own_words, instead=()),
    then=_check_claim,
)
_COMPARED_BY = {
    "factor": "the id of a factor in vocabulary.yaml",
    "known_at": "before, during or after (when it is known beside the treatment)",
    "reference": "the wording of the level that the others are compared with",
}
_SHAPES = CLAIM.bits("events", "rate", "success_rate", "levels", "estimate", "contrast", "test", "pairs", "grades")
_COMPARING = CLAIM.bits("levels", "contrast")
_COMPARISON = tuple((name, CLAIM.bits(name)) for name in ("factor", "known_at", "reference"))
_CLAIM_RATE = tuple(
    CLAIM.bits(name) for name in ("rate", "success_rate", "events", "total", "interval", "confidence", "grades")
)
_CLAIM_RATE_ANY = sum(_CLAIM_RATE)
_EXCUSES = CLAIM.bits("pooled", "quotes")
_EVENTS = CLAIM.bits("events")
_POOLED = CLAIM.bits("pooled")
_POOLABLE = CLAIM.bits("rate", "success_rate", "levels", "estimate", "contrast")
_LEVELS_OR_GRADES = CLAIM.bits("levels", "grades")
_CONTRAST_BIT = CLAIM.bits("contrast")
_MEASURED = frozenset(MEASURED)
_FIGURES_OF_LEVEL = frozenset(("events", "rate", "success_rate", "estimate", "grades", "mean", "median"))
_UNIT = CLAIM.bits("unit")
_LEVELS, _GRADES, _CONTRAST = CLAIM.index["levels"], CLAIM.index["grades"], CLAIM.index["contrast"]
_CLAIM_NAMES = frozenset(CLAIM.field_names)
