"""Words that were quoted for a number stand in the passage as typed, and narrow the search for the number to them."""

from __future__ import annotations

import pytest
from passageproof.problems import as_text
from passageproof.proof.proving.quoted_words import has_words, places_of

BIB = """\
@article{x, author = {Marlow, Ines}, title = {T}, year = 2019, annotation = {
  [p. 1] 50 teeth treated, 47 examined
  [p. 2] At the first clinic 39 of 47
   teeth, no sign of failure; at the second 39 of 47 teeth. Failed: 8. They were kept.
  [p. 4] After 12 months: first clinic 39 of 47 teeth, second 39 of 47 teeth
  [p. 3] by the first reader, up to 3 mm: 32 of 35, over 3 mm: 7 of 12; by the second, up to 3 mm: 32 of 35, over
   3 mm: 9 of 12; OR 2.9 (95% CI 1.2 to 7.1) or OR 2.9 (95% CI 1.2 to 7.1) adjusted
}}
"""
CLAIM = """\
- id: overall
  question: hole
  outcome: healed
  events: 39
  total: 47
  where: p. 2
  follow_up: {from: repair, timing: not reported}
"""
BY_SIZE = """\
- id: by-size
  question: hole
  factor: size
  known_at: before
  outcome: healed
  reference: up to 3 mm
  levels:
    - {level: up to 3 mm, events: 32, total: 35, in_words: "by the first reader, up to 3 mm: 32 of 35"}
    - {level: over 3 mm, events: 7, total: 12, in_words: "over 3 mm: 7 of 12"}
  where: p. 3
  follow_up: not reported
"""


@pytest.fixture
def found(audited, report_text):
    """Every problem of one claim file as text, from its line on."""

    def problems(claims: str, study: str | None = None) -> list[str]:
        text = report_text("x", claims, study) if study else report_text("x", claims)
        problems = audited({"claims/x.yaml": text, "sources/x.bib": BIB}).problems
        return [as_text(problem).removeprefix("evidence/claims/x.yaml:") for problem in problems]

    return problems


def rules(problems: list[str]) -> list[str]:
    return [problem.splitlines()[0].rpartition("[")[2].removesuffix("]") for problem in problems]


def test_equal_numbers_are_told_apart_by_the_words_that_hold_one(found) -> None:
    assert rules(found(CLAIM)) == ["figure-ambiguous"]
    assert found(CLAIM + '  in_words: "At the first clinic 39 of 47 teeth, no sign of failure"\n') == []
    assert found(CLAIM + '  in_words: ["at the second", "39 of 47 teeth. Failed"]\n') == []


def test_each_level_is_read_in_its_own_words(found) -> None:
    assert rules(found(BY_SIZE.replace(', in_words: "by the first reader, up to 3 mm: 32 of 35"', ""))) == [
        "figure-ambiguous",
    ]
    assert found(BY_SIZE) == []


@pytest.mark.parametrize(
    ("in_words", "says"),
    [
        (
            '"39 of 48 teeth"',
            '20:15: "39 of 48 teeth" in `in_words` is not in the passage typed from p. 2 (evidence/sources/x.bib:3), '
            'which has "39 of 47 teeth," [in-words-not-in-passage]',
        ),
        (
            '"39 of 47 teeth"',
            '20:15: "39 of 47 teeth" in `in_words` stands 2 times in the passage typed from p. 2 '
            "(evidence/sources/x.bib:3) [in-words-more-than-once]",
        ),
        (
            '[at the second, At the first clinic 39 of 47]',
            '20:31: "At the first clinic 39 of 47" in `in_words` is listed after "at the second" but stands before or '
            "inside it in the passage typed from p. 2 (evidence/sources/x.bib:3) [in-words-out-of-order]",
        ),
        ('"9 of 47 teeth"', "in-words-not-in-passage"),
        ('"by the first reader"', "(evidence/sources/x.bib:3), but in the one from p. 3 [in-words-not-in-passage]"),
        ('"Zzz"', '20:15: "Zzz" in `in_words` is not in the passage typed from p. 2 (evidence/sources/x.bib:3) ['),
        ("[]", "the list is empty"),
        ('""', "the value is missing"),
        ("{of: teeth}", "20:15: "),
    ],
)  # fmt: skip
def test_words_that_do_not_stand_there_are_said(found, in_words: str, says: str) -> None:
    problems = found(CLAIM + f"  in_words: {in_words}\n")
    assert any(says in problem for problem in problems), problems


