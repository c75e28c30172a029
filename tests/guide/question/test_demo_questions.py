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
    "exposed-pulp": ["supervisor", "blood thinners", "Dam", "Caries", "moist pellet", "Still bleeding"],
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
    (pressing,) = (place for place, step in enumerate(steps) if re.search(r"(?:[Pp]ress|Lay) a moist", step.words.text))
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


def test_a_blow_to_the_head_is_asked_about_before_the_tooth_and_with_the_answer() -> None:
    # Common practice, no source: signs of a hurt head go before a tooth.
    question = QUESTIONS["exposed-pulp"]
    (first, *_) = (step for step in question.steps if step.when is not None and step.when.text == "now")
    assert first.caution is not None
    assert re.search(r"drowsy, vomits, no memory\? Hospital first.*guardian consents", first.caution.text)
    # A guide opens three reasons to call before somebody taps for the others.
    (place,) = (place for place, reason in enumerate(question.call) if "drowsy" in reason.words.text)
    assert place < 3
    reason = question.call[place]
    assert [(answer.factor.text, answer.level.text) for answer in reason.answers or ()] == [
        ("exposure-cause", "trauma")
    ]
    assert reason.caution is not None
    assert reason.caution.text.startswith("Hospital first")
    assert "urgent page" in reason.caution.text


def test_caries_is_taken_away_only_where_there_is_caries() -> None:
    # Common practice, no source: a blow exposes a pulp below sound walls.
    (step,) = (words for words in now(QUESTIONS["exposed-pulp"]) if "walls" in words)
    assert step.startswith("Caries?")


def test_an_exception_to_pressing_stands_before_the_order_to_press() -> None:
    # Common practice, no source: hypochlorite that went out is not shut in.
    (step,) = (words for words in now(QUESTIONS["root-perforation"]) if "moist pellet" in words)
    assert step.index("Hypochlorite through it?") < step.index("urgent page") < step.index("press a moist pellet")


def test_a_loose_tooth_gets_no_clamp_and_a_bleeding_pulp_no_cement() -> None:
    # Common practice, no source: a clamp can tear out a tooth that a blow has loosened.
    question = QUESTIONS["exposed-pulp"]
    now_steps = [step for step in question.steps if step.when is not None and step.when.text == "now"]
    isolate = next(place for place, step in enumerate(now_steps) if step.words.text.startswith("Dam on"))
    before = " ".join(step.caution.text for step in now_steps[:isolate] if step.caution)
    assert re.search(r"Loose or moved: no clamp on it, film, call", before)
    # Four lines of the list stand open on the page.
    assert "Do not put cement on a pulp that bleeds." in [entry.words.text for entry in question.stop[:4]]


def test_a_hole_that_is_dressed_has_steps_of_its_own() -> None:
    # Common practice, no source: a dressing pressed through a hole can reach a nerve; who goes home open comes back soon.
    (dress,) = (option for option in QUESTIONS["root-perforation"].options if option.id.text == "dress")
    told = [step.words.text for step in dress.steps]
    assert re.search(r"senior before you cover", told[0])
    assert re.search(r"never pack or inject", told[1])
    assert {step.basis.kind.text for step in dress.steps} <= {"common practice", "local protocol"}
    assert re.search(r"within days, and whom to ring", told[-1])


def test_a_patient_with_an_open_hole_is_not_told_to_wait() -> None:
    # Common practice, no source: a hole is closed at once or within days.
    question = QUESTIONS["root-perforation"]
    assert question.patient is not None
    said = " ".join(words.text for words in question.patient.afterwards)
    assert "may also wait" not in said
    assert "not closed yet, come back within days" in said
    assert re.search(r"Ring us at once if .*bleeds.*filling comes out", said)


@pytest.mark.parametrize("name", ["exposed-pulp", "root-perforation"])
def test_what_is_told_of_the_cause_hides_nobody_and_blames_nobody(name: str) -> None:
    # Common practice, no source: open disclosure says who made it, where it was made.
    patient = QUESTIONS[name].patient
    assert patient is not None
    said = " ".join(words.text for words in (*patient.chair, *patient.afterwards))
    assert not re.search(r"[Ww]e found|our own drill", said)
    assert re.search(r"how it came about, also if I made it|decay, a blow or the treatment", said)


def test_hypochlorite_out_has_its_own_words_for_when_nobody_answers_and_for_an_eye() -> None:
    # Common practice, no source; for the eye also the first aid that poison centres print: water at once, lenses out.
    entry = EVIDENCE.urgent["irrigant-extruded"]
    lists = dict(entry.advice)
    cautions = [line.caution.text for line in lists["call"] if line.caution is not None]
    (fallback,) = (words for words in cautions if "Nobody answers?" in words)
    assert "Leave the tooth open" in fallback
    assert "stay, send for help" in fallback
    assert not re.search(r"\bcover\b|\bclose\b", fallback)
    first = lists["until_help"][0]
    assert first.caution is not None
    assert re.search(r"In an eye\? Water at once, lenses out, go on rinsing, and call", first.caution.text)


def test_whoever_still_bleeds_is_told_before_the_fold_that_more_of_the_pulp_may_have_to_go() -> None:
    (step,) = (
        step
        for step in QUESTIONS["exposed-pulp"].steps
        if step.words.text.startswith("Still bleeding? Lay a fresh one")
    )
    assert step.caution is not None
    assert step.caution.text.startswith("More pulp may have to go.")


def test_a_dissent_that_speaks_of_a_step_stands_at_it() -> None:
    marked = {
        (name, step.words.text.split()[0]): [by.text for by in step.dissent]
        for name, question in QUESTIONS.items()
        for step in question.steps
        if step.dissent
    }
    assert marked == {
        ("root-perforation", "Wait"): ["DR"],
        ("exposed-pulp", "If"): ["DR"],
        ("broken-instrument", "With"): ["BN"],
    }
    # Nobody stands behind a line and against it.
    for question in QUESTIONS.values():
        for step in question.steps:
            stands = [by.text for by in step.ratified.by] if step.ratified is not None else []
            assert not set(stands) & {by.text for by in step.dissent}


def test_a_parent_can_match_the_ways_named_before_with_those_named_after() -> None:
    question = QUESTIONS["exposed-pulp"]
    assert question.patient is not None
    (said,) = (words.text for words in question.patient.chair if "cover it" in words.text)
    assert all(name in said for name in ("a cap", "a pulpotomy", "a root canal treatment"))


def test_somebody_is_called_in_the_first_step_after_hypochlorite_went_out() -> None:
    # Common practice, no source: one works, one calls.
    assert EVIDENCE.urgent["irrigant-extruded"].advice
    first = dict(EVIDENCE.urgent["irrigant-extruded"].advice)["until_help"][0]
    assert "calls a senior" in first.words.text
