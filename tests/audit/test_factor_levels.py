"""The words and bounds of a factor's levels say one thing, and no two levels the same."""

from __future__ import annotations

import pytest
from passageproof.problems import Position, as_text
from passageproof.proof.declared_names import FactorWording
from passageproof.reading.parsing import measured_range
from passageproof.reading.values import Range

VOCABULARY = """\
factors:
  size:
    title: Size of the hole
    unit: mm
    levels:
      - {id: small, title: up to 3 mm, range: up to 3 mm, synonyms: [small, 3 mm or less]}
      - {id: large, title: over 3 mm, range: over 3 mm, synonyms: [large]}
  visit:
    title: When
    unit: day
    levels:
      - {id: same, title: same day, range: under 1 day, synonyms: [same visit]}
      - {id: later, title: later, range: from 1 day}
  roots: {title: Roots, levels: [{id: one, title: one}, {id: many, title: more than one}]}
outcomes:
  healed: {title: healed, construct: success, strictness: strict, basis: film, threshold: normal space, good: yes}
"""


@pytest.fixture
def found(audited):
    """Problems of the vocabulary in which one text stands in place of another."""

    def problems(old: str = "", new: str = "") -> list[str]:
        assert old in VOCABULARY
        files = {"vocabulary.yaml": VOCABULARY.replace(old, new, 1) if old else VOCABULARY}
        told = [as_text(problem) for problem in audited(files).problems]
        return [text.removeprefix("evidence/vocabulary.yaml:") for text in told if "vocabulary.yaml" in text]

    return problems


def test_levels_that_meet_in_one_point_or_leave_a_gap_raise_nothing(found) -> None:
    assert found() == []
    assert found("over 3 mm, range: over 3 mm", "from 3 mm, range: from 3 mm") == []
    assert found("over 3 mm, range: over 3 mm", "over 5 mm, range: over 5 mm") == []
    assert found("synonyms: [large]", "synonyms: [large, apical third, stage 2]") == []
    assert found("synonyms: [small, 3 mm or less]", "synonyms: [small, 0 to 3 mm, 0 mm to 3 mm]") == []
    assert found("title: one}", "title: up to 2, synonyms: [1 or 2]}") == []


@pytest.mark.parametrize(
    ("old", "new", "expected"),
    [
        (
            "title: over 3 mm, range",
            "title: over 8 mm, range",
            '7:28: "over 8 mm" has other bounds than the `range` of its level, "over 3 mm" '
            "(evidence/vocabulary.yaml:7) [level-bounds-differ]",
        ),
        ("title: up to 3 mm, range: up to 3 mm", "title: up to 1 mm, range: up to 3 mm", "[level-bounds-differ]"),
        ("synonyms: [large]", "synonyms: [large, 4 mm or more]", '"4 mm or more" has other bounds'),
        ("synonyms: [large]", 'synonyms: [large, ">4 mm"]', '">4 mm" has other bounds'),
        (
            "title: over 3 mm, range: over 3 mm",
            "title: over 2 mm, range: over 2 mm",
            '"over 2 mm" overlaps the level small of size, "up to 3 mm" (evidence/vocabulary.yaml:6) [levels-overlap]',
        ),
        (
            "synonyms: [large]",
            "synonyms: [large, Small]",
            '7:75: "Small" stands for the level large of size and, at evidence/vocabulary.yaml:6, for its level small',
        ),
        ("{id: many, title: more than one}", "{id: many, title: more than one, synonyms: [one]}", "[level-word-twice]"),
    ],
)
def test_what_two_of_them_say_against_each_other_is_said(found, old: str, new: str, expected: str) -> None:
    problems = found(old, new)
    assert len(problems) == 1
    assert expected in problems[0]


def test_own_title_or_synonym_of_a_level_needs_no_range(audited, report_text) -> None:
    told = "[p. 1] c [p. 2] same visit: 8 of 9; later: 5 of 9"
    bib = f"@article{{x, author = {{A}}, title = {{T}}, year = 2019, annotation = {{{told}}}}}"
    claims = """
        - id: c
          question: hole
          factor: visit
          known_at: during
          outcome: healed
          reference: later
          levels:
            - {level: same visit, events: 8, total: 9}
            - {level: later, events: 5, total: 9}
          where: p. 2
          follow_up: not reported
    """
    files = {"vocabulary.yaml": VOCABULARY, "sources/x.bib": bib, "claims/x.yaml": report_text("x", claims)}
    assert [as_text(problem) for problem in audited(files).problems] == []


@pytest.mark.parametrize(
    ("wording", "typed", "expected"),
    [
        ("large", None, ["large"]),
        ("Over  3 mm", None, ["large"]),
        ("over 2 mm", None, ["small", "large"]),
        ("large", "over 5 mm", ["large"]),
        ("large", "1 mm to 2 mm", ["small"]),
        ("medium", "2 mm to 4 mm", ["small", "large"]),
        ("medium", None, []),
    ],
)
def test_own_title_or_synonym_comes_before_a_range(evidence_of, wording: str, typed: str | None, expected) -> None:
    factor = FactorWording(evidence_of({"vocabulary.yaml": VOCABULARY}).vocabulary.factors["size"])
    beside = Range(typed, Position("", 1, 1), *measured_range(typed)) if typed else None
    assert [level.id.text for level in factor.matches(wording, beside)] == expected
