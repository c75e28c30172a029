"""What waits of questions and of the whole guide: days that were set, searches, guidelines, judgements, signatures."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from ...audit.question_references import advice_of
from ...reading.model import Question
from ...results.findings.findings import Catalogue
from ...results.saying.people import person_name
from ...results.saying.review_date import months_later, review_due
from ...results.saying.search_record import ITEMS, missing_of_living, missing_of_search
from ...results.values.line import Line, Link, Span, date, line, typed
from ..sentences.advice import question_ratified
from ..sentences.prose import NamedResult, prose
from .upkeep_entries import Waiting, protocols_not_set, unjudged, unratified
from .waiting_entry import Waits


def waiting(catalogue: Catalogue, named: NamedResult) -> Iterator[Waits]:
    """By kind, and by id of question in each."""
    yield from _checked(catalogue)
    for _, question in sorted(catalogue.evidence.questions.items()):
        yield from _of_question(catalogue, question)
    yield from _entries("not-set", protocols_not_set(catalogue), catalogue, named)
    yield from _entries("not-ratified", unratified(catalogue), catalogue, named)


def _checked(catalogue: Catalogue) -> Iterator[Waits]:
    """When somebody last looked for retractions, and when it is due again."""
    statuses = catalogue.evidence.statuses
    compendium = catalogue.evidence.compendium
    days = [statuses[key].on.value for key in catalogue.evidence.sources if key in statuses]
    interval = compendium.review_status if compendium is not None else None
    if not days or interval is None:
        return
    newest = max(days)
    due = months_later(newest, int(interval.months))
    what = line("retractions and corrections: ", Span("due", ("check due ", date(due))))
    yield Waits("dates", what, line(Link("sources/", ("All reports",))), newest, due=due)


def _of_question(catalogue: Catalogue, question: Question) -> Iterator[Waits]:
    where = line(Link(f"{question.id}/", (typed(question.title.text),)))
    ratified, searched = question.ratified, question.searched
    who = ", ".join(person_name(word.text, catalogue) for word in ratified.by) if ratified is not None else ""
    days = [part.on.value for part in (ratified, searched) if part is not None]
    since = max(days, default=None)
    due = review_due(catalogue, question)
    what = Span("due", ("review due ", date(due))) if due is not None else "no interval of review set"
    said = line("; search not recorded") if searched is None else None
    yield Waits("dates", line(what, said, "; ", question_ratified(question, catalogue)), where, since, who, due)
    if not any(advice.basis.kind.text == "guideline" for advice in advice_of(question)):
        yield Waits("no-guideline", line("no entry rests on a guideline"), where, since, who)
    if searched is None:
        yield Waits("search", line("search not recorded"), where, None, who)
    else:
        by = person_name(searched.by.text, catalogue) if searched.by is not None else ""
        places = () if searched.where else ("where was searched",)
        items = missing_of_search(question)
        missing = (*places, *(("every item of a full record",) if len(items) == len(ITEMS) else items))
        if missing:
            yield Waits("search", _not_recorded(missing), where, searched.on.value, by)
    if missing := missing_of_living(question):
        yield Waits("living", _not_recorded(missing), where, None, who)
    for row in unjudged(catalogue, question):
        yield Waits("not-judged", row, where)
    if ratified is None:
        yield Waits("not-ratified", line("the question as a whole"), where)


def _not_recorded(titles: Iterable[str]) -> Line:
    return line("not recorded: ", typed("; ".join(title[:1].lower() + title[1:] for title in titles)))


def _entries(kind: str, entries: Iterable[Waiting], catalogue: Catalogue, named: NamedResult) -> Iterator[Waits]:
    for entry in entries:
        what = line(typed(entry.place), ": ", prose(entry.words, catalogue, named, "instruction"))
        yield Waits(kind, what, line(Link(entry.address, (typed(entry.title),))))
