"""One study is never the example of several: the range with its sizes and how many, the typical study where earned."""

from __future__ import annotations

from pathlib import Path

from demo import demo_built
from guide.cohorts import at, by_size, catalogue, last_seen
from guide.compendium import nothing_named, report, said
from passageproof.guide.question.situation import situation
from passageproof.results.findings.findings import Catalogue
from passageproof.results.values.document import ChoiceField, walk

ROOT = Path(__file__).parents[3]
QUESTION = "id: hole\ntitle: There is a hole\nsituation: [{factor: size, ask: How wide?}]\nfactors: [size]\n"
PAIRS = (((14, 25), (60, 69)), ((13, 20), (47, 52)), ((12, 16), (38, 42)), ((20, 28), (74, 82)), ((12, 17), (43, 49)))


def answers(made: Catalogue) -> dict[str, str]:
    fields = situation(made, made.evidence.questions["hole"], nothing_named).fields
    return {choice.value: said(choice.summary) for choice in fields[0].choices}


def made_of(pairs, time=None) -> Catalogue:
    files = [by_size(f"arden{2011 + number}", *pair, time=time) for number, pair in enumerate(pairs)]
    return catalogue(*files, question=QUESTION)


def test_several_that_share_time_and_reference_are_told_from_lowest_to_highest() -> None:
    told = answers(made_of(PAIRS[:3]))["large"]
    assert (
        "over 3 mm: 14 of 25 teeth to 12 of 16 teeth; up to 3 mm: 60 of 69 teeth to 38 of 42 teeth; at 24 months, "
        "3 studies, crude."
    ) in told
    assert "13 of 20" not in told
    assert "typical" not in told


def test_the_typical_study_stands_beside_the_range_where_it_is_earned() -> None:
    told = answers(made_of(PAIRS))["large"]
    assert "14 of 25 teeth to 12 of 16 teeth, the typical study 67.0% (95% CI 53.3% to 78.3%); up to 3 mm:" in told
    assert "at 24 months, 5 studies, crude." in told


def test_studies_at_another_time_are_named_and_not_mixed_in() -> None:
    files = [by_size(f"arden{2011 + number}", *pair) for number, pair in enumerate(PAIRS[:2])]
    other = by_size("bexley2019", (1, 9), (30, 33), time=last_seen())
    told = answers(catalogue(*files, other, question=QUESTION))["large"]
    assert "2 studies, crude; at another time, beside another reference or without counts: Bexley 2019." in told
    assert "1 of 9" not in told


def test_two_that_share_nothing_are_both_told() -> None:
    files = [by_size("arden2011", *PAIRS[0], time=at(12, 2)), by_size("bexley2012", *PAIRS[1], time=at(24, 2))]
    told = answers(catalogue(*files, question=QUESTION))["large"]
    assert "14 of 25 teeth; up to 3 mm: 60 of 69 teeth, at 12 months" in told
    assert "13 of 20 teeth; up to 3 mm: 47 of 52 teeth, at 24 months" in told


def test_of_many_that_share_nothing_none_stands_for_the_others() -> None:
    files = [by_size(f"arden{2011 + number}", *pair, time=last_seen(12 + number)) for number, pair in enumerate(PAIRS)]
    told = answers(catalogue(*files, question=QUESTION))["large"]
    assert (
        "they compare at different times or beside different references, so no range stands for them: Arden 2011"
        in told
    )
    assert " of 25 teeth" not in told


def test_where_no_range_stands_each_study_that_has_numbers_is_told_beside_one_that_has_none() -> None:
    files = [
        by_size(f"arden{2011 + number}", *pair, time=last_seen(12 + number)) for number, pair in enumerate(PAIRS[:3])
    ]
    silent = report(
        "corwen2020",
        "- {id: by-size, question: hole, factor: size, known_at: before, outcome: healed, reference: up to 3 mm, "
        "levels: [{level: over 3 mm, direction: not stated, stated: words only}], where: p. 3, follow_up: not reported}",
        "[p. 3] the width of the hole, up to 3 mm or over 3 mm, was looked at", study="corwen",
    )  # fmt: skip
    told = answers(catalogue(*files, silent, question=QUESTION))["large"]
    for own, other in ("14 of 25", "60 of 69"), ("13 of 20", "47 of 52"), ("12 of 16", "38 of 42"):
        assert f"{own} teeth; up to 3 mm: {other} teeth" in told
    assert "no range stands" not in told


def test_demo_answers_no_number_of_a_level_that_three_studies_counted_with_nothing() -> None:
    built = demo_built()
    assert built.guide is not None
    fields = [part for part in walk(built.guide.pages["broken-instrument/"]) if isinstance(part, ChoiceField)]
    (lesion,) = (choice for field in fields for choice in field.choices if choice.label == "lesion")
    for counts in ("37 of 54", "55 of 73"):
        assert counts in said(lesion.summary)


def test_groups_that_differed_in_one_of_several_are_told_with_the_range() -> None:
    files = [by_size(f"arden{2011 + number}", *pair) for number, pair in enumerate(PAIRS[:2])]
    files[1]["claims/arden2012.yaml"] = files[1]["claims/arden2012.yaml"].replace(
        "reference: up to 3 mm", "reference: up to 3 mm\n    differ_in: [wide holes were mostly in molars]", 1
    )
    told = answers(catalogue(*files, question=QUESTION))["large"]
    assert "2 studies, crude; at the start the groups differed: wide holes were mostly in molars." in told


def test_the_reference_too_is_told_as_a_range() -> None:
    told = answers(made_of(PAIRS[:3]))["small"]
    assert "healed: up to 3 mm: 60 of 69 teeth to 38 of 42 teeth, at 24 months, 3 studies" in told
    assert "47 of 52" not in told


def test_the_worst_of_seven_is_no_example_in_the_demo() -> None:
    built = demo_built()
    assert built.guide is not None
    told = said(built.guide.pages["root-perforation/"])
    assert "over 3 mm: 14 of 25 teeth (56%) to 12 of 16 teeth (75%), the typical study 67.0%" in told
    assert "at 24 months, 5 studies, crude; at the start the groups differed: wide holes were mostly in molars" in told
    # What stands with one answer as what the others are compared with is no single study either.
    assert "none: 44 of 56 teeth (79%) to 62 of 66 teeth (94%), the typical study 88.0%" in told
