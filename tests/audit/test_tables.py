"""Ratios beside their table, and on which side a level stands."""

from __future__ import annotations

import pytest


def table(contrast: str = "", levels: str = "", outcome: str = "healed", direction: str = "") -> str:
    levels = levels or "{level: one, events: 44, total: 58}, {level: more than one, events: 54, total: 64}"
    if direction:
        levels = levels.removesuffix("}") + f", direction: {direction}}}"
    text = (
        f"- id: a\n  question: hole\n  outcome: {outcome}\n  factor: roots\n  known_at: before\n  reference: one\n"
        f"  levels: [{levels}]\n  where: p. 2\n  follow_up: not reported\n"
    )
    if contrast:
        text += f"  contrast: {{level: more than one, reference: one, {contrast}}}\n"
    return text


# Chong et al. 2003, Int Endod J 36:520-526, at 12 months: 54 of 64 and 44 of 58 successes (counts derived uniquely from
# the printed percentages). Odds ratio of success 1.72, risk ratio of failure 0.65, difference 0.085: R metafor 3.8-1.
@pytest.mark.parametrize(
    "contrast",
    [
        "measure: odds ratio, value: 1.72, event_is: good",
        "measure: odds ratio, value: 0.58, event_is: bad",
        "measure: risk ratio, value: 1.11, event_is: good",
        "measure: risk ratio, value: 0.65, event_is: bad",
        "measure: risk difference, value: 0.085, event_is: good",
        "measure: prevented fraction, value: 35%, event_is: bad",
    ],
)
def test_unadjusted_ratio_that_the_table_gives_is_honest(asked, contrast):
    assert asked(table(f"{contrast}, adjusted_for: none")) == []


def test_ratio_of_the_other_ending_is_asked_about_in_words(reckoned):
    (problem,) = reckoned(table("measure: odds ratio, value: 1.72, event_is: bad, adjusted_for: none"))
    assert problem.rule == "event-direction"
    assert "which ending does the paper count" in problem.message
    assert problem.printed == "1.72 beside more than one 54 of 64, one 44 of 58"


def test_ratio_with_the_levels_exchanged_is_asked_about(reckoned):
    (problem,) = reckoned(table("measure: risk ratio, value: 0.90, event_is: good, adjusted_for: none"))
    assert problem.rule == "event-direction"


def test_ratio_that_the_table_does_not_give_is_asked(asked):
    (found,) = asked(table("measure: odds ratio, value: 1.92, event_is: good, adjusted_for: none"))
    assert found.startswith("ratio-against-table: 1.92")


def test_adjusted_ratio_need_not_follow_from_the_table(asked):
    assert asked(table("measure: odds ratio, value: 3.1, event_is: good, adjusted_for: [age]")) == []


def test_adjusted_ratio_clearly_on_the_other_side_is_asked(asked):
    levels = "{level: one, events: 10, total: 60}, {level: more than one, events: 50, total: 60}"
    right = "measure: hazard ratio, value: 8.2, interval: 4.0 to 16.8, event_is: good, adjusted_for: [age]"
    assert asked(table(right, levels)) == []
    (found,) = asked(table(right.replace("good", "bad"), levels))
    assert found.startswith("event-direction: 8.2")


def test_empty_cell_allows_the_usual_half(asked):
    # 10 of 10 against 8 of 10: odds ratio after adding 0.5 is (10.5 / 0.5) / (8.5 / 2.5) = 6.18.
    levels = "{level: one, events: 8, total: 10}, {level: more than one, events: 10, total: 10}"
    assert asked(table("measure: odds ratio, value: 6.18, event_is: good, adjusted_for: none", levels)) == []


@pytest.mark.parametrize(
    ("direction", "found"),
    [
        ("better", []),
        ("worse", ["direction-disagrees: 54 of 64 against 44 of 58"]),
        ("no clear difference", ["direction-disagrees: 54 of 64 against 44 of 58"]),
        ("not stated", []),
    ],
)
def test_typed_direction_is_the_side_of_the_estimate(asked, direction, found):
    assert asked(table(direction=direction)) == found


def test_more_of_a_bad_outcome_is_worse(asked):
    assert asked(table(outcome="diseased", direction="worse")) == []
    assert len(asked(table(outcome="diseased", direction="better"))) == 1


def test_rates_that_print_alike_at_whole_per_cent_show_no_clear_difference(asked):
    levels = "{level: one, events: 401, total: 500}, {level: more than one, events: 400, total: 500}"
    assert asked(table(levels=levels, direction="no clear difference")) == []
    (found,) = asked(table(levels=levels, direction="worse"))
    assert found.startswith("direction-disagrees")


def test_direction_beside_a_ratio_alone_is_the_side_of_the_ratio(asked):
    levels = "{level: more than one, direction: worse, stated: words only}"
    ratio = "measure: hazard ratio, value: 4.1, event_is: bad, adjusted_for: not reported"
    assert asked(table(ratio, levels)) == []
    assert asked(table(ratio, levels.replace("worse", "better"))) == ["direction-disagrees: hazard ratio 4.1"]
