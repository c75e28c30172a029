"""What changed, one entry each with its day, for whoever is told of it: retractions and corrections, what was read, and
the release."""

from __future__ import annotations

from collections.abc import Iterator

from ...results.findings.findings import Catalogue
from ...results.saying.people import person_name
from ...results.saying.source_reference import source_link
from ...results.values.line import plain_text
from ...results.values.news import News
from .changes_page import EVENTS, noticed_on

# House rule: whoever subscribes today needs no more of what was before; the page has all of it.
_MOST_READ = 50


def news(catalogue: Catalogue) -> tuple[News, ...]:
    """The newest first; every retraction and correction, the last reports that were read, and the release."""
    found = [*_release(catalogue), *_notices(catalogue), *_read(catalogue)]
    return tuple(sorted(found, key=lambda item: (-item.on.toordinal(), item.name)))


def _release(catalogue: Catalogue) -> Iterator[News]:
    compendium = catalogue.evidence.compendium
    if compendium is not None:
        number = compendium.release.text
        says = f"Release {number}, evidence to {compendium.evidence_date.text}."
        yield News(f"release/{number}", f"Release {number}", says, "changes/", compendium.evidence_date.value)


def _notices(catalogue: Catalogue) -> Iterator[News]:
    for key, status in sorted(catalogue.evidence.statuses.items()):
        state = status.state.text
        source = catalogue.evidence.sources.get(key)
        if state not in EVENTS or source is None:
            continue
        words = status.notice.words.text if status.notice is not None and status.notice.words is not None else ""
        title = catalogue.readable(source, "title")
        says = f"{title}: {EVENTS[state]}. Notice: {words or 'not recorded'}."
        head = f"{state[:1].upper()}{state[1:]}: {plain_text((source_link(key, catalogue),))}"
        yield News(f"{key}/{state}", head, says, f"sources/{key}/", noticed_on(status))


def _read(catalogue: Catalogue) -> Iterator[News]:
    """Reports that still count, by the day on which they were read."""
    reports = [
        report
        for key, report in catalogue.evidence.reports.items()
        if key in catalogue.evidence.sources and catalogue.standing(key) != "retracted"
    ]
    newest = sorted(reports, key=lambda item: (-item.read.on.value.toordinal(), item.key))
    for report in newest[:_MOST_READ]:
        title = catalogue.readable(catalogue.evidence.sources[report.key], "title")
        says = f"{title}: read by {person_name(report.read.by.text, catalogue)}, {report.read.depth.text}."
        head = f"Read: {plain_text((source_link(report.key, catalogue),))}"
        yield News(f"{report.key}/read", head, says, f"sources/{report.key}/", report.read.on.value)
