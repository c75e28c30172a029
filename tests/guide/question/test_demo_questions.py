"""The demonstration's own questions: their lists do not speak against each other, and ask what their advice needs."""

from __future__ import annotations

import re

import pytest
from demo import demo_evidence
from passageproof.audit.question_references import advice_of
from passageproof.reading.model import Question

EVIDENCE = demo_evidence()
QUESTIONS = EVIDENCE.questions


def now(question: Question) -> list[str]:
    return [step.words.text for step in question.steps if step.when is not None and step.when.text == "now"]


# Common practice, no source: what frees a hand or asks the patient stands before what takes both hands.
IN_ORDER = {
    "broken-instrument": ["shaft in a dish", "film", "beside a new instrument"],
    "exposed-pulp": ["supervisor", "blood thinners", "dam", "caries", "moist pellet", "Still bleeding"],
    "root-perforation": ["file out", "Isolate", "moist pellet", "calls a senior"],
}


@pytest.mark.parametrize("name", QUESTIONS)
def test_what_is_done_now_stands_in_the_order_in_which_two_hands_can_do_it(name: str) -> None:
    steps = now(QUESTIONS[name])
    assert steps[0].startswith("Stop")
    said = " ".join(steps)
    places = [said.index(words) for words in IN_ORDER[name]]
    assert places == sorted(places)
    # Whoever holds something cannot take the film that comes next.
    assert not [step for step in steps if re.match(r"Hold\b", step)]


@pytest.mark.parametrize("name", ["exposed-pulp", "root-perforation"])
def test_what_is_done_now_says_what_comes_when_pressing_does_not_stop_the_blood(name: str) -> None:
    # Common practice, no source: nobody presses for ever, and nobody goes on alone.
    steps = [step for step in QUESTIONS[name].steps if step.when is not None and step.when.text == "now"]
    assert len(steps) <= 5
    said = [f"{step.words.text} {step.caution.text if step.caution else ''}" for step in steps]
    (pressing,) = (place for place, step in enumerate(steps) if re.search(r"(?:Press|Lay) a moist", step.words.text))
    after = " ".join(said[pressing:])
    assert re.search(r"Still bleeding|does not settle", after)
    assert re.search(r"call your supervisor|call, and do not go on alone", after)


def test_a_pulp_is_pressed_for_a_time_that_local_protocol_or_the_supervisor_says() -> None:
    (step,) = (step for step in QUESTIONS["exposed-pulp"].steps if step.words.text.startswith("Lay a moist pellet"))
    assert "for the time local protocol sets" in step.words.text
    assert step.caution is not None
    assert step.caution.text.startswith("No time set? Ask your supervisor.")


def test_a_child_s_tooth_is_told_from_a_milk_tooth_on_the_first_screens_and_a_guardian_consents() -> None:
    # Common practice, no source.
    question = QUESTIONS["exposed-pulp"]
    assert any("milk tooth" in entry.words.text for entry in question.is_it_this[:3])
    assert any(re.search(r"guardian.*consent", entry.words.text) for entry in question.medical)


def test_files_points_and_cones_are_kept_out_of_the_hole_and_in_the_canals() -> None:
    question = QUESTIONS["root-perforation"]
    told = [entry for entry in advice_of(question) if re.search(r"\b(?:files?|points?|cones?)\b", entry.words.text)]
    assert len(told) >= 4
    for entry in told:
        assert re.search(r"\bhole\b|\bcanal\b|file out", entry.words.text), entry.words.text
    (ban,) = (entry for entry in question.stop if "file" in entry.words.text)
    assert ban.caution is not None
    assert "canal is another matter" in ban.caution.text


def test_what_must_not_be_done_alone_is_asked_for_with_the_supervisor() -> None:
    question = QUESTIONS["broken-instrument"]
    assert [entry for entry in question.stop if "without your supervisor" in entry.words.text]
    with_files = [step.words.text for step in question.steps if re.search(r"hand file|[Tt]ake it out", step.words.text)]
    assert len(with_files) == 2
    assert all("with the supervisor" in words.lower() for words in with_files)


def test_a_ban_on_cement_does_not_forbid_the_pellet_that_a_step_asks_for() -> None:
    question = QUESTIONS["exposed-pulp"]
    assert any("pellet" in words for words in now(question))
    assert not [entry for entry in question.stop if re.search(r"Do not cover\b", entry.words.text)]


@pytest.mark.parametrize("name", QUESTIONS)
def test_pain_and_swelling_are_asked_about_and_swelling_is_a_reason_to_call(name: str) -> None:
    question = QUESTIONS[name]
    asked = {field.factor.text: field.ask.text for field in question.situation if field.factor is not None}
    assert re.search(r"[Pp]ain|hurt", " ".join(asked.values()))
    swelling = [factor for factor, ask in asked.items() if "swelling" in ask.lower()]
    assert len(swelling) == 1
    reasons = {
        answer.level.text for reason in question.call for answer in reason.answers if answer.factor.text == swelling[0]
    }
    levels = {level.id.text for level in EVIDENCE.vocabulary.factors[swelling[0]].levels}
    # Every answer but that nothing of it is there.
    assert reasons == levels - {"quiet", "absent"}
