"""Names in claim and question files must lead somewhere; one that does not is offered the nearest."""

from __future__ import annotations

import pytest

BIB = """\
@article{x, author = {Marlow, Ines}, title = {T}, year = 2019, annotation = {
  [p. 1] a cohort
  [p. 2] healed: 39 of 47 teeth (83%)
  [p. 3] up to 3 mm: 32 of 35 healed; over 3 mm: 7 of 12
}}
"""
CLAIMS = """\
- id: overall
  question: hole
  outcome: healed
  events: 39
  total: 47
  success_rate: 83%
  where: p. 2
  follow_up: {from: repair, timing: not reported}
- id: by-size
  question: hole
  factor: size
  known_at: before
  outcome: healed
  reference: up to 3 mm
  levels:
    - {level: up to 3 mm, events: 32, total: 35}
    - {level: over 3 mm, events: 7, total: 12}
  where: p. 3
  follow_up: overall
"""


@pytest.fixture
def found(audited, report_text):
    """Rules and messages of a compendium in which one text stands in place of another."""

    def problems(old: str = "", new: str = "", files: dict[str, str] | None = None) -> list[str]:
        text = report_text("x", CLAIMS)
        assert old in text
        base = {"claims/x.yaml": text.replace(old, new) if old else text, "sources/x.bib": BIB}
        return [f"{each.rule}: {each.message}" for each in audited(base | (files or {})).problems]

    return problems


def test_whole_names_raise_nothing(found):
    assert found() == []


@pytest.mark.parametrize(
    ("old", "new", "rule", "says"),
    [
        ("question: hole\n    outcome", "question: hol\n    outcome", "question-unknown", "did you mean hole?"),
        ("outcome: healed\n    events", "outcome: heald\n    events", "outcome-unknown", "did you mean healed?"),
        ("factor: size", "factor: sizes", "factor-unknown", "did you mean size?"),
        ("by: IM", "by: QQ", "person-unknown", '"QQ"'),
        ("follow_up: overall", "follow_up: overal", "follow-up-unknown", "did you mean overall?"),
        ("follow_up: overall", "study: fenwik\n    follow_up: overall", "study-not-in-file", "did you mean fenwick?"),
        ("follow_up: overall", "quotes: y/overall\n    follow_up: overall", "source-unknown", '"y"'),
        ("follow_up: overall", "quotes: x/overal\n    follow_up: overall", "claim-unknown", "did you mean overall?"),
        ("    species: human\n    design: cohort\n", "", "study-not-described", '"fenwick"'),
    ],
)
def test_name_that_leads_nowhere_is_an_error_with_the_nearest(found, old, new, rule, says):
    texts = [each for each in found(old, new) if each.startswith(f"{rule}: ")]
    assert len(texts) == 1
    assert says in texts[0]


def test_key_without_an_entry_is_one_problem(found, report_text):
    (text,) = found(files={"sources/x.bib": BIB.replace("{x,", "{xx,")})
    assert text.startswith("source-unknown: ")


def test_key_that_equals_a_question_is_an_error(found, report_text):
    files = {"claims/hole.yaml": report_text("hole", CLAIMS), "sources/y.bib": BIB.replace("{x,", "{hole,")}
    assert any(each.startswith("key-is-question") for each in found(files=files))


@pytest.mark.parametrize("wording", ["OVER 3 mm", ">3 mm", "2 mm to 5 mm", "from 1 mm", "≥ 4 mm", "2–3 mm"])
def test_measured_level_is_known_by_the_bands_its_range_meets(found, wording):
    texts = found("over 3 mm, events", f'"{wording}", events'.replace('"', '"'))
    assert not [each for each in texts if each.startswith("level-unknown")]


@pytest.mark.parametrize("wording", ["large", "over 3", "over 3 minutes"])
def test_measured_level_is_never_known_by_its_word(found, wording):
    (text,) = [each for each in found("level: over 3 mm", f"level: {wording}") if each.startswith("level-unknown")]
    assert f'"{wording}"' in text
    assert "range" in text


