"""Several teeth in one patient: a hint beside the judgements, or that it cannot be computed."""

from __future__ import annotations

from guide.cohorts import catalogue, cohort
from guide.compendium import nothing_named, said
from passageproof.guide.question.over_time import over_time_page


def told(*files: dict[str, str]) -> str:
    made = catalogue(*files)
    return said(over_time_page(made, made.evidence.questions["hole"], nothing_named))


def with_patients(key: str, teeth: int, patients: int) -> dict[str, str]:
    """A cohort whose report counts teeth and patients treated."""
    files = cohort(key, 40, 50)
    name = f"claims/{key}.yaml"
    facts = (
        f"    unit: tooth\n    flow: {{treated: {teeth}, where: 'p. 7'}}\n"
        f"    patients: {{treated: {patients}, where: 'p. 8'}}\n"
    )
    files[name] = files[name].replace("    unit: tooth\n", facts)
    source = f"sources/{key}.bib"
    files[source] = files[source].replace(
        "[p. 2]", f"[p. 7] {teeth} teeth treated\n[p. 8] {patients} patients treated\n[p. 2]"
    )
    return files


def test_teeth_that_outnumber_patients_have_a_design_effect_at_an_assumed_likeness():
    # 759 teeth in 572 patients (counts of a published series): 1 + (759/572 - 1) × 0.1 = 1.0327, Kish 1965.
    text = told(with_patients("arden2011", 759, 572))
    assert "759 teeth in 572 patients; if the teeth of a patient were alike by 0.1, which is assumed" in text
    assert "the design effect is 1.03" in text


def test_the_design_effect_is_kept_unrounded_for_the_workings():
    made = catalogue(with_patients("arden2011", 759, 572))
    over_time_page(made, made.evidence.questions["hole"], nothing_named)
    figure = made.book.get("hole/overall/arden2011-design-effect")
    assert figure is not None
    assert figure.unrounded.startswith("1.03269")


def test_as_many_patients_as_teeth_need_no_hint():
    assert "design effect" not in told(with_patients("arden2011", 60, 60))


def test_unreported_patients_make_it_not_computable():
    text = told(cohort("arden2011", 40, 50))
    assert "not all report how many patients there were: there a design effect is not computable" in text
