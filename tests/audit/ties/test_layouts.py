"""Rows, lists and headings in some further layouts, each with a wrong twin.

The ways of print are common practice of reports, no source; all figures are invented.
"""

from __future__ import annotations

import pytest

from .conftest import STUDY, Asked
from .test_levels import FILES, claim, swapped

ALL, SOME = "events: 62\ntotal: 88\n", "events: 22\ntotal: 34\n"
AMONG = (
    "Overall 62 of 88 teeth healed; 22 of the 34 who smoked healed.",
    "Healed: 62 of 88; of these, 22 of 34 in patients with hypertension.",
    "62 of 88 healed, among them 22 of the 34 whose gums bled.",
)


@pytest.mark.parametrize("passage", AMONG)
def test_a_count_among_some_is_of_a_part(open_problems: Asked, passage: str) -> None:
    assert open_problems(passage, ALL) == []
    assert "figure-of-a-part" in {problem.rule for problem in open_problems(passage, SOME)}


def test_those_who_returned_are_all_there_are(open_problems: Asked) -> None:
    assert open_problems("Overall 98 were treated; 62 of the 88 who returned healed.", ALL) == []


def p_value(first: str, second: str, p: str) -> str:
    return (
        f"factor: material\nknown_at: during\nreference: {second}\nlevels:\n"
        f"  - {{level: {first}, direction: not stated, stated: words only}}\n"
        f'test: {{between: [{first}, {second}], p: "{p}"}}'
    )


AGAINST_ONE = (
    "Material | Healed | P against MTA\nMTA | 39/47 |\ncalcium hydroxide | 30/45 | .07\nglass ionomer | 21/44 | .002"
)
MIRRORED = (
    "              MTA    calcium hydroxide   glass ionomer\nMTA                  -      .41          .003\n"
    "calcium hydroxide    .41    -            .02\nglass ionomer        .003   .02          -"
)


@pytest.mark.parametrize(
    ("table", "first", "second", "own", "other"),
    [
        (AGAINST_ONE, "calcium hydroxide", "MTA", ".07", ".002"),
        (AGAINST_ONE, "glass ionomer", "MTA", ".002", ".07"),
        (MIRRORED, "MTA", "calcium hydroxide", ".41", ".02"),
        (MIRRORED, "glass ionomer", "MTA", ".003", ".41"),
    ],
)
def test_a_p_value_is_of_its_row_and_the_level_over_its_column(
    open_problems: Asked, table: str, first: str, second: str, own: str, other: str
) -> None:
    assert open_problems(table, p_value(first, second, own), files=FILES) == []
    if table is AGAINST_ONE:
        rules = {problem.rule for problem in open_problems(table, p_value(first, second, other), files=FILES)}
        assert rules == {"other-test"}
    else:
        assert open_problems(table, p_value(first, second, ".99"), files=FILES)


TWO = [("MTA", "39", "47"), ("calcium hydroxide", "30", "45")]
SECTIONS = (
    "MTA | healed n/N | %\nfront | 39/47 | 83\nback | 12/20 | 60\n"
    "calcium hydroxide | healed n/N | %\nfront | 30/45 | 67"
)


def test_headings_that_come_again_head_their_own_rows(open_problems: Asked) -> None:
    assert open_problems(SECTIONS, claim("material", *TWO), files=FILES) == []
    problems = open_problems(SECTIONS, claim("material", *swapped(TWO)), files=FILES)
    assert "other-level" in {problem.rule for problem in problems}


ANIMALS = "Rat molars, 14 days after capping\nMaterial | healed\nMTA | 39/47\ncalcium hydroxide | 30/45"


def test_animals_over_a_table_are_whom_it_is_of(open_problems: Asked) -> None:
    people = open_problems(ANIMALS, claim("material", *TWO), files=FILES)
    assert "passage-of-another-species" in {problem.rule for problem in people}
    animals = STUDY.replace("species: human", "species: animal")
    assert open_problems(ANIMALS, claim("material", *TWO), animals, FILES) == []


TIMES = (
    "Life table\nYear 1: at risk 402; cumulative survival 98.5%\nYear 5: at risk 218; cumulative survival 91.3%\n"
    "Year 10: at risk 64; cumulative survival 80.9%"
)
KEPT = FILES["vocabulary.yaml"] + (
    "  kept: {title: kept, construct: survival, strictness: not applicable, basis: seen, threshold: in, good: yes}\n"
)


