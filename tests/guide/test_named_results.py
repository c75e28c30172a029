"""Results that sentences may name: a number where it is earned, else "not pooled" and why."""

from __future__ import annotations

import pytest
from guide.cohorts import by_size, catalogue, cohort, five
from guide.compendium import said
from passageproof.audit.computed_names import FACTOR, OVERALL
from passageproof.guide.named_results import named_result


@pytest.mark.parametrize("name", sorted(OVERALL))
def test_every_name_of_the_closed_list_has_a_line_for_a_question(name):
    assert said(named_result(catalogue(*five()), f"hole/overall/{name}"))


@pytest.mark.parametrize("name", sorted(FACTOR))
def test_every_name_of_the_closed_list_has_a_line_for_a_factor(name):
    assert said(named_result(catalogue(by_size("arden2011", (7, 12), (32, 35))), f"hole/size/{name}"))


@pytest.mark.parametrize(
    "text", ["hole/overall/mean", "hole/size/mean", "hole/shape/direction", "heap/overall/rate", "hole/overall"]
)
def test_what_is_not_on_the_list_is_not_known(text):
    assert named_result(catalogue(*five()), text) is None


def test_a_pooled_rate_is_given_with_its_time_and_definition():
    line = said(named_result(catalogue(*five()), "hole/overall/rate"))
    assert line.startswith(
        "healed: at 24 months, the typical study: 83.3%healed (stricter definition): 83.3% (95% CI 77.4% "
    )
    assert "to 87.8%), 5 studies, 400 teeth, 67 failures; tau " in line


def test_a_refused_number_prints_why():
    made = catalogue(cohort("arden2011", 40, 50), cohort("bexley2012", 30, 40))
    assert said(named_result(made, "hole/overall/interval")).startswith("not pooled: fewer than five studies")


def test_a_single_study_is_printed_whole():
    line = said(named_result(catalogue(cohort("arden2011", 40, 50)), "hole/overall/rate"))
    assert line == (
        "40 of 50 healed40 of 50 teeth (95% CI 67% to 89%, computed; how many were due is not reported): healed (stricter definition), 24 months after repair, "
        "give or take 6 months; Arden 2011"
    )


def test_teeth_are_added_up_once_a_patient():
    again = cohort("fowey2019", 66, 80, study="arden2011", described=False, flow=(160, 80))
    made = catalogue(*five(), again)
    assert said(named_result(made, "hole/overall/studies")) == "5 studies"


def test_the_computed_figure_has_the_id_of_its_name():
    made = catalogue(*five())
    named_result(made, "hole/overall/teeth")
    figure = made.book.get("hole/overall/teeth")
    assert figure is not None
    assert (figure.text, figure.unit) == ("400", "tooth")


def test_what_was_counted_has_a_name_of_every_trade_too():
    made = catalogue(*five())
    assert (
        said(named_result(made, "hole/overall/units")) == said(named_result(made, "hole/overall/teeth")) == "400 teeth"
    )


def test_nothing_known_is_said_in_place_of_a_number():
    assert said(named_result(catalogue(), "hole/overall/rate")) == "none in people in this guide, searched 2026-09-12"


def test_a_count_of_no_study_is_a_figure_too():
    made = catalogue(by_size("arden2011", (7, 12), (32, 35)))
    assert said(named_result(made, "hole/size/better")) == "0 studies"
