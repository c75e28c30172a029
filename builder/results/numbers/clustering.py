"""Several units in one patient: a hint beside the judgements, or that it cannot be computed."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from ...numerals import Unit as CountedUnit
from ...reading.slugs import slug
from ..findings.findings import Catalogue, Finding, StudyFacts
from ..saying.source_reference import source_link
from ..saying.titles import study_name
from ..saying.wording import unit_word
from ..values.document import Block, Details, Items, Paragraph
from ..values.figures import Figure
from ..values.line import Line, Marked, line
from .shown_numbers import ratio

PUBLISHED = "Kish 1965, Survey Sampling; Cochrane Handbook, section 23.1.4"

# House rule: no report prints how alike the units of one patient are, so the hint assumes this and says so.
ASSUMED = 0.1
ASSUMED_TEXT = "0.1"


def clustering_block(catalogue: Catalogue, place: str, findings: Iterable[Finding]) -> list[Block]:
    """By how much counting units and not patients flatters the intervals of these findings; empty where it cannot.

    place: "question/factor" or "question/overall".
    """
    studies: dict[str, StudyFacts] = {}
    units: dict[str, CountedUnit] = {}
    for finding in findings:
        if finding.is_human and finding.counted.of:
            for facts in finding.studies:
                studies.setdefault(facts.id, facts)
                units.setdefault(facts.id, finding.counted)
    if not studies:
        return []
    rows: list[Line] = []
    is_silent = False
    for name in sorted(studies):
        counts = _counts(catalogue, studies[name])
        if counts is None:
            is_silent = True
        elif counts[0].number > counts[1].number:
            rows.append(_effect_line(catalogue, place, studies[name], units[name], *counts))
    if is_silent:
        others = "Of the others" if rows else "Of these studies"
        rows.append(
            line(f"{others} not all report how many patients there were: there a design effect is not computable.")
        )
    if not rows:
        return []
    most = Counter(units.values()).most_common(1)[0][0]
    says = Paragraph(
        line(
            f"{most.many.capitalize()} of one patient are alike, so intervals that count {most.many} are somewhat too "
            "narrow; nothing above is corrected for it."
        ),
        "quiet",
    )
    return [Details(f"More than one {most.one} in a patient", (says, Items(tuple(rows))), "more")]


def _counts(catalogue: Catalogue, facts: StudyFacts) -> tuple[Figure, Figure] | None:
    """Units and patients at the same step of the flow, those examined first; None where one of them is missing."""
    for step in ("examined", "due", "treated"):
        base = f"{facts.key}/studies/{facts.id}"
        units, patients = catalogue.book.quoted(f"{base}/flow/{step}"), catalogue.book.quoted(f"{base}/patients/{step}")
        if units is not None and patients is not None and patients.number > 0:
            return units, patients
    return None


def _effect_line(
    catalogue: Catalogue, place: str, facts: StudyFacts, unit: CountedUnit, units: Figure, patients: Figure
) -> Line:
    from ...synthesis import design_effect

    workings = catalogue.book.explain(
        f"{place.replace('/', '-')}-clustering", f"Several {unit.many} in one patient",
        "design effect 1 + (m - 1) × ρ, with m = units / patients", published=PUBLISHED,
        convention=f"ρ = {ASSUMED_TEXT} is assumed, since no report prints it; it corrects nothing on the page",
        inputs=(units, patients),
    )  # fmt: skip
    effect = ratio(
        catalogue.book, f"{place}/{slug(facts.id)}-design-effect",
        design_effect(int(units.number), int(patients.number), ASSUMED), "none", workings,
        says=study_name(catalogue, facts.id), inputs=(units, patients),
    )  # fmt: skip
    return line(
        source_link(facts.key, catalogue), ": ", units, f" {unit_word(unit, units)} in ", patients,
        f" {unit_word(catalogue.units['patient'], patients)}; if the {unit.many} of a patient were alike by ",
        Marked("convention", ASSUMED_TEXT),
        ", which is assumed, the design effect is ", effect,
    )  # fmt: skip
