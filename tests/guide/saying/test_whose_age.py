"""How old the people behind a number were stands in its line, on the page, in a sentence and on the sheet."""

from __future__ import annotations

import pytest
from guide.cohorts import cohort
from guide.compendium import catalogue_of, nothing_named, said
from passageproof.guide.question.patient_page import patient_page
from passageproof.guide.sentences.prose import prose
from passageproof.results.saying.whose_age import of_age
from passageproof.results.values.line import plain_text

QUESTION = "id: hole\ntitle: There is a hole\npatient: {show: [arden2011/all]}\n"


def aged(age: str) -> dict[str, str]:
    """One rate of people of this age, typed among the population of its study."""
    files = cohort("arden2011", 60, 72)
    name = "claims/arden2011.yaml"
    typed = files[name].replace("dentition: permanent", f'dentition: permanent, age: "{age}"')
    assert typed != files[name]
    return files | {name: typed, "questions/hole.yaml": QUESTION}


@pytest.mark.parametrize(
    ("age", "words"),
    [
        ("children and young adults", ", in children and young adults"),
        ("6 to 18 years", ", in people aged 6 to 18 years"),
        ("mean 14 years", ", age of the people: mean 14 years"),
        ("Children", ", in Children"),
        ("adults", ""),
        ("All ages", ""),
        ("not reported", ""),
    ],
)
def test_people_who_are_not_simply_everybody_are_named(age: str, words: str) -> None:
    catalogue = catalogue_of(aged(age))
    (finding,) = catalogue.of_claim("arden2011/all")
    assert plain_text(of_age(finding)) == words
    below = said(prose("$arden2011/all healed.", catalogue, nothing_named))
    assert f"give or take 6 months{words}" in below
    sheet = said(patient_page(catalogue, catalogue.evidence.questions["hole"], nothing_named))
    assert f"60 of 72 teeth in one study{words}: healed." in sheet


def test_a_study_that_tells_no_age_is_told_without() -> None:
    catalogue = catalogue_of(cohort("arden2011", 60, 72) | {"questions/hole.yaml": QUESTION})
    assert of_age(*catalogue.of_claim("arden2011/all")) == ()
