"""The guide: everything that is published, before it has a look."""

from __future__ import annotations

import datetime
from typing import NamedTuple

from .document import Line, Page
from .figures import Figure, Working


class WrittenPage(NamedTuple):
    """A hand-written page of site_src: Markdown in which the references to figures are already lines."""

    path: str
    """Below site_src: "about.md"."""
    parts: tuple[str | Line, ...]
    """Markdown as typed, and in place of each reference the line it stands for."""
    workings: tuple[Working, ...] = ()
    """Those of every computed figure it names; they stand at its end."""


class SourceEntry(NamedTuple):
    """A BibTeX entry for the downloads."""

    key: str
    raw: str
    """As typed."""
    is_retracted: bool
    """Then its annotation is left out."""


class Question(NamedTuple):
    """A question as other pages name it."""

    id: str
    title: str
    urgent: tuple[str, ...]
    """Ids of what is worse, this question's first."""


class UrgentEntry(NamedTuple):
    """A heading of the urgent page, as the door on every page names it."""

    id: str
    title: str


class ClaimRow(NamedTuple):
    """One row of claims.csv and claims.json: a claim, or one level of it."""

    key: str
    claim: str
    level: str
    questions: tuple[str, ...]
    state: str
    """Standing of the report: none found, corrected, concern, retracted, unknown or not checked."""
    words: tuple[tuple[str, str], ...]
    """Names and typed texts that are no figures: outcome, factor, study, where, ..."""
    figures: tuple[tuple[str, Figure], ...]
    """Field and figure; empty for a retracted report."""


class Guide(NamedTuple):
    """Every page with its address, every figure, the hand-written pages and what is downloaded."""

    title: str
    programme: str
    is_demonstration: bool
    evidence_date: datetime.date
    release: str
    repository: str
    licence_text: str
    licence_data: str
    contact: str
    """Whom to call here, as typed; "" where the programme has not set it."""
    status_checked: datetime.date | None
    """The newest day on which the standing of reports was checked."""
    questions: tuple[Question, ...]
    urgent: tuple[UrgentEntry, ...]
    pages: tuple[Page, ...]
    figures: dict[str, Figure]
    """Every figure that any page shows, by id."""
    written: tuple[WrittenPage, ...]
    sources: tuple[SourceEntry, ...]
    claims: tuple[ClaimRow, ...]
    withdrawn: tuple[tuple[str, str], ...]
    """Keys of retracted reports and the day of the notice, for copies that ask for the newest standing."""
