"""In which of a question's ways to go on the people behind a number were treated."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping

from ...reading.folded import folded
from ...reading.model import Question
from ...records import NamedTuple
from .comparable import people_of
from .findings import Catalogue, Finding
from .treatment import treated


class WayCounted(NamedTuple):
    """A way to go on in which a number was counted."""

    id: str
    is_alone: bool
    """False where it was counted together with other ways, or with others that their study does not tell apart."""


def levels_treated(catalogue: Catalogue, factor: str, finding: Finding) -> frozenset[str]:
    """Levels of a way that the people behind a finding went.

    By how their study says that it treated them, where "this or that" is two of them, and by the ways that it laid
    beside each other. Empty where it names none.
    """
    if finding.factor == factor and finding.level_ids:
        return frozenset(finding.level_ids)
    known = catalogue.evidence.vocabulary.factors.get(factor)
    said = _words(treated(finding))
    named = {
        level.id.text
        for level in (known.levels if known is not None else ())
        if any(_words(name.text) in said for name in (level.title, *level.synonyms))
    }
    beside = catalogue.once(("ways beside each other", factor), lambda: _beside_each_other(catalogue, factor))
    return frozenset(named).union(*(beside.get(study, ()) for study in people_of(finding)))


def _beside_each_other(catalogue: Catalogue, factor: str) -> Mapping[str, set[str]]:
    """By study the levels of a way that it counted apart: all who were in it went one of these, or another."""
    out: dict[str, set[str]] = {}
    for finding in catalogue.findings:
        if finding.factor == factor:
            for study in people_of(finding):
                out.setdefault(study, set()).update(finding.level_ids)
    return out


def _words(text: str) -> str:
    """The words alone, with a blank around each, so that one name is found in another by whole words."""
    return " " + " ".join(re.findall(r"\w+", folded(text))) + " "


def ways_counted(catalogue: Catalogue, question: Question, findings: Iterable[Finding]) -> tuple[WayCounted, ...]:
    """The ways in which all of these findings were counted, and whether each was counted alone.

    A way whose rates are those of everybody (`overall`) counts all findings of the outcomes it names.
    """
    rows = list(findings)
    out = []
    for option in question.options:
        overall = {word.text for word in option.overall}
        is_alone = True
        if option.is_factor is not None and option.is_level is not None:
            factor, level = option.is_factor.text, option.is_level.text
            is_counted = all(level in levels_treated(catalogue, factor, row) for row in rows)
            is_alone = all(_is_level_alone(catalogue, factor, level, row) for row in rows)
        else:
            is_counted = all(row.outcome.id in overall for row in rows)
        if rows and is_counted:
            out.append(WayCounted(option.id.text, is_alone))
    return tuple(out)


def _is_level_alone(catalogue: Catalogue, factor: str, level: str, finding: Finding) -> bool:
    """True where everybody behind a finding went this way, by its own wording or by that of its study as a whole."""
    if levels_treated(catalogue, factor, finding) != {level}:
        return False
    wording = catalogue.declared.factors.get(factor)
    matched = wording.matches(treated(finding)) if wording is not None else ()
    return finding.factor == factor or [item.id.text for item in matched] == [level]
