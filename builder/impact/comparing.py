"""Two folders of evidence compared: read, audited, and as much of both guides composed as the change may reach."""

from __future__ import annotations

from pathlib import Path

from ..audit.whole import audit, prove_ahead
from ..problems import Problem
from ..proof.proved_before import ProvedBefore
from ..reading.evidence import ReadBefore, read_evidence
from ..records import NamedTuple
from ..results.findings.findings import Catalogue
from .facts import facts_of
from .moves import Impact, moves_between
from .touched import Version, touched


class Comparison(NamedTuple):
    """What moves, or what must be mended first."""

    impact: Impact | None
    """None where the check of either version does not pass."""
    problems: tuple[Problem, ...] = ()
    is_before: bool = False
    """True where they are those of the version as it was."""


def compare(base: Path, root: Path, read: ReadBefore | None = None, prove: ProvedBefore | None = None) -> Comparison:
    """What moves from the evidence below base to that below root; what both share is read and proved once.

    read, prove: what was read and proved of either before; they change nothing but the time it takes.
    """
    read = read or ReadBefore()
    now, before = (Version(read_evidence(folder, read), read.texts) for folder in (root, base))
    return compare_versions(before, now, prove)


def compare_versions(before: Version, now: Version, prove: ProvedBefore | None = None) -> Comparison:
    """What moves from one version of the evidence to another; what both share is proved once."""
    prove = prove or ProvedBefore()
    catalogues = []
    prove_ahead(now.evidence, prove)
    for version in (now, before):
        outcome = audit(version.evidence, prove)
        if not outcome.passes:
            still_open = tuple(problem for problem in outcome.problems if problem.is_open)
            return Comparison(None, still_open, version is before)
        catalogues.append(Catalogue(version.evidence, outcome))
    new, old = catalogues
    # Every page speaks of what most studies count.
    is_alike = new.main_unit().id == old.main_unit().id
    scope = touched(before, now) if is_alike else None
    return Comparison(moves_between(facts_of(old, scope), facts_of(new, scope)))
