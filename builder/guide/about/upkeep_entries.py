"""What waits for somebody: advice not yet ratified or without its protocol, comparisons that nobody judged."""

from __future__ import annotations

from collections.abc import Iterator

from ...reading.model import Advice, Question, Ratified, Urgent
from ...records import NamedTuple
from ...results.findings.comparable import reason_not_compared
from ...results.findings.findings import Catalogue
from ...results.saying.certainty import ledger
from ...results.saying.titles import factor_title
from ...results.values.line import Line, Link, joined, line, typed
from ..sections.compared_levels import compared_title, comparisons


class Waiting(NamedTuple):
    """One entry of advice and where it stands."""

    address: str
    title: str
    """Of the page."""
    place: str
    """The part of the page, in words."""
    words: str
    """As typed."""


class _Entry(NamedTuple):
    """An entry with the ratifier it stands under where it has none of its own."""

    place: str
    advice: Advice
    above: Ratified | None


_PLACES_OF_URGENT = {
    "stop": "what not to do",
    "until_help": "until help comes",
    "call": "whom to call",
    "say": "what to say",
    "afterwards": "afterwards",
}


def unratified(catalogue: Catalogue) -> tuple[Waiting, ...]:
    """Entries that nobody stands behind: neither they nor the option or question above them were ratified.

    Those whose local protocol is not set wait for that first.
    """
    return tuple(
        _waiting(item, entry)
        for item, entry in _entries(catalogue)
        if entry.advice.ratified is None and entry.above is None and entry.advice.basis.state is None
    )


def protocols_not_set(catalogue: Catalogue) -> tuple[Waiting, ...]:
    """Entries whose basis is a local protocol that this programme has not set."""
    return tuple(_waiting(item, entry) for item, entry in _entries(catalogue) if entry.advice.basis.state is not None)


def _waiting(item: Question | Urgent, entry: _Entry) -> Waiting:
    address = f"{item.id}/" if isinstance(item, Question) else "urgent/"
    return Waiting(address, item.title.text, entry.place, entry.advice.words.text)


def _entries(catalogue: Catalogue) -> Iterator[tuple[Question | Urgent, _Entry]]:
    for _, question in sorted(catalogue.evidence.questions.items()):
        for entry in _of_question(question):
            yield question, entry
    for _, urgent in sorted(catalogue.evidence.urgent.items()):
        for name, entries in urgent.advice:
            for advice in entries:
                yield urgent, _Entry(_PLACES_OF_URGENT[name], advice, None)


def _of_question(question: Question) -> Iterator[_Entry]:
    for place, entries in (
        ("what not to do now", question.stop),
        ("is it really this", question.is_it_this),
        ("medical questions", question.medical),
        ("steps", question.steps),
        ("when to call", question.call),
    ):
        for advice in entries:
            yield _Entry(place, advice, question.ratified)
    for option in question.options:
        above = option.ratified or question.ratified
        for place, entries in option.advice:
            for advice in entries:
                yield _Entry(f"{option.title.text}, {place}", advice, above)


def unjudged(catalogue: Catalogue, question: Question) -> tuple[Line, ...]:
    """What a question's pages show and no ledger speaks of: outcomes of all first, then comparisons by factor."""
    findings = catalogue.of_question(question.id)
    of_all = {
        finding.outcome.title.text: None
        for finding in findings
        if finding.kind in ("rate", "estimate", "grade")
        and not finding.factor
        and not finding.claim.within
        and not reason_not_compared(finding)
        and ledger(question, finding.outcome.id) is None
    }
    rows = [line("of all: ", _titles(of_all))] if of_all else []
    for factor in dict.fromkeys(finding.factor for finding in findings if finding.factor):
        titles = {
            compared_title(catalogue, item): None
            for item in comparisons(catalogue, question, factor)
            if ledger(question, item.outcome.id, factor, item.level) is None
        }
        if titles:
            page = Link(f"{question.id}/{factor}/", (typed(factor_title(catalogue, factor)),))
            rows.append(line(page, ": ", _titles(titles)))
    return tuple(rows)


def _titles(titles: dict[str, None]) -> Line:
    return joined([line(typed(title, "definition")) for title in titles], "; ")
