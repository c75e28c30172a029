"""What had brought people to it stands beside their number, where the question asks just that."""

from __future__ import annotations

import pytest
from guide.cohorts import cohort
from guide.compendium import VOCABULARY, catalogue_of, nothing_named, said
from passageproof.guide.question.patient_page import patient_page
from passageproof.results.saying.whose_cause import of_cause
from passageproof.results.values.line import plain_text

LEVELS = """\
  cause:
    title: What opened it
    role: prognostic
    levels: [{id: decay, title: decay, synonyms: [caries]}, {id: blow, title: a blow}]
"""
QUESTION = "id: hole\ntitle: There is a hole\npatient: {show: [arden2011/all]}\nfactors: [cause]\n"
ASKED = QUESTION + "situation: [{factor: cause, ask: What opened it?}]\n"


def caused(cause: str, question: str) -> dict[str, str]:
    """One rate of people brought by this, typed among the population of its study."""
    files = cohort("arden2011", 60, 72)
    name = "claims/arden2011.yaml"
    typed = files[name].replace("dentition: permanent", f'dentition: permanent, cause: "{cause}"')
    assert typed != files[name]
    vocabulary = VOCABULARY.replace("factors:\n", f"factors:\n{LEVELS}")
    return files | {name: typed, "questions/hole.yaml": question, "vocabulary.yaml": vocabulary}


@pytest.mark.parametrize(
    ("cause", "question", "words"),
    [
        ("decay", ASKED, " (cause: decay)"),
        ("caries", ASKED, " (cause: caries)"),
        ("decay or a blow", ASKED, ""),
        ("made during treatment", ASKED, ""),
        ("not reported", ASKED, ""),
        ("decay", QUESTION, ""),
    ],
    ids=["one answer", "as typed", "several answers", "no answer", "not reported", "not asked"],
)
def test_what_the_question_asks_is_said_of_the_number_as_typed(cause: str, question: str, words: str) -> None:
    catalogue = catalogue_of(caused(cause, question))
    (finding,) = catalogue.of_claim("arden2011/all")
    assert plain_text(of_cause(catalogue, "hole", finding)) == words
    sheet = said(patient_page(catalogue, catalogue.evidence.questions["hole"], nothing_named))
    assert f"60 of 72 teeth in one study{words}: healed." in sheet
