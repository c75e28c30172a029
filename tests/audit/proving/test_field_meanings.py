"""Every field that can be quoted is named in messages by what it means, then by its key."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from passageproof.audit.proving.claim_words import mentions_of
from passageproof.audit.proving.field_roles import ROLES
from passageproof.audit.proving.fields import quoted_scopes
from passageproof.problems import Problem, with_article
from passageproof.reading.evidence import read_evidence
from passageproof.reading.field_meanings import MEANINGS, block_of_figure, field_meaning

# Every field of the form that holds a number, each once.
EVERY_FIELD = """\
source: k
read: {by: IM, on: 2026-02-03, depth: full text}
studies:
  - id: s
    species: human
    design: cohort
    population: {dentition: permanent}
    setting: not reported
    unit: tooth
    flow: {eligible: 60, treated: 58, due: 55, examined: 47, lost: 3, discontinued: 2, died: 1, extracted_related: 1,
           extracted_other: 1, extracted: 2, recall: {rate: 85%}}
    patients: {examined: 40}
    shares: [{of: 26, what: arch, parts: [{level: upper, count: 13, share: 50%}]}]
    covers: 47
    where: p. 1
claims:
  - id: rate
    question: q
    outcome: o
    where: p. 1
    follow_up: {from: repair, timing: at, at: 12 months, tolerance: 2 months, minimum: 10 months, maximum: 14 months,
                mean: 12 months, median: 12 months, sd: 1 month}
    given: "seen at 12 months"
    within: [{factor: size, level: over 3 mm}]
    events: 39
    total: {candidates: [47, 50], reason: "2 tables differ"}
    rate: 83%
    interval: 70% to 91%
    confidence: 95%
    note: "in 2012"
  - id: review
    question: q
    outcome: o
    where: p. 1
    follow_up: not reported
    events: 39
    total: 47
    success_rate: 83%
    pooled: {studies: 5, of: 260, model: random effects, i2: 40%, sd: 8%}
  - id: levels
    question: q
    outcome: o
    where: p. 1
    follow_up: not reported
    factor: size
    known_at: before
    reference: up to 3 mm
    differ_in: ["3 years older"]
    levels:
      - {level: up to 3 mm, events: 32, total: 35}
      - {level: large, range: over 3 mm, estimate: {kind: survival, at: 5 years, value: 71%, interval: 55% to 85%,
         confidence: 95%, starting: 39, at_risk: 21}}
    contrast: {measure: odds ratio, event_is: bad, value: 2.9, interval: 1.2 to 7.1, confidence: 95%, p: .02,
               level: over 3 mm, reference: up to 3 mm, per: 2 mm, adjusted_for: none,
               absolute: {per: 1000, reference: 85, level: 180, interval: 100 to 320}}
    test: {between: [1 visit, 2 visits], p: .04}
  - id: adjusted
    question: q
    outcome: o
    where: p. 1
    follow_up: not reported
    contrast: {measure: odds ratio, event_is: bad, value: 2.7, level: over 3 mm, adjusted_for: [age]}
    factor: size
    known_at: before
    reference: up to 3 mm
  - id: unsaid
    question: q
    outcome: o
    where: p. 1
    follow_up: not reported
    contrast: {measure: odds ratio, event_is: bad, value: 2.7, level: over 3 mm, adjusted_for: not reported}
    factor: size
    known_at: before
    reference: up to 3 mm
  - id: fraction
    question: q
    outcome: o
    where: p. 1
    follow_up: not reported
    contrast: {measure: risk difference, event_is: bad, value: 12%, level: over 3 mm, adjusted_for: not reported}
    factor: size
    known_at: before
    reference: up to 3 mm
  - id: pairs
    question: q
    outcome: o
    where: p. 1
    follow_up: not reported
    pairs: {a: film, b: volume, both: 28, only_a: 8, only_b: 1, neither: 3}
  - id: grades
    question: q
    outcome: o
    where: p. 1
    follow_up: not reported
    total: 47
    grades: [{words: healed, events: 39, rate: 83%}]
