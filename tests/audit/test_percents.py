"""Percentages and counts against each other."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from passageproof.audit.percents import fits
from passageproof.synthesis.rounding import printed_number

REFERENCE = Path(__file__).parent.parent / "synthesis" / "reference" / "grim.json"


def claim(figures: str, levels: str = "") -> str:
    text = (
        f"- id: overall\n  question: hole\n  outcome: healed\n  {figures}\n  where: p. 2\n  follow_up: not reported\n"
    )
    if levels:
        text += f"  factor: roots\n  known_at: before\n  reference: one\n  levels:\n{levels}"
    return text


# Counts and percentages as printed: Mente et al. 2010, J Endod 36:208-213 (18/21); Krupp et al. 2013, J Endod
# 39:1364-1368 (66/90); Gorni et al. 2016 and 2022, J Endod (60/110 men, 66/124 men), all from the abstracts.
@pytest.mark.parametrize(
    ("figures", "found"),
    [
        ("{events: 18, total: 21, rate: 86%}", []),
        ("{events: 66, total: 90, rate: 73.3%}", []),
        ("{events: 60, total: 110, rate: 54.5%}", []),
        ("{events: 66, total: 124, rate: 53.2%}", []),
        ("{events: not reported, total: 21, rate: 88%}", ["percent-impossible: 88% of 21"]),
        ("{events: not reported, total: 90, rate: 74.0%}", ["percent-impossible: 74.0% of 90"]),
        ("{events: 36, total: 42, rate: 85.57%}", ["percent-impossible: 85.57% of 42"]),
        ("{events: 17, total: 21, rate: 86%}", ["percent-impossible: 86% of 21"]),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_percentage_is_compared_with_its_counts(asked, figures, found):
    assert asked(claim(figures.strip("{}").replace(", ", "\n  "))) == found


def test_both_rules_of_rounding_agree_at_a_tie(asked):
    # 1 of 8 is 12.5 %: 13 half-up, 12 half-even; 3 of 8 is 37.5 %: 38 by both, 37 only cut off.
    assert asked(claim("events: 1\n  total: 8\n  rate: 13%")) == []
    assert asked(claim("events: 1\n  total: 8\n  rate: 12%")) == []
    assert asked(claim("events: 3\n  total: 8\n  rate: 38%")) == []
    assert asked(claim("events: 3\n  total: 8\n  rate: 37%")) == ["percent-rounding: 37% of 8"]


def test_digits_that_were_cut_off_are_named_as_such(reckoned):
    # Panda 2022, J Clin Med 11:3909, Table 4: 13 of 15 printed as 86.66 %.
    (problem,) = reckoned(claim("events: 13\n  total: 15\n  rate: 86.66%"))
    assert problem.rule == "percent-rounding"
    assert "cut off instead of rounded" in problem.message


def test_a_figure_made_to_fit_a_sum_is_named_as_such(reckoned):
    # 19 of 27 is 70.4 %, printed 70; 71 takes one so that 29 + 71 make 100. No published source: constructed.
    grades = "{words: complete, events: 8, rate: 29%}, {words: not, events: 19, rate: 71%}"
    problems = reckoned(claim(f"total: 27\n  grades: [{grades}]"))
    assert {each.rule for each in problems} == {"percent-rounding"}
    assert "fit a sum of 100" in problems[-1].message


def test_a_figure_off_by_one_outside_of_a_column_is_no_rounding(asked):
    assert asked(claim("events: 39\n  total: 47\n  rate: 84%")) == ["percent-impossible: 84% of 47"]


def test_question_quotes_the_print_first_and_accuses_nobody(reckoned):
    (problem,) = reckoned(claim("events: not reported\n  total: 26\n  rate: 29%"))
    assert problem.message.startswith('"29% of 26"')
    assert problem.message.endswith("these printed figures do not agree, ask")
    assert problem.severity == "ask"


def test_question_names_the_denominator_that_would_fit(reckoned):
    study = "- {id: a, species: bench, flow: {treated: 26, examined: 21}, where: p. 1}"
    (problem,) = reckoned(claim("events: not reported\n  total: 26\n  rate: 29%\n  given: all"), study)
    assert "it fits 21, the number examined" in problem.message


def test_no_percentage_is_impossible_out_of_a_large_total(asked):
    assert asked(claim("events: not reported\n  total: 100\n  rate: 29%")) == []
    assert asked(claim("events: not reported\n  total: 99\n  rate: 29%")) == []
    assert asked(claim("events: not reported\n  total: 1000\n  rate: 29.3%")) == []


def test_any_candidate_for_the_total_may_fit(asked):
    total = "total: {candidates: [41, 44], reason: Methods and Discussion differ}"
    assert asked(claim(f"events: 31\n  {total}\n  rate: 70%")) == []
    assert asked(claim(f"events: 31\n  {total}\n  rate: 72%")) == ["percent-impossible: 72% of 41 or 44"]


def test_more_events_than_units_is_asked(asked):
    assert asked(claim("events: 48\n  total: 47")) == ["events-over-total: 48 of 47"]


def test_a_rate_of_nobody_is_asked_and_does_not_stop_the_check(asked):
    assert asked(claim("events: 0\n  total: 0\n  rate: 50%")) == ["percent-impossible: 50% of 0"]


LEVELS = "    - {{level: one, events: {0}, total: {1}}}\n    - {{level: more than one, events: {2}, total: {3}}}\n"


# Mente et al. 2010 by number of roots, counts recalled from memory: 12/13 and 6/8 of 18/21.
@pytest.mark.parametrize(
    ("counts", "found"),
    [
        ((12, 13, 6, 8), []),
        ((12, 13, 6, 9), ["levels-do-not-add-up: 13 + 9 of 21"]),
        ((11, 13, 6, 8), ["levels-do-not-add-up: 11 + 6 of 18"]),
    ],
)
def test_levels_of_a_table_add_up_to_the_whole(asked, counts, found):
    assert asked(claim("events: 18\n  total: 21", LEVELS.format(*counts))) == found


def test_levels_are_held_against_another_claim_about_the_same_teeth(asked):
    whole = claim("events: 18\n  total: 21").replace(
        "not reported\n", "{from: repair, timing: last recall, median: 33 months}\n"
    )
    levels = claim("", LEVELS.format(12, 13, 6, 9)).replace("overall", "by-roots").replace("not reported", "overall")
    assert asked(whole + levels) == ["levels-do-not-add-up: 13 + 9 of 21"]


GRADES = (
    "total: 27\n  grades:\n    - {{words: complete, events: {0}, rate: {1}}}\n    - {{words: not complete, "
    "events: {2}, rate: {3}}}"
)


@pytest.mark.parametrize(
    ("grades", "found"),
    [
        (("8", "30%", "19", "70%"), []),
        (("8", "30%", "18", "67%"), ["shares-do-not-add-up: 8 + 18 of 27"]),
        (("not reported", "30%", "not reported", "67%"), ["shares-do-not-add-up: 30% + 67%"]),
        (("not reported", "30%", "not reported", "70%"), []),
    ],
)
def test_grades_of_one_outcome_add_up(asked, grades, found):
    assert asked(claim(GRADES.format(*grades))) == found


def test_shares_may_miss_100_by_rounding_alone(asked):
    study = (
        "- {id: a, species: bench, where: p. 1, shares: [{of: not reported, what: arch, parts: "
        "[{level: left, share: 33%}, {level: right, share: 33%}, {level: both, share: 33%}]}]}"
    )
    assert asked(claim("events: 1\n  total: 2"), study) == []
    assert asked(claim("events: 1\n  total: 2"), study.replace("both, share: 33%", "both, share: 31%")) == [
        "shares-do-not-add-up: 33% + 33% + 31%"
    ]


STUDY = "- {id: a, species: bench, flow: {treated: 58, examined: 47}, where: p. 1}"


def test_a_rate_after_a_recall_is_out_of_those_examined(asked):
    seen = claim("events: 40\n  total: 50").replace("not reported\n", "{from: repair, timing: last recall}\n")
    assert asked(seen, STUDY) == ["events-over-total: 50 of 47"]


def test_more_pairs_than_units_are_asked(asked):
    pairs = "pairs: {a: film, b: volume, both: 40, only_a: 8, only_b: 9, neither: 3}"
    assert asked(claim(pairs), STUDY) == ["events-over-total: 40 + 8 + 9 + 3 of 58"]
    assert asked(claim(pairs.replace("40", "28")), STUDY) == []


def test_what_happens_at_treatment_is_known_of_all_treated(asked):
    assert asked(claim("events: 40\n  total: 58").replace("not reported\n", "not applicable\n"), STUDY) == []
    assert asked(claim("events: 40\n  total: 59").replace("not reported\n", "not applicable\n"), STUDY) == [
        "events-over-total: 59 of 58"
    ]


def test_percentages_that_whole_counts_give_are_those_of_the_reference():
    # Reference table computed in R: see tests/synthesis/reference.
    cases = json.loads(REFERENCE.read_text("utf-8"))["cases"]
    assert len(cases) >= 100
    for case in cases:
        value, decimals = printed_number(str(case["percent"]))
        expected = case["half_up"]["achievable"] or case["half_even"]["achievable"]
        assert fits(value, decimals, None, case["n"]) == expected, case
