"""Units of the vocabulary: another trade's words for what it counts, and what is told where they do not fit."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from passageproof.numerals import FORMAT_1, read_numerals
from passageproof.reading.model import Evidence

EYE = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 18 21"><circle cx="9" cy="9" r="8"/></svg>'
Read = Callable[[dict[str, str | bytes]], Evidence]
Told = Callable[[dict[str, str | bytes]], list[str]]

REPORT = """\
source: a2001word
read: {by: IM, on: 2026-02-03, depth: full text}
studies:
  - {id: a-study, unit: UNIT}
claims: []
nothing_claimed: it only describes
"""


def vocabulary(units: str, more: str = "") -> dict[str, str | bytes]:
    return {"vocabulary.yaml": f"units:\n{units}{more}", "pictures/eye.svg": EYE}


def test_units_of_another_trade_have_its_words_and_stand_before_those_of_the_format(
    read: Read,
):
    found = read(
        vocabulary(
            "  graft: {one: graft, many: grafts, synonyms: [button], of: eye, shown: {removed: regrafted}}\n"
            "  eye: {one: eye, many: eyes, of: patient, mark: eye.svg}\n"
        )
    )
    assert found.problems == ()
    units = found.vocabulary.units
    assert tuple(units) == ("graft", "eye", *FORMAT_1.units)
    assert found.vocabulary.declared_units == ("graft", "eye")
    assert [units["graft"].word(count) for count in (1, "1", 2, "39", None)] == ["graft"] * 2 + ["grafts"] * 3
    assert units["graft"].synonyms == ("button",)
    assert found.vocabulary.lexicon.holders("graft") == ("eye", "patient")
    assert units["graft"].says("extracted") == "regrafted"
    assert units["graft"].says("extracted_other") == "removed, other"
    assert found.pictures[units["eye"].mark].view_box == "0 0 18 21"


def test_a_unit_of_the_format_may_be_given_a_mark_and_keeps_its_words(
    read: Read,
):
    found = read(vocabulary("  tooth: {mark: eye.svg}\n"))
    assert found.problems == ()
    assert found.vocabulary.units["tooth"] == FORMAT_1.units["tooth"]._replace(mark="eye.svg")


def test_a_unit_that_only_shares_its_id_with_one_of_the_format_takes_over_nothing(
    read: Read,
):
    found = read(vocabulary("  root: {one: aortic root, many: aortic roots}\n"))
    assert found.problems == ()
    unit = found.vocabulary.units["root"]
    assert (unit.of, unit.needs, unit.shown) == ("", (), ())


@pytest.mark.parametrize("unit", ["eye", "patient", "not reported", "{unit: eye, per: patient, rule: worst}"])
def test_a_study_may_count_what_the_vocabulary_declares(problems_of: Told, unit: str):
    files = vocabulary("  eye: {one: eye, many: eyes, of: patient}\n", "outcomes: {}\n")
    assert problems_of({**files, "claims/a2001word.yaml": REPORT.replace("UNIT", unit)}) == []


def test_a_study_that_counts_an_unknown_thing_is_told_what_there_is(problems_of: Told):
    files = vocabulary("  eye: {one: eye, many: eyes, of: patient}\n")
    (problem,) = problems_of({**files, "claims/a2001word.yaml": REPORT.replace("UNIT", "eyes")})
    assert problem.startswith(
        'evidence/claims/a2001word.yaml:4:25: "eyes" is not one of: eye, lesion, patient, arm, specimen [not-in-list]'
    )
    assert "did you mean eye?" in problem


@pytest.mark.parametrize(("unit", "problems"), [("tooth", 0), ("study", 1)])
def test_units_of_the_format_stay_readable_in_every_trade_and_a_study_counts_no_studies(
    problems_of: Told, unit: str, problems: int
):
    files = vocabulary("  eye: {one: eye, many: eyes, of: patient}\n")
    assert len(problems_of({**files, "claims/a2001word.yaml": REPORT.replace("UNIT", unit)})) == problems


def test_a_factor_may_be_measured_in_a_unit_that_stands_further_down(problems_of: Told):
    factor = "factors:\n  done: {title: done before, unit: eye, levels: [{id: one, title: one}]}\n"
    units = "units:\n  eye: {one: eye, many: eyes}\n"
    assert problems_of({"vocabulary.yaml": factor + units}) == []


@pytest.mark.parametrize(
    "fault",
    [
        pytest.param("units:\n  eye: {one: eye}\n", id="a block without its words"),
        pytest.param("units:\n  eye: {one: eye\n", id="no YAML"),
    ],
)
def test_nothing_is_told_of_studies_that_count_what_could_not_be_read(problems_of: Told, fault: str):
    problems = problems_of({"vocabulary.yaml": fault, "claims/a2001word.yaml": REPORT.replace("UNIT", "eye")})
    assert [problem for problem in problems if "a2001word" in problem] == []


@pytest.mark.parametrize(
    ("units", "expected"),
    [
        pytest.param("  eye: {one: eye, many: eyes, mrk: eye.svg}\n", ["2:31: unknown-field"], id="unknown key"),
        pytest.param("  eye: {one: eye}\n", ["2:8: missing-field"], id="no word for several"),
        pytest.param("  eye: {one: eye, many: eyes, of: patience}\n", ["2:35: not-in-list"], id="of nothing known"),
        pytest.param("  eye: {one: eye, many: eyes, of: eye}\n", ["2:35: not-in-list"], id="of itself"),
        pytest.param(
            "  eye: {one: eye, many: eyes, of: lid}\n  lid: {one: lid, many: lids, of: eye}\n",
            ["2:35: not-in-list"],
            id="of each other",
        ),
        pytest.param(
            "  eye: {one: eye, many: eyes}\n  lid: {one: lid, many: lids, synonyms: [Eye]}\n",
            ["3:42: unit-word-twice"],
            id="word of another unit",
        ),
        pytest.param(
            "  eye: {one: eye, many: eyes, synonyms: [patients]}\n", ["2:42: unit-word-twice"], id="word of people"
        ),
        pytest.param("  eye: {one: eye, many: eyes, mark: eye.png}\n", ["2:37: unknown-picture"], id="no such mark"),
        pytest.param("  month: {one: month, many: months}\n", ["2:3: reserved-name"], id="a unit of time"),
        pytest.param("  Eye: {one: eye, many: eyes}\n", ["2:3: not-an-id"], id="no id"),
    ],
)
def test_what_does_not_fit_is_told_on_its_line(read: Read, units: str, expected: list[str]):
    problems = read(vocabulary(units)).problems
    assert [f"{each.position.line}:{each.position.column}: {each.rule}" for each in problems] == expected
    assert {each.position.file for each in problems} == {"evidence/vocabulary.yaml"}


def test_numbers_of_another_trade_are_read_in_its_own_words_alone(read: Read):
    units = "  graft: {one: Corneal graft, many: Corneal grafts, synonyms: [Buttons]}\n"
    lexicon = read(vocabulary(units)).vocabulary.lexicon
    tokens = read_numerals("39 of 47 corneal grafts, 12 buttons, 5 teeth", lexicon)
    assert [(token.text, token.unit) for token in tokens] == [
        ("39", "graft"), ("47", "graft"), ("12", "graft"), ("5", "none"),
    ]  # fmt: skip
    assert "patient" in lexicon.units
    assert lexicon.adjectives == lexicon.phrases == frozenset()


def test_a_mark_for_a_unit_of_the_format_takes_no_word_of_its_trade_away(read: Read):
    lexicon = read(vocabulary("  tooth: {mark: eye.svg}\n  eye: {one: eye, many: eyes}\n")).vocabulary.lexicon
    units = [token.unit for token in read_numerals("39 of 47 permanent teeth in 3 eyes", lexicon)]
    assert units == ["tooth", "tooth", "eye"]


@pytest.mark.parametrize(
    ("units", "place", "told"),
    [
        ("  eye: {one: L5 eye, many: eyes}\n", "2:14", 'holds "5"'),
        ("  eye: {one: eye, many: eyes, synonyms: [½ eye]}\n", "2:42", 'holds "½"'),
        ("  eye: {one: eye, many: eyes, shown: {removed: replaced within 30 days}}\n", "2:48", 'holds "3"'),
        (f"  eye: {{one: eye, many: {'eyes ' * 13}}}\n", "2:25", "longer than 60 characters"),
        (f"  eye: {{one: eye, many: eyes, synonyms: [{', '.join('abcdefghi'[i % 9] * (i + 1) for i in range(41))}]}}\n",
         "2:41", "41 synonyms"),
        ("".join(f"  u{i}: {{one: a, many: b, of: u{i + 1}}}\n" for i in range(41)), "2:3", "41 units are declared"),
    ],
    ids=["digit", "fraction", "shown", "long", "synonyms", "units"],
)  # fmt: skip
def test_words_of_a_unit_hold_no_digit_and_are_short_and_few(problems_of: Told, units: str, place: str, told: str):
    (message,) = problems_of(vocabulary(units))
    assert message.startswith(f"evidence/vocabulary.yaml:{place}: ")
    assert told in message
