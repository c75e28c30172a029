"""urgent.yaml, local.yaml and status.yaml: what is worse, whom to call here, and what was corrected or retracted."""

from __future__ import annotations

from typing import Any

from ..problems import Position
from ..records import NamedTuple
from .addresses import address_fault
from .advice import advice
from .fields import date, list_of, one_of, words
from .form import Form, Slot, named_blocks
from .kinds import Block, Either, Text, taking
from .model import Local, Notice, Protocol, Status, Urgent
from .refusals import shortened
from .values import Date, Words
from .yaml_text import BROKEN, Sheet

WEEK = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")

_lines = list_of(words, "texts, each after a dash", single=True)

URGENT = Form(
    "an urgent matter",
    Urgent,
    Slot("title", words, required=True),
    Slot("signs", _lines, required=True),
    Slot("stop", advice, instead=()),
    Slot("until_help", advice, required=True),
    Slot("call", advice, instead=()),
    Slot("say", advice, instead=()),
    Slot("afterwards", advice, instead=()),
)
urgent_matters = named_blocks(URGENT, "urgent matters")


class _Call(NamedTuple):
    position: Position
    name: Words | None
    number: Words | None


class _Local(NamedTuple):
    position: Position
    call: _Call
    kit: tuple[Words, ...]
    protocols: tuple[Protocol, ...]
    closed: tuple[Words, ...]


@taking(Text("words, or not set"))
def _set_words(node: Any, sheet: Sheet) -> Any:
    """A text; "not set" is None."""
    found = words(node, sheet)
    return None if found is not BROKEN and found.text == "not set" else found


@taking(
    Text("an address that begins with https://, or of a page of this site; or not set", r"\S+|not set", (None, None))
)
def _link(node: Any, sheet: Sheet) -> Any:
    found = _set_words(node, sheet)
    if found is BROKEN or found is None:
        return found
    text = found.text
    if text.lower().startswith(("https://", "http://")):
        fault = address_fault(text)
        if fault is None:
            return found
        return sheet.error(node, "not-an-address", f'"{shortened(text)}" {fault[0]}', fault[1])
    # A page beside the guide, and nothing that leaves the site or names a folder of one machine.
    steps = text.replace("\\", "/").split("/")
    if ":" in text or "\\" in text or not steps[0] or ".." in steps or " " in text:
        tells = f'"{text}" is neither an address that begins with https:// nor a page of this site'
        return sheet.error(node, "not-an-address", tells, "copy the whole address out of the browser")
    return found


CALL = Form("`call`", _Call, Slot("name", _set_words), Slot("number", _set_words))
PROTOCOL = Form("a protocol", Protocol, Slot("title", words, required=True), Slot("link", _link))


@taking(Either((_lines, one_of("not set"))))
def _kit(node: Any, sheet: Sheet) -> Any:
    found = _lines(node, sheet)
    return () if found is not BROKEN and [item.text for item in found] == ["not set"] else found


_protocols = list_of(PROTOCOL.read, "protocols, each with title and link")


@taking(Either((_protocols, one_of("not set"))))
def _protocols_or_not_set(node: Any, sheet: Sheet) -> Any:
    return () if node.value == "not set" else _protocols(node, sheet)


_days = list_of(one_of(*WEEK), "days of the week")


@taking(Either((_days, one_of("not set"))))
def _days_or_not_set(node: Any, sheet: Sheet) -> Any:
    return () if node.value == "not set" else _days(node, sheet)


LOCAL = Form(
    "local.yaml",
    _Local,
    Slot("call", CALL.read, instead=_Call(Position("", 1, 1), None, None)),
    Slot("kit", _kit, instead=()),
    Slot("protocols", _protocols_or_not_set, instead=()),
    Slot("closed", _days_or_not_set, instead=()),
)


class _NoticeParts(NamedTuple):
    position: Position
    doi: Words | None
    on: Date | None
    words: Words | None


NOTICE = Form("`notice`", _NoticeParts, Slot("doi", words), Slot("on", date), Slot("words", words))


@taking(Block(NOTICE))
def _notice(node: Any, sheet: Sheet) -> Any:
    parts = NOTICE.read(node, sheet)
    return BROKEN if parts is BROKEN else Notice(parts.doi, parts.on, parts.words)


STATUS = Form(
    "a status",
    Status,
    Slot("state", one_of("none found", "corrected", "concern", "retracted", "unknown"), required=True),
    Slot("on", date, required=True),
    Slot("by", words, required=True),
    Slot("notice", _notice),
)
statuses = named_blocks(STATUS, "statuses", any_name=True)


def read_urgent(root: Any, sheet: Sheet) -> tuple[dict[str, Urgent], set[str]]:
    """The urgent matters by id, and the names of those that could not be read ("urgent:id")."""
    lost: set[str] = set()
    found = urgent_matters(lost, "urgent:")(root, sheet)
    return ({} if found is BROKEN else found), lost


NO_LOCAL = Local(None, None, (), (), ())
"""What stands where local.yaml is missing: nothing is set."""


def read_local(root: Any, sheet: Sheet) -> Local:
    """Whom to call here; None where it is not set."""
    parts = LOCAL.read(root, sheet)
    if parts is BROKEN:
        return NO_LOCAL
    return Local(parts.call.name, parts.call.number, parts.kit, parts.protocols, parts.closed)


def read_statuses(root: Any, sheet: Sheet) -> dict[str, Status]:
    """The standing of each report by its key."""
    found = statuses(set(), "")(root, sheet)
    return {} if found is BROKEN else found
