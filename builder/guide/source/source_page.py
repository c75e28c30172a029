"""The page of one publication: reference, standing, passages with their proved numbers, and what was drawn from it."""

from __future__ import annotations

from collections.abc import Iterable

from ...reading.model import Acknowledged, Report, Source
from ...reading.page_kinds import LETTERS
from ...results.findings.authors import authors_of
from ...results.findings.findings import Catalogue
from ...results.findings.report_relations import relations
from ...results.saying.people import person_name
from ...results.saying.source_passages import passage_blocks, readers_line
from ...results.saying.source_reference import (
    reference_line,
    reference_text,
    source_link,
    source_links,
    standing_paragraph,
)
from ...results.saying.titles import claim_title, study_name
from ...results.values.document import Block, Blocks, Details, Facts, Items, Page, Paragraph, Section, Table
from ...results.values.line import Line, Link, Marked, Span, joined, line, typed
from ..sentences.prose import NamedResult
from .source_claims import claim_blocks
from .source_studies import study_blocks

TRAIL = (("sources/", "All reports"),)


def source_page(catalogue: Catalogue, key: str, named: NamedResult) -> Page:
    """The page of one entry: of a report that was read, of one not read yet, or the notice of a retracted one.

    key: of an entry in the evidence; KeyError otherwise.
    """
    source = catalogue.evidence.sources[key]
    report = catalogue.evidence.reports.get(key)
    title = catalogue.readable(source, "title") or "Title not reported"
    if catalogue.standing(key) == "retracted":
        blocks, title = _retracted_report(catalogue, source), f"Retracted: {title}"
    elif report is None:
        blocks = _unread(catalogue, source)
    else:
        blocks = _read(catalogue, source, report)
    return Page(
        address=f"sources/{key}/",
        kind="source",
        title=title,
        blocks=blocks,
        edit=report.file if report is not None else source.position.file,
        trail=TRAIL,
        search=tuple(dict.fromkeys((*authors_of(source), title))),
        touched_by=(key,),
    )


def _reference(catalogue: Catalogue, source: Source) -> Paragraph:
    whole = Marked("reference", reference_text(catalogue, source))
    return Paragraph(line(whole, " ", reference_line(catalogue, source)))


def _retracted_report(catalogue: Catalogue, source: Source) -> Blocks:
    """A retracted report: its reference and notice, no passage and no number, and what had leaned on it."""
    blocks: list[Block] = [
        standing_paragraph(catalogue, source.key),
        Paragraph(
            line(
                "Its passages and every number drawn from it were taken out of this guide. The reference stays, so "
                "that nobody has to wonder where it went."
            )
        ),
        _reference(catalogue, source),
    ]
    mentions = relations(catalogue).mentions.get(source.key, ())
    rows = [
        line(Link(place.address, (typed(place.title),)), ": ", typed(place.place), " (", _at(str(place.position)), ")")
        for place in mentions
    ]
    rows.extend(
        line(source_link(quotation.key, catalogue), " quotes it")
        for quotation in relations(catalogue).quoting.get(source.key, ())
    )
    said = Items(tuple(rows)) if rows else Paragraph(line("Nothing else in this guide names it."), "quiet")
    blocks.append(Section("What relied on it", "leaned-on-it", (said,)))
    if source.key in catalogue.evidence.reports:
        blocks.extend(_same_people(catalogue, catalogue.evidence.reports[source.key], is_retracted=True))
    return tuple(blocks)


def _at(position: str) -> Marked:
    return Marked("locator", position.rsplit(":", 1)[0])


def _unread(catalogue: Catalogue, source: Source) -> Blocks:
    listed = [
        line(Link(f"{question.id}/", (typed(question.title.text),)))
        for _, question in sorted(catalogue.evidence.questions.items())
        if any(word.text == source.key for word in question.seen_not_read)
    ]
    said = line("Not read yet: nobody has drawn a claim from this report.")
    blocks: list[Block] = [standing_paragraph(catalogue, source.key), Paragraph(said, "not-read")]
    if listed:
        blocks.append(Paragraph(line("Seen and not yet read for ", joined(listed), ".")))
    blocks.append(_reference(catalogue, source))
    blocks.extend(_passages(catalogue, source, line("No figure was drawn from them yet.")))
    return tuple(blocks)


