"""What waits for people: dates that will come, reports that one person read, advice that nobody ratified."""

from __future__ import annotations

from collections.abc import Iterable

from ...reading.model import Report
from ...results.findings.findings import Catalogue
from ...results.findings.own_authors import own_work
from ...results.findings.report_relations import relations
from ...results.numbers.shown_numbers import count
from ...results.saying.people import person_name
from ...results.saying.review_date import months_later, review_due
from ...results.saying.source_passages import unused_passages
from ...results.saying.source_reference import source_link
from ...results.values.document import Block, Details, Items, Page, Paragraph, Section, Table
from ...results.values.line import Line, Link, Span, date, joined, line, typed
from ..sentences.advice import question_ratified
from ..sentences.prose import NamedResult, prose, withdrawn
from ..source.source_ties import located_only
from .long_sentences import long_sentences
from .upkeep_entries import Waiting, protocols_not_set, unjudged, unratified


def upkeep_page(catalogue: Catalogue, named: NamedResult) -> Page:
    """For whoever answers for the guide: nothing here fails a check, and no day is compared with today."""
    blocks: tuple[Block, ...] = (
        Paragraph(
            line(
                "What waits for somebody, by what is to be done. Dates stand here as they were set. Nothing on this "
                "page keeps the guide from being published."
            )
        ),
        Section("By date", "by-date", (*_review(catalogue), *_checked(catalogue))),
        Section(
            "To mend",
            "to-mend",
            (
                *_contact(catalogue),
                _door("Relying on a withdrawn report", "withdrawn", _withdrawn(catalogue), is_open=True),
                _door("Not checked for retraction", "not-checked", _unchecked(catalogue)),
                _door("Local protocols not set", "not-set", _not_set(catalogue, named)),
                _door("Sentences that are long to hear", "long-sentences", _long(catalogue, named)),
            ),
        ),
        Section(
            "To read",
            "to-read",
            (
                _door("Read by one person only", "one-reader", _one_reader(catalogue)),
                _door("Not read in full", "not-in-full", _not_in_full(catalogue)),
                _door("Seen and not read yet", "not-read", _not_read(catalogue)),
                _door("Numbers that only stand in their passage", "located", _located(catalogue)),
            ),
        ),
        Section(
            "To judge and to ratify",
            "to-judge",
            (
                _door("How sure, not judged yet", "not-judged", _not_judged(catalogue)),
                _door("Not yet ratified", "not-ratified", _unratified(catalogue, named)),
            ),
        ),
        Section(
            "To know",
            "to-know",
            (
                _door("Read or judged by an author", "own-authors", _own(catalogue)),
                _door("Declared interests", "interests", _interests(catalogue)),
                _door("Questions about printed figures, asked and answered", "asked", _asked(catalogue)),
                _door("Passages that no figure was drawn from", "unused-passages", _unused(catalogue)),
            ),
        ),
    )
    return Page(
        address="upkeep/",
        kind="upkeep",
        title="Upkeep",
        blocks=blocks,
        description="What is due, read by one person only, not checked, not ratified or not set.",
        edit="evidence/compendium.yaml",
    )


def _door(title: str, anchor: str, blocks: tuple[Block, ...], *, is_open: bool = False) -> Details:
    """One kind of thing that waits; its title says where nothing does."""
    nothing = len(blocks) == 1 and isinstance(only := blocks[0], Paragraph) and only.kind == "quiet"
    return Details(f"{title}: none" if nothing else title, blocks, "part", is_open and not nothing, anchor)


def _none(said: str) -> tuple[Block, ...]:
    return (Paragraph(line(said), "quiet"),)


def _listed(rows: Iterable[Line], nothing: str) -> tuple[Block, ...]:
    items = tuple(rows)
    return (Items(items),) if items else _none(nothing)


def _reports(catalogue: Catalogue) -> list[Report]:
    """Reports that were read and that still count."""
    return [
        report
        for key, report in sorted(catalogue.evidence.reports.items())
        if key in catalogue.evidence.sources and catalogue.standing(key) != "retracted"
    ]


