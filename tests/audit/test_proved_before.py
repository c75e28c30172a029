"""What was read and proved before changes nothing but the time it takes."""

from __future__ import annotations

import shutil
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import pytest
from passageproof.audit.whole import audit
from passageproof.proof import proved_before
from passageproof.proof.proof import Audit
from passageproof.proof.proved_before import ProvedBefore
from passageproof.proof.report_proof import Proved, prove_reports
from passageproof.reading.evidence import ReadBefore, read_evidence
from passageproof.reading.model import Evidence
from passageproof.reading.report_model import Report, Source

EXAMPLE = Path(__file__).parents[1] / "example" / "evidence"
CLAIMS = "claims/marlow2019furcal.yaml"
# File, what stood there, what somebody makes of it: a number, a place, a word of the vocabulary, a line more, a unit.
EDITS = (
    (CLAIMS, "events: 39", "events: 38"),
    ("sources/furcal.bib", "39 of 47", "38 of 47"),
    ("vocabulary.yaml", "outcomes:", "# a line more\noutcomes:"),
    ("questions/root-perforation.yaml", "title: ", "title: Indeed, "),
    (CLAIMS, "source: ", "\nsource: "),
    (CLAIMS, "unit: tooth", "unit: root"),
    ("compendium.yaml", "IM:", "XX:"),
)


def edited(file: Path, old: str, new: str) -> None:
    text = file.read_text("utf-8")
    assert old in text, f"{file.name} holds no {old!r}"
    file.write_text(text.replace(old, new, 1), "utf-8")


def comparable(evidence: Evidence) -> Evidence:
    # Words of the trade are equal only where they are one: a vocabulary read twice has two.
    vocabulary = evidence.vocabulary
    return evidence._replace(vocabulary=vocabulary._replace(lexicon=vocabulary.lexicon.units))


def test_whatever_was_found_before_the_answer_is_that_of_a_first_time(tmp_path: Path) -> None:
    shutil.copytree(EXAMPLE, tmp_path / "evidence")
    read, proved = ReadBefore(), ProvedBefore()

    def again() -> Audit:
        evidence = read_evidence(tmp_path, read)
        first = read_evidence(tmp_path)
        assert comparable(evidence) == comparable(first)
        found = audit(evidence, proved)
        assert found == audit(first)
        return found

    assert again().passes
    outcomes = []
    for path, old, new in EDITS:
        file = tmp_path / "evidence" / path
        sound = file.read_bytes()
        edited(file, old, new)
        outcomes.append(again().passes)
        file.write_bytes(sound)
        assert again().passes
    assert set(outcomes) == {True, False}


def test_a_report_that_says_the_same_is_not_proved_again(tmp_path: Path) -> None:
    shutil.copytree(EXAMPLE, tmp_path / "evidence")
    read, proved = ReadBefore(), ProvedBefore()
    first = audit(read_evidence(tmp_path, read), proved).proofs
    edited(tmp_path / "evidence" / CLAIMS, "source: ", "\nsource: ")
    second = audit(read_evidence(tmp_path, read), proved).proofs
    kept = {name.partition("/")[0] for name in first if second[name] is first[name]}
    assert kept == {"arden2023recall"}


# What a claim of another report is read with: who the study's people were, where and how, and what its unit stands for.
OF_THE_STUDY = (
    ("species: human", "species: animal"),
    ("design: cohort", "design: registry"),
    ("cause: treatment", "cause: decay"),
    ("centre: Fenwick", "centre: Linden"),
    ("unit: tooth", "unit: {unit: tooth, per: patient, rule: each had one}"),
)


@pytest.mark.parametrize(("old", "new"), OF_THE_STUDY)
def test_a_report_is_proved_again_where_another_tells_something_else_of_its_study(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, old: str, new: str
) -> None:
    shutil.copytree(EXAMPLE, tmp_path / "evidence")
    read, proved = ReadBefore(), ProvedBefore()
    audit(read_evidence(tmp_path, read), proved)
    edited(tmp_path / "evidence" / CLAIMS, old, new)
    asked: list[str] = []

    def noted(reports: Sequence[tuple[Report, Source]], *given: Any, **named: Any) -> list[Proved]:
        asked.extend(report.key for report, _ in reports)
        return prove_reports(reports, *given, **named)

    monkeypatch.setattr(proved_before, "prove_reports", noted)
    audit(read_evidence(tmp_path, read), proved)
    assert sorted(asked) == ["arden2023recall", "marlow2019furcal"]
