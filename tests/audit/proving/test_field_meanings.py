"""Every field that can be quoted is named in messages by what it means, then by its key."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from passageproof.problems import Problem, with_article
from passageproof.proof.proving.claim_words import said_in_passing
from passageproof.proof.proving.field_roles import ROLES
from passageproof.proof.proving.fields import quoted_scopes
from passageproof.reading.evidence import read_evidence
from passageproof.reading.field_meanings import MEANINGS, block_of_figure, field_meaning

EVERY_FIELD = Path(__file__).parent / "every_field.yaml"


def test_every_field_that_can_be_quoted_has_a_meaning(tmp_path: Path) -> None:
    (tmp_path / "evidence" / "claims").mkdir(parents=True)
    (tmp_path / "evidence" / "claims" / "k.yaml").write_text(EVERY_FIELD.read_text())
    (tmp_path / "evidence" / "compendium.yaml").write_text("format: 1\n")
    evidence = read_evidence(tmp_path)
    assert [problem.message for problem in evidence.problems if "claims" in problem.position.file] == []
    report = evidence.reports["k"]
    rows = [row for scope in quoted_scopes(report) for row in scope.quoted]
    named = {field_meaning(row.name, block_of_figure(row.id)) for row in rows}
    named |= {field_meaning(mention.name) for claim in report.claims for mention in said_in_passing(claim)}
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
    from passageproof.proof.report_proof import prove_report

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
