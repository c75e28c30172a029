"""Forty faults of different kinds, one compendium: each is named once, on its line, in one run, without a traceback."""

from __future__ import annotations

import json
import shutil
import subprocess
import sys
from collections import Counter
from pathlib import Path
from typing import NamedTuple

import pytest

ROOT = Path(__file__).parent.parent


class Fault(NamedTuple):
    """One slip of the pen in a copy of the demonstration's evidence."""

    name: str
    file: str
    was: str
    becomes: str
    at: str = ""
    """Text of the line that must be named; "" takes the first line that changed."""
    told_in: str = ""
    """The file that must be named, where it is another: a number that the passage lacks is told where it was typed."""


FAULTS = [
    Fault("events typed wrongly", "claims/aalbek2011furcal.yaml", "events: 85\n", "events: 84\n"),
    Fault("rate typed wrongly", "claims/bramwick2014size.yaml", "83%\n    events: 60", "84%\n    events: 60"),
    Fault("total typed wrongly", "claims/cavendell2016repair.yaml", "total: 58\n", "total: 59\n"),
    Fault("interval turned round", "claims/skoldbrand2012removal.yaml", "62.5% to 76.6%", "76.6% to 62.5%"),
    Fault("interval typed wrongly", "claims/vellingdale2016register.yaml", "interval: 68.0%", "interval: 67.0%"),
    Fault("unknown field", "claims/mardby2012crown.yaml", "checked: {by: BN", "cheked: {by: BN"),
    Fault("value not in its list", "claims/dovrell2017crest.yaml", "selection: consecutive", "selection: consequtive"),
    Fault("unknown person", "claims/ehlvik2019teaching.yaml", "read: {by: CQ", "read: {by: CK"),
    Fault("day that does not exist", "claims/fjellnes2021sealed.yaml", "on: 2026-06-15", "on: 2026-06-31"),
    Fault("day after the evidence", "claims/hexel2015blood.yaml", "on: 2026-08-14", "on: 2027-08-14"),
    Fault(
        "unknown outcome",
        "claims/jorneby2019arms.yaml",
        "outcome: pulp-healthy-lenient",
        "outcome: pulp-helthy-lenient",
    ),
    Fault("unknown factor", "claims/ingelvik2023adults.yaml", "factor: pulp-pain-before", "factor: pulp-pains-before"),
    Fault("unknown question", "claims/kvistmoen2021margin.yaml", "question: exposed-pulp", "question: exposed-pulps"),
    Fault(
        "place no bracket has",
        "claims/nadelstein2017pulpotomy.yaml",
        "where: p. 44, Table 2\n",
        "where: p. 45, Table 2\n",
    ),
    Fault(
        "word no vocabulary has",
        "claims/pellwitz2020symptoms.yaml",
        "level: spontaneous, events",
        "level: spontanous, events",
    ),
    Fault("two claims of one name", "claims/zelazek2019dogs.yaml", "- id: healed-by-stage", "- id: healed"),
    Fault(
        "one key twice",
        "claims/ytterholm2015load.yaml",
        "source: ytter",
        "source: ytterholm2015load\nsource: ytter",
    ),
    Fault("brace left open", "claims/haldsted2017people.yaml", "flow: {examined: 412}", "flow: {examined: 412"),
    Fault("source of another file", "claims/wraxley2008ultrasonic.yaml", "source: wraxley", "source: wrexley"),
    Fault("comma cut a place", "claims/vontrelde2017kept.yaml", 'where: "p. 143, Methods"}', "where: p. 143, Methods}"),
    Fault("letter in a number", "claims/gudmar2010records.yaml", "      examined: 3,120\n", "      examined: 3,12O\n"),
    Fault("comma cut a number", "claims/sebrle2015minutes.yaml", "{treated: 58,", "{treated: 1,058,"),
    Fault("percentage without its sign", "claims/unareta2011referral.yaml", "success_rate: 90%", "success_rate: 90"),
    Fault("length without unit", "claims/hallorvik2006delay.yaml", "at: 90 days", "at: 90"),
    Fault(
        "what was studied left out",
        "claims/ravnholt2018again.yaml",
        "    outcome: tooth-kept\n",
        "",
        "- id: kept-10-years",
    ),
    Fault(
        "required field left out",
        "claims/xanthidou2026bypass.yaml",
        "read: {by: CQ, on: 2026-09-16, depth",
        "read: {by: CQ, depth",
    ),
    Fault("follow-up of no claim", "claims/castellan2009strict.yaml", "follow_up: strict\n", "follow_up: stricter\n"),
    Fault(
        "factor without its time",
        "claims/tennborg2013matched.yaml",
        "    known_at: before\n",
        "",
        "- id: healed-fragment",
    ),
    Fault("alias", "claims/dunmarrow2008decade.yaml", "timing: last recall, minimum", "timing: *x, minimum"),
    Fault(
        "passage without its number",
        "sources/exposed-pulp.bib",
        "138 teeth treated",
        "139 teeth treated",
        "flow: {treated: 138",
        "claims/ilvermark2014cap.yaml",
    ),
    Fault("forgotten comma", "sources/broken-instrument.bib", "volume = 4, pages", "volume = 4 pages"),
    Fault("bracket twice", "sources/root-perforation.bib", "[p. 94, Table 3]", "[p. 94, Table 2]"),
    Fault(
        "undefined string",
        "sources/exposed-pulp.bib",
        "journal = {Annals of Imagined Endodontics},",
        "journal = annals,",
    ),
    Fault(
        "reference to no claim",
        "questions/root-perforation.yaml",
        "($dovrell2017crest/overall)",
        "($dovrell2017crest/overal)",
    ),
    Fault(
        "number typed in prose",
        "questions/broken-instrument.yaml",
        "answer: Of teeth seen",
        "answer: In 80% of teeth seen",
    ),
    Fault(
        "a ratio chosen for the patient",
        "questions/root-perforation.yaml",
        "dovrell2017crest/overall, aalbek",
        "garrow2020review/lesion-pooled, aalbek",
    ),
    Fault("unknown urgent name", "questions/exposed-pulp.yaml", "urgent: [swallowed", "urgent: [swalowed"),
    Fault("tally of certainty", "questions/exposed-pulp.yaml", "final: moderate", "final: high"),
    Fault("standing of no report", "status.yaml", "aalbek2011furcal:", "aalbeck2011furcal:"),
    Fault(
        "state not in its list",
        "status.yaml",
        "bramwick2014size: {state: none found",
        "bramwick2014size: {state: nothing found",
    ),
    Fault(
        "level without a title",
        "vocabulary.yaml",
        "{id: above, title: above the crest",
        "{id: above, titel: above the crest",
    ),
    Fault("basis not in its list", "urgent.yaml", "kind: common practice", "kind: common practise"),
]


