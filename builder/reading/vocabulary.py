"""vocabulary.yaml: the units, factors and outcomes that claims and questions name."""

from __future__ import annotations

from collections.abc import Collection
from typing import Any

from ..numerals import lexicon_of
from ..numerals.format_units import COUNTED_IN_A_STUDY
from ..problems import Position, error
from ..records import NamedTuple
from .fields import identifier, list_of, measured_range, name_of, one_of, words, yes_or_no
from .form import Form, Slot, named_blocks
from .model import Factor, FactorLevel, Outcome, Vocabulary
from .named_units import unit_or_measure
from .names import RESERVED_FACTORS
from .parsing import UNITS
from .unit_forms import DeclaredUnit, counted_units, declared_units, in_lower_case, unit_names, units_typed
from .yaml_text import BROKEN, Sheet

_synonyms = list_of(words, "words", single=True)
_MEASURES = tuple(name for name in UNITS if name not in COUNTED_IN_A_STUDY)

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
        sheet.error(node, "missing-field", "a factor needs at least one level", "- {id: …, title: …}")
        return False
    seen: set[str] = set()
    for level in levels:
        if level.id.text in seen:
            text = f'another level of this factor has the id "{level.id.text}"'
            sheet.problems.append(error(level.id.position, "duplicate-id", text, "rename one of the two"))
        seen.add(level.id.text)
    return True


FACTOR = Form(
    "a factor",
    Factor,
    Slot("title", words, required=True),
    Slot("definition", words),
    Slot("role", one_of("treatment", "prognostic")),
    Slot("unit", unit_or_measure(_MEASURES)),
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
    Slot("reverses", name_of("id of an outcome")),
    Slot("lenient_of", name_of("id of an outcome")),
    Slot("synonyms", _synonyms, instead=()),
)


class _Parts(NamedTuple):
    position: Position
    units: dict[str, DeclaredUnit]
    factors: dict[str, Factor]
    outcomes: dict[str, Outcome]


_factors = named_blocks(FACTOR, "factors", RESERVED_FACTORS)
_outcomes = named_blocks(OUTCOME, "outcomes")


def vocabulary_form(lost: set[str]) -> Form:
    """The form of the whole file. lost: where the names of what cannot be read are noted."""
    return Form(
        "vocabulary.yaml",
        _Parts,
        Slot("units", declared_units(lost, "unit:"), instead={}),
        Slot("factors", _factors(lost, "factor:"), instead={}),
        Slot("outcomes", _outcomes(lost, "outcome:"), instead={}),
    )


def read_vocabulary(root: Any, sheet: Sheet, pictures: Collection[str]) -> tuple[Vocabulary, set[str]]:
    """Units, factors and outcomes, and the names of those that could not be read ("unit:id", "factor:id", ...).

    pictures: names of the drawings that a mark may name.
    """
    lost: set[str] = set()
    # A factor above may be counted in a unit that is declared further down.
    sheet.units = unit_names(units_typed(root), ())
    parts = vocabulary_form(lost).read(root, sheet)
    if parts is BROKEN:
        return Vocabulary({}, {}), lost
    units = counted_units(parts.units, pictures, sheet)
    lexicon = lexicon_of({name: in_lower_case(units[name]) for name in parts.units})
    return Vocabulary(parts.factors, parts.outcomes, units, tuple(parts.units), lexicon), lost
