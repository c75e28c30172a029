"""What the desk needs of all other reports while one is typed: their names, people and studies, without their figures.

Reading three thousand reports takes a browser minutes; what one report is checked against beside its own passages is
little. It is read when the site is built and shipped as Python keeps values, so that a desk is open in seconds. The
whole evidence comes after it, for what the whole check says.
"""

from __future__ import annotations

import gc
import io
import pickle
from pathlib import Path
from typing import Any

from ..reading.model import Evidence
from ..reading.named_units import with_typed_units
from ..reading.report_model import Claim, Report, Source
from ..records import NamedTuple

FILE = "known.pickle"
"""Below the folder that holds evidence/."""
_KEPT_OF_A_CLAIM = frozenset(("position", "id", "question", "outcome", "factor"))
_KEPT_OF_AN_ENTRY = ("title", "author", "year", "date", "doi", "url", "pmid")


class Abridged(NamedTuple):
    """All reports and entries of an evidence, as short as a report beside them needs them."""

    reports: dict[str, Report]
    sources: dict[str, Source]
    unreadable: tuple[str, ...]
    """As Evidence.unreadable, in order."""


def abridged(evidence: Evidence) -> Abridged:
    """The names of an evidence, who read, the studies, and what entries are told apart by."""
    return Abridged(
        {key: _report(report) for key, report in evidence.reports.items()},
        {key: _source(source) for key, source in evidence.sources.items()},
        tuple(sorted(evidence.unreadable)),
    )


def _report(report: Report) -> Report:
    studies = tuple(study._replace(flow=None, patients=None, shares=(), acknowledged=()) for study in report.studies)
    return report._replace(studies=studies, claims=tuple(map(_claim, report.claims)), acknowledged=())


def _claim(claim: Claim) -> Claim:
    empty: dict[str, Any] = {}
    for name, value in zip(claim._fields, claim, strict=True):
        if name not in _KEPT_OF_A_CLAIM:
            empty[name] = () if value.__class__ is tuple else None
    return claim._replace(**empty)


def _source(source: Source) -> Source:
    fields = {name: source.fields[name] for name in _KEPT_OF_AN_ENTRY if name in source.fields}
    return source._replace(fields=fields, passages=(), raw="", strings=())


def packed(known: Abridged) -> bytes:
    """The same bytes of the same evidence, whichever objects of it happen to be one."""
    out = io.BytesIO()
    pickler = pickle.Pickler(out, 5)
    pickler.fast = True  # nothing is said to be the same as before: two equal texts may be one object or two
    pickler.dump(known)
    return pickle.dumps(pickle.loads(out.getvalue()), 5)


def found_at(root: Path) -> Abridged | None:
    """What was shipped to a desk, None where all of the evidence is there.

    It comes from the site's own host, as the program that reads it does.
    """
    path = root / FILE
    if not path.is_file():
        return None
    # A hundred thousand small values hold no circle: looking for one takes longer than to read them.
    gc.disable()
    try:
        known = pickle.loads(path.read_bytes())
        gc.freeze()
    finally:
        gc.enable()
    return known if isinstance(known, Abridged) else None


def beside(evidence: Evidence, known: Abridged) -> Evidence:
    """An evidence of few reports with all others beside it."""
    reports = {**known.reports, **evidence.reports}
    vocabulary, undeclared = with_typed_units(evidence.vocabulary, reports.values())
    return evidence._replace(
        vocabulary=vocabulary,
        reports=dict(sorted(reports.items())),
        sources={**known.sources, **evidence.sources},
        unreadable=evidence.unreadable | undeclared | frozenset(known.unreadable),
    )
