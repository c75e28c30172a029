"""Intervals of one rate, and how far those who were not seen could move it."""

from __future__ import annotations

import pytest
from guide.cohorts import catalogue, cohort
from guide.compendium import said
from passageproof.results.numbers.rate_intervals import bounds_line, shown_interval

PLACE = "hole/overall"


def one(events: int, total: int, **fields: object):
    made = catalogue(cohort("mente2010", events, total, **fields))  # type: ignore[arg-type]
    return made.of_claim("mente2010/all")[0]


@pytest.mark.parametrize(
    ("events", "total", "text"),
    [
        # Newcombe 1998, Stat Med 17:857-872, method 3 (pairs from memory, digits recomputed): .2553 to .3662 ...
        (81, 263, "95% CI 25.5% to 36.6% (computed)"),
        (15, 148, "95% CI 6.2% to 16.0% (computed)"),
        (1, 29, "95% CI 1% to 17% (computed)"),
        # Mente 2010: 18 of 21, Wilson .6536 to .9502 (recomputed).
        (18, 21, "95% CI 65% to 95% (computed)"),
        (16, 16, "95% CI 81% to 100% (computed)"),
    ],
)
def test_without_a_printed_interval_it_is_wilsons(events, total, text):
    assert said(shown_interval(one(events, total), PLACE)) == text


def test_a_printed_interval_is_shown_as_printed():
    files = cohort("mente2010", 18, 21, more=", interval: 64% to 97%")
    files["sources/mente2010.bib"] = files["sources/mente2010.bib"].replace("21 teeth", "21 teeth (95% CI 64% to 97%)")
    finding = catalogue(files).of_claim("mente2010/all")[0]
    assert said(shown_interval(finding, PLACE)) == "95% CI 64% to 97%"


def test_bounds_run_from_all_unseen_lost_to_all_unseen_healed():
    # Mente 2010: 18 of 21 examined, 26 treated: 69 % to 88 % (recomputed).
    finding = one(18, 21, flow=(26, 21))
    assert said(bounds_line(finding, PLACE)) == (
        "between 69% and 88% of the 26 teeth due, whatever became of those not seen"
    )


def test_where_nobody_tells_who_was_due_those_treated_stand_in():
    files = cohort("mente2010", 18, 21, flow=(26, 21))
    files["claims/mente2010.yaml"] = files["claims/mente2010.yaml"].replace("due: 26", "treated: 26")
    files["sources/mente2010.bib"] = files["sources/mente2010.bib"].replace("26 due", "26 treated")
    finding = catalogue(files).of_claim("mente2010/all")[0]
    assert "of the 26 teeth treated" in said(bounds_line(finding, PLACE))
    assert "of those treated" in said(bounds_line(finding, PLACE))


def test_without_a_flow_bounds_are_not_computable():
    assert said(bounds_line(one(18, 21), PLACE)).startswith("not computable")


def test_a_rate_of_some_of_those_treated_has_no_bounds():
    files = cohort("mente2010", 18, 21, flow=(26, 21), more=", given: teeth still there")
    finding = catalogue(files).of_claim("mente2010/all")[0]
    assert said(bounds_line(finding, PLACE)).startswith("not computable: the rate speaks only of part")


def test_a_rate_that_leaves_out_some_of_the_examined_has_no_bounds():
    assert "does not rest on all who were examined" in said(bounds_line(one(18, 20, flow=(26, 21)), PLACE))


@pytest.mark.parametrize(
    ("lost", "printed", "text"),
    [
        # 18 of 26 to (18 + 26 - 21 - 2) of 26: reckoned by hand.
        (", lost: 3", ", 3 lost", "between 69% and 81% of the 26 teeth due, whatever became of those not seen (2 "),
        # Of three the flow says nothing: whether the two were among those examined is not known.
        ("", "", "between 69% and 88% of the 26 teeth due, whatever became of those not seen"),
    ],
)
def test_who_is_known_to_have_failed_is_not_counted_as_perhaps_healed(lost, printed, text):
    files = cohort("mente2010", 18, 21, flow=(26, 21))
    claims, source = files["claims/mente2010.yaml"], files["sources/mente2010.bib"]
    files["claims/mente2010.yaml"] = claims.replace("due: 26", f"due: 26{lost}, extracted_related: 2")
    files["sources/mente2010.bib"] = source.replace(
        "26 due", f"26 due{printed}, 2 extracted for reasons of the treatment"
    )
    told = said(bounds_line(catalogue(files).of_claim("mente2010/all")[0], PLACE))
    assert told.startswith(text)
    assert ("counted as failed" in told) == bool(lost)
