"""Of a study's crude and adjusted estimate the one that decides, the same in the count, in the row and on every page."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from demo import demo_built
from guide.cohorts import at, catalogue
from guide.compendium import nothing_named, report, said
from passageproof.guide.factor.factor_page import factor_page
from passageproof.guide.question.conference_page import conference_page
from passageproof.guide.question.question_page import question_page
from passageproof.results.findings.direction import compared
from passageproof.results.findings.findings import Catalogue
from passageproof.results.saying.event_words import way_words_of
from passageproof.results.values.document import StudyRows, walk

ROOT = Path(__file__).parents[3]
QUESTION = """\
id: hole
title: There is a hole
factors: [way]
options: [{id: full, title: Take it, is: {factor: way, level: full}}]
"""
LEVELS = ("direct cap", "full pulpotomy")


def trial(
    key: str, counts: tuple[int, int] = (30, 38), *, design: str = "randomised trial", planned: str = "yes",
    adjusted: str = "1.05 to 8.0", ratio_planned: str = "", given: str = "",
) -> dict[str, str]:  # fmt: skip
    """One report: each arm of 45 by its counts, and beside them an adjusted ratio. given: counts of a part besides."""
    follow_up, passage = at()
    first = f"""
    - id: arms
      question: hole
      factor: way
      known_at: during
      planned: {planned}
      outcome: healed
      reference: {LEVELS[0]}
      levels:
        - {{level: {LEVELS[0]}, events: {counts[0]}, total: 45}}
        - {{level: {LEVELS[1]}, events: {counts[1]}, total: 45}}
      where: p. 3
      follow_up: {follow_up}
    - id: model
      question: hole
      factor: way
      known_at: during
      outcome: healed
      reference: {LEVELS[0]}
      contrast: {{measure: odds ratio, event: healed, event_is: good, level: {LEVELS[1]}, reference: {LEVELS[0]},
        value: 2.9, interval: {adjusted}, adjusted_for: [age]}}
      where: p. 5
      follow_up: arms
    """
    passages = [
        f"[p. 3] {LEVELS[0]}: {counts[0]} of 45 teeth; {LEVELS[1]}: {counts[1]} of 45 teeth",
        f"[p. 5] odds ratio for healed, {LEVELS[1]} against {LEVELS[0]}, adjusted for age: 2.9 (95% CI {adjusted})",
    ]
    if ratio_planned:
        first = first.replace(
            "known_at: during\n      outcome", f"known_at: during\n      planned: {ratio_planned}\n      outcome"
        )
    if given:
        first += f"""
    - id: a-as-treated
      question: hole
      factor: way
      known_at: during
      planned: {planned}
      outcome: healed
      reference: {LEVELS[0]}
      given: {given}
      levels:
        - {{level: {LEVELS[0]}, events: 21, total: 48}}
        - {{level: {LEVELS[1]}, events: 40, total: 49}}
      where: p. 4
      follow_up: arms
    """
        passages.append(f"[p. 4] {given}: {LEVELS[0]}: 21 of 48 teeth; {LEVELS[1]}: 40 of 49 teeth")
    files = report(key, first, passage, *passages, study=key)
    return {name: text.replace("design: cohort", f"design: {design}") for name, text in files.items()}


def pages(made: Catalogue) -> dict[str, str]:
    question = made.evidence.questions["hole"]
    return {
        "question": said(question_page(made, question, nothing_named)),
        "factor": said(factor_page(made, question, "way", nothing_named)),
        "conference": said(conference_page(made, question, nothing_named)),
    }


def chosen(made: Catalogue) -> str:
    """The claim that decides of the one study."""
    (item,) = compared(made, "hole", "way", "full")
    (side,) = item.sides
    return side.finding.claim.id.text


@pytest.mark.parametrize(
    ("fields", "claim"),
    [
        ({}, "arms"),
        ({"planned": "unclear"}, "arms"),
        ({"ratio_planned": "no"}, "arms"),
        ({"ratio_planned": "yes"}, "model"),
        ({"design": "cohort"}, "model"),
        ({"design": "non-randomised trial"}, "model"),
    ],
    ids=["planned counts", "no word of a plan", "ratio not planned", "ratio planned", "cohort", "not at random"],
)
def test_of_a_trial_the_arms_decide_and_an_adjusted_ratio_only_where_it_was_planned(fields, claim) -> None:
    assert chosen(catalogue(trial("arden2011", **fields), question=QUESTION)) == claim


def test_of_a_trial_everybody_as_allotted_comes_before_a_part_however_large() -> None:
    made = catalogue(trial("arden2011", given="teeth treated as the protocol asked"), question=QUESTION)
    assert chosen(made) == "arms"


def test_where_the_two_differ_in_clearness_both_are_said_and_the_count_agrees_with_the_row() -> None:
    made = catalogue(trial("arden2011"), trial("bexley2012", (20, 38)), question=QUESTION)
    told = pages(made)
    both = "Arden 2011, a randomised trial, the counts decide: too few to tell; its adjusted ratio, not said to be planned, "
    for name in ("question", "factor"):
        assert "more healed in 2 of 2 studies that state a side; 1 of them clear by itself" in told[name], name
        assert both in told[name], name
    assert "in Bexley 2012, a randomised trial, the counts decide and not its adjusted ratio" in told["factor"]
    assert "more, clear; not said to be planned, so its counts count" in told["factor"]
    assert "not said to be planned, so in this randomised trial the counts decide" in told["conference"]


def test_of_one_trial_alone_the_other_estimate_is_said_too() -> None:
    told = pages(catalogue(trial("arden2011"), question=QUESTION))
    for name in ("question", "factor"):
        assert "; too few to tell" in told[name]
        assert "its adjusted ratio, not said to be planned, is clear" in told[name], name


def test_of_a_cohort_the_ratio_counts_and_its_counts_are_said_where_they_are_not_as_clear() -> None:
    made = catalogue(
        trial("arden2011", design="cohort"), trial("bexley2012", (20, 38), design="cohort"), question=QUESTION
    )
    assert (
        "counted by its adjusted ratio and not by its counts: Arden 2011 (its counts alone: too few to tell), Bexley 2012"
        in pages(made)["factor"]
    )


def in_words(key: str, words: str, direction: str) -> dict[str, str]:
    claim = f"""
    - id: told
      question: hole
      factor: way
      known_at: during
      outcome: healed
      reference: {LEVELS[0]}
      levels:
        - {{level: {LEVELS[1]}, direction: {direction}, stated: words only}}
      where: p. 3
      follow_up: not reported
    """
    return report(key, claim, f"[p. 3] {words}", study=key)


def test_a_study_in_words_alone_is_told_apart_from_those_that_count() -> None:
    made = catalogue(
        trial("arden2011", (20, 38)), trial("bexley2012", (20, 38)),
        in_words("corwen2013", "after full pulpotomy more teeth healed than after a direct cap", "better"),
        question=QUESTION,
    )  # fmt: skip
    for name, text in pages(made).items():
        if name != "conference":
            assert "more healed in 2 of 2 studies that state a side; 2 of them clear by themselves" in text, name
            assert "; 1 more says so in words, without a number" in text, name
            assert "3 of 3" not in text


def test_words_that_say_the_opposite_turn_no_count_and_are_said() -> None:
    made = catalogue(
        trial("arden2011", (20, 38)), trial("bexley2012", (20, 38)),
        in_words("corwen2013", "after full pulpotomy fewer teeth healed than after a direct cap", "worse"),
        question=QUESTION,
    )  # fmt: skip
    text = pages(made)["factor"]
    assert "more healed in 2 of 2 studies that state a side" in text
    assert "1 says fewer healed in words, without a number" in text


def test_of_a_study_with_words_and_a_number_the_number_counts() -> None:
    files = trial("arden2011", (20, 38), design="cohort")
    words = in_words("bexley2012", "after full pulpotomy fewer teeth healed than after a direct cap", "worse")
    words = {
        name: re.sub(r"studies:\n.*?claims:", "studies:\n  - id: arden2011\nclaims:", text, flags=re.DOTALL)
        for name, text in words.items()
    }
    made = catalogue(files, words, question=QUESTION)
    (item,) = compared(made, "hole", "way", "full")
    assert [side.direction for side in item.sides] == ["better"]


def test_of_the_demo_no_trial_is_counted_as_clear_beside_its_own_too_few_to_tell() -> None:
    built = demo_built()
    assert built.guide is not None
    for address in ("exposed-pulp/", "exposed-pulp/pulp-treatment/"):
        text = said(built.guide.pages[address])
        assert "2 of them clear by themselves" not in text, address
        assert (
            "in Jörneby 2019, a randomised trial, the counts decide: too few to tell; its adjusted ratio, not said to be "
            "planned, is clear"
        ) in text, address


@pytest.mark.parametrize(
    ("title", "worse", "better"),
    [
        ("healed", "fewer healed", "more healed"),
        ("no pain in the first week", "fewer free of pain in the first week", "more free of pain in the first week"),
        ("a hole was recorded", "a hole was recorded less often", "a hole was recorded more often"),
        ("healing that was lost again", "fewer with healing that was lost again", "more with healing that"),
        ("pain, swelling or sinus", "fewer with pain, swelling or sinus", "more with pain, swelling or sinus"),
    ],
)
def test_the_words_of_a_side_are_read_right_the_first_time(title: str, worse: str, better: str) -> None:
    made = catalogue(trial("arden2011", (20, 38)), question=QUESTION)
    outcome = made.evidence.vocabulary.outcomes["healed"]
    renamed = outcome._replace(title=outcome.title._replace(text=title))
    assert said(way_words_of(renamed, "worse")) == worse
    assert said(way_words_of(renamed, "better")).startswith(better)


def test_of_several_sides_the_number_of_all_comes_first() -> None:
    other = trial("corwen2013", (38, 20), adjusted="0.12 to 0.95")
    turned = {name: text.replace("2.9", "0.34") for name, text in other.items()}
    made = catalogue(trial("arden2011", (20, 38)), trial("bexley2012", (20, 38)), turned, question=QUESTION)
    text = pages(made)["factor"]
    assert "the studies do not agree: of 3 studies that state a side, more healed in 2, fewer healed in 1;" in text


def test_an_adjusted_ratio_that_gives_way_is_drawn_broken_and_on_the_scale() -> None:
    made = catalogue(trial("arden2011"), question=QUESTION)
    page = factor_page(made, made.evidence.questions["hole"], "way", nothing_named)
    lists = [item for item in walk(page.blocks) if isinstance(item, StudyRows) and item.scale and item.scale.is_log]
    (row,) = lists[0].rows
    assert row.is_broken
    scale = lists[0].scale
    assert scale is not None
    assert row.point is not None
    assert scale.low <= row.point <= scale.high