"""


def test_every_field_that_can_be_quoted_has_a_meaning(tmp_path: Path) -> None:
    (tmp_path / "evidence" / "claims").mkdir(parents=True)
    (tmp_path / "evidence" / "claims" / "k.yaml").write_text(EVERY_FIELD)
    (tmp_path / "evidence" / "compendium.yaml").write_text("format: 1\n")
    evidence = read_evidence(tmp_path)
    assert [problem.message for problem in evidence.problems if "claims" in problem.position.file] == []
    report = evidence.reports["k"]
    rows = [row for scope in quoted_scopes(report) for row in scope.quoted]
    named = {field_meaning(row.name, block_of_figure(row.id)) for row in rows}
    named |= {field_meaning(mention.name) for claim in report.claims for mention in mentions_of(claim)}
    assert {row.role for row in rows} == set(ROLES.values())
    # `candidates` is the name that the form has for such a total; every other meaning stands in some message.
    unused = set(MEANINGS) - {"candidates", "total"}
    assert {meaning for key, meaning in MEANINGS.items() if key in unused and not said_in(meaning, named)} == set()


def said_in(meaning: str, named: set[str]) -> bool:
    return any(name.startswith(f"{meaning} (`") for name in named)


@pytest.mark.parametrize(
    ("figure", "name", "expected"),
    [
        ("k/review/pooled/of", "of", "the number of units the pooled result rests on (`of` under `pooled`)"),
        ("k/studies/s/flow/examined", "examined", "the number examined (`examined`)"),
        ("k/studies/s/shares/arch/upper/count", "count", "the number in one part (`count` under `shares`)"),
        ("k/levels/over-3-mm/events", "events", "the number with the outcome (`events`)"),
        ("k/pooled/events", "events", "the number with the outcome (`events`)"),
    ],
)
def test_a_field_is_named_by_its_meaning_then_its_key(figure: str, name: str, expected: str) -> None:
    assert field_meaning(name, block_of_figure(figure)) == expected


@pytest.mark.parametrize(
    ("block", "expected"),
    [
        (
            "median: 30 years",
            '"30 years" is typed for the median follow-up (`median` under `follow_up`), but the passage typed from '
            'p. 1 (evidence/sources/k.bib:1) has 30 months beside "median"',
        ),
        (
            "mean: 30 months",
            '"30 months" is typed for the mean follow-up (`mean` under `follow_up`), but the passage typed from p. 1 '
            '(evidence/sources/k.bib:1) has 30 months beside "median", which means something else',
        ),
    ],
)
def test_a_number_of_another_meaning_says_what_was_wanted(
    find: Callable[[str], list[Problem]], block: str, expected: str
) -> None:
    (problem,) = find(f"follow_up: {{from: repair, timing: last recall, {block}}}")
    assert (problem.rule, problem.message) == ("figure-means-something-else", expected)


@pytest.fixture
def find(tmp_path: Path) -> Callable[[str], list[Problem]]:
    """The problems of a claim's follow-up whose passage prints a median of 30 months."""
    from passageproof.audit.proving.figures import prove_report

    def problems(lines: str) -> list[Problem]:
        files = {
            "compendium.yaml": "format: 1\n",
            "claims/k.yaml": (
                "source: k\nread: {by: IM, on: 2026-02-03, depth: full text}\nstudies:\n  - id: s\nclaims:\n"
                "  - id: c\n    question: q\n    outcome: o\n    where: p. 1\n    events: 39\n    total: 47\n"
                f"    {lines}\n"
            ),
            "sources/k.bib": "@misc{k, title={T}, annotation={[p. 1] 39 of 47 teeth healed, median 30 months}}\n",
        }
        for name, text in files.items():
            path = tmp_path / "evidence" / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text)
        evidence = read_evidence(tmp_path)
        return list(prove_report(evidence.reports["k"], evidence.sources["k"]).problems)

    return problems


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("odds ratio", "an odds ratio"),
        ("hazard ratio", "a hazard ratio"),
        ("estimate", "an estimate"),
        ("unit", "a unit"),
        ("one-year rate", "a one-year rate"),
        ("8-year rate", "an 8-year rate"),
        ("80% interval", "an 80% interval"),
        ("11% interval", "an 11% interval"),
    ],
)
def test_article_goes_by_the_sound(words: str, expected: str) -> None:
    assert with_article(words) == expected