def _review(catalogue: Catalogue) -> tuple[Block, ...]:
    rows = []
    for _, question in sorted(catalogue.evidence.questions.items()):
        due = review_due(catalogue, question)
        searched = question.searched
        rows.append(
            (
                line(Link(f"{question.id}/", (typed(question.title.text),))),
                line(Span("due", ("review due ", date(due)))) if due is not None else line("no interval set"),
                line(date(searched.on.value)) if searched is not None else line("search not recorded"),
                question_ratified(question, catalogue),
            )
        )
    if not rows:
        return _none("No question has been written yet.")
    header = (line("Question"), line("Next"), line("Searched"), line("Ratified"))
    return (Table(line("When each question is due again"), header, tuple(rows), "Review of the questions", "review"),)


def _checked(catalogue: Catalogue) -> tuple[Block, ...]:
    """When somebody last looked for retractions, and when it is due again."""
    statuses = catalogue.evidence.statuses
    compendium = catalogue.evidence.compendium
    days = [statuses[key].on.value for key in catalogue.evidence.sources if key in statuses]
    if not days:
        return ()
    newest = max(days)
    interval = compendium.review_status if compendium is not None else None
    again = line()
    if interval is not None:
        again = line("; ", Span("due", ("check due ", date(months_later(newest, int(interval.months))))))
    return (Paragraph(line("Retractions and corrections: status checked on ", date(newest), again, ".")),)


def _unchecked(catalogue: Catalogue) -> tuple[Block, ...]:
    """Reports whose standing nobody knows, then those that were looked at before the others."""
    statuses = catalogue.evidence.statuses
    keys = sorted(catalogue.evidence.sources)
    rows = [
        line(
            source_link(key, catalogue),
            ": not checked",
            line(", looked for on ", date(statuses[key].on.value), " and not found out") if key in statuses else None,
        )
        for key in keys
        if catalogue.standing(key) in ("unknown", "not checked")
    ]
    newest = max((status.on.value for status in statuses.values()), default=None)
    rows += [
        line(
            source_link(key, catalogue), ": status checked on ", date(statuses[key].on.value), ", before the others"
        )
        for key in keys
        if key in statuses
        and statuses[key].on.value != newest
        and catalogue.standing(key) not in ("unknown", "not checked")
    ]  # fmt: skip
    return _listed(rows, "Every report has been checked at least once.")


def _withdrawn(catalogue: Catalogue) -> tuple[Block, ...]:
    rows: list[Line] = []
    for key, places in sorted(relations(catalogue).mentions.items()):
        if catalogue.standing(key) != "retracted":
            continue
        gone = withdrawn(key, catalogue)
        for place in places:
            page = Link(place.address, (typed(place.title),))
            title = catalogue.readable(catalogue.evidence.sources[key], "title")
            at = Span("below", line(typed(str(place.position), "locator")))
            rows.append(
                line(
                    page, ", ", typed(place.place), ": ", source_link(key, catalogue),
                    line(", ", typed(title, "reference")) if title else None, ", ", gone, at,
                )
            )  # fmt: skip
    return _listed(rows, "No sentence and no basis relies on a withdrawn report.")


def _one_reader(catalogue: Catalogue) -> tuple[Block, ...]:
    rows = (
        line(source_link(report.key, catalogue), ": read by ", typed(person_name(report.read.by.text, catalogue)),
             " on ", date(report.read.on.value), ", re-read by nobody yet")
        for report in _reports(catalogue)
        if report.checked is None
    )  # fmt: skip
    return _listed(rows, "Every report was re-read by a second person.")


def _not_in_full(catalogue: Catalogue) -> tuple[Block, ...]:
    rows = []
    for report in _reports(catalogue):
        read = report.read
        if read.depth.text != "full text":
            # How far it was read stands with its name.
            what = line(": ", typed(read.what.text)) if read.what is not None else None
            via = line(", in ", source_link(read.via.text, catalogue)) if read.via is not None else None
            rows.append(line(source_link(report.key, catalogue), what, via))
    return _listed(rows, "Every report was read in full.")