def test_range_beside_a_word_places_a_measured_level(found):
    texts = found("level: over 3 mm,", "level: large, range: over 3 mm,")
    assert not [each for each in texts if each.startswith("level-unknown")]


def test_measured_level_outside_every_band_is_an_error(found):
    vocabulary = (
        "factors:\n  size: {title: Size, unit: mm, levels: [{id: a, title: 1 mm to 2 mm}]}\n"
        "outcomes:\n  healed: {title: h, construct: c, strictness: strict, basis: b, threshold: t, good: yes}\n"
    )
    texts = found(files={"vocabulary.yaml": vocabulary})
    assert [each.split(":")[0] for each in texts] == ["level-unknown"]


@pytest.mark.parametrize(
    ("wording", "is_known"), [("one", True), ("More than  ONE", True), ("two or more", True), ("several", False)]
)
def test_level_in_words_is_known_by_title_or_synonym(found, wording, is_known):
    texts = found("  where: p. 2", f"  within: [{{factor: roots, level: {wording}}}]\n    where: p. 2")
    assert (not [each for each in texts if each.startswith("level-unknown")]) == is_known


def question(lines: str) -> dict[str, str]:
    return {"questions/hole.yaml": f"id: hole\ntitle: There is a hole\n{lines}\n"}


@pytest.mark.parametrize(
    ("lines", "rule", "says"),
    [
        ("urgent: [bleeding]", "urgent-unknown", '"bleeding"'),
        (
            "steps: [{words: Wait., basis: {kind: common practice}, dissent: ZZ}]\n"
            "dissent: [{by: IM, on: 2026-02-20, words: I would not.}]",
            "dissent-unsigned",
            'signed "ZZ"',
        ),
        ("factors: [sise]", "factor-unknown", "did you mean size?"),
        ("situation: [{factor: sise, ask: How wide}]", "factor-unknown", "did you mean size?"),
        ("options: [{id: a, title: A, is: {factor: size, level: larg}}]", "level-id-unknown", "did you mean large?"),
        ("options: [{id: a, title: A, overall: [heald]}]", "outcome-unknown", "did you mean healed?"),
        ("thresholds: [{outcome: heald, at: 5 years, at_least: 80%}]", "outcome-unknown", "did you mean healed?"),
        ("absolute: [{ratio: x/overall, baseline: x/by-size/small}]", "claim-unknown", "no level"),
        ("patient: {show: [x/overal]}", "claim-unknown", "did you mean overall?"),
        ("seen_not_read: [y]", "source-unknown", '"y"'),
        ("ratified: {by: [QQ], on: 2026-01-01}", "person-unknown", '"QQ"'),
        ("stop: [{words: Stop., basis: {kind: study, claim: x/nothing}}]", "claim-unknown", '"nothing"'),
        ("stop: [{words: Stop., basis: {kind: guideline, source: y}}]", "source-unknown", '"y"'),
    ],
)
def test_name_in_a_question_that_leads_nowhere_is_an_error(found, lines, rule, says):
    (text,) = found(files=question(lines))
    assert text.startswith(f"{rule}: ")
    assert says in text


def test_tooth_factors_need_no_vocabulary(found):
    lines = (
        "situation: [{tooth: FDI, ask: Which tooth}]\nfactors: [arch]\noptions: [{id: a, title: A, is: "
        "{factor: tooth-type, level: molar}}]"
    )
    assert found(files=question(lines)) == []


def test_status_of_an_unknown_key_is_an_error(found):
    (text,) = found(files={"status.yaml": "xx: {state: retracted, on: 2026-10-20, by: hand}\n"})
    assert text.startswith("status-unknown-source: ")


def test_what_could_not_be_read_is_known_by_name(found):
    broken = {"vocabulary.yaml": "factors:\n  size: {title: Size\noutcomes:\n  healed: {title: h}\n"}
    assert {each.split(":")[0] for each in found(files=broken)} == {"yaml-syntax"}
    broken = {"sources/x.bib": BIB.replace("healed: 39", "healed: {39")}
    assert {each.split(":")[0] for each in found(files=broken)}.isdisjoint({"source-unknown", "claim-unknown"})


