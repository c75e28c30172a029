"""What waits for people: dates that will come, reports that one person read, advice that nobody ratified."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from ...results.findings.findings import Catalogue
from ...results.findings.own_authors import own_work
from ...results.saying.people import person_name
from ...results.saying.source_passages import unused_passages
from ...results.saying.source_reference import source_link
from ...results.values.document import Block, Details, Facts, Filter, Items, Page, Paragraph, Section, Table
from ...results.values.line import Line, Link, date, joined, line, plain_text, typed
from ..sentences.prose import NamedResult
from ..source.source_ties import located_only
from .long_sentences import long_sentences
from .waiting import KINDS, Kind, waiting
from .waiting_entry import Waits
from .waiting_reports import located_line, standing_reports

_GROUPS = (
    ("by-date", "By date"),
    ("to-mend", "To mend"),
    ("to-read", "To read and to look up"),
    ("to-write", "To write"),
    ("to-judge", "To judge and to ratify"),
)
# House rule: so many rows of one kind are read at a look; more stand by the page that they are of.
_MANY = 24


def upkeep_page(catalogue: Catalogue, named: NamedResult) -> Page:
    """For whoever answers for the guide: nothing here fails a check, and no day is compared with today."""
    found = waiting(catalogue, named)
    kinds = {kind.name: tuple(item for item in found if item.kind == kind.name) for kind in KINDS}
    beside: dict[str, tuple[Block, ...]] = {
        "to-mend": _contact(catalogue),
        "to-judge": (_door("Sentences that are long to hear", "long-sentences", _long(catalogue, named)),),
    }
    blocks: list[Block] = [
        Paragraph(line("What waits, the most urgent first. Nothing here keeps the guide from being published.")),
        Filter("Show one kind alone", tuple(kind.word for kind in KINDS if kinds[kind.name])),
    ]
    for anchor, title in _GROUPS:
        doors = [_kind_door(catalogue, kind, kinds[kind.name]) for kind in KINDS if kind.group == anchor]
        blocks.append(Section(title, anchor, (*filter(None, doors), *beside.get(anchor, ()))))
    blocks.append(
        Section(
            "To know",
            "to-know",
            (
                *_nothing(catalogue, kinds),
                _door("Read or judged by an author", "own-authors", _own(catalogue)),
                _door("Declared interests", "interests", _interests(catalogue)),
                _door("Passages that no figure was drawn from", "unused-passages", _unused(catalogue)),
            ),
        )
    )
    return Page(
        address="upkeep/",
        kind="upkeep",
        title="Upkeep",
        blocks=tuple(blocks),
        description="What is due, read by one person only, not checked, not ratified or not set.",
        edit="evidence/compendium.yaml",
    )


def _kind_door(catalogue: Catalogue, kind: Kind, found: tuple[Waits, ...]) -> Details | None:
    """One kind of thing that waits; the most urgent stand open. None where nothing does."""
    beside = _re_read(catalogue) if kind.name == "located" else ()
    if not found and not beside:
        return None
    said: tuple[Block, ...] = (Paragraph(line(_SAID[kind.name])),) if kind.name in _SAID else ()
    rows: tuple[Block, ...] = _by_page(found) if len(found) > _MANY else (_table(kind.title, found),) if found else ()
    return _door(kind.title, kind.name, (*said, *rows, *beside), is_open=kind.name in ("dates", "withdrawn"))


def _nothing(catalogue: Catalogue, kinds: Mapping[str, tuple[Waits, ...]]) -> tuple[Block, ...]:
    """All kinds of which nothing waits, behind one door, each at its own address."""
    none = [kind for kind in KINDS if _kind_door(catalogue, kind, kinds[kind.name]) is None]
    rows = tuple((line(kind.title), line(kind.nothing)) for kind in none)
    facts = Facts(rows, anchors=tuple(kind.name for kind in none))
    return (Details("Where nothing waits", (facts,), "part", anchor="nothing-waits"),) if none else ()


_SAID = {
    "located": "The check found each of these where the claim says, with its unit. What it counts is known from "
    "whoever read the report; a second reader looks at them first.",
    "asked": "Printed figures that do not agree. An answer explains them; the paper still prints them so.",
    "overlap": "These may be the same patients. An answer says why not; only one study named in both counts once.",
    "not-set": "These entries rest on a local protocol that is not set.",
}


def _table(title: str, found: Iterable[Waits]) -> Table:
    header = (line("Where"), line("What"), line("Since"), line("Who"))
    rows = tuple(
        (
            item.where,
            item.what,
            line(date(item.since)) if item.since is not None else (),
            line(typed(item.who)) if item.who else (),
        )
        for item in found
    )
    return Table(line("What waits"), header, rows, title, "waits")


def _by_page(found: Iterable[Waits]) -> tuple[Block, ...]:
    """One fold for each page, in the order of the pages."""
    pages: dict[Line, list[Waits]] = {}
    for item in found:
        pages.setdefault(item.where, []).append(item)
    return tuple(
        Details(
            plain_text(where), (Paragraph(line("Open the page: ", *where)), Items(tuple(item.what for item in items)))
        )
        for where, items in pages.items()
    )


def _re_read(catalogue: Catalogue) -> tuple[Block, ...]:
    """Two people have looked at these, so that nobody needs the list: told is how many they are."""
    found = [located_only(catalogue, report) for report in standing_reports(catalogue) if report.checked is not None]
    alone, of = sum(each for each, _ in found), sum(each for _, each in found)
    if not alone:
        return ()
    told = located_line(catalogue, "re-read", alone, of, "reports re-read")
    return (Paragraph(line("In reports that a second person re-read: ", told)),)


def _door(title: str, anchor: str, blocks: tuple[Block, ...], *, is_open: bool = False) -> Details:
    """One kind of thing that waits; its title says where nothing does."""
    nothing = len(blocks) == 1 and isinstance(only := blocks[0], Paragraph) and only.kind == "quiet"
    return Details(f"{title}: none" if nothing else title, blocks, "part", is_open and not nothing, anchor)


def _none(said: str) -> tuple[Block, ...]:
    return (Paragraph(line(said), "quiet"),)


def _listed(rows: Iterable[Line], nothing: str) -> tuple[Block, ...]:
    items = tuple(rows)
    return (Items(items),) if items else _none(nothing)


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


def _contact(catalogue: Catalogue) -> tuple[Block, ...]:
    local = catalogue.evidence.local
    if local.call_number is not None and local.call_number.text not in ("", "not set"):
        return ()
    return (Paragraph(line("Whom to call: contact not set by this programme."), "warning"),)


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


def _unused(catalogue: Catalogue) -> tuple[Block, ...]:
    rows = []
    for report in standing_reports(catalogue):
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
