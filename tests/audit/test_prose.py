"""Figures named in sentences exist, and none is typed."""

from __future__ import annotations

from pathlib import Path

import pytest
from passageproof.audit.prose import find_in_page
from passageproof.proof.declared_names import declared_names
from passageproof.reading.evidence import read_evidence
from passageproof.reading.model import Page

BIB = """\
@article{x, author = {Marlow, Ines}, title = {T}, year = 2019, annotation = {
  [p. 1] a cohort
  [p. 2] healed: 39 of 47 teeth (83%); last recall, median 31 months
  [p. 3] one: 32 of 35 healed; more than one: 7 of 12
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
  follow_up: {from: repair, timing: last recall, median: 31 months}
- id: by-roots
  question: hole
  factor: roots
  known_at: before
  outcome: healed
  reference: one
  levels:
    - {level: one, events: 32, total: 35}
    - {level: more than one, events: 7, total: 12}
  where: p. 3
  follow_up: not reported
"""


@pytest.fixture
def told(audited, report_text):
    """What is said about a sentence of a question file, or of a hand-written page."""

    def problems(question: str = "", page: str | None = None) -> list[str]:
        files = {"claims/x.yaml": report_text("x", CLAIMS), "sources/x.bib": BIB}
        if question:
            files["questions/hole.yaml"] = f"id: hole\ntitle: There is a hole\n{question}\n"
        if page is not None:
            files["../site_src/about.md"] = page
        return [f"{each.position}: {each.rule}: {each.message}" for each in audited(files).problems]

    return problems


@pytest.mark.parametrize(
    "reference",
    [
        "$x/overall",
        "($x/overall).",
        "$x/overall, and more",
        "$x/by-roots/more-than-one",
        "$x/overall/events",
        "$x/by-roots/more-than-one/total",
        "$x/overall/follow_up/median",
        "$hole/overall/rate",
        "$hole/overall/unseen-bounds",
        "$hole/roots/direction",
        "$hole/size/pooled",
        "It costs $$5",
    ],
)
def test_reference_to_what_is_there_is_silent(told, reference):
    assert told(f'answer: "{reference}"') == []
    assert told(page=f"# About\n\n{reference}\n") == []


@pytest.mark.parametrize(
    ("reference", "says"),
    [
        ("$xx/overall", 'called "xx"'),
        ("$x/overal", "did you mean overall?"),
        ("$x/by-roots/more-than-on", "did you mean more-than-one?"),
        ("$x/overall/event", "did you mean events?"),
        ("$hole/overall/rates", "did you mean rate?"),
        ("$hole/rot/direction", "did you mean roots?"),
        ("$hole/roots/rate", '"rate"'),
        ("$hole/overall", "it also needs a factor (or overall)"),
        ("$x/studies/fenwick/flow/treated", "does not name a figure of a study"),
    ],
)
def test_reference_to_nothing_is_an_error(told, reference, says):
    (text,) = told(f'answer: "So many healed: {reference}."')
    assert "reference-unknown" in text
    assert says in text
    (text,) = told(page=f"# About\n\nSo many healed: {reference}.\n")
    assert text.startswith("site_src/about.md:3:17: reference-unknown: ")


@pytest.mark.parametrize(
    "sentence",
    [
        "About 83% healed.",
        "About 83 per cent healed.",
        "Ninety per cent healed.",
        "39 of 47 healed.",
        "39/47 healed.",
        "In 47 teeth most healed.",
        "Large holes did worse, HR 2.9.",
        "The odds ratio was 2.15 for large holes.",
        "This was P < .05 in the study.",
    ],
)
def test_typed_figure_of_evidence_is_an_error_on_its_line(told, sentence):
    (text,) = told(f'answer: "{sentence}"')
    assert text.startswith("evidence/questions/hole.yaml:3:")
    assert "number-typed" in text
    (text,) = told(page=f"# About\n\n{sentence}\n")
    assert text.startswith("site_src/about.md:3:")


@pytest.mark.parametrize(
    "sentence",
    [
        "Searched on 2026-09-12 and on 3 February 2026.",
        "The tooth is 46, or #46 in this notation.",
        "Release 1.2.0 of this guide.",
        "Call 112.",
        "Step 3 comes before step 4.",
    ],
)
def test_days_teeth_and_addresses_may_be_typed(told, sentence):
    assert told(f'answer: "{sentence}"') == []
    assert told(page=f"{sentence}\n") == []


def test_times_and_sizes_are_instructions_where_no_study_is_the_basis(told):
    words = "stop: [{words: Press for 5 minutes with a 2 mm pellet., basis: {kind: common practice}}]"
    assert told(words) == []
    (text,) = told(words.replace("kind: common practice", "kind: study, claim: x/overall"))
    assert "number-typed" in text


def test_numbers_marked_as_no_evidence_may_stand_in_a_page(told):
    page = (
        '<data class="convention" value="95">95%</data> of intervals; `29% of 26` is how a question reads;\n'
        "\n```\n39 of 47\n```\n\n[a link](https://example.org/39/47)\n"
    )
    assert told(page=page) == []


def test_reference_into_an_unproved_claim_is_silent(audited, report_text):
    files = {
        "claims/x.yaml": report_text("x", CLAIMS.replace("events: 39", "events: 38")),
        "sources/x.bib": BIB,
        "questions/hole.yaml": "id: hole\ntitle: T\nanswer: $x/overall/events of them healed.\n",
    }
    assert {each.rule for each in audited(files).problems} <= {
        "figure-not-in-passage",
        "figure-pair",
        "figure-means-something-else",
    }


@pytest.mark.parametrize("line", ["## Result $marlow2019furcal/overall", "[see $marlow2019furcal/overall](x.md) there"])
def test_a_figure_in_a_heading_or_a_link_of_a_page_is_refused(line: str) -> None:
    page = Page("site_src/note.md", f"# Note\n\n{line}\n")
    declared = declared_names(read_evidence(Path(__file__).parent.parent / "example"))
    found = [problem.rule for problem in find_in_page(page, declared, {"marlow2019furcal/overall/events"}, False)]
    assert found == ["figure-misplaced"]
