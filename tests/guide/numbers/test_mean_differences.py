"""The difference of two means on the pages that show it, with its interval or the reason why it has none."""

from __future__ import annotations

import re
from html import unescape

import pytest
from guide.compendium import catalogue_of, figures, html_of, nothing_named, report
from passageproof.guide.factor.factor_page import factor_page
from passageproof.guide.source.source_page import source_page
from passageproof.results.findings.direction import sides_of
from passageproof.results.findings.findings import Catalogue
from passageproof.results.values.document import Page

QUESTION = {"questions/hole.yaml": "id: hole\ntitle: There is a hole\n"}
PASSAGE = "[p. 3] gain, mean ± SD: direct cap 2.6 ± 1.1 mm (n = 38), full pulpotomy 1.9 ± 1.0 mm (n = 37)"
CAP = "mean: 2.6, sd: 1.1, total: 38"
FULL = "mean: 1.9, sd: 1.0, total: 37"
VOCABULARY = """\
factors:
  way:
    title: What was done
    role: treatment
    levels: [{id: cap, title: direct cap}, {id: full, title: full pulpotomy}]
outcomes:
  gain: {title: bone gained, construct: bone, strictness: not applicable, basis: film, threshold: distance, good: GOOD}
"""


def made(
    cap: str = CAP, full: str = FULL, passage: str = PASSAGE, reference: str = "full pulpotomy", good: str = "yes",
    unit: str = "mm",
) -> Catalogue:  # fmt: skip
    claim = f"""
- id: gained
  question: hole
  outcome: gain
  factor: way
  known_at: during
  reference: {reference}
  unit: {unit}
  where: 'p. 3'
  follow_up: not reported
  levels:
    - {{level: direct cap, {cap}}}
    - {{level: full pulpotomy, {full}}}
"""
    return catalogue_of(
        report("marlow2019", claim, passage) | QUESTION | {"vocabulary.yaml": VOCABULARY.replace("GOOD", good)}
    )


def text_of(page: Page) -> str:
    parted = re.sub(r"</(td|th|dt|dd|p|li|caption|h\d)>", " ", html_of(page))
    return " ".join(unescape(re.sub(r"<[^>]+>", "", parted)).split())


def pages(catalogue: Catalogue) -> tuple[str, str]:
    """The page of the report, which tells what was typed, and that of the factor, which compares."""
    question = catalogue.evidence.questions["hole"]
    return (
        text_of(source_page(catalogue, "marlow2019", nothing_named)),
        text_of(factor_page(catalogue, question, "way", nothing_named)),
    )


def test_the_means_stand_on_both_pages_and_their_difference_on_that_of_the_factor() -> None:
    # Welch 1947 (formula from memory): error 0.2426, 72.7 degrees of freedom, t 1.993, so 0.7 ± 0.4836; against scipy
    # and statsmodels in tests/synthesis/test_means.py.
    of_report, of_factor = pages(made())
    assert "mean 2.6 mm (SD 1.1), 38 teeth" in of_report
    assert "computed" not in of_report
    assert "mean 2.6 mm (SD 1.1), 38 teeth" in of_factor
    assert "0.7 mm (95% CI 0.22 to 1.18), computed" in of_factor


@pytest.mark.parametrize("unit", ["hours", "hour"])
def test_hours_are_shown_and_computed_as_hours(unit: str) -> None:
    # The same means and deviations, so the same difference as above: an hour is one, not sixty.
    passage = "[p. 3] mean gain: direct cap 2.6 hours (SD 1.1, n = 38), full pulpotomy 1.9 hours (SD 1.0, n = 37)"
    of_report, of_factor = pages(made(passage=passage, unit=unit))
    assert "mean 2.6 hours (SD 1.1), 38 teeth" in of_report
    assert "mean 2.6 hours (SD 1.1), 38 teeth" in of_factor
    assert "0.7 hours (95% CI 0.22 to 1.18), computed" in of_factor


def test_every_computed_limit_has_its_workings_and_inputs() -> None:
    catalogue = made()
    shown = figures(factor_page(catalogue, catalogue.evidence.questions["hole"], "way", nothing_named).blocks)
    low = shown["hole/way/marlow2019-gained-direct-cap-mean-difference-low"]
    assert (low.text, low.unit) == ("0.22", "mean difference")
    assert set(low.derived_from) == {
        f"marlow2019/gained/{level}/{field}"
        for level in ("direct-cap", "full-pulpotomy")
        for field in ("mean", "sd", "total")
    }
    assert catalogue.book.working(low.workings).published.startswith("Welch 1947")


