"""Many studies that were each last seen at a time of their own: from the lowest to the highest, and none for all."""

from __future__ import annotations

from guide.compendium import catalogue_of, nothing_named, report, said
from passageproof.guide.question.patient_page import patient_page
from passageproof.guide.sections.reference_rates import reference_rates
from passageproof.results.findings.findings import Catalogue
from passageproof.results.values.document import Paragraph, walk

QUESTION = """\
id: hole
title: There is a hole
factors: [size]
situation: [{factor: size, ask: "How wide?"}]
patient: {show: [arden2011/all], chair: [It can be closed today.]}
"""
# By study: healed of ten narrow holes, of ten wide ones, and the median of the last visits in months.
COUNTS = {"arden": (9, 5, 20), "burley": (8, 6, 31), "carrow": (7, 4, 42), "dunmere": (10, 7, 26), "elsby": (6, 3, 37)}


def catalogue(studies: int) -> Catalogue:
    files = {"questions/hole.yaml": QUESTION}
    for key, (narrow, wide, median) in list(COUNTS.items())[:studies]:
        follow_up = f"{{from: repair, timing: last recall, median: {median} months, where: 'p. 2'}}"
        claims = f"""
        - id: by-size
          question: hole
          outcome: healed
          factor: size
          known_at: before
          reference: up to 3 mm
          levels: [{{level: up to 3 mm, events: {narrow}, total: 10}}, {{level: over 3 mm, events: {wide}, total: 10}}]
          where: p. 4
          follow_up: {follow_up}
        - {{id: all, question: hole, outcome: healed, events: {narrow + wide}, total: 20, where: p. 3, follow_up: by-size}}
        """
        files |= report(
            f"{key}2011", claims, f"[p. 2] last recall, median {median} months", f"[p. 3] {narrow + wide} of 20 healed",
            f"[p. 4] up to 3 mm: {narrow} of 10 healed; over 3 mm: {wide} of 10", study=key,
        )  # fmt: skip
    return catalogue_of(files)


def beside(made: Catalogue) -> list[str]:
    """What the sheet says of the answer "over 3 mm"."""
    page = patient_page(made, made.evidence.questions["hole"], nothing_named)
    return [said(part) for part in walk(page.blocks) if isinstance(part, Paragraph) and part.of == "size=large"]


def test_of_more_than_four_the_sheet_tells_the_lowest_and_the_highest_each_with_its_time() -> None:
    (told,) = beside(catalogue(5))
    assert "healed in 3 of 10 teeth, median 37 months, to 7 of 10 teeth, median 26 months, 5 studies." in told
    assert (
        "When: when last seen, each study at a time of its own. The study above is one of them, treated by initial."
        in told
    )


def test_up_to_four_stand_one_by_one() -> None:
    told = beside(catalogue(4))
    assert len(told) == 4
    assert all("in one study" in each for each in told)


def test_what_others_are_compared_with_is_told_so_too_on_the_page_of_the_question() -> None:
    made = catalogue(5)
    (told,) = reference_rates(made, made.evidence.questions["hole"], "size", "small")
    assert said(told) == (
        "healed: up to 3 mm: 6 of 10 teeth, median 37 months, to 10 of 10 teeth, median 26 months, each when last "
        "seen, 5 studies"
    )
    (few,) = reference_rates(catalogue(4), made.evidence.questions["hole"], "size", "small")
    assert said(few).count("Arden") == 1
    assert "studies" not in said(few)
