"""While one report is typed the others are known by their names alone, and what is told of it is the same."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest
from desk.drafts import drafts_of, spoilt
from desk.test_session import copied
from passageproof.desk.abridged import FILE, Abridged, abridged, beside, packed
from passageproof.desk.choices import choices
from passageproof.desk.session import Session
from passageproof.reading.evidence import read_evidence

ROOT = Path(__file__).parent.parent.parent
EXAMPLE = Path(__file__).parent.parent / "example"


def shortened(whole: Path) -> Path:
    """The same folder as a desk has it before the whole evidence is there."""
    (whole / FILE).write_bytes(packed(abridged(read_evidence(whole))))
    for folder in ("claims", "sources"):
        for path in (whole / "evidence" / folder).iterdir():
            path.unlink()
    return whole


@pytest.mark.parametrize(("guide", "number"), [(EXAMPLE, 300), (ROOT, 24)], ids=["example", "whole guide"])
def test_what_is_told_of_many_drafts_is_the_same(guide: Path, number: int, tmp_path: Path) -> None:
    whole = Session(copied(guide, tmp_path / "whole"))
    near = Session(shortened(copied(guide, tmp_path / "near")))
    for draft in spoilt(drafts_of(guide), number, seed=11):
        assert near.near(draft) == whole.near(draft)
    assert choices(near.evidence) == choices(whole.evidence)


def test_it_holds_no_figure_and_no_passage_and_is_small(tmp_path: Path) -> None:
    evidence = read_evidence(copied(ROOT, tmp_path))
    known = abridged(evidence)
    assert not any(source.passages or source.raw for source in known.sources.values())
    assert not any(claim.events or claim.levels for report in known.reports.values() for claim in report.claims)
    whole = Abridged(evidence.reports, evidence.sources, ())
    assert len(packed(known)) < len(packed(whole)) / 2
    again = beside(evidence._replace(reports={}, sources={}), known)
    assert list(again.reports) == list(evidence.reports)
    assert again.vocabulary.outcomes == evidence.vocabulary.outcomes


PACK = """
import hashlib, sys
from pathlib import Path
from passageproof.desk.abridged import abridged, packed
from passageproof.reading.evidence import read_evidence
print(hashlib.sha256(packed(abridged(read_evidence(Path(sys.argv[1]))))).hexdigest())
"""


def test_the_same_evidence_gives_the_same_bytes_in_every_process() -> None:
    def packed_with(seed: str) -> str:
        command = [sys.executable, "-c", PACK, str(ROOT)]
        done = subprocess.run(command, env={"PYTHONHASHSEED": seed}, capture_output=True, text=True, check=True)
        return done.stdout

    assert packed_with("1") == packed_with("2")
