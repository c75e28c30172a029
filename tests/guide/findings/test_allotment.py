"""Comparisons of groups made at random are not told to be in want of adjustment; the others are."""

from __future__ import annotations

import re

import pytest
from guide.cohorts import at, catalogue
from guide.compendium import catalogue_of, nothing_named, report, said
from passageproof.guide.about.contribute_texts import VALUES
from passageproof.guide.factor.factor_page import factor_page
from passageproof.results.findings.allotment import is_randomised_design
from passageproof.results.findings.findings import Catalogue
from passageproof.results.values.document import Details, Section, walk
from passageproof.writing.starting import compendium_files

IN_MORE = "differ in more than"
MADE_AT_RANDOM = "made at random"


@pytest.mark.parametrize(
    "design",
    [
        "randomised trial", "randomized controlled trial", "RCT", "Cluster-randomised trial", "randomised, split-mouth",
        "double-blind randomized trial",
    ],
)  # fmt: skip
def test_designs_that_make_groups_at_random(design: str) -> None:
    assert is_randomised_design(design)


@pytest.mark.parametrize(
    "design",
    [
        "non-randomised trial", "non randomized trial", "nonrandomised trial", "not randomised", "quasi-randomised trial",
        "cohort", "cohort within a randomised trial", "Mendelian randomised", "systematic review of RCTs", "",
        "observational study of the arms of a randomised trial", "not reported", "unrandomised trial",
    ],
)  # fmt: skip
def test_designs_that_do_not(design: str) -> None:
    assert not is_randomised_design(design)


def test_who_types_a_design_is_told_which_words_are_read() -> None:
    (told,) = (note for kind, example, note in VALUES if kind == "Design" and is_randomised_design(example))
    words = re.findall(r"randomi[sz]ed|RCT", told)
    assert words == ["randomised", "randomized", "RCT"]
    assert all(is_randomised_design(word) for word in words)


def arms(
    key: str, design: str, *, factor: str = "way", planned: str = "yes", known_at: str = "during"
) -> dict[str, str]:
    """One report of two levels side by side, healed in 20 of 40 and 30 of 40."""
    levels = {"way": ("direct cap", "full pulpotomy"), "size": ("up to 3 mm", "over 3 mm")}[factor]
    claim = f"""
    - id: arms
      question: hole
      factor: {factor}
      known_at: {known_at}
      planned: {planned}
      outcome: healed
      reference: {levels[0]}
      levels:
        - {{level: {levels[0]}, events: 20, total: 40}}
        - {{level: {levels[1]}, events: 30, total: 40}}
      where: p. 3
      follow_up: {at()[0]}
    """
    table = f"[p. 3] {levels[0]}: 20 of 40 teeth; {levels[1]}: 30 of 40 teeth"
    files = report(key, claim, at()[1], table, study=key)
    return {name: text.replace("design: cohort", f"design: {design}") for name, text in files.items()}


def sections(made: Catalogue, question: str = "hole", factor: str = "way") -> dict[str, str]:
    """What three parts of the factor page say: what would change the answer, the methods, and numbers needed."""
    page = factor_page(made, made.evidence.questions[question], factor, nothing_named)
    wanted = ("would-change", "methods", "number-needed")
    return {
        item.anchor: said(item)
        for item in walk(page.blocks)
        if isinstance(item, (Section, Details)) and item.anchor in wanted
    }


def test_nothing_is_missing_of_groups_that_were_all_made_at_random() -> None:
    shown = sections(catalogue(arms("arden2011", "randomised trial"), arms("birch2015", "RCT")))
    assert "crude" not in shown["would-change"]
    assert "crude" not in shown["methods"]
    assert "the groups of every comparison here were made at random" in shown["methods"]
    assert IN_MORE not in shown["number-needed"]
    assert "randomised trial" in shown["number-needed"]


def test_those_that_were_not_are_named_beside_those_that_were() -> None:
    shown = sections(catalogue(arms("arden2011", "randomised trial"), arms("birch2015", "non-randomised trial")))
    assert "or another that is randomised: crude and not randomised are Birch 2015" in shown["would-change"]
    assert "Arden" not in shown["would-change"]
    assert "crude and not randomised are Birch 2015" in shown["methods"]
    assert MADE_AT_RANDOM not in shown["methods"]
    assert IN_MORE in shown["number-needed"]


@pytest.mark.parametrize(
    ("design", "more"),
    [
        ("cohort", {}),
        ("randomised trial", {"factor": "size", "known_at": "before"}),
        ("randomised trial", {"planned": "no"}),
        ("randomised trial", {"known_at": "after"}),
    ],
    ids=["cohort", "found and not allotted", "not planned", "known afterwards"],
)
def test_what_no_trial_allotted_stays_crude(design: str, more: dict[str, str]) -> None:
    shown = sections(catalogue(arms("arden2011", design, **more)), factor=more.get("factor", "way"))
    assert "since every count or ratio here is crude" in shown["would-change"]
    assert "every comparison here is crude, so the groups may differ in more than this factor" in shown["methods"]


def test_the_example_of_a_new_compendium_is_read_as_the_trial_that_it_is() -> None:
    files = {
        name.removeprefix("evidence/"): text
        for name, text in compendium_files().items()
        if name.startswith("evidence/")
    }
    shown = sections(catalogue_of(files), "call-before-visit", "reminder")
    assert "crude" not in shown["would-change"]
    assert MADE_AT_RANDOM in shown["methods"]
    assert IN_MORE not in shown["number-needed"]
