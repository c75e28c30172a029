"""Certainty ledgers, days, and who re-read what."""

from __future__ import annotations

import pytest

CLAIM = "- {id: a, question: hole, outcome: healed, pairs: not reported, where: p. 2, follow_up: not reported}"
BIB = "@article{x, title = {T}, annotation = {[p. 1] a cohort [p. 2] pairs}}\n"


@pytest.fixture
def found(audited, report_text):
    """What is said of a question with these lines, beside one claim."""

    def problems(lines: str, depth: str = "full text", claim: str = CLAIM) -> list[str]:
        files = {
            "claims/x.yaml": report_text("x", claim).replace("full text", depth),
            "sources/x.bib": BIB,
            "questions/hole.yaml": f"id: hole\ntitle: There is a hole\n{lines}\n",
        }
        return [f"{each.rule}: {each.message}" for each in audited(files).problems]

    return problems


def ledger(start: str, steps: str, final: str, more: str = "") -> str:
    return f"certainty: [{{outcome: healed, {more}start: {start}, steps: [{steps}], final: {final}}}]"


def down(by: int) -> str:
    return f"{{for: bias, down: {by}, reason: one clinic, by: IM}}"


# GRADE: high less one for bias and one for imprecision is low; it never falls below very low.
@pytest.mark.parametrize(
    ("start", "steps", "final"),
    [
        ("high", f"{down(1)}, {down(1)}", "low"),
        ("high", ", ".join([down(1)] * 4), "very low"),
        ("low", down(0), "low"),
        ("low", "{for: large effect, up: 2, reason: all of them, by: IM}", "high"),
        ("high", "{for: large effect, up: 1, reason: all of them, by: IM}", "high"),
    ],
)
def test_ledger_that_adds_up_is_silent(found, start, steps, final):
    assert found(ledger(start, steps, final)) == []


def test_ledger_that_does_not_add_up_is_an_error(found):
    (text,) = found(ledger("high", down(1), "low"))
    assert text == "certainty-does-not-add-up: high minus 1 plus 0 is moderate, but `final` is low"


FACTOR_CLAIM = (
    "- {id: a, question: hole, outcome: healed, factor: roots, known_at: before, reference: one, where: p. 2, "
    "follow_up: not reported, levels: [{level: more than one, direction: worse, stated: words only}]}"
)
EXPLORATORY = "{for: exploratory study, down: 0, reason: large and planned, by: IM}"


def test_factor_carries_the_exploratory_step_or_its_refusal(found):
    claim = FACTOR_CLAIM.replace("level: more than one", "level: several").replace("reference: one", "reference: few")
    factor = "factor: roots, "
    (text,) = [each for each in found(ledger("low", "", "low", factor), claim=claim) if "certainty" in each]
    assert text.startswith("certainty-exploratory: ")
    assert not [each for each in found(ledger("low", EXPLORATORY, "low", factor), claim=claim) if "certainty" in each]
    planned = claim.replace("where", "planned: yes, where")
    assert not [each for each in found(ledger("low", "", "low", factor), claim=planned) if "certainty" in each]


def test_abstracts_alone_carry_low_at_most(found):
    (text,) = found(ledger("high", down(1), "moderate"), depth="abstract")
    assert text.startswith("certainty-abstract-only: ")
    assert found(ledger("high", f"{down(1)}, {down(1)}", "low"), depth="abstract") == []
    assert found(ledger("high", down(1), "moderate")) == []


@pytest.mark.parametrize(
    "lines",
    [
        "ratified: {by: [IM], on: 2026-11-01}",
        "searched: {on: 2026-11-01, where: [a database]}",
        "dissent: [{by: IM, on: 2026-11-01, words: No.}]",
        "thresholds: [{outcome: healed, at: 5 years, at_least: 80%, agreed: 2026-11-01}]",
        "stop: [{words: Stop., basis: {kind: common practice}, ratified: {by: [IM], on: 2026-11-01}}]",
    ],
)
def test_day_after_the_evidence_date_is_an_error(found, lines):
    (text,) = found(lines)
    assert text == "date-after-evidence: 2026-11-01 is later than the evidence date, 2026-10-30"
    assert found(lines.replace("2026-11-01", "2026-10-30")) == []


def test_report_read_after_the_evidence_date_is_an_error(audited, report_text):
    text = report_text("x", CLAIM)
    (problem,) = audited({"claims/x.yaml": text.replace("2026-02-03", "2027-02-03"), "sources/x.bib": BIB}).problems
    assert problem.rule == "date-after-evidence"
    (problem,) = audited(
        {"claims/x.yaml": report_text("x", CLAIM, top="checked: {by: TO, on: 2026-01-03}\n"), "sources/x.bib": BIB}
    ).problems
    assert problem.rule == "date-before-reading"


def test_status_may_be_later_than_the_evidence(audited):
    files = {"sources/x.bib": BIB, "status.yaml": "x: {state: retracted, on: 2027-10-20, by: hand}\n"}
    assert audited(files).problems == ()
