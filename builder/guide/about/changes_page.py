"""What changed: the release, what was corrected or retracted, what took the place of what, and what was read when."""

from __future__ import annotations

import datetime

from ...reading.model import Status
from ...results.findings.findings import Catalogue, Finding
from ...results.findings.report_relations import relations
from ...results.saying.people import person_name
from ...results.saying.source_reference import bare_doi, doi_link, source_link, source_links
from ...results.saying.titles import claim_title
from ...results.values.document import Block, Details, Items, Page, Paragraph, Section, Table
from ...results.values.line import Line, Link, Marked, date, line, typed
from ..sentences.prose import NamedResult

EVENTS = {
    "retracted": "retracted: it no longer counts in any number",
    "corrected": "corrected",
    "concern": "concern expressed",
}


def changes_page(catalogue: Catalogue, named: NamedResult) -> Page:
    """For whoever has read the guide before."""
    return Page(
        address="changes/",
        kind="changes",
        title="What changed",
        blocks=(
            _release(catalogue),
            Paragraph(line("To be told of it: ", Link("feed.xml", ("feed of changes (Atom)",)), "."), "quiet"),
            Section("Retractions and corrections", "notices", _notices(catalogue)),
            Details("Which report counts in place of which", _superseded(catalogue), "part", anchor="in-place-of"),
            Details("What was read, newest first", _read(catalogue), "part", anchor="read"),
        ),
        description="The release of this guide, what was corrected or retracted, and what was read when.",
        edit="evidence/compendium.yaml",
    )


def _release(catalogue: Catalogue) -> Paragraph:
    compendium = catalogue.evidence.compendium
    if compendium is None:
        return Paragraph(line("The release is not stated."))
    repository = compendium.repository
    link: Line = ()
    if repository is not None and repository.text.startswith(("https://", "http://")):
        link = line(" Every change of wording is in the history of ", Link(repository.text, ("its repository",)), ".")
    return Paragraph(
        line(
            "Release ", Marked("identifier", compendium.release.text), ", evidence to ",
            date(compendium.evidence_date.value), ". The first number of a release moves when advice is reversed or "
            "the vocabulary is no longer compatible, the second when a number on a page changes, "
            "the third for wording alone.", link,
        ),
        "release",
    )  # fmt: skip


def noticed_on(status: Status) -> datetime.date:
    """The day of the notice, else the day on which somebody found it."""
    if status.notice is not None and status.notice.on is not None:
        return status.notice.on.value
    return status.on.value


def _notices(catalogue: Catalogue) -> tuple[Block, ...]:
    found = [status for status in catalogue.evidence.statuses.values() if status.state.text in EVENTS]
    if not found:
        return (Paragraph(line("None of the reports here is known to be corrected or retracted."), "quiet"),)
    rows = tuple(
        _notice_row(catalogue, status)
        for status in sorted(found, key=lambda item: (-noticed_on(item).toordinal(), item.key))
    )
    header = (line("Day"), line("Report"), line("What happened"), line("Notice"), line("Found"))
    return (Table(line("Notices, newest first"), header, rows, "Retractions and corrections", "notices"),)


def _notice_row(catalogue: Catalogue, status: Status) -> tuple[Line, ...]:
    notice = status.notice
    words = line(typed(notice.words.text)) if notice is not None and notice.words is not None else line("not recorded")
    doi = line(" (", doi_link(bare_doi(notice.doi.text)), ")") if notice is not None and notice.doi is not None else ()
    by = person_name(status.by.text, catalogue)
    return (
        line(date(noticed_on(status))),
        line(source_link(status.key, catalogue) if status.key in catalogue.evidence.sources else typed(status.key)),
        line(EVENTS[status.state.text]),
        line(words, doi),
        line(date(status.on.value), ", by ", typed(by)),
    )


def _superseded(catalogue: Catalogue) -> tuple[Block, ...]:
    rows = [
        line(
            _claim(catalogue, pair.by), " of ",
            source_links(catalogue, [held.key for held in pair.counting], " and "),
            " count in place of " if pair.also else " counts in place of ",
            _claim(catalogue, pair.finding), " of ", source_link(pair.finding.key, catalogue),
        )
        for _, pairs in sorted(relations(catalogue).replaced.items())
        for pair in pairs
    ]  # fmt: skip
    unique = tuple(dict.fromkeys(rows))
    if not unique:
        return (Paragraph(line("No two reports here give the same result for the same people."), "quiet"),)
    said = line(
        "Where two reports are about the same people, only one counts: the one with an estimate at that time, else "
        "the one that saw more of those due, else the larger, else the later."
    )
    return (Paragraph(said), Items(unique))


def _claim(catalogue: Catalogue, finding: Finding) -> Link:
    target = f"sources/{finding.key}/#claim-{finding.claim.id.text}"
    return Link(target, (typed(claim_title(catalogue, finding.claim), "definition"),))


def _read(catalogue: Catalogue) -> tuple[Block, ...]:
    reports = [report for report in catalogue.evidence.reports.values() if report.key in catalogue.evidence.sources]
    if not reports:
        return (Paragraph(line("Nothing has been read yet."), "quiet"),)
    rows = tuple(
        (
            line(date(report.read.on.value)),
            line(source_link(report.key, catalogue)),
            line(typed(person_name(report.read.by.text, catalogue)), ", ", report.read.depth.text),
            line(date(report.checked.on.value)) if report.checked is not None else line("re-read by nobody yet"),
        )
        for report in sorted(reports, key=lambda item: (-item.read.on.value.toordinal(), item.key))
    )
    header = (line("Read on"), line("Report"), line("By whom, and how fully"), line("Re-read on"))
    return (Table(line("Reports by the day they were read"), header, rows, "Reports by day of reading", "read"),)
