"""What a field of the desk may hold by what this compendium has: people, questions, outcomes, factors, units."""

from __future__ import annotations

from typing import Any

from ..describing.files import FILES
from ..describing.schema import schema_of
from ..reading.latex import readable_text
from ..reading.model import Evidence, Outcome
from .wording import helped

CLAIMS = "claims"


def form() -> dict[str, Any]:
    """The schema of a claim file: every field with its meaning, closed list and example."""
    return dict(helped(schema_of(next(file for file in FILES if file.name == CLAIMS))))


def choices(evidence: Evidence) -> dict[str, Any]:
    """Values for fields by name, each with the words a reader knows it by; wordings of levels by factor."""
    compendium, vocabulary = evidence.compendium, evidence.vocabulary
    people = {} if compendium is None else {name: each.name.text for name, each in compendium.people.items()}
    factors = {name: factor.title.text for name, factor in vocabulary.factors.items()}
    outcomes = {name: outcome.title.text for name, outcome in vocabulary.outcomes.items()}
    questions = {name: question.title.text for name, question in evidence.questions.items()}
    levels = {name: [level.title.text for level in factor.levels] for name, factor in vocabulary.factors.items()}
    studies = dict.fromkeys(study.id.text for report in evidence.reports.values() for study in report.studies)
    reports = {
        key: readable_text(source.fields["title"].text) if "title" in source.fields else ""
        for key, source in evidence.sources.items()
    }
    asked = {name: _asked(evidence, name) for name in questions}
    return {
        "people": people,
        "asked": asked,
        "told": {name: _definition(outcome) for name, outcome in vocabulary.outcomes.items()},
        "questions": questions,
        "outcomes": outcomes,
        "factors": factors,
        "levels": levels,
        "units": list(vocabulary.declared_units),
        "studies": list(studies),
        "reports": reports,
        "unread": [key for key in evidence.sources if key not in evidence.reports],
    }


def _asked(evidence: Evidence, name: str) -> dict[str, list[str]]:
    """What reports were asked for one question so far: its outcomes and factors, whoever typed them."""
    question = evidence.questions[name]
    claims = [claim for report in evidence.reports.values() for claim in report.claims]
    mine = [claim for claim in claims if any(each.text == name for each in claim.question)]
    outcomes = [claim.outcome.text for claim in mine]
    outcomes += [each.outcome.text for each in question.thresholds]
    outcomes += [each.outcome.text for each in question.certainty]
    factors = [*(each.text for each in question.factors), *(each.factor.text for each in mine if each.factor)]
    factors += [each.factor.text for each in question.situation if each.factor]
    return {"outcomes": list(dict.fromkeys(outcomes)), "factors": list(dict.fromkeys(factors))}


def _definition(outcome: Outcome) -> str:
    """By what somebody knows an outcome: "healed, strict; examination and film; normal space"."""
    parts = (outcome.title, outcome.strictness, outcome.basis, outcome.threshold)
    return "; ".join(part.text for part in parts)
