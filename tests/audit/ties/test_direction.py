"""A ratio typed the other way round, or of the opposite event. Wordings of comparison: common practice, no source."""

from __future__ import annotations

from typing import Any

import pytest

from .conftest import Asked
from .words_for_ratios import FILES, HYDROXIDE, SILICATE, ratio

FAILED = {"outcome": "failed", "event_is": "bad"}
FEWER_FAILED = {**FAILED, "value": "0.4"}
LESS_PAIN = {"measure": "mean difference", "value": "-0.5", "outcome": "pain"}
SMALL_RISK = {**FAILED, "measure": "risk ratio", "value": "0.41"}
POINTS = {"measure": "risk difference", "value": "22%"}
TURNED = (HYDROXIDE, SILICATE)
COMPARED: tuple[tuple[str, dict[str, Any]], ...] = (
    ("Odds ratio of healing (silicate cement/calcium hydroxide) 2.4", {}),
    ("Odds ratio (healing) silicate cement : calcium hydroxide = 2.4", {}),
    ("Odds ratio of healing, calcium hydroxide as comparator: silicate cement 2.4", {}),
    ("With silicate cement the odds of healing were 2.4 times those with calcium hydroxide.", {}),
    ("The odds of healing were 2.4 times as high with silicate cement as with calcium hydroxide.", {}),
    ("Silicate cement against calcium hydroxide: OR 2.4 for healing.", {}),
    ("Healing, silicate cement versus calcium hydroxide, OR 2.4.", {}),
    ("Healing (silicate cement vs. calcium hydroxide): OR 2.4.", {}),
    ("Silicate cement healed more often compared with calcium hydroxide (OR 2.4).", {}),
    ("Compared with calcium hydroxide, silicate cement was associated with more healing (OR 2.4).", {}),
    ("Relative to calcium hydroxide, the odds of healing were 2.4 times higher with silicate cement.", {}),
    ("Healing was more frequent with silicate cement than with calcium hydroxide (OR 2.4).", {}),
    ("The odds of healing were higher in silicate cement than in calcium hydroxide teeth (OR 2.4).", {}),
    ("The odds ratio of healing was 2.4 for silicate cement (reference: calcium hydroxide).", {}),
    ("With calcium hydroxide as the reference, the OR of healing was 2.4 for silicate cement.", {}),
    ("The OR of healing, with calcium hydroxide taken as 1, was 2.4 for silicate cement.", {}),
    ("Calcium hydroxide served as the reference category; silicate cement: OR for healing 2.4.", {}),
    ("Material | OR of healing\n calcium hydroxide | 1.00 (reference)\n silicate cement | 2.4", {}),
    ("Material | OR of healing | P\n calcium hydroxide | 1 |\n silicate cement | 2.4 | .02", {}),
    ("Healing\n Calcium hydroxide: reference\n Silicate cement: OR 2.4, P = .02", {}),
    ("Healing | OR (silicate cement vs calcium hydroxide) | P\n at 1 year | 2.4 | .02", {}),
    ("Healing by material: calcium hydroxide 1.0, silicate cement OR 2.4.", {}),
    ("OR 2.4 in favour of silicate cement over calcium hydroxide for healing.", {}),
    ("The comparison of silicate cement and calcium hydroxide gave OR 2.4, favouring silicate cement.", {}),
    ("Failure: OR 0.4 favouring the bioceramic (bioceramic or calcium hydroxide).", FEWER_FAILED),
    ("The odds ratio of silicate cement to calcium hydroxide for healing was 2.4.", {}),
    ("Silicate cement was superior to calcium hydroxide, OR 2.4 for healing.", {}),
    ("Failure was less frequent after silicate cement than after calcium hydroxide (OR 0.4).", FEWER_FAILED),
    ("Lower odds of failure in silicate cement than in calcium hydroxide (OR 0.4).", FEWER_FAILED),
    ("Silicate cement was protective against failure compared with calcium hydroxide (OR 0.4).", FEWER_FAILED),
    ("The risk of failure with silicate cement was half that of calcium hydroxide (OR 0.4).", FEWER_FAILED),
    ("Pain score, silicate cement minus calcium hydroxide: mean difference -0.5.", LESS_PAIN),
    ("The pain score was lower after silicate cement than after calcium hydroxide (mean difference -0.5).", LESS_PAIN),
    ("Results for silicate cement: OR 2.4 (healing).", {}),
    ("Glass ionomer against calcium hydroxide OR 3.1; silicate cement against calcium hydroxide OR 2.4.", {}),
    ("OR of healing 2.4 for silicate cement and 3.1 for glass ionomer, each against calcium hydroxide.", {}),
    ("Teeth repaired with silicate cement rather than calcium hydroxide healed more often: OR 2.4.", {}),
    ("The odds of healing were 2.4 times greater for silicate cement than for calcium hydroxide (no adjustment).", {}),
    ("Healing was likelier with silicate cement than with calcium hydroxide (OR 2.4; not adjusted).", {}),
    ("Silicate cement failed at a third of the rate of calcium hydroxide (OR 0.4).", FEWER_FAILED),
    ("Silicate cement had one-third the hazard of calcium hydroxide (OR 0.4 of failure).", FEWER_FAILED),
    ("Silicate cement failed a third as often as calcium hydroxide (OR 0.4).", FEWER_FAILED),
    ("Silicate cement ran 40% of the risk of failure of calcium hydroxide (OR 0.4).", FEWER_FAILED),
    ("Calcium hydroxide had more failures: OR 0.4 for silicate cement.", FEWER_FAILED),
    ("Calcium hydroxide had more failures; the OR for silicate cement was 0.4.", FEWER_FAILED),
    ("Outcome: failure. Silicate cement vs calcium hydroxide. OR 0.4.", FEWER_FAILED),
    ("Healing, silicate cement v calcium hydroxide: OR 2.4.", {}),
    ("Healing, silicate cement v. calcium hydroxide: OR 2.4.", {}),
    ("Silicate cement v. calcium hydroxide | healing | 7 trials | OR 2.4 (1.3 to 4.3) | I2 18%", {}),
    ("Dependent variable: healing\n Silicate cement v. calcium hydroxide: OR 2.4 (1.3 to 4.3)", {}),
    (
        "The odds of healing were higher with silicate cement than with calcium hydroxide (OR 2.4), and the result did "
        "not change when two studies were left out (OR 2.1).", {},
    ),
    ("The odds of success with silicate cement were more than double those with calcium hydroxide (OR 2.4).", {}),
    ("By contrast with calcium hydroxide, silicate cement healed well: OR 2.4.", {}),
    ("In the reviews silicate cement outperformed calcium hydroxide (OR 2.4 for success).", {}),
    ("Setting calcium hydroxide to 1.00, the OR of silicate cement for healing was 2.4.", {}),
    ("Silicate cement group: OR of healing 2.4 (calcium hydroxide group = 1).", {}),
    ("OR (silicate cement/calcium hydroxide) 2.4 for healing.", {}),
    ("Choice of silicate cement over calcium hydroxide raised the odds of healing (OR 2.4).", {}),
    ("OR (95% CI): silicate cement, 2.4 (1.3 to 4.3); calcium hydroxide, reference.", {}),
    ("Variable | Level | OR for healing\n Material | calcium hydroxide | reference\n | silicate cement | 2.4", {}),
    ("Healing: silicate cement 84/92, calcium hydroxide 61/88; RR 1.32.", {"measure": "risk ratio", "value": "1.32"}),
    ("Failure in 7% of silicate cement and 17% of calcium hydroxide teeth (RR 0.41).", SMALL_RISK),
    ("Pain: silicate cement 1.2, calcium hydroxide 1.7; mean difference -0.5.", LESS_PAIN),
    ("Healed: silicate cement 91%, calcium hydroxide 69%, risk difference 22%.", POINTS),
    ("Fewer failures occurred with silicate cement than with calcium hydroxide (OR of healing 2.4).", {}),
)  # fmt: skip


