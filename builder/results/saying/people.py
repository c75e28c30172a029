"""People by name, behind the short signs that files use."""

from __future__ import annotations

from ..findings.findings import Catalogue


def person_name(person: str, catalogue: Catalogue) -> str:
    """A person's name behind the short sign that files use."""
    compendium = catalogue.evidence.compendium
    known = compendium.people.get(person) if compendium else None
    return known.name.text if known else person
