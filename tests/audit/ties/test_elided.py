"""Levels of which a passage has the end once for both, lists behind all names, and tables that tell more by a line.

The ways of print are common practice of reports, no source; all figures are invented.
"""

from __future__ import annotations

import pytest

from .conftest import Asked
from .test_levels import FILES, claim, swapped

VOCABULARY = FILES["vocabulary.yaml"].replace(
    "outcomes:\n",
    """\
  extent: {title: Extent, role: treatment, levels: [{id: a, title: partial excision}, {id: b, title: full excision}]}
  jaw: {title: Place, role: prognostic, levels: [{id: a, title: upper eyelids}, {id: b, title: lower eyelids}]}
  smoking: {title: Smoking, role: prognostic, levels: [{id: a, title: current smoker}, {id: b, title: never smoked}]}
  hole: {title: Hole, role: prognostic, levels: [{id: a, title: perforation}, {id: b, title: no perforation}]}
  gauge: {title: Gauge, role: treatment, levels: [{id: a, title: 27-gauge}, {id: b, title: 30-gauge}]}
outcomes:
""",
)
OURS = {"vocabulary.yaml": VOCABULARY}
EXTENTS = [("partial excision", "44", "47"), ("full excision", "35", "49")]
LIDS = [("upper eyelids", "44", "47"), ("lower eyelids", "35", "49")]
GAUGES = [("27-gauge", "44", "47"), ("30-gauge", "35", "49")]
MATERIALS = [("MTA", "19", "54"), ("calcium hydroxide", "21", "55")]
SHORTENED = [
    ("extent", EXTENTS, "Healed were 44 of 47 after partial and 35 of 49 after full excision."),
    ("extent", EXTENTS, "Partial and full excision healed in 44 of 47 and 35 of 49, respectively."),
    ("extent", EXTENTS, "Excision was partial or full. Healed: partial 44 of 47, full 35 of 49."),
    ("extent", EXTENTS, "Excision | n | healed\n Partial | 47 | 44\n Full | 49 | 35"),
    ("jaw", LIDS, "44 of 47 upper and 35 of 49 lower eyelids healed."),
    ("jaw", LIDS, "Upper and lower eyelids healed in 44 of 47 and 35 of 49."),
    ("gauge", GAUGES, "With the 27- and 30-gauge needles 44/47 and 35/49 healed, respectively."),
    ("gauge", GAUGES, "27 versus 30 gauge: 44/47 vs. 35/49 healed"),
    ("gauge", GAUGES, "Between 27 gauge and 30 gauge needles healing was alike, 44 of 47 v. 35 of 49 holes (P = .2)."),
    (
        "material", MATERIALS,
        "Healing was seen in 12 of 58 with MTA as against 25 of 57 with calcium hydroxide at eight weeks, and no "
        "longer differed at 26 weeks (19 of 54 vs 21 of 55).",
    ),
]  # fmt: skip


@pytest.mark.parametrize(("factor", "levels", "passage"), SHORTENED)
def test_names_with_one_end_for_both_are_heard(
    open_problems: Asked, factor: str, levels: list[tuple[str, str, str]], passage: str
) -> None:
    assert open_problems(passage, claim(factor, *levels), files=OURS) == []
    problems = open_problems(passage, claim(factor, *swapped(levels)), files=OURS)
    assert "other-level" in {problem.rule for problem in problems}


def test_a_first_word_with_another_noun_is_no_level(open_problems: Asked) -> None:
    passage = "Excision was done. Healed: partial union in 44 of 47, full union in 35 of 49."
    problems = open_problems(passage, claim("extent", *EXTENTS), files=OURS)
    assert {problem.rule for problem in problems} == {"level-not-named"}


def ratio(factor: str, level: str, reference: str, value: str, interval: str) -> str:
    return (
        f"factor: {factor}\nknown_at: before\nreference: {reference}\ncontrast: {{measure: odds ratio, event: healed, "
        f"event_is: good, level: {level}, reference: {reference}, value: {value}, interval: {interval}, "
        "adjusted_for: not reported}"
    )


REFERENCES = [
    (
        "hole", "perforation", "no perforation", "2.74", "1.12 to 6.70",
        "Variable | Reference | OR | 95% CI\n Perforation | no perforation | 2.74 | 1.12 to 6.70\n Age | - | 1.19",
    ),
    (
        "smoking", "current smoker", "never smoked", "1.62", "1.15 to 2.28",
        "Odds ratio of healing (95% CI)\n               Model 1            Model 2\nCurrent        1.84 (1.33-2.55)   "
        "1.62 (1.15-2.28)\nNever smoked   1 (reference)      1 (reference)",
    ),
    (
        "size", "over 3 mm", "up to 3 mm", "2.64", "1.22 to 5.70",
        "Covariate            Crude OR (95% CI)     Adjusted OR (95% CI)\nHole over 3 mm       3.10 (1.52-6.31)     "
        "2.64 (1.22-5.70)\n  reference: up to 3 mm\nAge                  1.18 (0.95-1.46)      1.11 (0.89-1.39)",
    ),
]  # fmt: skip