@pytest.mark.parametrize(("passage", "typed"), COMPARED)
def test_a_ratio_typed_as_the_passage_compares_is_silent(
    open_problems: Asked, passage: str, typed: dict[str, Any]
) -> None:
    assert open_problems(passage, ratio(**typed), files=FILES) == []


@pytest.mark.parametrize(("passage", "typed"), COMPARED)
def test_a_ratio_typed_the_other_way_round_is_asked_about(
    open_problems: Asked, passage: str, typed: dict[str, Any]
) -> None:
    problems = open_problems(passage, ratio(*TURNED, **typed), files=FILES)
    assert [problem.rule for problem in problems] == ["ratio-direction"]
    (problem,) = problems
    assert (problem.severity, problem.place) == ("ask", "x/c")
    assert "the claim" in problem.message


def test_the_question_has_both_readings_and_what_to_paste(open_problems: Asked) -> None:
    passage = "Silicate cement against calcium hydroxide: OR 2.4 for healing."
    (problem,) = open_problems(passage, ratio(*TURNED), files=FILES)
    assert problem.message.startswith(
        '"2.4": the passage typed from p. 2 (evidence/sources/x.bib:4) gives it for "silicate cement" against '
        '"calcium hydroxide" ("Silicate cement against calcium hydroxide"), the claim for "calcium hydroxide" against '
        '"silicate cement"'
    )
    assert problem.hint.startswith("level: silicate cement, reference: calcium hydroxide\n")