@pytest.mark.parametrize(
    ("cap", "full", "passage", "expected"),
    [
        (
            "mean: 2.6, sd: not reported, total: 38", "mean: 1.9, sd: not reported, total: 37",
            "[p. 3] mean gain: direct cap 2.6 mm (n = 38), full pulpotomy 1.9 mm (n = 37)",
            "0.7 mm (no interval: a standard deviation is not reported), computed",
        ),
        (
            "mean: 2.6, sd: 1.1, total: not reported", "mean: 1.9, sd: 1.0, total: not reported",
            "[p. 3] gain, mean ± SD: direct cap 2.6 ± 1.1 mm, full pulpotomy 1.9 ± 1.0 mm",
            "0.7 mm (no interval: in how many it was measured is not reported), computed",
        ),
        (
            "median: 2.6, iqr: 1.1 to 3.0, total: 38", "median: 1.9, iqr: 1.0 to 2.5, total: 37",
            "[p. 3] median gain: direct cap 2.6 mm (IQR 1.1 to 3.0; n = 38), full pulpotomy 1.9 mm (IQR 1.0 to 2.5; "
            "n = 37)",
            "not computed: medians are not subtracted",
        ),
    ],
    ids=["no deviation", "no total", "medians"],
)  # fmt: skip
def test_what_is_not_computed_says_why(cap: str, full: str, passage: str, expected: str) -> None:
    assert expected in pages(made(cap, full, passage))[1]


def test_without_a_reference_nothing_is_subtracted() -> None:
    text = pages(made(reference="not reported"))[1]
    assert "not computed: the table has no row of the reference level" in text


@pytest.mark.parametrize(("good", "side"), [("yes", "better"), ("no", "worse")])
def test_the_side_goes_by_whether_more_is_good(good: str, side: str) -> None:
    (found,) = sides_of(made(good=good), "hole", "way")
    assert found.direction == side


def test_differences_of_means_are_never_pooled() -> None:
    assert "not pooled: differences of means are not put together in this guide" in pages(made())[1]


def test_a_printed_mean_difference_has_its_unit() -> None:
    claim = """
- id: gained
  question: hole
  outcome: gain
  factor: way
  known_at: during
  reference: full pulpotomy
  where: 'p. 3'
  follow_up: not reported
  contrast: {measure: mean difference, value: 0.7, interval: 0.2 to 1.2, level: direct cap, adjusted_for: none, UNIT}
"""
    passage = "[p. 3] direct cap gained more than full pulpotomy: mean difference 0.7 (95% CI 0.2 to 1.2)"
    for unit, expected in (("unit: mm", "mean difference 0.7 mm (95% CI"), ("unit: points", "0.7 points (95% CI"),
                           ("p: not reported", "0.7 (unit not reported) (95% CI")):  # fmt: skip
        catalogue = catalogue_of(
            report("marlow2019", claim.replace("UNIT", unit), passage)
            | QUESTION
            | {"vocabulary.yaml": VOCABULARY.replace("GOOD", "yes")}
        )
        for text in pages(catalogue):
            assert expected in text


def test_the_difference_stands_in_the_row_of_the_study() -> None:
    text = pages(made())[1]
    row = (
        "direct cap: mean 2.6 mm (SD 1.1), 38 teeth; full pulpotomy: mean 1.9 mm (SD 1.0), 37 teeth; difference 0.7 mm"
    )
    assert row in text


def test_a_printed_difference_is_told_in_place_of_the_means() -> None:
    claim = """
- id: gained
  question: hole
  outcome: gain
  factor: way
  known_at: during
  reference: full pulpotomy
  unit: mm
  where: 'p. 3'
  follow_up: not reported
  levels:
    - {level: direct cap, mean: 2.6, sd: 1.1, total: 38}
    - {level: full pulpotomy, mean: 1.9, sd: 1.0, total: 37}
  contrast: {measure: mean difference, value: 0.7, interval: 0.2 to 1.2, level: direct cap, reference: full pulpotomy,
             adjusted_for: none}
"""
    passage = f"{PASSAGE}; direct cap gained more than full pulpotomy, mean difference 0.7 mm (95% CI 0.2 to 1.2)"
    catalogue = catalogue_of(
        report("marlow2019", claim, passage) | QUESTION | {"vocabulary.yaml": VOCABULARY.replace("GOOD", "yes")}
    )
    (side,) = sides_of(catalogue, "hole", "way")
    assert (side.finding.kind, side.direction) == ("contrast", "better")
    assert "mean difference 0.7 mm (95% CI 0.2 to 1.2)" in pages(catalogue)[1]
