"""What would move if reports were retracted: the same evidence twice, once as status.yaml would then say. No file is
written, and none is read twice."""

from __future__ import annotations

from collections.abc import Collection

from ..audit.nearest import did_you_mean
from ..proof.proved_before import ProvedBefore
from ..reading.model import Evidence, Status
from ..reading.values import Date, Words
from .comparing import Comparison, compare_versions
from .touched import Version


class UnknownReport(Exception):
    """No entry has this key; the message says which was surely meant."""


def compare_retracted(version: Version, keys: Collection[str], prove: ProvedBefore | None = None) -> Comparison:
    """What moves if all these reports were retracted; nothing where they are already.

    version: the evidence as it is. keys: of entries in evidence/sources/. prove: what was proved of it before, which
    changes nothing but the time it takes. Raises UnknownReport.
    """
    then = version._replace(evidence=retracted(version.evidence, keys))
    return compare_versions(version, then, prove)


def retracted(evidence: Evidence, keys: Collection[str]) -> Evidence:
    """The evidence as if status.yaml called these reports retracted. The day of their status stays, or is that of the
    newest one; of the notice nothing is known yet. Raises UnknownReport.
    """
    statuses = dict(evidence.statuses)
    for key in keys:
        if key not in evidence.sources:
            near = did_you_mean(key, list(evidence.sources))
            raise UnknownReport(f'no entry in evidence/sources/ has the key "{key}"{near}')
        known = statuses.get(key)
        if known is None or known.state.text != "retracted":
            statuses[key] = _retracted(evidence, key, known)
    return evidence._replace(statuses=statuses)


def _retracted(evidence: Evidence, key: str, known: Status | None) -> Status:
    position = evidence.sources[key].position
    if known is not None:
        return known._replace(state=Words("retracted", position), notice=None)
    return Status(position, key, Words("retracted", position), _newest(evidence, key), Words("hand", position), None)


def _newest(evidence: Evidence, key: str) -> Date:
    """The day that says nothing new of the other reports."""
    days = [status.on for status in evidence.statuses.values()]
    if days:
        return max(days, key=lambda day: day.value)
    compendium = evidence.compendium
    if compendium is None:
        raise ValueError(f'no day is known for a status of "{key}": compendium.yaml could not be read')
    return compendium.evidence_date
