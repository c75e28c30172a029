"""Means, deviations, medians and quartiles by level, proved in the ways in which journals print them.

The ways of print are common practice of reports, no source; all figures are invented.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest
from passageproof.proof.proof import Audit

VOCABULARY = """\
factors:
  material:
    title: Material
    role: treatment
    levels:
      - {id: mta, title: MTA}
      - {id: ca, title: calcium hydroxide}
outcomes:
  gain:
    title: bone gained
    construct: healing
    strictness: not applicable
    basis: film
    threshold: distance
    good: yes
"""
MEANS = (("MTA", "mean: 0.42, sd: 0.11, total: 18"), ("calcium hydroxide", "mean: 0.31, sd: 0.12, total: 19"))
MEDIANS = (("MTA", "median: 3, iqr: 1 to 5, total: 18"), ("calcium hydroxide", "median: 4, iqr: 2 to 6, total: 19"))

Said = Callable[..., list[str]]


@pytest.fixture
def said(audited: Callable[..., Audit], report_text: Callable[..., str]) -> Said:
    """What is said of levels quoted from a passage, as "rule: figure typed"."""

    def problems(passage: str, levels: tuple[tuple[str, str], ...] = MEANS, unit: str = "mm") -> list[str]:
        rows = "".join(f"\n  - {{level: {level}, {numbers}}}" for level, numbers in levels)
        claim = (
            "- id: c\n  question: hole\n  outcome: gain\n  where: p. 2\n  follow_up: not reported\n  factor: material\n"
            f"  known_at: during\n  reference: calcium hydroxide\n  unit: {unit}\n  levels:"
            + rows.replace("\n", "\n  ")
            + "\n"
        )
        files = {
            "vocabulary.yaml": VOCABULARY,
            "claims/x.yaml": report_text("x", claim),
            "sources/x.bib": f"@misc{{x, title={{T}}, annotation={{\n[p. 1] A series.\n[p. 2] {passage}\n}}}}\n",
        }
        return [
            f"{problem.rule}: {problem.message}" for problem in audited(files).problems
            if "claims/x.yaml" in problem.position.file
        ]  # fmt: skip

    return problems


PRINTED = [
    "Gain was 0.42 mm (SD 0.11; n = 18) with MTA and 0.31 mm (SD 0.12; n = 19) with calcium hydroxide.",
    "Bone gain (mm), mean ± SD, after 12 months: MTA 0.42 ± 0.11 (n = 18); calcium hydroxide 0.31 ± 0.12 (n = 19)",
    "Mean (SD) gain in mm: MTA 0.42 (0.11), n = 18; calcium hydroxide 0.31 (0.12), n = 19.",
    "The mean gain was 0.42 (SD 0.11) mm with MTA (n = 18) and 0.31 (0.12) mm with calcium hydroxide (n = 19).",
    "MTA: mean 0.42 mm, standard deviation 0.11, n = 18. Calcium hydroxide: mean 0.31 mm, standard deviation 0.12, "
    "n = 19.",
    r"Gain: MTA $0.42 \pm 0.11$ mm ($n = 18$); calcium hydroxide $0.31 \pm 0.12$ mm ($n = 19$)",
    "Material | n | Mean (mm) | SD\n    MTA | 18 | 0.42 | 0.11\n    calcium hydroxide | 19 | 0.31 | 0.12",
    "Material | n | Gain (mm), mean (SD)\n    MTA | 18 | 0.42 (0.11)\n    calcium hydroxide | 19 | 0.31 (0.12)",
    "Material | n | Gain (mm)\n    MTA | 18 | 0.42 ± 0.11\n    calcium hydroxide | 19 | 0.31 ± 0.12",
]
IDS = ["brackets", "plus or minus", "heading", "SD once", "words", "tex", "columns", "cells", "cells with a sign"]


@pytest.mark.parametrize("passage", PRINTED, ids=IDS)
def test_means_are_proved_as_journals_print_them(said: Said, passage: str) -> None:
    assert said(passage) == []


@pytest.mark.parametrize("passage", PRINTED, ids=IDS)
@pytest.mark.parametrize(
    ("right", "wrong"),
    [("mean: 0.42", "mean: 0.43"), ("sd: 0.11", "sd: 0.21"), ("mean: 0.31", "mean: 0.13"), ("sd: 0.12", "sd: 0.10")],
)
def test_a_wrong_digit_of_a_mean_or_deviation_is_caught(said: Said, passage: str, right: str, wrong: str) -> None:
    levels = tuple((level, numbers.replace(right, wrong)) for level, numbers in MEANS)
    (problem,) = said(passage, levels)
    assert f'"{wrong.partition(": ")[2]}" is not in the passage typed from p. 2' in problem


@pytest.mark.parametrize("passage", PRINTED, ids=IDS)
def test_levels_exchanged_are_asked_about(said: Said, passage: str) -> None:
    levels = ((MEANS[0][0], MEANS[1][1]), (MEANS[1][0], MEANS[0][1]))
    assert {problem.partition(":")[0] for problem in said(passage, levels)} == {"other-level"}


@pytest.mark.parametrize("passage", [each for each in PRINTED if "|" not in each])
def test_a_mean_and_its_deviation_exchanged_are_caught(said: Said, passage: str) -> None:
    levels = (("MTA", "mean: 0.11, sd: 0.42, total: 18"), MEANS[1])
    assert said(passage, levels)


@pytest.mark.parametrize(
    "passage",
    [
        "Gain had a median of 3 (IQR 1 to 5) with MTA (n = 18) and of 4 (IQR 2 to 6) with calcium hydroxide (n = 19).",
        "Median (interquartile range): MTA 3 (1–5), n = 18; calcium hydroxide 4 (2–6), n = 19",
        "Median gain was 3 [1 to 5] with MTA (n = 18) and 4 [2 to 6] with calcium hydroxide (n = 19).",
    ],
)
def test_medians_are_proved_with_their_quartiles(said: Said, passage: str) -> None:
    assert said(passage, MEDIANS, "points") == []
    for right, wrong in (("median: 3", "median: 2"), ("1 to 5", "0 to 5"), ("2 to 6", "2 to 5")):
        assert said(passage, tuple((level, numbers.replace(right, wrong)) for level, numbers in MEDIANS), "points")


def test_a_range_is_no_interquartile_range(said: Said) -> None:
    passage = "Median 3 (range 1 to 5) with MTA (n = 18) and median 4 (range 2 to 6) with calcium hydroxide (n = 19)."
    assert said(passage, MEDIANS, "points")


@pytest.mark.parametrize(
    "passage",
    [
        "Gain, mean ± SE: MTA 0.42 ± 0.11 mm (n = 18); calcium hydroxide 0.31 ± 0.12 mm (n = 19)",
        "Mean 0.42 mm (SE 0.11; n = 18) with MTA and 0.31 mm (SE 0.12; n = 19) with calcium hydroxide.",
        "Mean 0.42 mm (standard error 0.11; n = 18) with MTA and 0.31 mm (standard error 0.12; n = 19) with calcium "
        "hydroxide.",
    ],
)
def test_a_standard_error_is_no_deviation(said: Said, passage: str) -> None:
    found = said(passage)
    assert len(found) == 2
    assert all("calls it a standard error" in each for each in found)


@pytest.mark.parametrize(
    ("unit", "printed", "count"),
    [("points", "points", 0), ("points on a scale of 0 to 10", "points", 0), ("mm", "mm", 0), ("mm", "cm", 2),
     ("points", "mm", 2), ("minute", "minutes", 0), ("minute", "mm", 2), ("%", "%", 0)],
)  # fmt: skip
def test_a_mean_is_in_the_unit_of_the_claim(said: Said, unit: str, printed: str, count: int) -> None:
    passage = (
        f"Mean 0.42 {printed} (SD 0.11; n = 18) with MTA and mean 0.31 {printed} (SD 0.12; n = 19) with calcium "
        "hydroxide."
    )
    assert len(said(passage, MEANS, f'"{unit}"')) == count


def test_the_proofs_have_the_unit_that_the_public_interface_names(
    audited: Callable[..., Audit], report_text: Callable[..., str]
) -> None:
    claim = """
    - id: c
      question: hole
      outcome: gain
      where: p. 2
      follow_up: not reported
      factor: material
      known_at: during
      reference: not reported
      unit: mm
      levels: [{level: MTA, mean: 0.42, sd: 0.11, total: 18}]
    """
    files = {
        "vocabulary.yaml": VOCABULARY,
        "claims/x.yaml": report_text("x", claim),
        "sources/x.bib": "@misc{x, title={T}, annotation={[p. 1] A. [p. 2] 0.42 ± 0.11 mm with MTA (n = 18)}}\n",
    }
    proofs = audited(files).proofs
    assert {name: proofs[f"x/c/mta/{name}"].unit for name in ("mean", "sd", "total")} == {
        "mean": "mm", "sd": "mm", "total": "tooth",
    }  # fmt: skip


@pytest.mark.parametrize(
    ("passage", "unit"),
    [
        ("Bond was 0.42 (SD 0.11) MPa in MTA (n = 18) and 0.31 (SD 0.12) MPa in calcium hydroxide (n = 19).", "MPa"),
        (
            "Bone measured was 0.42 ± 0.11 mm³ (mean ± SD) in 18 teeth with MTA and 0.31 ± 0.12 mm³ in 19 with calcium "
            "hydroxide.", "mm³",
        ),
    ],
)  # fmt: skip
def test_a_unit_behind_the_deviation_is_that_of_the_mean(said: Said, passage: str, unit: str) -> None:
    assert said(passage, unit=unit) == []
    assert said(passage.replace(unit, "kg"), unit=unit)


HOURS = (("MTA", "mean: 11.4, sd: 5.2, total: 18"), ("calcium hydroxide", "mean: 17.9, sd: 7.7, total: 19"))
IN_HOURS = (
    "The mean (SD) gain was 11.4 (5.2) {} with MTA (n = 18) and 17.9 (7.7) {} with calcium hydroxide (n = 19).",
    "The mean gain was 11.4 {} (SD 5.2) with MTA (n = 18) and 17.9 {} (SD 7.7) with calcium hydroxide (n = 19).",
    "Gain | n | Mean | SD\nMTA | 18 | 11.4 {} | 5.2\ncalcium hydroxide | 19 | 17.9 {} | 7.7",
)


@pytest.mark.parametrize("passage", IN_HOURS)
@pytest.mark.parametrize("typed", ["hours", "hour", "h"])
def test_hours_are_proved_as_they_are_printed(said: Said, passage: str, typed: str) -> None:
    for printed in ("hours", "h"):
        assert said(passage.format(printed, printed), HOURS, typed) == []


@pytest.mark.parametrize("passage", IN_HOURS)
def test_hours_prove_no_other_unit_and_no_other_unit_hours(said: Said, passage: str) -> None:
    assert said(passage.format("minutes", "minutes"), HOURS, "hours") != []
    assert said(passage.format("hours", "hours"), HOURS, "minute") != []
    assert said(passage.format("hours", "hours").replace("11.4", "11.40"), HOURS, "hours") != []


def test_quartiles_and_whole_days_of_hours_are_proved(said: Said) -> None:
    passage = (
        "Median gain was 24 hours (IQR 8 to 48 hours) with MTA (n = 18) and 30 hours (IQR 9.5 to 40 hours) with "
        "calcium hydroxide (n = 19)."
    )
    medians = (
        ("MTA", "median: 24, iqr: 8 to 48, total: 18"), ("calcium hydroxide", "median: 30, iqr: 9.5 to 40, total: 19"),
    )  # fmt: skip
    assert said(passage, medians, "hours") == []


ROWS = ("mean (SD)", "Gain, mean (SD)", "Gain in mm, mean (SD)")


@pytest.mark.parametrize("head", ROWS)
def test_the_second_number_of_each_cell_of_a_row_is_its_deviation(said: Said, head: str) -> None:
    table = f"Bone gained | MTA | calcium hydroxide\nn | 18 | 19\n{head} | 0.42 (0.11) | 0.31 (0.12)"
    assert said(table) == []
    swapped = (MEANS[0], ("calcium hydroxide", "mean: 0.12, sd: 0.31, total: 19"))
    assert said(table, swapped) != []
