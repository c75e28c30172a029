"""A number that stands in its passage is never refused for the words beside it: it is located, and asked about."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from passageproof.proof.proof import Audit

CLAIM = """\
- id: c
  question: hole
  outcome: healed
  {fields}
  where: p. 2
  follow_up: not reported
"""
SOURCE = "@article{x,\n  author = {M, I}, title = {T}, journal = {J}, year = 2019,\n  annotation = {\n    %s\n  }\n}\n"


@pytest.fixture
def found(audited: Callable[..., Audit], report_text: Callable[..., str]) -> Callable[..., Audit]:
    """The audit of one claim and its passage."""

    def audit(passage: str, fields: str) -> Audit:
        claims = CLAIM.replace("{fields}", fields.replace("\n", "\n  "))
        return audited({"claims/x.yaml": report_text("x", claims), "sources/x.bib": SOURCE % f"[p. 2] {passage}"})

    return audit


@pytest.mark.parametrize(
    ("passage", "fields", "rule"),
    [
        ("45% were women; 39 of 47 healed", "events: 39\ntotal: 47\nrate: 45%", "figure-means-something-else"),
        ("20 of 47 failed", "events: 20\ntotal: 47", "event-opposite"),
        ("8 of 47 healed", "events: 8\ntotal: 8", "figure-taken"),
        ("39 of 47 and 39 of 47 healed", "events: 39\ntotal: 47", "figure-ambiguous"),
        ("39 of 47 patients healed", "events: 39\ntotal: 47", "figure-means-something-else"),
        ("39 of 45 and 44 of 47 healed", "events: 39\ntotal: 47", "figure-pair"),
    ],
)
def test_what_stands_there_is_asked_about_and_can_be_answered(
    found: Callable[..., Audit], passage: str, fields: str, rule: str
) -> None:
    audit = found(passage, fields)
    assert {(problem.rule, problem.severity) for problem in audit.problems} == {(rule, "ask")}
    assert audit.unproved == 0
    answers = "".join(
        f"\n  - {{rule: {problem.rule}, printed: {problem.printed}, by: IM, reason: it is so}}"
        for problem in audit.problems
    )
    answered = found(passage, f"{fields}\nacknowledged:{answers}")
    assert rule not in {problem.rule for problem in answered.problems if problem.is_open}
    assert set(answered.proofs) == set(audit.proofs)


@pytest.mark.parametrize(
    ("passage", "fields"),
    [
        ("39 of 47 healed (Table 12)", "events: 12\ntotal: 47"),
        ("39 of 47 healed; 12 months", "events: 12\ntotal: 47"),
        ("39 of 47 healed", "events: 38\ntotal: 47"),
    ],
)
def test_another_kind_or_unit_or_value_stays_an_error(found: Callable[..., Audit], passage: str, fields: str) -> None:
    audit = found(passage, fields)
    assert audit.unproved
    assert "error" in {problem.severity for problem in audit.problems}


def test_a_number_in_doubt_raises_no_second_question(found: Callable[..., Audit]) -> None:
    audit = found("39 of 47 (83%) healed; 45% were women", "events: 39\ntotal: 47\nrate: 45%")
    assert [problem.rule for problem in audit.problems] == ["figure-means-something-else"]