def _not_read(catalogue: Catalogue) -> tuple[Block, ...]:
    wanted: dict[str, list[Line]] = {}
    for _, question in sorted(catalogue.evidence.questions.items()):
        for word in question.seen_not_read:
            wanted.setdefault(word.text, []).append(line(Link(f"{question.id}/", (typed(question.title.text),))))
    keys = [key for key in sorted(catalogue.evidence.sources) if key not in catalogue.evidence.reports]
    rows = (
        line(source_link(key, catalogue), line(": for ", joined(wanted[key])) if key in wanted else None)
        for key in keys
    )
    return _listed(rows, "Every report that was entered has been read.")


def _own(catalogue: Catalogue) -> tuple[Block, ...]:
    rows = []
    for work in own_work(catalogue):
        question = catalogue.evidence.questions.get(work.question)
        page = line(", for ", Link(f"{question.id}/", (typed(question.title.text),))) if question is not None else None
        name = typed(person_name(work.person, catalogue))
        rows.append(line(name, ", an author of ", source_link(work.key, catalogue), ", ", work.did, page))
    return _listed(rows, "Nobody read or judged a report of their own, as far as names show.")


def _interests(catalogue: Catalogue) -> tuple[Block, ...]:
    compendium = catalogue.evidence.compendium
    if compendium is None or not compendium.people:
        return _none("Nobody is named.")
    judged: dict[str, list[Line]] = {}
    for _, question in sorted(catalogue.evidence.questions.items()):
        link = line(Link(f"{question.id}/", (typed(question.title.text),)))
        judges = {step.by.text for certainty in question.certainty for step in certainty.steps}
        ratifiers = {word.text for word in question.ratified.by} if question.ratified is not None else set()
        for sign in sorted(judges | ratifiers):
            judged.setdefault(sign, []).append(link)
    rows = []
    for sign, person in sorted(compendium.people.items()):
        interests = line(typed(person.interests.text)) if person.interests is not None else line("not stated")
        rows.append((line(typed(person.name.text)), interests, joined(judged.get(sign, [])) or line("none")))
    header = (line("Person"), line("Interests as declared"), line("Judged or ratified"))
    return (Table(line("Who stands behind what"), header, tuple(rows), "Declared interests", "interests"),)


def _not_judged(catalogue: Catalogue) -> tuple[Block, ...]:
    """Every comparison that a page shows, and every outcome of all, of which nobody wrote a ledger; by question."""
    blocks: list[Block] = []
    for _, question in sorted(catalogue.evidence.questions.items()):
        rows = unjudged(catalogue, question)
        page = Paragraph(line(Link(f"{question.id}/", ("open the page",)), ": not judged yet"))
        if rows:
            blocks.append(Details(question.title.text, (page, Items(rows))))
    return tuple(blocks) or _none("Every comparison and every outcome has its ledger of certainty.")


def _unratified(catalogue: Catalogue, named: NamedResult) -> tuple[Block, ...]:
    questions = [
        line(Link(f"{question.id}/", (typed(question.title.text),)), ": the question as a whole")
        for _, question in sorted(catalogue.evidence.questions.items())
        if question.ratified is None
    ]
    entries = _by_page(unratified(catalogue), catalogue, named)
    blocks: list[Block] = [Items(tuple(questions))] if questions else []
    return (*blocks, *entries) or _none("Everything has been ratified.")


def _by_page(entries: Iterable[Waiting], catalogue: Catalogue, named: NamedResult) -> tuple[Block, ...]:
    """Entries in one fold for each page, in the order of the pages."""
    pages: dict[tuple[str, str], list[Line]] = {}
    for entry in entries:
        words = line(typed(entry.place), ": ", prose(entry.words, catalogue, named, "instruction"))
        pages.setdefault((entry.address, entry.title), []).append(words)
    return tuple(
        Details(title, (Paragraph(line(Link(address, ("open the page",)))), Items(tuple(rows))))
        for (address, title), rows in pages.items()
    )


def _contact(catalogue: Catalogue) -> tuple[Block, ...]:
    local = catalogue.evidence.local
    if local.call_number is not None and local.call_number.text not in ("", "not set"):
        return ()
    return (Paragraph(line("Whom to call: contact not set by this programme."), "warning"),)


