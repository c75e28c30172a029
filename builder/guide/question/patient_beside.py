"""What numbers on one sheet are to each other: of other patients, by another definition, apart by more than chance."""

from __future__ import annotations

from ...reading.model import Question
from ...reading.values import Words
from ..findings.comparable import people_of
from ..findings.direction import side_of_row
from ..findings.findings import Finding
from ..sections.one_study import which_way
from ..values.document import Line, Paragraph, line, typed


def is_of_others(before: list[Finding], findings: list[Finding]) -> bool:
    """True where nobody stands behind both numbers; False without a number before."""
    return bool(before) and people_of(before[0]).isdisjoint(people_of(findings[0]))


def whose(above: list[tuple[str, list[Finding]]], findings: list[Finding]) -> Line:
    """Of whom a number speaks beside all those above it on its sheet; empty where it is of those just above.

    above: heading and findings of each number, in order.
    """
    if not above or not is_of_others(above[-1][1], findings):
        return ()
    same = next((title for title, other in reversed(above) if not is_of_others(other, findings)), None)
    if same is None:
        return line("These are other patients than above.")
    return line("The study of “", typed(same, "definition"), "” again, and not the one just above.")


def stacked(findings: list[Finding], shown: list[list[Finding]]) -> str:
    """Why a count stands on no sheet with those shown: strict and lenient ones of other patients are not stacked.

    "" where it may stand there.
    """
    first = findings[0]
    for others in shown:
        other = others[0]
        kinds = {first.outcome.strictness.text, other.outcome.strictness.text}
        if kinds != {"strict", "lenient"} or first.outcome.construct.text != other.outcome.construct.text:
            continue
        own_too = [
            item for held in shown for item in held
            if item.outcome.id == other.outcome.id and not people_of(item).isdisjoint(people_of(first))
        ]  # fmt: skip
        if people_of(first).isdisjoint(people_of(other)) and not own_too:
            return "it counts other patients by another definition than a number already on the sheet"
    return ""


def levels_apart(question: Question, findings: list[Finding]) -> list[Paragraph]:
    """Of levels side by side, whether they differ by more than chance alone usually gives, in plain words."""
    reference = next((row for row in findings if _is_reference(row)), None)
    out = []
    for row in findings:
        side = side_of_row(row, reference) if row.level is not None and reference is not None else None
        if side is None or row is reference or row.level is None:
            continue
        said = which_way(side, f"{question.id}/{row.factor}", is_for_patient=True)
        out.append(Paragraph(line("With ", typed(row.level.level.text, "definition"), ": ", said, "."), "quiet"))
    return out


def _is_reference(row: Finding) -> bool:
    reference = row.claim.reference
    return isinstance(reference, Words) and row.level is not None and row.level.level.text == reference.text
