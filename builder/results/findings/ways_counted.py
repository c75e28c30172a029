"""In which of a question's ways to go on the people behind a number were treated."""

from __future__ import annotations

import re
from collections.abc import Iterable

from ...reading.folded import folded
from ...reading.model import Question
from .findings import Catalogue, Finding
from .treatment import treated


def levels_treated(catalogue: Catalogue, factor: str, finding: Finding) -> frozenset[str]:
    """Levels of a way that the people behind a finding went, by how their study says that it treated them.

    "This or that" is two of them. Empty where it names none.
    """
    if finding.factor == factor and finding.level_ids:
        return frozenset(finding.level_ids)
    known = catalogue.evidence.vocabulary.factors.get(factor)
    said = _words(treated(finding))
    return frozenset(
        level.id.text
        for level in (known.levels if known is not None else ())
        if any(_words(name.text) in said for name in (level.title, *level.synonyms))
    )


def _words(text: str) -> str:
    """The words alone, with a blank around each, so that one name is found in another by whole words."""
    return " " + " ".join(re.findall(r"\w+", folded(text))) + " "


def ways_counted(catalogue: Catalogue, question: Question, findings: Iterable[Finding]) -> tuple[str, ...]:
    """Ids of the ways in which all of these findings were counted, each perhaps together with other ways.

    A way whose rates are those of everybody (`overall`) counts all findings of the outcomes it names.
    """
    rows = list(findings)
    out = []
    for option in question.options:
        overall = {word.text for word in option.overall}
        if option.is_factor is not None and option.is_level is not None:
            factor, level = option.is_factor.text, option.is_level.text
            is_counted = all(level in levels_treated(catalogue, factor, row) for row in rows)
        else:
            is_counted = all(row.outcome.id in overall for row in rows)
        if rows and is_counted:
            out.append(option.id.text)
    return tuple(out)
