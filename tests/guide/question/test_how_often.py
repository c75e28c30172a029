"""How often something happens at all is no ending of those to whom it has happened: no answer, and no list of theirs."""

from __future__ import annotations

from pathlib import Path

from demo import demo_built, demo_evidence
from guide.compendium import VOCABULARY, catalogue_of, nothing_named, report, said
from passageproof.guide.question.conference_page import conference_page
from passageproof.guide.question.over_time import over_time_page
from passageproof.guide.question.situation import situation
from passageproof.results.findings.findings import Catalogue
from passageproof.results.values.document import ChoiceField, walk

ROOT = Path(__file__).parents[3]
OFTEN = "How often it happens: among all, and no ending"
MADE = (
    VOCABULARY + "  made: {title: a hole was made, construct: occurrence, strictness: not applicable, basis: notes, "
    "threshold: named in the notes, good: no}\n"
)
CLAIMS = """
- id: all
  question: hole
  outcome: made
  events: 39
  total: 470
  where: p. 3
  follow_up: not applicable
- id: by-size
  question: hole
  factor: size
  known_at: before
  outcome: made
  reference: up to 3 mm
  levels:
    - {level: up to 3 mm, events: 32, total: 350}
    - {level: over 3 mm, events: 7, total: 120}
  where: p. 4
  follow_up: not applicable
"""
NOTES = report(
    "marlow2019", CLAIMS, "[p. 3] a hole was made in 39 of 470 teeth",
    "[p. 4] a hole was made, up to 3 mm: in 32 of 350 teeth; over 3 mm: in 7 of 120 teeth",
)  # fmt: skip
HEALED = report(
    "arden2021",
    "- {id: all, question: hole, outcome: healed, events: 17, total: 20, where: 'p. 3', follow_up: not reported}",
    "[p. 3] 17 of 20 teeth healed", study="southquay",
)  # fmt: skip
QUESTION = "id: hole\ntitle: There is a hole\nsituation: [{factor: size, ask: How wide?}]\nfactors: [size]\n"


def made() -> Catalogue:
    return catalogue_of({"vocabulary.yaml": MADE, "questions/hole.yaml": QUESTION} | NOTES | HEALED)


def test_answers_of_the_case_leave_it_out_and_say_so():
    found = made()
    (field,) = situation(found, found.evidence.questions["hole"], nothing_named).fields
    for choice in field.choices[:2]:
        told = said(choice.summary)
        assert "Counted was only how often it happens, not what becomes of it" in told
        assert " of 350" not in told
        assert " of 120" not in told
    assert "nothing to compare with" in said(field.choices[2].summary)


def test_rates_over_time_and_the_list_of_studies_have_it_apart():
    found = made()
    question = found.evidence.questions["hole"]
    for page in (over_time_page(found, question, nothing_named), conference_page(found, question, nothing_named)):
        text = said(page.blocks)
        before, _, behind = text.partition(OFTEN)
        assert "17 of 20" in before
        assert "39 of 470" not in before
        assert "39 of 470" in behind


def test_answers_of_the_demo_tell_of_no_such_count():
    built = demo_built()
    assert built.guide is not None
    outcomes = demo_evidence().vocabulary.outcomes.values()
    titles = [outcome.title.text for outcome in outcomes if outcome.construct.text == "occurrence"]
    assert titles == ["a hole was recorded"]
    for name in demo_evidence().questions:
        for part in walk(built.guide.pages[f"{name}/"].blocks):
            if isinstance(part, ChoiceField):
                assert "a hole was recorded" not in said(part.choices)
    for page in ("over-time", "conference"):
        before = said(built.guide.pages[f"root-perforation/{page}/"].blocks).partition(OFTEN)[0]
        assert "75 of 3,120" not in before
