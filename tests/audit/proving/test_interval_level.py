"""The level that the passage prints for an interval is the level that the claim shows it with."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest
from audit.proving.test_figures import prove
from passageproof.audit.whole import audit
from passageproof.problems import as_text
from passageproof.reading.evidence import read_evidence

ROOT = Path(__file__).parents[3]
RATE = "where: p. 2\nevents: 39\ntotal: 47\nrate: 83%\ninterval: 70% to 91%"
RATIO = (
    "where: p. 2\nfactor: size\nknown_at: before\nreference: up to 3 mm\n"
    "contrast: {measure: odds ratio, event: healed, event_is: good, level: over 3 mm, reference: up to 3 mm, "
    "value: 2.4, interval: 1.1 to 5.2, adjusted_for: none"
)
SIZES = "over 3 mm against up to 3 mm:"


@pytest.mark.parametrize(
    ("printed", "level"),
    [
        pytest.param("39 of 47 (83%; 99% CI 70% to 91%)", "99", id="before"),
        pytest.param("39 of 47 (83%; 90% confidence interval from 70% to 91%)", "90", id="in words"),
        pytest.param("39 of 47 (83%; CI 99%: 70% to 91%)", "99", id="behind the word"),
        pytest.param("39 of 47, 83% (70% to 91%; 99% CI)", "99", id="behind the interval"),
        pytest.param("rate (99% CI): 39 of 47, 83% (70% to 91%)", "99", id="in the heading"),
        pytest.param("39 of 47, 83% (99\\% CI 70--91\\%)", "99", id="in TeX"),
        pytest.param("first 60% (95% CI 50% to 69%); 39 of 47, 83% (90% CI 70% to 91%)", "90", id="after a usual one"),
        pytest.param("39 of 47, 83% (97.5% CI 70% to 91%)", "97.5", id="with decimals"),
    ],
)  # fmt: skip
def test_another_printed_level_is_asked_for(tmp_path: Path, printed: str, level: str) -> None:
    (problem,) = prove(tmp_path, f"[p. 2] {printed}", RATE).problems
    assert as_text(problem) == (
        f'evidence/claims/k.yaml:13:15: "70% to 91%" is printed as a {level}% interval in the passage typed from p. 2 '
        "(evidence/sources/a.bib:4), and would be shown as 95%, since `confidence` is not given "
        "[interval-level]\n"
        f"    confidence: {level}%"
    )


@pytest.mark.parametrize("level", ["99", "90", "97.5", "95"])
def test_what_the_hint_says_mends_it(tmp_path: Path, level: str) -> None:
    printed = f"[p. 2] 39 of 47 (83%; {level}% CI 70% to 91%)"
    assert prove(tmp_path, printed, f"{RATE}\nconfidence: {level}%").problems == ()


@pytest.mark.parametrize(
    "printed",
    [
        pytest.param("39 of 47 (83%; 95% CI 70% to 91%)", id="usual"),
        pytest.param("39 of 47 (83%; 70% to 91%)", id="none"),
        pytest.param("39 of 47, 83% (95% CI 70% to 91%); later 60% (99% CI 50% to 69%)", id="another one behind"),
        pytest.param("39 of 47, 83% (70% to 91%; 95% CI); later 60% (99% CI 50% to 69%)", id="behind, then another"),
        pytest.param("earlier 60% (99% CI 50% to 69%); 39 of 47, 83% (95% CI 70% to 91%)", id="another one before"),
    ],
)
def test_an_interval_of_the_usual_level_needs_no_word(tmp_path: Path, printed: str) -> None:
    assert prove(tmp_path, f"[p. 2] {printed}", RATE).problems == ()


def test_a_typed_level_that_is_another_intervals_is_told(tmp_path: Path) -> None:
    printed = "39 of 47, 83% (95% CI 70% to 91%); later 60% (99% CI 50% to 69%)"
    (problem,) = prove(tmp_path, f"[p. 2] {printed}", f"{RATE}\nconfidence: 99%").problems
    assert "is printed as a 95% interval" in problem.message
    assert problem.message.endswith("and would be shown as 99%")


def test_the_interval_of_a_ratio_is_held_to_its_level(tmp_path: Path) -> None:
    passage = f"[p. 2] {SIZES} crude OR 2.4 (99% CI 1.1 to 5.2)"
    assert [each.rule for each in prove(tmp_path, passage, RATIO + "}").problems] == ["interval-level"]
    assert prove(tmp_path, passage, RATIO + ", confidence: 99%}").problems == ()


def test_every_interval_of_the_demonstration_is_held_to_its_printed_level(tmp_path: Path) -> None:
    shutil.copytree(ROOT / "evidence", tmp_path / "evidence")
    changed = 0
    for file in (tmp_path / "evidence" / "sources").glob("*.bib"):
        text, count = re.subn(r"95% CI(?= -?[\d.])", "99% CI", file.read_text("utf-8"))
        file.write_text(text, "utf-8")
        changed += count
    problems = audit(read_evidence(tmp_path)).problems
    told = [problem for problem in problems if problem.is_open]
    levels = [problem for problem in told if problem.rule == "interval-level"]
    # Those with a typed `confidence: 95%` are told for it: the passage has no 95% any more.
    others = {problem.rule for problem in told} - {"interval-level"}
    assert others <= {"figure-not-in-passage", "figure-means-something-else"}
    assert changed > 50
    assert len(levels) > 50
