"""The situation: fields, answers, "can't tell", and the tooth in two-digit notation."""

from __future__ import annotations

from pathlib import Path

from demo import demo_built
from guide.compendium import catalogue_of, nothing_named, report, said
from passageproof.guide.question.situation import CANT_TELL, situation
from passageproof.results.values.document import ChoiceField, walk
from passageproof.results.values.line import Link

ROOT = Path(__file__).parents[3]

BY_SIZE = """
- id: by-size
  question: hole
  factor: size
  known_at: {known_at}
  outcome: healed
  reference: up to 3 mm
  levels:
    - {{level: up to 3 mm, events: 32, total: 35, success_rate: 91%}}
    - {{level: over 3 mm, events: 7, total: 12, success_rate: 58%}}
  where: p. 2, Table 1
  follow_up: not reported
"""
PASSAGE = "[p. 2, Table 1] up to 3 mm: 32 of 35 healed (91%); over 3 mm: 7 of 12 healed (58%)"
QUESTION = "id: hole\ntitle: There is a hole\nsearched: {on: 2026-09-12, where: [a database], by: IM}\n"


def fields_of(
    asked: str,
    known_at: str = "before",
    call: str = "",
    local: str = "call: {name: not set, number: not set}",
    more: dict[str, str] | None = None,
) -> dict[str, ChoiceField]:
    files = {"questions/hole.yaml": f"{QUESTION}situation:\n  - {asked}\n{call}", "local.yaml": f"{local}\n"}
    files |= more or {}
    catalogue = catalogue_of(files | report("marlow2019", BY_SIZE.format(known_at=known_at), PASSAGE))
    fields = situation(catalogue, catalogue.evidence.questions["hole"], nothing_named).fields
    return {field.field: field for field in fields}


SIZE = '{factor: size, ask: "How wide is it?"}'


def test_every_level_of_the_vocabulary_is_a_choice_and_cant_tell_is_the_last():
    choices = fields_of(SIZE)["size"].choices
    assert [(choice.value, choice.label) for choice in choices] == [
        ("small", "up to 3 mm"),
        ("large", "over 3 mm"),
        ("", CANT_TELL),
    ]


def test_an_answer_shows_both_rates_which_way_and_how_sure():
    large = said(fields_of(SIZE)["size"].choices[1].summary)
    for wanted in (
        "one study: fewer healed, more than chance alone usually gives (7 to 60 points fewer)",
        "7 of 12 teeth (58%)",
        "32 of 35 teeth (91%)",
        "crude",
        "not judged yet",
    ):
        assert wanted in large


def test_the_reference_level_says_that_others_are_compared_with_it():
    assert "compared with this one" in said(fields_of(SIZE)["size"].choices[0].summary)


def test_cant_tell_says_what_each_answer_would_change():
    assert "over 3 mm: healed beside up to 3 mm: fewer healed, more than chance" in said(
        fields_of(SIZE)["size"].choices[2].summary
    )


def test_a_level_nobody_studied_is_not_known_and_says_when_the_search_was_made():
    way = fields_of('{factor: way, ask: "What was done?"}')["way"]
    # A link to a page that knows no more is left out, and so is what each answer would change.
    assert (
        said(way.choices[0].summary)
        == "Nothing is counted here for this answer: none in people in this guide, searched 2026-09-12"
    )
    assert said(way.choices[-1].summary) == "Treat it as not known. Nothing is known of any answer."


def test_a_factor_known_only_afterwards_is_never_asked():
    assert fields_of(SIZE, known_at="after") == {}


def test_a_tooth_sets_its_type_and_its_jaw():
    fields = fields_of('{tooth: FDI, ask: "Which tooth?"}')
    tooth = next(choice for choice in fields["tooth"].choices if choice.value == "46")
    assert tooth.sets == (("tooth-type", "molar"), ("arch", "mandibular"))
    assert len(fields["tooth"].choices) == 33
    follows = {field.field: field for field in fields["tooth"].follows}
    assert list(follows) == ["tooth-type", "arch"]
    assert [choice.value for choice in follows["arch"].choices] == ["maxillary", "mandibular", ""]


CALL = """call:
  - words: It is wide and it bleeds.
    is: {factor: size, level: large}
    basis: {kind: common practice}
    caution: Press first. Open the urgent page.
  - words: You have closed none before.
    basis: {kind: common practice}
"""


def test_an_answer_that_is_a_reason_to_call_says_so_before_anything_else():
    choices = fields_of(SIZE, call=CALL, local="call: {name: Dr Sampler, number: 555 01 99}")["size"].choices
    told = [said(choice.summary) for choice in choices]
    begins = "Call Dr Sampler: 555 01 99. All reasons to call Reason to call: It is wide and it bleeds. Press first. "
    assert told[1].startswith(begins)
    assert told[1].index("Press first.") < told[1].index("7 of 12 teeth")
    assert not any("Call" in other or "closed none before" in other for other in (told[0], told[2]))