OF_ONE_EVENT = (
    ("Failure was more frequent with silicate cement than with calcium hydroxide (OR 2.4).", FAILED),
    ("Failure was more frequent in silicate cement teeth (OR 2.4).", FAILED),
    ("Healing was less likely after silicate cement than after calcium hydroxide (OR 0.21).", {"value": "0.21"}),
    ("Silicate cement did worse than calcium hydroxide (OR 0.21).", {"value": "0.21"}),
    (
        "Silicate cement 58 of 82 healed, calcium hydroxide 90 of 98; OR silicate cement vs calcium hydroxide 0.21.",
        {"value": "0.21", "adjusted_for": "none"},
    ),
    (
        "Healed: silicate cement 71%, calcium hydroxide 92%; OR 0.21, silicate cement against calcium hydroxide.",
        {"value": "0.21", "adjusted_for": "none"},
    ),
)


@pytest.mark.parametrize(("passage", "typed"), OF_ONE_EVENT)
def test_a_ratio_of_the_opposite_event_is_asked_about(
    open_problems: Asked, passage: str, typed: dict[str, Any]
) -> None:
    assert open_problems(passage, ratio(**typed), files=FILES) == []
    other = "good" if typed.get("event_is") == "bad" else "bad"
    (problem,) = open_problems(passage, ratio(**{**typed, "event_is": other}), files=FILES)
    assert problem.rule in ("ratio-direction", "event-opposite")


def test_an_event_named_like_its_outcome_is_good_or_bad_as_that_is(open_problems: Asked) -> None:
    passage = "silicate cement against calcium hydroxide: OR 2.4"
    assert open_problems(passage, ratio(), files=FILES) == []
    (problem,) = open_problems(passage, ratio(event_is="bad"), files=FILES)
    assert problem.rule == "event-opposite"
    assert 'the claim calls "healed", which is good for whom it befalls' in problem.message
    (problem,) = open_problems(passage, ratio().replace("event: healed", "event: not healed"), files=FILES)
    assert problem.rule == "event-opposite"