def test_a_number_outside_the_words_quoted_for_it_is_said(found) -> None:
    (first, *others) = found(CLAIM + '  in_words: "At the first clinic"\n')
    assert first.splitlines()[0] == (
        '16:13: "39" is in the passage typed from p. 2 (evidence/sources/x.bib:3), but not in the words quoted for it: '
        '"At the first clinic" (`in_words` at evidence/claims/x.yaml:20) [figure-outside-in-words]'
    )
    assert rules(others) == ["figure-outside-in-words"]


def test_words_of_an_inner_block_win_and_a_passage_of_its_own_is_not_narrowed(found) -> None:
    contrast = (
        "  contrast: {measure: odds ratio, event_is: bad, value: 2.9, interval: 1.2 to 7.1, adjusted_for: [age],\n"
        "    confidence: 95%, in_words: OR 2.9 (95% CI 1.2 to 7.1) adjusted}\n"
    ).replace("OR 2.9 (95% CI 1.2 to 7.1) adjusted", '"or OR 2.9 (95% CI 1.2 to 7.1) adjusted"')
    outer = '  in_words: "by the first reader, up to 3 mm: 32 of 35, over 3 mm: 7 of 12"\n'
    claim = BY_SIZE.replace("  where: p. 3\n", contrast + outer + "  where: p. 3\n")
    assert found(claim) == []
    assert rules(found(claim.replace(', in_words: "or OR', ', note: "or OR'))) != []
    flow = "  flow: {treated: 50, examined: 47, where: p. 1}\n"
    assert found(CLAIM + '  in_words: "At the first clinic 39 of 47"\n' + flow) == []


def test_a_time_outside_the_words_of_a_claim_still_proves_its_follow_up(found) -> None:
    timed = CLAIM.replace("p. 2", "p. 4").replace("timing: not reported", "timing: at, at: 12 months")
    assert found(timed + '  in_words: "first clinic 39 of 47"\n') == []
    assert rules(found(timed.replace("12 months", "13 months") + '  in_words: "first clinic 39 of 47"\n')) == [
        "figure-not-in-passage"
    ]


def test_facts_of_a_study_stand_in_the_words_quoted_for_them(found) -> None:
    study = """\
        id: fenwick
        species: human
        design: cohort
        population: {dentition: permanent}
        setting: {operators: residents}
        unit: tooth
        flow: {treated: 50, examined: 47, in_words: "50 teeth treated, 47 examined"}
        where: p. 1
    """
    item = "- " + "\n  ".join(line.strip() for line in study.strip().splitlines()) + "\n"
    quoted = CLAIM + '  in_words: "At the first clinic 39 of 47"\n'
    assert found(quoted, item) == []
    assert rules(found(quoted, item.replace('"50 teeth treated, 47 examined"', '"50 teeth"'))) == [
        "figure-outside-in-words"
    ]


@pytest.mark.parametrize(
    ("counted", "expected"),
    [
        ('"no sign of failure"', []),
        ("[no sign of failure, kept]", []),
        ('"no signs of failing"', ["as-not-in-passage"]),
        ("diseased", ["as-not-in-passage", "as-of-opposite-outcome"]),
        ("fail", ["as-not-in-passage"]),
    ],
)
def test_words_for_what_was_counted_stand_there_and_go_the_same_way(found, counted: str, expected: list[str]) -> None:
    claim = CLAIM + '  in_words: "At the first clinic 39 of 47"\n'
    assert rules(found(claim + f"  as: {counted}\n")) == expected


def test_words_for_the_event_of_a_ratio_go_the_way_of_the_event(found) -> None:
    contrast = "  contrast: {measure: odds ratio, event_is: bad, value: 2.9, adjusted_for: [age], as: adjusted,\n"
    claim = BY_SIZE.replace(
        "  where: p. 3\n", contrast + '    in_words: "2.9 (95% CI 1.2 to 7.1) adjusted"}\n  where: p. 3\n'
    )
    assert found(claim) == []
    (problem,) = found(CLAIM + '  in_words: "At the first clinic 39 of 47"\n  as: diseased\n')[1:]
    assert problem.startswith(
        '21:9: "diseased" in `as` names the outcome "diseased" (evidence/vocabulary.yaml:13), which is bad, '
        "but what is counted here is good [as-of-opposite-outcome]"
    )


def test_quoted_words_are_found_whole_with_blanks_collapsed() -> None:
    assert places_of("39 of\n   47 teeth", "39 of 47") == [(0, 11)]
    assert places_of("39 of 47 and 139 of 47", "39 of 47") == [(0, 8)]
    assert places_of("so so so", "so so") == [(0, 5), (3, 8)]
    assert places_of("“healed”: 3", '"healed"') == []
    assert has_words("Healed: 3", "healed")
    assert not has_words("unhealed: 3", "healed")