def _read(catalogue: Catalogue, source: Source, report: Report) -> Blocks:
    blocks: list[Block] = [
        standing_paragraph(catalogue, source.key),
        Paragraph(depth_line(catalogue, report), "read"),
        *_letter(report),
        _reference(catalogue, source),
    ]
    ties = relations(catalogue)
    names = [study.id.text for study in report.studies]
    others = dict.fromkeys(key for name in names for key in ties.by_study.get(name, ()) if key != report.key)
    if others:
        links = source_links(catalogue, others)
        blocks.append(Paragraph(line("The same people as in ", links, ", counted once.")))
    proof = line(
        "A marked number agrees with the passage typed from the place in bold. Where no words of it are shown for the "
        "number, who read it says what it counts."
    )
    blocks.extend(_passages(catalogue, source, proof))
    if report.nothing_claimed is not None:
        why = line("Read, and no claim drawn from it: ", typed(report.nothing_claimed.text), ".")
        blocks.append(Section("What was drawn from it", "claims", (Paragraph(why),)))
    else:
        blocks.append(
            Section("What was drawn from it", "claims", claim_blocks(catalogue, report, source) or (_nothing(),))
        )
    blocks.extend(study_blocks(catalogue, report, source))
    blocks.extend(_same_people(catalogue, report))
    blocks.extend(_quoted_by(catalogue, report))
    blocks.extend(_questions_asked(catalogue, report))
    blocks.extend(_mentions(catalogue, source))
    blocks.append(_names(catalogue, report))
    return tuple(blocks)


def _letter(report: Report) -> tuple[Block, ...]:
    """Where it says on which pages the report stands, and for whom that is printed."""
    if not report.claims:
        return ()
    said = "On which pages it stands, and a letter for who read it"
    return (Paragraph(line(Link(f"{LETTERS}#{report.key}", (said,))), "screen"),)


def _names(catalogue: Catalogue, report: Report) -> Details:
    """How sentences name each claim, and files each study: readers know both by their titles."""
    rows = [
        (line(_claim_link(catalogue, report.key, claim.id.text)),
         line(Span("code", line(Marked("identifier", f"${report.key}/{claim.id.text}")))))
        for claim in report.claims
    ]  # fmt: skip
    rows += [
        (line("Study: ", typed(study_name(catalogue, study.id.text))),
         line(Span("code", line(typed(study.id.text, "identifier")))))
        for study in report.studies
    ]  # fmt: skip
    return Details("For whoever writes: names in the files", (Facts(tuple(rows)),), "part", anchor="names")


def _nothing() -> Paragraph:
    return Paragraph(line("No claim was drawn from it."), "quiet")


def depth_line(catalogue: Catalogue, report: Report) -> Line:
    """Who read it, how deep and when, who re-read it, and what the readers declare."""
    read = report.read
    depth = {
        "full text": "In full text",
        "abstract": "As an abstract only",
        "part": "In part",
        "secondary": "Through another report only",
    }.get(read.depth.text, read.depth.text)
    what = line(" (", typed(read.what.text), ")") if read.what is not None else line()
    via = line(", in ", source_link(read.via.text, catalogue)) if read.via is not None else line()
    people = dict.fromkeys([read.by.text, *([report.checked.by.text] if report.checked is not None else [])])
    again = readers_line(catalogue, report)
    return line(depth, what, via, ": ", again, ".", _interests(catalogue, people))


def _interests(catalogue: Catalogue, people: Iterable[str]) -> Line:
    """ " Interests of Ines Marlow, Tam Okafor: none declared." """
    compendium = catalogue.evidence.compendium
    by_words: dict[str, list[str]] = {}
    for person in people:
        known = compendium.people.get(person) if compendium is not None else None
        if known is not None and known.interests is not None:
            by_words.setdefault(known.interests.text, []).append(known.name.text)
    told = [line("Interests of ", typed(", ".join(names)), ": ", typed(said)) for said, names in by_words.items()]
    return line(" ", joined(told, ". "), ".") if told else ()


def _passages(catalogue: Catalogue, source: Source, said: Line) -> list[Block]:
    passages = passage_blocks(catalogue, source)
    if not passages:
        return [Section("Passages", "passages", (Paragraph(line("No passage was typed from it."), "quiet"),))]
    return [Section("Passages", "passages", (*passages, Paragraph(said, "quiet")))]


