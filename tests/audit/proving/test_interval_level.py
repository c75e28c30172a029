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


RATIO_PRINTS = {
    "CI99 {}": "99", "CI90 {}": "90", "CI97.5 {}": "97.5", "CI(90%) {}": "90", "CI (90%): {}": "90",
    "CI 90%, {}": "90", "0.90 CI {}": "90", "90% CrI {}": "90", "90% credible interval {}": "90", "90% HDI {}": "90",
    "0.90 CrI {}": "90", "90% limits {}": "90", "90% interval {}": "90", "90% CL {}": "90", "BCI 90% {}": "90",
    "90% Wald interval {}": "90", "90% conf. int. {}": "90", "90-percent confidence bounds {}": "90",
    "90% profile likelihood CI {}": "90", "99% simultaneous confidence interval {}": "99", "90\\% CrI {}": "90",
    "{}; P = .02; 90% CI": "90", "{} at 90% confidence": "90", "{}; all intervals are 90% CI": "90",
    "{}); at the 90% level (twice": "90", "{}), confidence level 90% (twice": "90",
    "{}). All intervals are 90% CI. (See": "90",
}  # fmt: skip
"""What is printed behind a ratio, the interval in place of the curly brackets, and its level."""


@pytest.mark.parametrize(("printed", "level"), RATIO_PRINTS.items(), ids=RATIO_PRINTS)
def test_a_level_is_read_in_every_print(tmp_path: Path, printed: str, level: str) -> None:
    passage = f"[p. 2] {SIZES} OR 2.4 ({printed.format('1.1 to 5.2')})"
    (problem,) = prove(tmp_path, passage, RATIO + "}").problems
    assert (problem.rule, problem.hint) == ("interval-level", f"confidence: {level}%")
    assert prove(tmp_path, passage, RATIO + f", confidence: {level}%}}").problems == ()
    usual = prove(tmp_path, passage, RATIO + ", confidence: 95%}").problems
    assert "interval-level" in [each.rule for each in usual]


BANDS = (
    "Figure 1. Healed, with 90% bands.", "Shares healed (90% bands in brackets)", "Healed; the shaded bands are 90%.",
    "Healed, shown with 90% pointwise bands.", "Healed with error bars (90%).", "Healed; error bars show 90% limits.",
    "Healed. Whiskers: 90%.", "Healed with 90% error bars.", "Healed and its 90% uncertainty bands", "Bands of 90% CI",
    "Healed, the shaded band 90%.",
)  # fmt: skip
"""Legends of drawings. Common practice, no source."""


@pytest.mark.parametrize("legend", BANDS)
def test_bands_of_a_drawing_have_a_level(tmp_path: Path, legend: str) -> None:
    passage = f"[p. 2] {legend}\nYear 1: 39 of 47, 83% (70% to 91%)"
    (problem,) = prove(tmp_path, passage, RATE).problems
    assert (problem.rule, problem.hint) == ("interval-level", "confidence: 90%")
    assert prove(tmp_path, passage, f"{RATE}\nconfidence: 90%").problems == ()
    assert prove(tmp_path, passage.replace("90%", "95%"), RATE).problems == ()


@pytest.mark.parametrize(
    "words",
    [
        "90% bands retained",
        "in 90% bands had been cemented",
        "with bars 90% were kept",
        "90% of teeth with bands",
        "molar bands 90%",
    ],
)
def test_bands_and_bars_of_an_appliance_have_none(tmp_path: Path, words: str) -> None:
    assert prove(tmp_path, f"[p. 2] {words}; 39 of 47 healed, 83% (70% to 91%)", RATE).problems == ()


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        pytest.param("", ["interval-level"], id="none"),
        pytest.param(", confidence: 95%", ["interval-level"], id="that of the second"),
        pytest.param(", confidence: 90%", [], id="its own"),
    ],
)
def test_the_levels_of_a_heading_are_in_the_order_of_its_intervals(tmp_path: Path, typed: str, told: list[str]) -> None:
    passage = f"[p. 2] {SIZES} OR (90% CI; 95% CI in brackets): 2.4 (1.1 to 5.2) [0.9 to 6.0]"
    assert [each.rule for each in prove(tmp_path, passage, RATIO + typed + "}").problems] == told


@pytest.mark.parametrize(
    "sentence",
    [
        "Confidence intervals were calculated at the 90% level.",
        "All 90% confidence intervals are two-sided.",
        "A confidence level of 90% was used.",
    ],
)
def test_a_level_that_another_passage_says_of_all_intervals_is_asked_for(tmp_path: Path, sentence: str) -> None:
    printed = f"[p. 2] 39 of 47 (83%; 70% to 91%)\n[Methods] {sentence}"
    (problem,) = prove(tmp_path, printed, RATE).problems
    assert problem.rule == "interval-level"
    assert problem.message == (
        '"70% to 91%" would be shown as 95%, since `confidence` is not given, and the passage typed from Methods '
        "(evidence/sources/a.bib:5) says that the intervals of this source are of 90%"
    )
    # The words may stand in the interval's own passage too.
    beside = f"[p. 2] 39 of 47 (83%; 70% to 91%). {sentence}"
    assert prove(tmp_path, beside, f"{RATE}\nconfidence: 90%").problems == ()


@pytest.mark.parametrize("level", ["99", "90"])
def test_a_level_that_another_passage_says_proves_what_is_typed(tmp_path: Path, level: str) -> None:
    printed = f"[p. 2] 39 of 47 (83%; 70% to 91%)\n[Methods] All confidence intervals are given at the {level}% level."
    assert prove(tmp_path, printed, f"{RATE}\nconfidence: {level}%").problems == ()
    assert [problem.rule for problem in prove(tmp_path, printed, RATE).problems] == ["interval-level"]
    rules = {problem.rule for problem in prove(tmp_path, printed, f"{RATE}\nconfidence: 98%").problems}
    assert rules == {"interval-level", "figure-not-in-passage"}


def test_the_interval_of_a_margin_tells_the_level_of_no_other(tmp_path: Path) -> None:
    printed = (
        "[p. 2] 39 of 47 (83%; 70% to 91%)\n[Methods] The margin of non-inferiority was judged on a 90% confidence "
        "interval."
    )
    assert prove(tmp_path, printed, RATE).problems == ()


@pytest.mark.parametrize(
    "printed",
    [
        "39 of 47 (83%; CI 70% to 91%)",
        "39 of 47 healed (CI): 83% (70% to 91%)",
        "CI: 39 of 47, 83% (70% to 91%)",
        "39 of 47, 83% with confidence interval 70% to 91%",
        "39 of 47, 83%, confidence limits 70% and 91%",
        "90% healed within limits; 39 of 47 (83%; 70% to 91%)",
        "39 of 47 healed, 83% (70% to 91%); 90% were within limits",
        "39 of 47 (83%; 70% to 91%); 90% reference interval 1 to 5",
        "39 of 47 (83%; 70% to 91%); at 5 years, 75% (60% to 80%; 99% CI)",
        "39 of 47 (83%; 70% to 91%); 90% healed later",
        "39 of 47 (83%; 70% to 91%)\n[Methods] 90% power; 95% CI throughout",
        "39 of 47 (83%; 70% to 91%)\n[Table 3] OR (90% CI): 2 (1 to 3)",
    ],
)
def test_a_share_or_the_level_of_another_interval_is_no_level(tmp_path: Path, printed: str) -> None:
    assert prove(tmp_path, f"[p. 2] {printed}", RATE).problems == ()


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