NOT_SET = "Call the supervisor in the room, or have the desk fetch one."


def test_a_caution_that_names_the_urgent_page_leads_there():
    urgent = "bleeding:\n  title: Bleeding\n  signs: [blood]\n  until_help: [{words: Press., basis: {kind: common practice}}]\n"
    blocks = fields_of(SIZE, call=CALL, more={"urgent.yaml": urgent})["size"].choices[1].summary
    assert "urgent/" in [part.target for part in walk(blocks) if isinstance(part, Link)]


def test_where_no_number_is_set_the_answer_says_whom_to_call_instead_and_why_in_a_line_of_its_own():
    blocks = fields_of(SIZE, call=CALL)["size"].choices[1].summary
    assert said(blocks[0]).startswith(NOT_SET)
    assert said(blocks[1]) == "Reason to call: It is wide and it bleeds."


def test_a_reason_of_several_answers_does_not_tell_as_so_what_was_not_answered():
    both = "is: [{factor: size, level: large}, {factor: arch, level: maxillary}]"
    call = CALL.replace("is: {factor: size, level: large}", both)
    asked = SIZE + '\n  - {tooth: FDI, ask: "Which tooth?"}'
    told = said(fields_of(asked, call=call)["size"].choices[1].summary)
    assert f"{NOT_SET} All reasons to call Reason to call, if this is so: It is wide and it bleeds." in told


def test_a_reason_may_be_a_kind_of_tooth():
    call = CALL.replace("factor: size, level: large", "factor: arch, level: maxillary")
    fields = fields_of('{tooth: FDI, ask: "Which tooth?"}', call=call)
    (arch,) = (field for field in fields["tooth"].follows if field.field == "arch")
    assert said(arch.choices[0].summary).startswith(NOT_SET)


def test_limit_that_one_study_drew_stands_under_its_question_and_names_the_study():
    (note,) = fields_of(SIZE)["size"].notes
    assert said(note) == "3 mm is where one study drew its line (Marlow 2019). It is no rule."


def test_limit_that_was_chosen_from_the_data_says_so():
    claim = BY_SIZE.format(known_at="before") + "  cut: chosen from the data\n"
    files = {"questions/hole.yaml": f"{QUESTION}situation:\n  - {SIZE}\n"} | report("marlow2019", claim, PASSAGE)
    catalogue = catalogue_of(files)
    (field,) = situation(catalogue, catalogue.evidence.questions["hole"], nothing_named).fields
    assert "one study drew its line, after it had seen its results" in said(field.notes)


def test_limit_that_two_studies_drew_is_not_said_to_be_that_of_one():
    claim = BY_SIZE.format(known_at="before")
    files = {"questions/hole.yaml": f"{QUESTION}situation:\n  - {SIZE}\n"}
    files |= report("marlow2019", claim, PASSAGE) | report("arden2021", claim, PASSAGE, study="southquay")
    catalogue = catalogue_of(files)
    (field,) = situation(catalogue, catalogue.evidence.questions["hole"], nothing_named).fields
    assert not field.notes


def test_field_without_a_measure_has_no_limit():
    assert not fields_of('{factor: way, ask: "What was done?"}')["way"].notes


def test_demo_says_of_each_limit_on_a_button_whose_it_is_and_asks_which_wall_the_hole_is_in():
    built = demo_built()
    assert built.guide is not None
    found = {
        part.field: part
        for name in ("root-perforation", "exposed-pulp", "broken-instrument")
        for part in walk(built.guide.pages[f"{name}/"])
        if isinstance(part, ChoiceField)
    }
    notes = {name: said(part.notes) for name, part in found.items() if part.notes}
    assert set(notes) == {"hole-size", "exposure-size", "pulp-bleeding", "pulp-patient-age"}
    assert notes["pulp-bleeding"].startswith(
        "6 minutes is where one study drew its line, after it had seen its results"
    )
    wall = found["hole-surface"]
    assert [choice.value for choice in wall.choices] == ["floor", "side", "strip", ""]
    assert wall.picture is not None
    drawn = {value for value, _ in wall.picture.parts if value}
    assert drawn == {"floor", "side", "strip"}
    assert "42 of 51 teeth (82%)" in said(wall.choices[0].summary)


def test_comparison_of_one_study_that_nobody_planned_says_so_in_the_answer():
    for planned, is_said in (("no", True), ("yes", False), ("unclear", False)):
        claim = BY_SIZE.format(known_at="before") + f"  planned: {planned}\n"
        files = {"questions/hole.yaml": f"{QUESTION}situation:\n  - {SIZE}\n"} | report("marlow2019", claim, PASSAGE)
        catalogue = catalogue_of(files)
        (field,) = situation(catalogue, catalogue.evidence.questions["hole"], nothing_named).fields
        assert ("not planned beforehand (Marlow 2019)" in said(field.choices[1].summary)) is is_said