@pytest.mark.parametrize(("factor", "level", "reference", "value", "interval", "passage"), REFERENCES)
def test_the_head_of_a_row_says_for_which_level_its_ratio_is(
    open_problems: Asked, factor: str, level: str, reference: str, value: str, interval: str, passage: str
) -> None:
    assert open_problems(passage, ratio(factor, level, reference, value, interval), files=OURS) == []
    (problem,) = open_problems(passage, ratio(factor, reference, level, value, interval), files=OURS)
    assert problem.rule == "ratio-direction"


def test_the_last_row_of_all_stands_below_no_section(open_problems: Asked) -> None:
    table = (
        "Eyes        n     healed   %\nWomen\n  young     84    77       91.7\n  old       61    52       85.2\nMen\n"
        "  young     70    55       78.6\n  old       30    20       66.7\nTotal       245   204      83.3"
    )
    own = "events: {}\ntotal: {}\nsuccess_rate: {}"
    assert open_problems(table, own.format(204, 245, "83.3%"), files=OURS) == []
    (problem,) = open_problems(table, own.format(20, 30, "66.7%"), files=OURS)[:1]
    assert problem.rule == "figure-of-a-part"


def test_shares_in_brackets_follow_from_their_counts(open_problems: Asked) -> None:
    table = "Healed\n   MTA (N = 54)   calcium hydroxide (N = 56)\n1 year   22 (40.7)   12 (21.4)\nValues are n (%)."
    levels = claim("material", ("MTA", "22", "54"), ("calcium hydroxide", "12", "56"))
    typed = levels.replace("total: 54", "total: 54, rate: 40.7%").replace("total: 56", "total: 56, rate: 21.4%")
    assert open_problems(table, typed, files=OURS) == []
    assert open_problems(table.replace("40.7", "47.0"), typed.replace("40.7", "47.0"), files=OURS)


def test_one_size_over_a_table_is_that_of_each_column(open_problems: Asked) -> None:
    table = "Score, mean (SD), n = 12\nDay | MTA | calcium hydroxide\n7 | 2.1 (0.5) | 2.4 (0.6)"
    rows = "".join(
        f"\n  - {{level: {level}, mean: {mean}, sd: {sd}, total: 12}}"
        for level, mean, sd in (("MTA", "2.1", "0.5"), ("calcium hydroxide", "2.4", "0.6"))
    )
    typed = f"factor: material\nknown_at: during\nreference: calcium hydroxide\nunit: points\nlevels:{rows}\n"
    assert open_problems(table, typed, files=OURS) == []


VISITS = FILES["vocabulary.yaml"].replace(
    "outcomes:\n",
    "  visits: {title: Visits, role: treatment, levels: [{id: a, title: one visit, synonyms: [single visit]}, "
    "{id: b, title: two visits, synonyms: [multiple visits]}]}\noutcomes:\n",
)
OF_VISITS = [("one visit", "39", "47"), ("two visits", "30", "45")]


@pytest.mark.parametrize(
    "passage",
    [
        "Single- and multiple-visit treatment healed in 39 of 47 and 30 of 45 teeth.",
        "1-visit: 39/47 healed; 2-visit: 30/45 healed.",
        "Healed after one visit 39 of 47, after two 30 of 45.",
    ],
)
def test_numbers_of_visits_are_names(open_problems: Asked, passage: str) -> None:
    files = {"vocabulary.yaml": VISITS}
    assert open_problems(passage, claim("visits", *OF_VISITS), files=files) == []
    problems = open_problems(passage, claim("visits", *swapped(OF_VISITS)), files=files)
    assert "other-level" in {problem.rule for problem in problems}


@pytest.mark.parametrize(
    ("factor", "levels", "passage"),
    [
        (
            "size", [("up to 3 mm", "39", "47"), ("over 3 mm", "30", "45")],
            "Size (mm)   n    Healed\n0-3   47   39\n>3   45   30",
        ),
        (
            "material", [("MTA", "39", "47"), ("calcium hydroxide", "30", "45")],
            "Teeth were in group A (MTA) or group B (calcium hydroxide). Healed at one year: A 39/47, B 30/45.",
        ),
    ],
)  # fmt: skip
def test_ranges_from_none_and_bare_labels_are_names(
    open_problems: Asked, factor: str, levels: list[tuple[str, str, str]], passage: str
) -> None:
    assert open_problems(passage, claim(factor, *levels), files=FILES) == []
    problems = open_problems(passage, claim(factor, *swapped(levels)), files=FILES)
    assert "other-level" in {problem.rule for problem in problems}