def test_counts_of_another_claim_of_the_report_decide_too(open_problems: Asked) -> None:
    """58 of 82 against 90 of 98 healed: an odds ratio of 0.21 is one of healing."""
    levels = f"""\
- id: counts
  question: hole
  factor: material
  known_at: during
  outcome: healed
  reference: {HYDROXIDE}
  levels: [{{level: {SILICATE}, events: 58, total: 82}}, {{level: {HYDROXIDE}, events: 90, total: 98}}]
  where: p. 1
  follow_up: not reported
- id: c
  question: hole
  where: p. 2
  follow_up: not reported
"""
    passages = (
        "[p. 1] silicate cement: 58 of 82 teeth healed; calcium hydroxide: 90 of 98 teeth healed\n"
        "[p. 2] silicate cement against calcium hydroxide: OR 0.21"
    )
    right = "\n  ".join(ratio(value="0.21", adjusted_for="none").splitlines())
    assert open_problems(passages, f"{levels}  {right}\n", files=FILES) == []
    claim = ratio(value="0.21", adjusted_for="none", event_is="bad").replace("event: healed", "event: the usual one")
    wrong = "\n  ".join(claim.splitlines())
    (problem,) = open_problems(passages, f"{levels}  {wrong}\n", files=FILES)
    assert problem.rule == "ratio-direction"
    assert "58 of 82" in problem.message
    assert "90 of 98" in problem.message


SILENT_PASSAGES = (
    "Healing differed between silicate cement and calcium hydroxide (OR 2.4).",
    "The odds ratio of healing was 2.4.",
    "Silicate cement and calcium hydroxide: OR 2.4 for healing.",
    "Material: OR for healing 2.4 (P = .02).",
)


@pytest.mark.parametrize("passage", SILENT_PASSAGES)
def test_a_ratio_without_any_direction_is_asked_about_once(open_problems: Asked, passage: str) -> None:
    (problem,) = open_problems(passage, ratio(), files=FILES)
    assert problem.rule == "ratio-direction-unsaid"
    assert "in_words:" in problem.hint


def test_a_reader_answers_a_silent_direction(open_problems: Asked) -> None:
    passage = "Healing differed between silicate cement and calcium hydroxide (OR 2.4)."
    pinned = ratio(more=', in_words: "Healing differed between silicate cement and calcium hydroxide (OR 2.4)"')
    assert open_problems(passage, pinned, files=FILES) == []


def test_a_reader_answers_no_contradiction(open_problems: Asked) -> None:
    words = "silicate cement against calcium hydroxide OR 2.4"
    (problem,) = open_problems(words, ratio(*TURNED, more=f', in_words: "{words}"'), files=FILES)
    assert problem.rule == "ratio-direction"


NOT_ASKED = (
    ("Failure: silicate cement 8/92, calcium hydroxide 27/88; healing OR 4.65 for silicate cement.", {"value": "4.65"}),
    ("No clear advantage of silicate cement over calcium hydroxide (OR 1.2 for healing).", {"value": "1.2"}),
    ("In favour of calcium hydroxide: OR of healing for silicate cement 0.42.", {"value": "0.42"}),
    ("Compared with controls, the OR for healing was 2.4.", {}),
    ("Silicate cement OR 2.4.", {}),
    ("39 of 47 healed with silicate cement and 20 of 45 with calcium hydroxide; OR 6.1", {"value": "6.1"}),
    ("Success was 83% after silicate cement and 44% after calcium hydroxide (OR 6.1).", {"value": "6.1"}),
    ("There was no difference: OR silicate cement vs calcium hydroxide 1.1.", {"value": "1.1"}),
    ("Healing was not more frequent with silicate cement than with calcium hydroxide (OR 0.9).", {"value": "0.9"}),
    ("Failure was 4 times as frequent with calcium hydroxide; healing, bioceramic vs calcium hydroxide: OR 2.4.", {}),
)  # fmt: skip


@pytest.mark.parametrize(("passage", "typed"), NOT_ASKED)
def test_an_honest_ratio_is_not_asked_about(open_problems: Asked, passage: str, typed: dict[str, Any]) -> None:
    assert open_problems(passage, ratio(**typed), files=FILES) == []


def test_a_ratio_for_one_unit_more_has_no_levels_to_compare(open_problems: Asked) -> None:
    claim = (
        "factor: size\nknown_at: before\noutcome: failed\nreference: not reported\ncontrast: {measure: odds ratio, "
        "event: failed, event_is: bad, per: mm, value: 1.4, adjusted_for: not reported}"
    )
    assert open_problems("failed, for each mm: OR 1.4", claim, files=FILES) == []
