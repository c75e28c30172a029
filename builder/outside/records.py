"""What Crossref's record of one work says of notices about it; where anything is not as documented, a doubt.

Names of fields are those of its REST API (https://api.crossref.org/swagger-ui/index.html, resource /works/{doi}, and
https://github.com/CrossRef/rest-api-doc/blob/master/api_format.md): a work has `DOI`, `title`, `update-to` (the works
that it is a notice about), `updated-by` (the notices about it) and `relation`; each update has `DOI`, `type` and
`updated` with `date-parts`.
"""

from __future__ import annotations

import datetime
import json
import re
from collections.abc import Iterator
from typing import Any

from ..records import NamedTuple

STATES = ("none found", "corrected", "concern", "retracted")
"""From the mildest to the gravest."""

STATE_OF = {
    "retraction": "retracted",
    "withdrawal": "retracted",
    "removal": "retracted",
    # Which part is for a person to read; until then no number of the report is shown.
    "partial_retraction": "retracted",
    "expression_of_concern": "concern",
    "correction": "corrected",
    "corrigendum": "corrected",
    "erratum": "corrected",
    "addendum": "corrected",
    "clarification": "corrected",
    "new_version": "none found",
    "new_edition": "none found",
}
"""By the type of a notice: Crossref's list of update types (https://www.crossref.org/documentation/crossmark/
version-control-corrections-and-retractions/). What the first eleven mean for a report is a house rule."""

WORDS = {kind: kind.replace("_", " ") for kind in STATE_OF}
"""How the type of a notice is told."""

# Publishers put it before the title (common practice, no source).
_is_marked = re.compile(r"(?:RETRACTED|WITHDRAWN|REMOVED)\b|(?:Retracted|Withdrawn|Removed)(?: [Aa]rticle)?\s*:").match
_says_gone = re.compile(r"retract|withdraw|remov").search


class Doubt(Exception):
    """The answer cannot be relied on; the message says why, and the report counts as not checked."""


class Update(NamedTuple):
    """A notice about the work."""

    type: str
    """One of STATE_OF."""
    doi: str
    on: datetime.date | None
    """When it was published; None where no whole date is given."""

    @property
    def state(self) -> str:
        """What the report is because of it."""
        return STATE_OF[self.type]

    @property
    def words(self) -> str:
        """What kind of notice it is."""
        return WORDS[self.type]


class Record(NamedTuple):
    """What is known of one work."""

    updates: tuple[Update, ...]
    remarks: tuple[str, ...]
    """What moves no status, and is for a person to look at."""


def is_same_doi(one: str, other: str) -> bool:
    """DOI names do not tell capitals from small letters (ISO 26324; DOI Handbook, 2.4)."""
    return one.casefold() == other.casefold()


def record_of(body: bytes, doi: str) -> Record:
    """Reads the answer to a question about one DOI. body: as it came. Raises Doubt."""
    try:
        # JSON between systems is UTF-8 (RFC 8259, section 8.1).
        whole = json.loads(body.decode("utf-8"))
    except UnicodeDecodeError:
        raise Doubt("the answer is not in UTF-8") from None
    except (ValueError, RecursionError):
        raise Doubt("the answer is no JSON") from None
    message = whole.get("message") if isinstance(whole, dict) else None
    if not isinstance(message, dict) or whole.get("status") != "ok" or whole.get("message-type") != "work":
        raise Doubt("the answer is no record of a work")
    if not isinstance(message.get("DOI"), str) or not is_same_doi(message["DOI"], doi):
        raise Doubt("the answer is about another DOI")
    own = [each for each in _updates(message, "update-to") if is_same_doi(each.doi, doi)]
    # Some publishers announce a withdrawal in the record of the work itself.
    updates = (*_updates(message, "updated-by"), *own)
    _doubt_if_said_elsewhere(message, updates)
    return Record(updates, tuple(_remarks(message, doi, updates)))


def _updates(message: dict[str, Any], field: str) -> Iterator[Update]:
    for each in _list(message, field):
        kind, doi = (each.get(name) if isinstance(each, dict) else None for name in ("type", "DOI"))
        if not isinstance(kind, str) or not isinstance(doi, str) or not re.fullmatch(r"10\.\d{4,9}/\S+", doi):
            raise Doubt(f"`{field}` of the record is not as documented")
        known = re.sub(r"[\s-]+", "_", kind.strip().casefold())
        if known not in STATE_OF:
            raise Doubt(f'the record names a notice of a kind that is not known here, "{kind[:40]}" ({doi[:80]})')
        yield Update(known, doi, _date(each.get("updated")))


def _list(message: dict[str, Any], field: str) -> list[Any]:
    found = message.get(field)
    if found is None:
        return []
    if not isinstance(found, list):
        raise Doubt(f"`{field}` of the record is not as documented")
    return found


def _date(updated: Any) -> datetime.date | None:
    """A date of the API; year or month alone is none."""
    try:
        year, month, day = updated["date-parts"][0]
        return datetime.date(year, month, day)
    except (TypeError, KeyError, IndexError, ValueError):
        return None


def _doubt_if_said_elsewhere(message: dict[str, Any], updates: tuple[Update, ...]) -> None:
    """A retraction that the record tells of without naming a notice must not be read as none."""
    if any(update.state == "retracted" for update in updates):
        return
    for title in _list(message, "title"):
        if isinstance(title, str) and _is_marked(title.strip()):
            raise Doubt("its title says that it was retracted or withdrawn, and the record names no such notice")
    relation = message.get("relation") or {}
    if not isinstance(relation, dict):
        raise Doubt("`relation` of the record is not as documented")
    if any(_says_gone(name) for name in relation):
        raise Doubt("the record has a relation that tells of a retraction, and names no such notice")


def _remarks(message: dict[str, Any], doi: str, updates: tuple[Update, ...]) -> Iterator[str]:
    for update in updates:
        if update.type == "partial_retraction":
            yield f"a part of it was retracted ({update.doi}): read which, and type the state that fits"
        elif update.state == "none found":
            yield f"there is a {update.words} of it ({update.doi})"
    for each in _updates(message, "update-to"):
        if not is_same_doi(each.doi, doi):
            yield f"it is itself a notice ({each.words}) about {each.doi}"
    for name, works in (message.get("relation") or {}).items():
        if name == "is-replaced-by":
            named = [each["id"] for each in works if isinstance(each, dict) and isinstance(each.get("id"), str)]
            yield f"it was replaced by {', '.join(named) or 'another work'}"
