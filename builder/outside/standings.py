"""What becomes of the status of each report: what the service says beside what people wrote, which stays.

The service alone never makes a status milder: a retraction that it no longer names is for a person to look at.
"""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from typing import Protocol

from ..reading.exported import doi_in
from ..reading.source_model import Source
from ..reading.standing_model import Notice, Status
from ..records import NamedTuple
from .asking import Answer
from .records import STATES, WORDS, Doubt, Record, Update, is_same_doi

BY = "Crossref"
"""Who looked, in status.yaml, where the service did."""


class NewNotice(NamedTuple):
    """The notice of a new status."""

    doi: str
    on: datetime.date | None
    words: str


class NewStatus(NamedTuple):
    """What is to stand in status.yaml for one report."""

    state: str
    """One of STATES."""
    on: datetime.date
    by: str
    notice: NewNotice | None
    """None: the one that stands there stays."""


class Looked(NamedTuple):
    """What came of the look at one report."""

    key: str
    doi: str
    """"" where it has none."""
    outcome: str
    """checked: nothing but the day is new; changed: its state is another; kept: what people wrote stays, though the
    service says less or they judged that notice themselves; not checked: on any doubt; no doi."""
    before: str
    """The state that stood there; "" where none did."""
    status: NewStatus | None
    """None: what stands there stays as it is."""
    remarks: tuple[str, ...]
    """Why it was not checked or stays; what else a person looks at."""


class Asks(Protocol):
    """Whoever can be asked about a DOI."""

    def ask(self, doi: str) -> Answer:
        """Raises Doubt."""


def doi_of(source: Source) -> str:
    """The DOI of a report as it is registered, from `doi` or from the address of its resolver in `url`; "" for none."""
    typed, address = (source.fields[name].text.strip() if name in source.fields else "" for name in ("doi", "url"))
    found = doi_in(typed) or typed or doi_in(address)
    return found if found.startswith("10.") and "/" in found and not any(sign.isspace() for sign in found) else ""


def look_at(sources: Mapping[str, Source], statuses: Mapping[str, Status], asks: Asks) -> list[Looked]:
    """Asks about every report that has a DOI, by key. statuses: what stands in status.yaml."""
    out = []
    for key in sorted(sources):
        doi, before = doi_of(sources[key]), statuses.get(key)
        state = before.state.text if before is not None else ""
        if not doi:
            out.append(Looked(key, "", "no doi", state, None, ()))
            continue
        try:
            answer = asks.ask(doi)
        except Doubt as doubt:
            out.append(Looked(key, doi, "not checked", state, None, (str(doubt),)))
        else:
            out.append(_decided(key, doi, before, answer))
    return out


def _decided(key: str, doi: str, before: Status | None, answer: Answer) -> Looked:
    record = answer.record
    state = _gravest(record)
    found = NewStatus(state, answer.day, BY, _newest(record, state))
    if before is None or before.state.text == "unknown":
        was = before.state.text if before is not None else ""
        return Looked(key, doi, "changed", was, found, record.remarks)
    was = before.state.text
    if STATES.index(state) < STATES.index(was):
        who = "the service named it before and" if before.by.text == BY else "people wrote so;"
        tells = f"{was} stays: {who} the service now names {_named(record) or 'no notice'}"
        return Looked(key, doi, "kept", was, None, (tells, *record.remarks))
    others = _not_in(record, before)
    if state != was:
        if before.by.text != BY and not any(STATES.index(each.state) > STATES.index(was) for each in others):
            tells = f"{was} stays: people judged the notice themselves that the service calls a {_named(record)}"
            return Looked(key, doi, "kept", was, None, (tells, *record.remarks))
        return Looked(key, doi, "changed", was, found, record.remarks)
    remarks = record.remarks
    if _is_typed(before.notice):
        # The words that people typed stay; what they did not know is told.
        found = found._replace(notice=None)
        remarks = (*(f"there is another notice: {each.words}, {each.doi}" for each in others), *remarks)
    is_older = answer.day < before.on.value or (answer.day == before.on.value and before.by.text != BY)
    return Looked(key, doi, "checked", was, None if is_older else found, remarks)


def _gravest(record: Record) -> str:
    return max((update.state for update in record.updates), key=STATES.index, default=STATES[0])


def _newest(record: Record, state: str) -> NewNotice | None:
    if state == STATES[0]:
        return None
    of_state = [update for update in record.updates if update.state == state]
    last = max(of_state, key=lambda update: (update.on or datetime.date.min, update.doi))
    return NewNotice(last.doi, last.on, last.words)


def _is_typed(notice: Notice | None) -> bool:
    """True for a notice that a person wrote down; who looked since is said beside it."""
    return notice is not None and (notice.words is None or notice.words.text not in WORDS.values())


def _named(record: Record) -> str:
    return ", ".join(f"{update.words} {update.doi}" for update in record.updates if update.state != STATES[0])


def _not_in(record: Record, before: Status) -> list[Update]:
    """Notices that the status does not name."""
    named = before.notice.doi.text if before.notice is not None and before.notice.doi is not None else ""
    return [
        update for update in record.updates if update.state != STATES[0] and not is_same_doi(update.doi, named.strip())
    ]