def _not_set(catalogue: Catalogue, named: NamedResult) -> tuple[Block, ...]:
    entries = _by_page(protocols_not_set(catalogue), catalogue, named)
    if not entries:
        return _none("Local protocols are set wherever an entry rests on one.")
    return (Paragraph(line("These entries rest on a local protocol that is not set:")), *entries)


def _long(catalogue: Catalogue, named: NamedResult) -> tuple[Block, ...]:
    """Sentences over forty words or with more than two numbers; a matter of style, which no check asks about."""
    rows = []
    for item in long_sentences(catalogue, named):
        why = " and ".join(
            said
            for said, holds in (("over forty words", item.is_long), ("more than two numbers", item.has_many))
            if holds
        )
        page = Link(f"{item.question.id}/", (typed(item.question.title.text),))
        rows.append(line(page, ", ", typed(item.place), f", {why}: ", item.line))
    return _listed(rows, "No sentence is longer than forty words or has more than two numbers.")


def _asked(catalogue: Catalogue) -> tuple[Block, ...]:
    rows = [
        line(
            typed(problem.printed or problem.message), ", by ",
            Link(f"contribute/#rule-{problem.rule}", (typed(problem.rule),)), ": ", typed(problem.acknowledged),
            line(" (", source_link(key, catalogue), ")") if key in catalogue.evidence.sources else None,
        )
        for problem in catalogue.audit.problems
        if problem.acknowledged is not None
        for key in (problem.place.partition("/")[0],)
    ]  # fmt: skip
    said = Paragraph(
        line("Printed figures that do not agree. An answer explains them; the paper still prints them so.")
    )
    return (said, Items(tuple(rows))) if rows else _none("Nothing was asked.")


def _located(catalogue: Catalogue) -> tuple[Block, ...]:
    """Numbers about which the passage says nothing more: whoever reads the paper again looks at these first."""
    book = catalogue.book
    workings = book.explain(
        "located",
        "Numbers that only stand in their passage",
        "numbers of claims that no words tie; all of them",
        convention="tied: the passage, by words, list or column, or words quoted say a level, time, event or group; "
        "numbers that are part of a level's own words left out",
    )

    def counted(name: str, alone: int, of: int, who: str) -> Line:
        located = count(
            book, f"upkeep/overall/located-{name}", alone, "none", workings, inputs=(), says=f"{who}, only there"
        )
        every = count(book, f"upkeep/overall/quoted-{name}", of, "none", workings, inputs=(), says=f"{who}, all")
        return line(located, " of ", every, " numbers")

    found = [(report, *located_only(catalogue, report)) for report in _reports(catalogue)]
    rows = [
        line(source_link(report.key, catalogue), ": ", counted(report.key, alone, of, report.key))
        for report, alone, of in found
        if alone and report.checked is None
    ]
    # Two people have looked at these, so that nobody needs the list: told is how many they are.
    again = [(alone, of) for report, alone, of in found if alone and report.checked is not None]
    if again:
        told = counted("re-read", sum(alone for alone, _ in again), sum(of for _, of in again), "reports re-read")
        rows.append(line("In reports that a second person re-read: ", told))
    said = Paragraph(
        line(
            "The check found each of these where the claim says, with its unit. What it counts is known from whoever "
            "read the report; a second reader looks at them first."
        )
    )
    return (said, Items(tuple(rows))) if rows else _none("The passages say of every number what it is.")


def _unused(catalogue: Catalogue) -> tuple[Block, ...]:
    rows = []
    for report in _reports(catalogue):
        source = catalogue.evidence.sources[report.key]
        unused = unused_passages(catalogue, source)
        if unused:
            links = joined(
                [
                    line(Link(f"sources/{report.key}/#{passage.slug}", (typed(passage.bracket, "locator"),)))
                    for passage in unused
                ]
            )
            rows.append(line(source_link(report.key, catalogue), ": ", links))
    return _listed(rows, "Every passage of a report that was read proves a figure.")
