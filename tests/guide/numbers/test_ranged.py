"""A range is told of rates that share time, unit and way, one a study; else it says what it spans."""

from __future__ import annotations

from pathlib import Path

import pytest
from demo import demo_built
from guide.cohorts import at, catalogue, cohort, last_seen
from guide.compendium import nothing_named, said
from passageproof.guide.question.over_time import over_time_page
from passageproof.results.findings.comparable import comparability_of
from passageproof.results.findings.findings import Catalogue
from passageproof.results.numbers.pooling import range_line, rate_pool
from passageproof.results.values.document import walk
from passageproof.results.values.drawings import TimePlot

ROOT = Path(__file__).parents[3]
QUESTION = """\
id: hole
title: There is a hole
options:
  - {id: cap, title: Cap it, is: {factor: way, level: cap}}
  - {id: full, title: Take it, is: {factor: way, level: full}}
"""


def from_healing() -> tuple[str, str]:
    """The time of a rate that is counted from healing."""
    follow_up, passage = at()
    return follow_up.replace("repair", "healing"), passage


def told(made: Catalogue) -> str:
    return said(range_line(rate_pool(made, "hole/overall", "", "All examined", comparability_of(made.findings))))


def over_time(made: Catalogue) -> str:
    return said(over_time_page(made, made.evidence.questions["hole"], nothing_named))


def several() -> list[dict[str, str]]:
    """Three of one way at 24 months, one of another, and one when last seen."""
    return [
        cohort("arden2011", 60, 80, treatment="full pulpotomy"),
        cohort("bexley2012", 50, 58, treatment="full pulpotomy"),
        cohort("corwen2013", 40, 50, treatment="full pulpotomy"),
        cohort("dunmore2014", 20, 40, treatment="direct cap"),
        cohort("elgin2015", 99, 100, treatment="full pulpotomy", time=last_seen()),
    ]


def test_a_range_is_of_one_way_at_one_time_and_says_that_others_stand_apart() -> None:
    text = told(catalogue(*several(), question=QUESTION))
    assert text == (
        "3 studies at 24 months (full pulpotomy) lie between 60 of 80 teeth (75%) and 50 of 58 teeth (86%); "
        "what was counted otherwise stands by itself"
    )


def test_studies_at_one_time_are_told_by_way() -> None:
    text = over_time(catalogue(*several(), question=QUESTION))
    assert "full pulpotomy, 3 studies, from 60 of 80 teeth to 50 of 58 teeth; " in text
    assert "direct cap, 20 of 40 teeth in Dunmore 2014." in text
    assert "Bracket: several studies treated alike, lowest to highest." in text
    assert "Marks side by side at one time: ways of treatment, each by itself." in text


def test_a_bracket_joins_no_two_ways_and_no_axis_has_two_starts() -> None:
    made = catalogue(*several(), question=QUESTION)
    question = made.evidence.questions["hole"]
    plots = [part for part in walk(over_time_page(made, question, nothing_named).blocks) if isinstance(part, TimePlot)]
    assert len(plots) == 1
    (bracket,) = plots[0].brackets
    assert (bracket.low, bracket.high) == (75.0, pytest.approx(86.2, abs=0.05))
    assert [(point.at, point.share) for point in plots[0].points] == [(24.0, 50.0)]
    later = cohort("fenwick2016", 30, 40, treatment="full pulpotomy", time=from_healing())
    made = catalogue(*several(), later, question=QUESTION)
    question = made.evidence.questions["hole"]
    plots = [part for part in walk(over_time_page(made, question, nothing_named).blocks) if isinstance(part, TimePlot)]
    assert [plot.axis for plot in plots] == ["years since repair", "months since healing"]
    assert len({plot.anchor for plot in plots}) == 2


def test_where_no_way_is_told_apart_all_of_one_time_are_one_range() -> None:
    made = catalogue(*(cohort(f"arden{2011 + n}", 40 + n, 60) for n in range(3)))
    assert told(made) == "3 studies at 24 months lie between 40 of 60 teeth (67%) and 42 of 60 teeth (70%)"
    assert "several ways or not told" not in over_time(made)


def test_two_analyses_of_one_trial_are_no_two_studies() -> None:
    everybody = cohort("arden2011", 40, 60)
    part = cohort("bexley2012", 45, 50, study="arden2011", described=False, more=", given: those treated as planned")
    part = {
        name: text.replace("45 of 50 teeth", "of those treated as planned 45 of 50 teeth")
        for name, text in part.items()
    }
    assert told(catalogue(everybody, part)) == ""
    assert "2 studies" not in over_time(catalogue(everybody, part))


def test_a_range_over_several_times_says_so_and_gives_each_end_its_time() -> None:
    text = told(catalogue(cohort("arden2011", 40, 60), cohort("bexley2012", 45, 50, time=last_seen())))
    assert text == (
        "2 studies, not alike in time or people: 40 of 60 teeth (67%), 24 months, and 45 of 50 teeth (90%), "
        "last seen, 12 to 60 months"
    )


def test_of_a_study_seen_at_two_times_the_later_stands_in_a_range_of_several_times() -> None:
    made = catalogue(
        cohort("arden2011", 10, 60, time=at(12, 3)),
        cohort("arden2015", 50, 60, time=at(48, 6), study="arden2011", described=False),
        cohort("bexley2012", 45, 50, time=last_seen()),
    )
    text = told(made)
    assert text.startswith("2 studies, not alike in time or people: 50 of 60 teeth (83%), 48 months, and ")
    assert "10 of 60" not in text


def test_teeth_and_patients_are_no_one_range() -> None:
    patients = {
        name: text.replace("unit: tooth", "unit: patient").replace("teeth", "patients")
        for name, text in cohort("bexley2012", 45, 50).items()
    }
    assert told(catalogue(cohort("arden2011", 40, 60), patients)) == ""


@pytest.mark.parametrize("address", ["exposed-pulp/over-time/", "exposed-pulp/pulp-treatment/"])
def test_the_demo_never_calls_rates_of_several_ways_or_of_one_trial_the_studies(address: str) -> None:
    built = demo_built()
    assert built.guide is not None
    text = said(built.guide.pages[address])
    if address == "exposed-pulp/over-time/":
        assert "pulp kept healthy: 4 studies at 12 months (full pulpotomy) lie between 34 of 41 teeth (83%) and" in text
        assert "; direct cap, 97 of 118 teeth (82.2%) in Ilvermark 2014." in text
    else:
        assert "full pulpotomy: not pooled: a single study." in text