DRAWN = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><rect id="small"/><rect id="big"/><rect/></svg>'


@pytest.mark.parametrize(
    ("picture", "drawing", "expected"),
    [
        ("hole.svg", DRAWN.replace("big", "large"), []),
        ("hole.svg", DRAWN, ['a shape of hole.svg has the id "big", which is no level of size']),
        ("hale.svg", DRAWN.replace("big", "large"), ['no drawing "hale.svg"; did you mean hole.svg?']),
        ("hole.svg", "<svg/>", []),
    ],
    ids=["fits", "a shape of no level", "no such drawing", "unreadable, told in the drawing"],
)
def test_a_drawing_of_the_situation_fits_its_factor(found, picture: str, drawing: str, expected: list[str]):
    files = {
        **question(f"situation: [{{factor: size, ask: How wide?, picture: {picture}}}]"),
        "pictures/hole.svg": drawing,
    }
    told = [problem for problem in found(files=files) if problem.startswith("picture-does-not-fit: ")]
    assert len(told) == len(expected)
    assert all(words in problem for words, problem in zip(expected, told, strict=True))


SIZE_ASKED = "situation: [{factor: size, ask: How wide?}]\n"
CALLS = "call:\n  - words: It is wide.\n    is: %s\n    basis: {kind: common practice}"


@pytest.mark.parametrize(
    ("situation", "answers", "expected"),
    [
        (SIZE_ASKED, "{factor: size, level: large}", []),
        (SIZE_ASKED, "[{factor: size, level: large}, {factor: size, level: small}]", []),
        ("situation: [{tooth: FDI, ask: Which tooth?}]\n", "{factor: arch, level: maxillary}", []),
        (SIZE_ASKED, "{factor: size, level: big}", ['level-id-unknown: factor size has no level with the id "big"']),
        (SIZE_ASKED, "{factor: sise, level: large}", ["factor-unknown: "]),
        (SIZE_ASKED, "{factor: arch, level: maxillary}", ["call-not-asked: no field of the situation asks for arch"]),
        ("", "{factor: size, level: large}", ["call-not-asked: no field of the situation asks for size"]),
        ("situation: [{factor: size}]\n", "{factor: size, level: large}", ["missing-field: "]),
    ],
    ids=["one", "two", "chart", "no such level", "no such factor", "not asked", "nothing asked", "asked in vain"],
)
def test_an_answer_that_is_a_reason_to_call_can_be_given(found, situation: str, answers: str, expected: list[str]):
    told = found(files=question(situation + CALLS % answers))
    assert len(told) == len(expected), told
    assert all(problem.startswith(words) for words, problem in zip(expected, told, strict=True))


WAYS = (
    "options:\n  - id: cap\n    title: Cap it\n    %s:\n      - {words: Dry., is: %s, basis: {kind: common practice}}"
)


@pytest.mark.parametrize("part", ["asks", "for", "against"])
@pytest.mark.parametrize(
    ("situation", "answers", "expected"),
    [
        (SIZE_ASKED, "[{factor: size, level: large}, {factor: size, level: small}]", []),
        (SIZE_ASKED, "{factor: size, level: big}", ['level-id-unknown: factor size has no level with the id "big"']),
        (SIZE_ASKED, "{factor: arch, level: maxillary}", ["way-not-asked: no field of the situation asks for arch"]),
        ("", "{factor: size, level: large}", ["way-not-asked: no field of the situation asks for size"]),
    ],
    ids=["asked", "no such level", "not asked", "nothing asked"],
)
def test_an_answer_for_which_a_way_holds_can_be_given(
    found, part: str, situation: str, answers: str, expected: list[str]
):
    told = found(files=question(situation + WAYS % (part, answers)))
    assert len(told) == len(expected), told
    assert all(problem.startswith(words) for words, problem in zip(expected, told, strict=True))