def test_a_line_that_begins_with_a_time_is_of_that_time(open_problems: Asked) -> None:
    estimate = (
        "outcome: kept\nfollow_up: not applicable\nestimate: {{kind: survival, at: {}, value: 91.3%, at_risk: 218}}"
    )
    files = {"vocabulary.yaml": KEPT}
    assert open_problems(TIMES, estimate.format("5 years"), files=files) == []
    rules = {problem.rule for problem in open_problems(TIMES, estimate.format("10 years"), files=files)}
    assert rules == {"other-time"}


def test_a_title_with_a_number_may_stand_over_rows_with_names(open_problems: Asked) -> None:
    passage = "Healing within 48 weeks\nMTA (n = 47): healed 39, not healed 8\n"
    passage += "calcium hydroxide (n = 45): healed 30, not healed 15"
    assert open_problems(passage, claim("material", *TWO), files=FILES) == []
    problems = open_problems(passage, claim("material", *swapped(TWO)), files=FILES)
    assert "other-level" in {problem.rule for problem in problems}


def test_two_shares_behind_one_name_are_of_this_and_of_the_other(open_problems: Asked) -> None:
    passage = (
        "At 12 weeks 43 of 46 treated with MTA had healed, against 37 of 45 treated with calcium hydroxide; at 52 "
        "weeks the early advantage of MTA (93% vs 82%) had gone."
    )

    def typed(*shares: str) -> str:
        rows = "".join(
            f"\n  - {{level: {level}, {counts}, rate: {share}}}"
            for level, counts, share in zip(
                ("MTA", "calcium hydroxide"), ("events: 43, total: 46", "events: 37, total: 45"), shares, strict=True
            )
        )
        return f"factor: material\nknown_at: during\nreference: calcium hydroxide\nlevels:{rows}\n"

    assert open_problems(passage, typed("93%", "82%"), files=FILES) == []
    rules = {problem.rule for problem in open_problems(passage, typed("82%", "93%"), files=FILES)}
    assert "other-level" in rules


def test_grades_without_words_for_events_are_of_what_was_graded(open_problems: Asked) -> None:
    vocabulary = FILES["vocabulary.yaml"] + (
        "  severe: {title: severe pain, construct: pain, strictness: not applicable, basis: asked, threshold: severe, "
        "good: no}\n"
    )
    passage = "Pain with MTA (n = 56): none 21, mild 19, moderate 11, severe 5."
    grades = (
        "outcome: severe\nwithin: [{{factor: material, level: MTA}}]\ntotal: 56\ngrades: [{{words: none, events: {}}}, "
        "{{words: mild, events: 19}}, {{words: moderate, events: 11}}, {{outcome: severe, events: 5}}]"
    )
    files = {"vocabulary.yaml": vocabulary}
    assert open_problems(passage, grades.format(21), files=files) == []
    assert open_problems(passage, grades.format(22), files=files)


def test_the_others_did_what_the_first_did_not(open_problems: Asked) -> None:
    passage = "Four of 48 MTA teeth and eight of 49 calcium hydroxide teeth did not heal; the remaining 44 and 41 did."
    levels = [("MTA", "44", "48"), ("calcium hydroxide", "41", "49")]
    assert open_problems(passage, claim("material", *levels), files=FILES) == []
    failed = [("MTA", "4", "48"), ("calcium hydroxide", "8", "49")]
    rules = {problem.rule for problem in open_problems(passage, claim("material", *failed), files=FILES)}
    assert "event-denied" in rules


def test_females_are_women(open_problems: Asked) -> None:
    levels = [("women", "83", "101"), ("men", "70", "87")]
    for passage in (
        "Healing: females 83 of 101, males 70 of 87.",
        "83 of 101 female and 70 of 87 male cases healed.",
    ):
        assert open_problems(passage, claim("sex", *levels), files=FILES) == []
        problems = open_problems(passage, claim("sex", *swapped(levels)), files=FILES)
        assert "other-level" in {problem.rule for problem in problems}


def test_when_something_is_absent_the_other_level_is_meant(open_problems: Asked) -> None:
    passage = "Healing was rarer when a lesion was present (76.3%, 61/80) than when absent (92.3%, 72/78)."
    levels = [("lesion", "61", "80"), ("no lesion", "72", "78")]
    assert open_problems(passage, claim("lesion", *levels), files=FILES) == []
    problems = open_problems(passage, claim("lesion", *swapped(levels)), files=FILES)
    assert "other-level" in {problem.rule for problem in problems}
