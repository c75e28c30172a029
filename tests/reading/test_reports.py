"""The head of a claim file and its studies."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from passageproof.reading.model import Evidence

ProblemsOfFiles = Callable[[dict[str, str]], list[str]]
Read = Callable[[dict[str, str]], Evidence]

READ = "read: {by: IM, on: 2026-02-03, depth: full text}"


NO_CLAIM = "studies: []\nclaims: []\nnothing_claimed: only a method"


def file_of(source: str = "source: a2001word", read: str = READ, rest: str = NO_CLAIM) -> str:
    return f"{source}\n{read}\n{rest}\n"


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            file_of("source: other"),
            [
                '1:9: `source` is "other" but the file is named "a2001word": they must be the same [name-differs]'
                "\n    call this file other.yaml"
            ],
        ),
        (
            file_of("source: a b"),
            [
                '1:9: "a b" cannot be the key of a report: use letters, digits, "_" and "-" only [not-a-key]'
                "\n    type the key of its entry in evidence/sources/"
            ],
        ),
        (
            file_of(read="read: {by: IM, on: 2026-02-03, depth: part}"),
            ["2:7: with `depth: part`, type in `what` which part was read [missing-field]\n    what: WHICH PART"],
        ),
        (
            file_of(read="read: {by: IM, on: 2026-02-03, depth: full text, via: b}"),
            [
                "2:7: `via` names the report that quotes this one: it is allowed only with `depth: secondary` "
                "[field-not-here]"
                "\n    delete it, or type depth: secondary"
            ],
        ),
        (
            file_of(read="read: {by: IM, on: 2026-02-03, depth: skimmed}"),
            [
                '2:39: "skimmed" is not one of: full text, abstract, part, secondary [not-in-list]'
                "\n    type one of them, letter for letter"
            ],
        ),
        (
            file_of(read=READ + "\nchecked: {by: IM, on: 2026-03-01}"),
            [
                "3:10: IM read this report: somebody else must re-read it [checked-by-reader]"
                "\n    type who re-read it, or delete `checked` until somebody has"
            ],
        ),
        (
            file_of(rest="studies: []\nclaims: []"),
            [
                "3:10: with an empty list of studies, type in `nothing_claimed` why [missing-field]"
                "\n    nothing_claimed: WHY THIS REPORT YIELDS NO CLAIM",
                "4:9: with an empty list of claims, type in `nothing_claimed` why [missing-field]"
                "\n    nothing_claimed: WHY THIS REPORT YIELDS NO CLAIM",
            ],
        ),
        (
            file_of(rest="studies:\n  - {id: s, species: cat}\nclaims: []\nnothing_claimed: x"),
            ['4:22: "cat" is not one of: human, animal, bench [not-in-list]\n    type one of them, letter for letter'],
        ),
        (
            file_of(rest="studies:\n  - {id: s}\n  - {id: s}\nclaims: []\nnothing_claimed: x"),
            ['5:10: another of the studies of this file has the id "s" [duplicate-id]\n    rename one of the two'],
        ),
        (
            file_of(rest="studies:\n  - {id: S 1}\nclaims: []\nnothing_claimed: x"),
            [
                '4:10: "S 1" cannot be an id: use lower-case letters, digits and hyphens only [not-an-id]'
                "\n    write it s-1"
            ],
        ),
        (
            file_of(
                rest="studies: [{id: s}]\nclaims:\n  - {id: studies, question: q, outcome: o, where: p. 1, "
                "follow_up: not reported, events: 1, total: 2}"
            ),
            ['5:10: "studies" is reserved: choose another id [reserved-name]\n    put a word more before or after it'],
        ),
        (
            "read: {}\n",
            [
                "1:1: this file needs `claims` [missing-field]"
                "\n    claims: {id: …, question: …, outcome: …, where: …, follow_up: …}; of several each after a dash",
                "1:1: this file needs `source` [missing-field]\n    source: the key of an entry in sources/*.bib",
                "1:1: this file needs `studies` [missing-field]\n    studies: {id: …}; of several each after a dash",
                "1:7: `read` needs `by` [missing-field]\n    by: words",
                "1:7: `read` needs `depth` [missing-field]\n    depth: full text, or abstract, or part, or secondary",
                "1:7: `read` needs `on` [missing-field]\n    on: a date that exists, such as 2026-02-03",
            ],
        ),
    ],
)
def test_head_of_a_claim_file_is_reported(problems_of: ProblemsOfFiles, text: str, expected: list[str]) -> None:
    file = "claims/a2001word.yaml"
    assert problems_of({file: text}) == [f"evidence/{file}:{line}" for line in expected]


def test_report_without_claims_says_why(problems_of: ProblemsOfFiles) -> None:
    assert problems_of({"claims/a2001word.yaml": file_of()}) == []


@pytest.mark.parametrize("name", ["data", "search"])
def test_reserved_name_is_no_key_of_a_report(problems_of: ProblemsOfFiles, name: str) -> None:
    assert problems_of({f"claims/{name}.yaml": file_of(f"source: {name}")}) == [
        f'evidence/claims/{name}.yaml:1:1: "{name}" is reserved: choose another key for the report [reserved-name]'
        "\n    change it in the entry, in `source` and in the name of this file"
    ]


def test_study_is_read_with_all_its_fields(read: Read) -> None:
    rest = """\
studies:
  - id: s
    species: human
    design: cohort
    population: {dentition: not reported, age: 18 to 70}
    setting: not reported
    unit: {unit: root, per: tooth, rule: worst}
    flow: {treated: 58, due: 55, examined: not reported, recall: {rate: 85%}}
    patients: {treated: 50, where: p. 3}
    shares: [{of: 26, what: arch, parts: [{level: maxillary, count: 20, share: 77%}, {level: lower, count: 6}]}]
    covers: 40
    includes: [other]
    where: "p. 44,  Methods"
claims: []
nothing_claimed: x"""
    evidence = read({"claims/a2001word.yaml": file_of(rest=rest)})
    assert evidence.problems == ()
    (study,) = evidence.reports["a2001word"].studies
    assert study.flow is not None
    assert study.flow.recall is not None
    assert [name.text for name in study.flow.recall.seen + study.flow.recall.of] == ["examined", "due"]
    assert study.unit is not None
    assert study.unit.rule is not None
    assert study.where is not None
    assert (study.unit.unit.text, study.unit.rule.text, study.where.text) == ("root", "worst", "p. 44, Methods")
    assert {name: value.text for name, value in study.population.items()} == {
        "dentition": "not reported",
        "age": "18 to 70",
    }


def test_shares_of_one_slug_are_told(problems_of: ProblemsOfFiles) -> None:
    rest = (
        "studies:\n"
        "  - {id: s, shares: [{what: arch, parts: [{level: 'Upper ', count: 1}, {level: upper, count: 2}]}]}\n"
        "claims: []\nnothing_claimed: x"
    )
    (line,) = problems_of({"claims/a2001word.yaml": file_of(rest=rest)})
    assert line.endswith(
        'have the same short name "upper" in these shares [same-short-name]'
        "\n    add a word to one of the two that tells it from the other"
    )
