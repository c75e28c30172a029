"""The situation: the question's own fields, each answer with what is known for it; "can't tell" is always an answer."""

from __future__ import annotations

from ...audit.declared_names import TOOTH_FACTORS
from ...reading.model import Question
from ..findings.direction import Compared, compared
from ..findings.findings import Catalogue
from ..sections.level_summary import known_of_level, not_known
from ..values.document import (
    Blocks,
    Choice,
    ChoiceField,
    Items,
    Line,
    Link,
    Paragraph,
    Situation,
    joined,
    line,
    typed,
)

CANT_TELL = "can't tell"

# ISO 3950 (FDI) two-digit notation, permanent teeth: first digit the quadrant, second the tooth from the midline.
_QUADRANTS = {"1": "upper right", "2": "upper left", "3": "lower left", "4": "lower right"}
_TYPES = {1: "incisor", 2: "incisor", 3: "canine", 4: "premolar", 5: "premolar", 6: "molar", 7: "molar", 8: "molar"}


def tooth_levels(tooth: str) -> tuple[str, str]:
    """Tooth type and arch of a permanent tooth in FDI two-digit notation: "46" is a mandibular molar.

    Raises KeyError for anything else. ISO 3950:2016, Dentistry, designation system for teeth.
    """
    return _TYPES[int(tooth[1])], "maxillary" if _QUADRANTS[tooth[0]].startswith("upper") else "mandibular"


def universal_number(tooth: str) -> int:
    """The same tooth in the consecutive 1 to 32 notation of North American practice (common practice, no source)."""
    quadrant, place = int(tooth[0]), int(tooth[1])
    return {1: 9 - place, 2: 8 + place, 3: 25 - place, 4: 24 + place}[quadrant]


def situation(catalogue: Catalogue, question: Question) -> Situation:
    """Every field of the question file in its order. Factors known only afterwards never stand among them."""
    fields: list[ChoiceField] = []
    for field in question.situation:
        if field.tooth is not None:
            fields.extend(_tooth_fields(catalogue, question, field.ask.text))
        elif field.factor is not None and not _only_afterwards(catalogue, question.id, field.factor.text):
            fields.append(_factor_field(catalogue, question, field.factor.text, field.ask.text))
    return Situation(tuple(fields))


def _only_afterwards(catalogue: Catalogue, question: str, factor: str) -> bool:
    times = {
        finding.claim.known_at.text
        for finding in catalogue.of_question(question)
        if finding.factor == factor and finding.claim.known_at is not None
    }
    return times == {"after"}


def _factor_field(catalogue: Catalogue, question: Question, factor: str, ask: str) -> ChoiceField:
    known = catalogue.evidence.vocabulary.factors.get(factor)
    levels = [(level.id.text, level.title.text) for level in known.levels] if known else []
    if not levels:
        levels = [(name, name) for name in TOOTH_FACTORS.get(factor, ())]
    choices = [Choice(name, title, known_of_level(catalogue, question, factor, name)) for name, title in levels]
    choices.append(Choice("", CANT_TELL, _would_change(catalogue, question, factor, levels)))
    return ChoiceField(factor, ask, tuple(choices))


def _would_change(catalogue: Catalogue, question: Question, factor: str, levels: list[tuple[str, str]]) -> Blocks:
    """For "can't tell": what each answer would change, one line an answer."""
    rows: list[Line] = []
    for name, title in levels:
        sides = [
            line(typed(item.outcome.title.text, "definition"), f": {_verdict(item.verdict)}", _beside(item))
            for item in compared(catalogue, question.id, factor, name)
            if item.sides
        ]
        rows.append(line(typed(title, "definition"), ": ", joined(sides) if sides else "nothing to compare with"))
    return (
        Paragraph(line("Treat it as not known. What each answer would change, beside its reference:"), "quiet"),
        Items(tuple(rows), kind="known-lines"),
        Paragraph(line(Link(f"{question.id}/{factor}/", ("Studies, numbers and how sure",))), "more"),
    )


def _beside(item: Compared) -> Line:
    """What it was compared with, as the papers word it."""
    wordings = sorted(
        {side.reference.level.level.text for side in item.sides if side.reference and side.reference.level}
    )
    return line(" beside ", typed(" or ".join(wordings), "definition")) if wordings else ()


def _verdict(verdict: str) -> str:
    return {"better": "did better", "worse": "did worse", "mixed": "the studies do not agree"}.get(verdict, verdict)


_FOLLOWS = {"tooth-type": "Or only the kind of tooth", "arch": "Or only the jaw"}


def _tooth_fields(catalogue: Catalogue, question: Question, ask: str) -> list[ChoiceField]:
    """The tooth by number, and what follows from it: type and arch are what studies report."""
    teeth = []
    for quadrant in "1243":
        for place in range(8, 0, -1) if quadrant in "14" else range(1, 9):
            tooth = f"{quadrant}{place}"
            kind, arch = tooth_levels(tooth)
            label = f"{tooth} ({universal_number(tooth)})"
            teeth.append(Choice(tooth, label, (), (("tooth-type", kind), ("arch", arch))))
    changed = [
        level
        for factor, levels in TOOTH_FACTORS.items()
        for level in levels
        if any(item.sides for item in compared(catalogue, question.id, factor, level))
    ]
    says = line("Which tooth it is changes what is known for: ", ", ".join(changed)) if changed else not_known(question)
    teeth.append(Choice("", CANT_TELL, (Paragraph(says, "quiet"),)))
    asked = {field.factor.text for field in question.situation if field.factor is not None}
    follows = [
        _factor_field(catalogue, question, factor, words) for factor, words in _FOLLOWS.items() if factor not in asked
    ]
    return [ChoiceField("tooth", ask, tuple(teeth)), *follows]
