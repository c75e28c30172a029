"""People of the programme who wrote, read or judged the same report: nothing forbidden, but to be seen."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from ...reading.model import Certainty, Question
from ...reading.values import Words
from ...records import NamedTuple
from .authors import authors_of
from .findings import Catalogue


class OwnWork(NamedTuple):
    """One thing that a person did about a report of which they are an author."""

    person: str
    """The sign that files use."""
    did: str
    key: str
    question: str
    """Id, or "" where it concerns the report as a whole."""


def own_work(catalogue: Catalogue) -> tuple[OwnWork, ...]:
    """By person, then by what they did, key and question; each once."""
    return tuple(sorted(set(_found(catalogue))))


def is_same_person(name: str, author: str) -> bool:
    """True where a person's name and an author's may be one: equal family name and equal first letter.

    name: "Ines Marlow". author: as in BibTeX, "Marlow, Ines" or "Ines Marlow".
    """
    family, _, given = author.partition(",")
    if not given:
        given, _, family = author.rpartition(" ")
    family, given, name = family.strip().casefold(), given.strip().casefold(), name.strip().casefold()
    if not family or not given or not name.endswith(family):
        return False
    before = name[: -len(family)]
    return before.endswith(" ") and before[0] == given[0]


@lru_cache(maxsize=2)  # one guide is composed at a time
def _written_by(catalogue: Catalogue) -> dict[str, frozenset[str]]:
    """Keys of the reports that each person is an author of."""
    compendium = catalogue.evidence.compendium
    if compendium is None:
        return {}
    out = {
        sign: frozenset(
            key
            for key, source in catalogue.evidence.sources.items()
            if any(is_same_person(person.name.text, author) for author in authors_of(source))
        )
        for sign, person in compendium.people.items()
    }
    return {sign: keys for sign, keys in out.items() if keys}


def _found(catalogue: Catalogue) -> Iterator[OwnWork]:
    written = _written_by(catalogue)
    if not written:
        return
    for key, report in catalogue.evidence.reports.items():
        readers = [("read it", report.read.by), *([("re-read it", report.checked.by)] if report.checked else [])]
        for did, by in readers:
            if key in written.get(by.text, ()):
                yield OwnWork(by.text, did, key, "")
    for question in catalogue.evidence.questions.values():
        yield from _in_question(catalogue, question, written)


def own_reports(catalogue: Catalogue, question: Question, certainty: Certainty, person: str) -> tuple[str, ...]:
    """Keys of the reports that a ledger is about and that somebody who judged in it wrote. person: sign."""
    written = _written_by(catalogue).get(person, frozenset())
    factor = certainty.factor.text if certainty.factor is not None else None
    keys = {
        finding.key
        for finding in catalogue.of_question(question.id)
        if finding.key in written
        and finding.outcome.id == certainty.outcome.text
        and (factor is None or finding.factor == factor)
    }
    return tuple(sorted(keys))


def _in_question(catalogue: Catalogue, question: Question, written: dict[str, frozenset[str]]) -> Iterator[OwnWork]:
    findings = catalogue.of_question(question.id)
    for certainty in question.certainty:
        for person in {step.by.text for step in certainty.steps}:
            for key in own_reports(catalogue, question, certainty, person):
                yield OwnWork(person, "judged how sure it is", key, question.id)
    all_keys = {finding.key for finding in findings}
    ratified: tuple[Words, ...] = question.ratified.by if question.ratified is not None else ()
    for by in ratified:
        for key in all_keys & written.get(by.text, frozenset()):
            yield OwnWork(by.text, "ratified the question", key, question.id)
