"""compendium.yaml: who publishes this guide, under which terms, and when its evidence stood."""

from __future__ import annotations

import datetime
from decimal import Decimal
from typing import Any

from ..problems import Position
from ..records import NamedTuple
from .addresses import address_fault
from .fields import count_only, date, length_only, words, words_or_missing, yes_or_no
from .form import Form, Slot, named_blocks
from .kinds import Chosen, Text, kind_of, taking
from .model import Compendium, Person
from .parsing import RELEASE, is_release
from .refusals import shortened
from .values import Date, Length, Number, Words
from .yaml_text import BROKEN, Sheet

FORMAT = 1
"""The format that this version reads."""

_NOWHERE = Position("", 1, 1)
_UNREAD = Words("", _NOWHERE)
_NEVER = Date("", _NOWHERE, datetime.date.max)  # where the evidence date is unreadable, no day may seem too late


@taking(Chosen((str(FORMAT),)))
def _format(node: Any, sheet: Sheet) -> Any:
    found = count_only(node, sheet)
    if found is not BROKEN and found.value != FORMAT:
        tells = f"this version cannot read format {found.text}: it reads format {FORMAT}"
        return sheet.error(node, "unknown-format", tells, f"format: {FORMAT}, or install the version that reads it")
    return found


@taking(Text("a release such as 1.2.0", RELEASE))
def _release(node: Any, sheet: Sheet) -> Any:
    found = words(node, sheet)
    if found is not BROKEN and not is_release(found.text):
        tells = f'"{found.text}" is not a release such as 1.2.0'
        return sheet.error(node, "not-a-release", tells, "type three numbers with a full stop between each two")
    return found


@taking(Text("an address that begins with https://", r"https://\S+"))
def _address(node: Any, sheet: Sheet) -> Any:
    found = words(node, sheet)
    if found is not BROKEN and (fault := address_fault(found.text)) is not None:
        return sheet.error(node, "not-an-address", f'"{shortened(found.text)}" {fault[0]}', fault[1])
    return found


class _YesOrNo(NamedTuple):
    position: Position
    is_yes: bool


@taking(kind_of(yes_or_no))
def _demonstration(node: Any, sheet: Sheet) -> Any:
    found = yes_or_no(node, sheet)
    return BROKEN if found is BROKEN else _YesOrNo(sheet.place(node), found)


class _Evidence(NamedTuple):
    position: Position
    date: Date
    release: Words


class _Licences(NamedTuple):
    position: Position
    text: Words | None
    data: Words | None


class _Review(NamedTuple):
    position: Position
    questions: Length | None
    status: Length | None


_UNREAD_DEMONSTRATION = _YesOrNo(_NOWHERE, False)


class _Parts(NamedTuple):
    position: Position
    format: Number
    title: Words
    programme: Words
    demonstration: _YesOrNo
    evidence: _Evidence
    licences: _Licences
    repository: Words | None
    people: dict[str, Person]
    review: _Review


EVIDENCE = Form(
    "`evidence`",
    _Evidence,
    Slot("date", date, required=True, instead=_NEVER),
    Slot("release", _release, required=True, instead=_UNREAD),
)
LICENCES = Form("`licences`", _Licences, Slot("text", words), Slot("data", words))
REVIEW = Form("`review`", _Review, Slot("questions", length_only), Slot("status", length_only))
PERSON = Form("a person", Person, Slot("name", words, required=True), Slot("interests", words_or_missing))
_people = named_blocks(PERSON, "people", any_name=True)


def compendium_form(lost: set[str]) -> Form:
    """The form of the whole file. lost: where the names of people who cannot be read are noted."""
    return Form(
        "compendium.yaml",
        _Parts,
        Slot("format", _format, required=True, instead=Number("", _NOWHERE, Decimal(FORMAT), 0)),
        Slot("title", words, required=True, instead=_UNREAD),
        Slot("programme", words, required=True, instead=_UNREAD),
        Slot("demonstration", _demonstration, required=True, instead=_UNREAD_DEMONSTRATION),
        Slot("evidence", EVIDENCE.read, required=True, instead=_Evidence(_NOWHERE, _NEVER, _UNREAD)),
        Slot("licences", LICENCES.read, instead=_Licences(_NOWHERE, None, None)),
        Slot("repository", _address),
        Slot("people", _people(lost, "person:"), required=True, instead={}),
        Slot("review", REVIEW.read, instead=_Review(_NOWHERE, None, None)),
    )


def read_compendium(root: Any, sheet: Sheet) -> tuple[Compendium | None, set[str]]:
    """The compendium and the names of people who could not be read ("person:ID")."""
    lost: set[str] = set()
    parts = compendium_form(lost).read(root, sheet)
    if parts is BROKEN:
        return None, lost
    return Compendium(
        position=parts.position,
        format=parts.format,
        title=parts.title,
        programme=parts.programme,
        demonstration=parts.demonstration.is_yes,
        demonstration_at=parts.demonstration.position,
        evidence_date=parts.evidence.date,
        release=parts.evidence.release,
        licence_text=parts.licences.text,
        licence_data=parts.licences.data,
        repository=parts.repository,
        people=parts.people,
        review_questions=parts.review.questions,
        review_status=parts.review.status,
    ), lost
