"""How everybody of a study was treated, and which of a question's ways to go on that was."""

from __future__ import annotations

from .findings import Catalogue, Finding


def treated(finding: Finding) -> str:
    """How everybody in the study was treated, as typed; "" where it is not reported or differs between studies."""
    said = set()
    for facts in finding.studies:
        value = facts.study.population.get("treatment") if facts.study else None
        said.add(value.text if value is not None and value.text != "not reported" else "")
    return next(iter(said)) if len(said) == 1 else ""


def way_of(catalogue: Catalogue, question: str, finding: Finding) -> str:
    """The one way of a question by which everybody behind a finding was treated, as typed.

    "" where they were treated in several ways or that is not told, and for a row of a level, which says it itself.
    """
    asked = catalogue.evidence.questions.get(question)
    text = treated(finding)
    if asked is None or not text or finding.level is not None:
        return ""
    for factor in dict.fromkeys(option.is_factor.text for option in asked.options if option.is_factor is not None):
        wording = catalogue.declared.factors.get(factor)
        if wording is not None and len(wording.matches(text)) == 1:
            return text
    return ""
