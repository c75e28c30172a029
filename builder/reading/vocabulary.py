"""vocabulary.yaml: the factors and outcomes that claims and questions name."""

from __future__ import annotations

from typing import Any, NamedTuple

from ..problems import Position, error
from .fields import identifier, list_of, measured_range, one_of, words, yes_or_no
from .form import Form, Slot, named_blocks
from .model import Factor, FactorLevel, Outcome, Vocabulary
from .names import RESERVED_FACTORS
from .parsing import UNITS
from .yaml_text import BROKEN, Sheet

_synonyms = list_of(words, "words", single=True)

FACTOR_LEVEL = Form(
    "a level",
    FactorLevel,
    Slot("id", identifier(what="id of a level"), required=True),
    Slot("title", words, required=True),
    Slot("range", measured_range),
    Slot("synonyms", _synonyms, instead=()),
)


def _check_factor(values: list[Any], typed: int, node: Any, sheet: Sheet) -> bool:
    levels: tuple[FactorLevel, ...] = values[_LEVELS]
    if not levels:
        sheet.error(node, "missing-field", "a factor needs at least one level")
        return False
    seen: set[str] = set()
    for level in levels:
        if level.id.text in seen:
            text = f'another level of this factor has the id "{level.id.text}"'
            sheet.problems.append(error(level.id.position, "duplicate-id", text))
        seen.add(level.id.text)
    return True


FACTOR = Form(
    "a factor",
    Factor,
    Slot("title", words, required=True),
    Slot("definition", words),
    Slot("role", one_of("treatment", "prognostic")),
    Slot("unit", one_of(*UNITS)),
    Slot("levels", list_of(FACTOR_LEVEL.read, "levels", breaks=True), required=True),
    Slot("synonyms", _synonyms, instead=()),
    then=_check_factor,
)
_LEVELS = FACTOR.index["levels"]

OUTCOME = Form(
    "an outcome",
    Outcome,
    Slot("title", words, required=True),
    Slot("construct", words, required=True),
    Slot("strictness", one_of("strict", "lenient", "not applicable", "not reported"), required=True),
    Slot("basis", words, required=True),
    Slot("threshold", words, required=True),
    Slot("good", yes_or_no, required=True),
    Slot("reverses", identifier(what="id of an outcome")),
    Slot("lenient_of", identifier(what="id of an outcome")),
    Slot("synonyms", _synonyms, instead=()),
)


class _Parts(NamedTuple):
    position: Position
    factors: dict[str, Factor]
    outcomes: dict[str, Outcome]


_factors = named_blocks(FACTOR, "factors", RESERVED_FACTORS)
_outcomes = named_blocks(OUTCOME, "outcomes")


def read_vocabulary(root: Any, sheet: Sheet) -> tuple[Vocabulary, set[str]]:
    """Factors and outcomes, and the names of those that could not be read ("factor:id", "outcome:id")."""
    lost: set[str] = set()
    form = Form(
        "vocabulary.yaml",
        _Parts,
        Slot("factors", _factors(lost, "factor:"), instead={}),
        Slot("outcomes", _outcomes(lost, "outcome:"), instead={}),
    )
    parts = form.read(root, sheet)
    return (Vocabulary({}, {}) if parts is BROKEN else Vocabulary(parts.factors, parts.outcomes)), lost