def _same_people(catalogue: Catalogue, report: Report, *, is_retracted: bool = False) -> list[Block]:
    """Reports of the same study, reviews that hold it, and which report counts where two tell the same."""
    ties = relations(catalogue)
    rows: list[Line] = []
    for study in report.studies:
        name = study.id.text
        others = [key for key in ties.by_study.get(name, ()) if key != report.key]
        if others:
            links = source_links(catalogue, others)
            of = line("Of ", typed(study_name(catalogue, name)), " too: ") if len(report.studies) > 1 else None
            rows.append(line(of, links, ": the same people, counted once."))
        holders = [key for key in ties.held_by.get(name, ()) if key != report.key]
        if holders:
            links = source_links(catalogue, holders)
            which = line(typed(study_name(catalogue, name))) if len(report.studies) > 1 else line("this study")
            rows.append(line("Of the review ", links, ": it includes ", which, "."))
    if not is_retracted:
        for pair in ties.replaced.get(report.key, ()):
            claims = [line(_claim_link(catalogue, held.key, held.claim.id.text)) for held in pair.counting]
            rows.append(
                line(_claim_link(catalogue, report.key, pair.finding.claim.id.text), ": counted from ",
                     source_links(catalogue, [held.key for held in pair.counting], " and "), " instead (",
                     joined(claims, ", "), ").")
            )  # fmt: skip
        for pair in ties.replacing.get(report.key, ()):
            rows.append(
                line(_claim_link(catalogue, report.key, pair.by.claim.id.text), ": counts in place of ",
                     _claim_link(catalogue, pair.finding.key, pair.finding.claim.id.text), " of ",
                     source_link(pair.finding.key, catalogue), ".")
            )  # fmt: skip
    unique = tuple(dict.fromkeys(rows))
    return [Details("The same people elsewhere", (Items(unique),), "part", anchor="same-people")] if unique else []


def _claim_link(catalogue: Catalogue, key: str, claim: str) -> Link:
    report = catalogue.evidence.reports[key]
    found = report.claim(claim)
    title = claim_title(catalogue, found) if found is not None else claim
    return Link(f"sources/{key}/#claim-{claim}", (typed(title, "definition"),))


def _quoted_by(catalogue: Catalogue, report: Report) -> list[Block]:
    rows = tuple(
        line(
            _claim_link(catalogue, report.key, quotation.quoted.partition("/")[2]), ": quoted from ",
            source_link(report.key, catalogue), " by ", source_link(quotation.key, catalogue), "; counted once.",
        )
        for quotation in relations(catalogue).quoting.get(report.key, ())
    )  # fmt: skip
    return [Details("Quoted elsewhere", (Items(rows),), "part", anchor="quoted")] if rows else []


def _questions_asked(catalogue: Catalogue, report: Report) -> list[Block]:
    """Printed figures that do not fit, and the answer a person signed."""
    held: list[tuple[Line, Acknowledged]] = [(line("the whole report"), item) for item in report.acknowledged]
    for study in report.studies:
        held.extend((line("whom it studied"), item) for item in study.acknowledged)
    for claim in report.claims:
        held.extend((line(_claim_link(catalogue, report.key, claim.id.text)), item) for item in claim.acknowledged)
    if not held:
        return []
    rows = tuple(
        (
            place,
            line(
                typed(item.printed.text),
                line("; with ", source_link(item.with_key.text, catalogue)) if item.with_key is not None else None,
            ),
            line(Link(f"contribute/#rule-{item.rule.text}", (typed(item.rule.text),))),
            line(typed(item.reason.text), " (", typed(person_name(item.by.text, catalogue)), ")"),
        )
        for place, item in held
    )
    header = (line("Where"), line("Printed"), line("Rule that asked"), line("Answer, and who gave it"))
    caption = line("Printed figures that do not agree, asked about and answered")
    table = Table(caption, header, rows, "Questions that were asked about this report", "asked")
    return [Details("Questions asked and answered", (table,), "part", anchor="asked")]


def _mentions(catalogue: Catalogue, source: Source) -> list[Block]:
    mentions = relations(catalogue).mentions.get(source.key, ())
    if not mentions:
        return []
    by_page: dict[Link, dict[str, None]] = {}
    for place in mentions:
        by_page.setdefault(Link(place.address, (typed(place.title),)), {})[place.place] = None
    rows = tuple(line(page, ": ", typed(", ".join(places))) for page, places in by_page.items())
    return [Details("What relies on it", (Items(rows),), "part", anchor="relies-on-it")]
