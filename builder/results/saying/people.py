"""People by name, behind the short signs that files use, and which entries they stand behind."""

from __future__ import annotations

from collections.abc import Collection

from ..findings.findings import Catalogue
from ..values.line import Line, line

NOT_RATIFIED = "not yet ratified"
"""What stands where nobody stands behind advice."""

NOT_SET = "local protocol, not set"
"""What advice rests on until the programme has set its protocol; nobody can have ratified it before."""

OTHERWISE = "except where noted"
"""Stands behind what holds of most lines of a list."""


def person_name(person: str, catalogue: Catalogue) -> str:
    """A person's name behind the short sign that files use."""
    compendium = catalogue.evidence.compendium
    known = compendium.people.get(person) if compendium else None
    return known.name.text if known else person


def capital(said: Line) -> Line:
    """The same at the head of a sentence."""
    first = said[0] if said else None
    return line(first[:1].upper() + first[1:], *said[1:]) if isinstance(first, str) else said


def who_ratified(most: Line, others: Collection[Line], whole: str = "all") -> Line:
    """One line of which entries somebody stands behind and which not: "Not yet ratified, except where noted."

    most: what holds of most entries. others: what the rest say where they stand. whole: what "all" is said of.
    """
    if not others:
        return line(f"{whole[:1].upper()}{whole[1:]}: ", *most, ".")
    return line(*capital(most), f", {OTHERWISE}.")
