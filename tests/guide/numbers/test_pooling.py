"""Pooled rates: shown where they are earned, kept in the workings at three or four, never at two."""

from __future__ import annotations

from decimal import Decimal

import pytest
from guide.cohorts import at, catalogue, cohort, five
from guide.compendium import said
from passageproof.results.findings.comparable import comparability_of
from passageproof.results.findings.findings import Catalogue
from passageproof.results.numbers.pooling import RatePool, pool_line, rate_pool

# Mente 2010, Krupp 2013 and Gorni 2016, root perforations repaired with hydraulic cements: counts as their abstracts
# print them. The pooled rate by a random-intercept logistic model is .8488 (recomputed with lme4 and with scipy).
PUBLISHED = ((18, 21), (66, 90), (101, 110))


def pool_of(made: Catalogue) -> RatePool:
    return rate_pool(made, "hole/overall", "", "All examined", comparability_of(made.findings))


def published(count: int) -> Catalogue:
    names = ("mente2010", "krupp2013", "gorni2016")[:count]
    return catalogue(*(cohort(name, *each) for name, each in zip(names, PUBLISHED, strict=False)))


def test_five_studies_show_the_typical_study_with_all_that_belongs_to_it():
    line = said(pool_line(pool_of(catalogue(*five()))))
    assert line.startswith("the typical study: 83.3% (95% CI 77.4% to 87.8%), 5 studies, 400 teeth, 67 failures; tau ")
    assert "a further study would lie between" in line


def test_without_variation_the_prediction_interval_is_called_deceptive():
    assert "deceptively narrow" in said(pool_line(pool_of(catalogue(*five()))))


def test_with_variation_nothing_is_called_deceptive():
    counts = ((90, 100), (50, 100), (70, 100), (95, 100), (60, 100))
    made = catalogue(*(cohort(f"arden201{index}", *each) for index, each in enumerate(counts)))
    pool = pool_of(made)
    assert pool.is_shown
    assert "deceptively narrow" not in said(pool_line(pool))


def test_three_studies_show_their_range_and_no_pooled_number():
    line = said(pool_line(pool_of(published(3))))
    assert line.startswith("not pooled: fewer than five studies agree on what they count")
    assert "between 66 of 90 teeth (73%) and 101 of 110 teeth (91.8%)" in line
    assert "84.9%" not in line


def test_the_number_of_three_studies_lives_in_the_workings():
    made = published(3)
    pool_of(made)
    results = dict(made.book.working("hole-overall-main-rates").results)
    hidden = results["typical study (too few studies or failures: not shown on the page)"]
    assert hidden.text == "84.9%"


def test_the_number_is_kept_unrounded_for_the_workings():
    made = published(3)
    pool_of(made)
    full = made.book.get("hole/overall/rate")
    assert full is not None
    assert float(full.unrounded) == pytest.approx(84.88, abs=5e-3)
    assert len(Decimal(full.unrounded).as_tuple().digits) >= 9


def test_two_studies_are_never_pooled():
    made = published(2)
    pool_of(made)
    assert made.book.get("hole/overall/rate") is None


def test_the_workings_hold_the_counts_to_recompute_it():
    made = catalogue(*five())
    pool_of(made)
    working = made.book.working("hole-overall-main-rates")
    assert working.download == "data/workings/hole-overall-main-rates.csv"
    assert working.table[:2] == (("study", "figure", "events", "total"), ("arden2011", "arden2011/all", "60", "72"))
    assert len(working.inputs) == 10


def test_sixteen_of_sixteen_is_never_a_percentage():
    line = said(pool_line(pool_of(catalogue(cohort("arden2011", 16, 16), cohort("bexley2012", 30, 40)))))
    assert "30 of 40 teeth (75%) and 16 of 16 teeth" in line
    assert "100%" not in line


def test_every_reason_is_reported():
    made = catalogue(cohort("arden2011", 20, 30), cohort("bexley2012", 30, 40, time=at(12, 3), treatment="retreatment"))
    line = said(pool_line(pool_of(made)))
    assert "they speak of different times" in line
    assert "the people treated differ" in line


def test_the_order_of_reports_moves_no_number():
    files = five()
    first, second = pool_of(catalogue(*files)), pool_of(catalogue(*reversed(files)))
    assert {name: figure.value for name, figure in first.figures.items()} == {
        name: figure.value for name, figure in second.figures.items()
    }
