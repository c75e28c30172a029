"""What had brought the people of a number to it, where the question asks just that: said in the line of the number."""

from __future__ import annotations

from ..findings.findings import Catalogue, Finding
from ..values.line import Line, line, typed


def of_cause(catalogue: Catalogue, question: str, finding: Finding) -> Line:
    """ " (cause: a blow)": whoever reads it may have another before them; empty where it is no answer of the question.

    As typed in the population of the studies, and only where it is one answer that the question asks for. A number that
    is by that answer says it itself.
    """
    asked = catalogue.evidence.questions[question].situation
    factors = {field.factor.text for field in asked if field.factor is not None} - {finding.factor}
    said = []
    for facts in finding.studies:
        value = facts.study.population.get("cause") if facts.study is not None else None
        if value is not None and any(
            catalogue.declared.factors[name].matches(value.text) for name in factors & catalogue.declared.factors.keys()
        ):
            said.append(value.text.strip())
    return tuple(part for text in dict.fromkeys(said) for part in line(" (cause: ", typed(text), ")"))
