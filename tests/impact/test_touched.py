"""How far a change reaches, by what reports have to do with each other."""

from __future__ import annotations

from pathlib import Path

import pytest
from impact.changes import CHANGES
from impact.test_complete import ROOT, changed
from passageproof.impact.comparing import compare
from passageproof.impact.told import as_markdown
from passageproof.impact.touched import Version, touched
from passageproof.proof.proved_before import ProvedBefore
from passageproof.reading.evidence import ReadBefore, read_evidence


@pytest.fixture(scope="module")
def read() -> ReadBefore:
    return ReadBefore()


def version(root: Path, read: ReadBefore) -> Version:
    return Version(read_evidence(root, read), read.texts)


def test_a_report_reaches_its_question_and_no_other(tmp_path, read) -> None:
    now = version(changed(CHANGES["a report more"], tmp_path), read)
    reach = touched(version(ROOT, read), now)
    assert reach is not None
    assert reach.questions == {"root-perforation"}
    assert "tornvik2024again" in reach.sources
    assert "pelcmanova2014trial" not in reach.sources


@pytest.mark.parametrize("name", ["the title of a level", "the release", "whom to call", "the title of an emergency"])
def test_what_stands_on_every_page_reaches_all(name, tmp_path, read) -> None:
    assert touched(version(ROOT, read), version(changed(CHANGES[name], tmp_path), read)) is None


def test_a_table_turned_round_comes_first_and_names_its_report(tmp_path, read) -> None:
    root = changed(CHANGES["a table the other way round"], tmp_path)
    told = compare(ROOT, root, read, ProvedBefore()).impact
    assert told is not None
    (turned,) = told.turned_round
    assert "fjellnes2021sealed" in turned.of
    assert (turned.before, turned.after) == ("on the worse side", "on the better side")
    headings = [line for line in as_markdown(told, "main").splitlines() if line.startswith("## ")]
    assert headings[0] == "## Now the other way round"


def test_patients_who_are_counted_already_are_told(tmp_path, read) -> None:
    root = changed(CHANGES["a report more, of patients who are counted"], tmp_path)
    told = compare(ROOT, root, read, ProvedBefore()).impact
    assert told is not None
    new = [move.after for move in told.overlaps if not move.before]
    assert any("fjellnes2021sealed" in said and "tornvik2024again" in said for said in new)


def test_how_sure_says_what_it_was(tmp_path, read) -> None:
    told = compare(ROOT, changed(CHANGES["how sure"], tmp_path), read, ProvedBefore()).impact
    assert told is not None
    (move,) = told.certainty
    assert (move.before, move.after) == ("moderate", "low")
