"""How findings are said: counts first, no naked percentage, time and definition beside."""

from __future__ import annotations

import pytest
from guide.compendium import catalogue_of, report, said
from passageproof.results.findings.findings import Finding
from passageproof.results.saying.wording import contrast, definition, estimate, percent, rate, timing
from passageproof.results.values.figures import Figure


def finding_of(claim: str, *passages: str, outcome: str = "healed") -> Finding:
    question = "id: hole\ntitle: There is a hole\n"
    body = f"- id: one\n  question: hole\n  outcome: {outcome}\n  where: p. 2\n{claim}"
    return catalogue_of({"questions/hole.yaml": question} | report("marlow2019", body, *passages)).findings[0]


NO_TIME = "  follow_up: not reported\n"


@pytest.mark.parametrize(
    ("claim", "passage", "expected"),
    [
        pytest.param("  events: 39\n  total: 47\n  success_rate: 83%\n", "39 of 47 teeth (83%)", "39 of 47 teeth (83%)", id="counts and rate"),
        pytest.param("  events: 16\n  total: 16\n  success_rate: 100%\n", "16 of 16 teeth (100%)", "16 of 16 teeth", id="all of them, no 100 %"),
        pytest.param("  events: 0\n  total: 9\n  success_rate: 0%\n", "0 of 9 teeth (0%)", "0 of 9 teeth", id="none of them"),
        pytest.param("  events: not reported\n  total: not reported\n  success_rate: 84%\n", "84% healed", "counts not reported", id="no naked percentage"),
        pytest.param("  events: not reported\n  total: 50\n  success_rate: 84%\n", "84% of 50 teeth", "of 50 teeth, how many not reported (84%)", id="total alone"),
        pytest.param(
            "  events: 31\n  total: {candidates: [41, 44], reason: places differ}\n", "31 healed of 41 or 44",
            "31 of 41 or 44 teeth (the report prints both)", id="two totals",
        ),
    ],
)  # fmt: skip
def test_a_rate_is_said_with_its_counts(claim: str, passage: str, expected: str):
    assert said(rate(finding_of(claim + NO_TIME, f"[p. 2] {passage}"))) == expected


RATE = "  events: 39\n  total: 47\n"


@pytest.mark.parametrize(
    ("follow_up", "passage", "expected"),
    [
        pytest.param(
            "{from: repair, timing: last recall, minimum: 12 months, median: 31 months, maximum: 60 months}",
            "12 to 60 months (median 31)", "when last seen, 12 to 60 months (median 31 months) after repair", id="last recall",
        ),
        pytest.param("{from: repair, timing: at, at: 5 years, tolerance: 6 months}", "5 years (within 6 months)", "at 5 years after repair, give or take 6 months", id="at"),
        pytest.param("{from: repair, timing: at, at: 1 year, tolerance: not reported}", "1 year", "at 1 year after repair, how exactly is not reported", id="at, no tolerance"),
        pytest.param("{from: repair, timing: by, at: 2 years}", "2 years", "by 2 years after repair", id="by"),
        pytest.param("{from: repair, timing: at least, minimum: 12 months}", "12 months", "followed at least 12 months after repair", id="at least"),
        pytest.param("{from: repair, timing: at least, minimum: 12 months}", "at least 12 months", "followed at least 12 months after repair", id="at least, in print"),
        pytest.param("not reported", "", "follow-up not reported", id="not reported"),
        pytest.param("not applicable", "", "at no particular time", id="not applicable"),
    ],
)  # fmt: skip
def test_a_time_is_said_in_whole_words(follow_up: str, passage: str, expected: str):
    found = finding_of(f"{RATE}  follow_up: {follow_up}\n", f"[p. 2] 39 of 47 teeth; {passage}")
    assert said(timing(found)) == expected


def test_an_estimate_names_its_time_start_and_number_at_risk():
    claim = (
        "  estimate: {kind: survival, at: 5 years, value: 71%, interval: 55% to 85%, starting: 39, at_risk: 21, from: "
        "healing}\n  follow_up: not applicable\n"
    )
    found = finding_of(claim, "[p. 2] of 39 teeth 71% (95% CI 55 to 85) at 5 years, 21 at risk")
    assert said(estimate(found)) == "71% still so (95% CI 55% to 85%), 39 teeth at the start, 21 still at risk"
    assert said(timing(found)) == "at 5 years after healing"


def test_a_survival_of_something_bad_says_whom_it_counts():
    # "healing lost: 95%" would be read as 95 of 100 lost.
    claim = (
        "  estimate: {kind: survival, at: 5 years, value: 95%, starting: 39, from: healing}\n"
        "  follow_up: not applicable\n"
    )
    found = finding_of(claim, "[p. 2] of 39 teeth 95% at 5 years", outcome="lost")
    assert said(estimate(found)).startswith("95% still without it (")


def test_a_ratio_names_event_comparison_and_adjustment():
    claim = (
        "  factor: size\n  known_at: before\n  reference: up to 3 mm\n  contrast: {measure: hazard ratio, event: "
        "reversal, event_is: bad, level: over 3 mm, reference: up to 3 mm, value: 2.9,\n"
        "    interval: 1.2 to 7.1, p: .02, adjusted_for: [way, age], proportional: not reported}\n" + NO_TIME
    )
    found = finding_of(claim, "[p. 2] over 3 mm against up to 3 mm: adjusted HR 2.9 (95% CI 1.2 to 7.1; P = .02)")
    assert said(contrast(found)) == (
        "hazard ratio 2.9 (95% CI 1.2 to 7.1) for reversal (a bad event), over 3 mm against up to 3 mm, "
        "adjusted for What was done, age"
    )


def test_a_definition_names_threshold_and_basis():
    assert (
        said(definition(finding_of(RATE + NO_TIME, "[p. 2] 39 of 47 teeth").outcome))
        == "healed, by the stricter definition: normal space, by film"
    )


def test_proportion_as_printed_takes_no_sign_of_per_cent():
    printed = [Figure("a", text, value, "%", None) for text, value in (("0.84", "84"), (".84", "84"), ("84", "84"))]
    assert [figure.is_proportion for figure in printed] == [True, True, False]
    assert [percent(figure)[1:] for figure in printed] == [(), (), ("%",)]
