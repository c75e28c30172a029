"""The emergencies of the demonstration are whole: what not to do, what to do, whom to call, what to say, afterwards."""

from __future__ import annotations

import re

import pytest
import textstat
from demo import demo_evidence
from passageproof.reading.model import Urgent

EMERGENCIES = demo_evidence().urgent


def words_of(item: Urgent, name: str) -> list[str]:
    return [entry.words.text for entry in getattr(item, name)]


@pytest.mark.parametrize("name", EMERGENCIES)
def test_no_part_is_missing(name: str) -> None:
    for part, entries in EMERGENCIES[name].advice:
        assert entries, part


@pytest.mark.parametrize("name", EMERGENCIES)
def test_what_not_to_do_reads_as_nothing_else_when_it_is_read_alone(name: str) -> None:
    assert all(words.startswith("Do not ") for words in words_of(EMERGENCIES[name], "stop"))
    # The other lists say what is done: a ban among steps is overlooked.
    for part in ("until_help", "call"):
        assert not [words for words in words_of(EMERGENCIES[name], part) if words.startswith("Do not ")]


@pytest.mark.parametrize("name", EMERGENCIES)
def test_no_line_waits_for_a_protocol_that_nobody_set(name: str) -> None:
    said = " ".join(entry.words.text for _, entries in EMERGENCIES[name].advice for entry in entries)
    assert "protocol" not in said


@pytest.mark.parametrize("name", EMERGENCIES)
def test_afterwards_says_when_the_patient_is_seen_or_rung_again(name: str) -> None:
    # Common practice, no source: within a day.
    said = " ".join(words_of(EMERGENCIES[name], "afterwards"))
    assert re.search(r"\b(?:[Rr]ing|[Ss]ee)\b[^.;]*\b(?:next day|same evening)", said)


def test_what_is_said_to_the_patient_is_for_a_sixth_grader_at_most() -> None:
    # Smith & Senter 1967, AMRL-TR-66-220; Coleman & Liau 1975, J Appl Psychol 60:283-284. The sixth grade: common
    # practice for what patients are given, no source.
    said = " ".join(words for item in EMERGENCIES.values() for words in words_of(item, "say"))
    assert len(said.split()) > 100
    assert textstat.automated_readability_index(said) <= 6
    assert textstat.coleman_liau_index(said) <= 6


def test_hypochlorite_beyond_the_root_has_what_published_accounts_ask_for() -> None:
    # Br Dent J 2014 (sj.bdj.2014.1099) and reviews of such accidents: stop, let it drain, saline, cold from outside,
    # pain relief, explanation, a written note, and somebody senior the same day where breathing, sight or nerves may be
    # touched. No agreed protocol exists; each line is marked as common practice or as local.
    item = EMERGENCIES["irrigant-extruded"]
    said = " ".join(entry.words.text for _, entries in item.advice for entry in entries)
    for wanted in ("Stop", "bleed", "saline", "Cool", "pain", "breathing", "sight", "today", "numb", "writing"):
        assert wanted in said, wanted
    assert {entry.basis.kind.text for _, entries in item.advice for entry in entries} <= {
        "common practice",
        "local protocol",
    }


@pytest.mark.parametrize("name", ["irrigant-extruded", "swallowed-or-inhaled", "air-under-skin", "bleeding"])
def test_where_a_life_may_be_at_stake_what_is_done_now_names_the_emergency_service(name: str) -> None:
    # Whom to call stands below what is done: the steps say when it cannot wait until then. Common practice, no source.
    steps = EMERGENCIES[name].until_help
    said = " ".join(f"{step.words.text} {step.caution.text if step.caution else ''}" for step in steps)
    assert "emergency service" in said


def test_heavy_bleeding_says_at_its_first_step_that_an_oozing_pulp_is_not_meant() -> None:
    # Common practice, no source: a living pulp is never pressed upon.
    first = EMERGENCIES["bleeding"].until_help[0]
    assert first.caution is not None
    assert "pulp that only oozes" in first.caution.text


# Common practice, no source: what takes the breath, the blood or the heart is the emergency service's, whoever else comes.
OF_THE_EMERGENCY_SERVICE = (
    "collapse-or-allergy",
    "swallowed-or-inhaled",
    "irrigant-extruded",
    "air-under-skin",
    "bleeding",
)


@pytest.mark.parametrize("name", OF_THE_EMERGENCY_SERVICE)
def test_the_first_line_of_a_call_that_may_be_for_a_life_names_the_emergency_service(name: str) -> None:
    first = words_of(EMERGENCIES[name], "call")[0]
    assert "emergency service" in first
    assert re.search(r"\b(?:first|at once)\b", first)