def first_changed_line(before: str, after: str) -> int:
    """From 1, in the text after the change."""
    rows = zip(before.splitlines(), after.splitlines(), strict=False)
    return next((number for number, (old, new) in enumerate(rows, start=1) if old != new), len(after.splitlines()))


@pytest.fixture(scope="module")
def faulty(tmp_path_factory: pytest.TempPathFactory) -> tuple[dict[str, tuple[str, int]], list[dict[str, object]], str]:
    """Where each fault was made, what the check answered, and what it wrote to stderr."""
    root = tmp_path_factory.mktemp("faulty")
    shutil.copytree(ROOT / "evidence", root / "evidence")
    places = {}
    for fault in FAULTS:
        path = root / "evidence" / fault.file
        before = path.read_text("utf-8")
        assert fault.was in before, f"{fault.name}: {fault.file} does not hold {fault.was!r} any more"
        after = before.replace(fault.was, fault.becomes, 1)
        path.write_text(after, "utf-8")
        places[fault.name] = (f"evidence/{fault.told_in or fault.file}", before, fault)
    lines = {}
    for name, (file, before, fault) in places.items():
        after = (root / file).read_text("utf-8")
        line = first_changed_line(before, after)
        if fault.at:
            line = next(number for number, text in enumerate(after.splitlines(), start=1) if fault.at in text)
        lines[name] = (file, line)
    ran = subprocess.run(
        [sys.executable, "-m", "builder", "check", "--root", str(root), "--format", "json"],
        cwd=ROOT, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert ran.returncode == 1
    problems = [item for item in json.loads(ran.stdout)["problems"] if item["acknowledged"] is None]
    return lines, problems, ran.stderr


def test_there_are_at_least_forty_kinds_of_fault() -> None:
    assert len({fault.name for fault in FAULTS}) >= 40


@pytest.mark.parametrize("name", [fault.name for fault in FAULTS])
def test_a_fault_is_named_on_its_line(faulty, name: str) -> None:
    lines, problems, _ = faulty
    file, line = lines[name]
    there = [item for item in problems if item["file"] == file]
    assert line in [item["line"] for item in there], [(item["line"], item["message"]) for item in there]


def test_every_fault_is_named_once_and_nothing_else_is(faulty) -> None:
    lines, problems, _ = faulty
    found = Counter((item["file"], item["line"]) for item in problems)
    expected = Counter(lines.values())
    assert found == expected, [item for item in problems if (item["file"], item["line"]) not in expected]


def test_there_is_no_traceback(faulty) -> None:
    assert "Traceback" not in faulty[2]
