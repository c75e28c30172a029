"""A figure of some, where the passage has that of all beside it, and one of all typed for some.

The ways of print are common practice of reports, no source; all figures are invented.
"""

from __future__ import annotations

import pytest

from .conftest import Asked

VOCABULARY = """\
factors:
  lesion:
    title: Lesion
    role: prognostic
    levels: [{id: "yes", title: with a lesion}, {id: "no", title: without a lesion}]
  tooth:
    title: Kind of tooth
    role: prognostic
    levels: [{id: molar, title: molars}, {id: premolar, title: premolars}]
  material: {title: Material, role: treatment, levels: [{id: mta, title: MTA}, {id: ca, title: calcium hydroxide}]}
outcomes:
  healed: {title: healed, construct: success, strictness: strict, basis: film, threshold: normal space, good: yes}
"""
FILES = {"vocabulary.yaml": VOCABULARY}
SOME = "events: 22\ntotal: 34"
ALL = "events: 60\ntotal: 80"

BESIDE_ALL = {
    "among": "Among the 34 with diabetes 22 healed; overall 60 of 80 healed.",
    "of them": "Of the 34 teeth with a crown 22 healed; overall 60 of 80 teeth healed.",
    "two sentences": "Of 34 cracked teeth 22 healed. In the whole series 60 of 80 healed.",
    "included": "Overall 60 of 80 teeth healed, including 22 of 34 with a crown.",
    "but only": "Overall 60 of 80 teeth healed, but only 22 of 34 among cracked teeth.",
    "whereas": "Success was 75% (60/80) overall, whereas in cracked teeth it was 65% (22/34).",
    "and": "The success rate was 75% (60/80) for the whole sample and 65% (22/34) for cracked teeth.",
    "of which": "Healing was seen in 60 of 80 teeth (75%), of which the cracked teeth fared less well (22 of 34, 65%).",
    "in all": "In all, 60 of 80 teeth healed; cracked teeth did so in 22 of 34.",
    "subject": "The overall success rate was 75% (60/80). Teeth with a post had a rate of 65% (22/34).",
    "where": "Of 80 teeth 60 healed; the rate was lowest when a post had been placed (22 of 34).",
    "row": "Teeth | healed/n\n Cracked | 22/34\n Sound | 38/46\n All | 60/80",
    "row of counts": "Teeth | n | healed\n Cracked | 34 | 22\n Sound | 46 | 38\n Total | 80 | 60",
    "column": "  | Cracked | Sound | Total\n n | 34 | 46 | 80\n healed | 22 | 38 | 60",
    "section": "Outcome | n/N\nCracked teeth\nHealed | 22/34\nAll teeth\nHealed | 60/80",
}


@pytest.mark.parametrize("passage", BESIDE_ALL.values(), ids=BESIDE_ALL)
def test_a_figure_of_some_beside_that_of_all_is_asked_about(open_problems: Asked, passage: str) -> None:
    (asked,) = open_problems(passage, SOME, files=FILES)
    assert (asked.rule, asked.severity, asked.position.line) == ("figure-of-a-part", "ask", 17)
    assert not open_problems(passage, ALL, files=FILES)
    assert not open_problems(passage, SOME + "\ngiven: this part of the teeth", files=FILES)


NO_PART = {
    "seen": "Overall 80 of 90 teeth were followed. At two years 22 of 34 teeth with a recall on film healed.",
    "kept": "Of 80 teeth in the series, 60 were kept. Of those with a recall at five years, 22 of 34 healed.",
    "treated": "In total, 60 of 80 eligible teeth were treated; in this cohort 22 of 34 healed.",
    "another cohort": "In an earlier cohort 60 of 80 teeth healed. In this material, 22 of 34 root-filled teeth did.",
    "grades": "Outcome | n\n Intact | 22\n Chipped | 12\n Total | 34",
    "visits": "Visit | healed/n\n 6 months | 22/34\n All visits | 60/80",
}


@pytest.mark.parametrize("passage", NO_PART.values(), ids=NO_PART)
def test_those_seen_or_treated_are_no_part(open_problems: Asked, passage: str) -> None:
    assert not open_problems(passage, SOME, files=FILES)


MOLARS = "within: [{factor: tooth, level: molars}]"
OF_ALL = {
    "prose": "In all teeth 60 of 80 healed, in molars 22 of 34.",
    "overall": "Overall, 60 of 80 teeth healed; of the molars 22 of 34 did.",
    "row": "Tooth | n | healed\n molars | 34 | 22\n premolars | 46 | 38\n Total | 80 | 60",
    "shares": "The rate was 75% (60/80) overall and 65% (22/34) in molars.",
}


@pytest.mark.parametrize("passage", OF_ALL.values(), ids=OF_ALL)
def test_a_figure_of_all_typed_for_some_is_asked_about(open_problems: Asked, passage: str) -> None:
    asked = open_problems(passage, f"{MOLARS}\n{ALL}", files=FILES)
    assert {each.rule for each in asked} == {"other-level"}
    assert not open_problems(passage, f"{MOLARS}\n{SOME}", files=FILES)
    assert not open_problems(passage, ALL, files=FILES)


SECTIONS = """\
Healed by lesion
Group | n | healed
All teeth
with a lesion | 80 | 60
without a lesion | 70 | 66
Molars
with a lesion | 40 | 22
without a lesion | 30 | 28
"""
BY_LESION = """\
factor: lesion
known_at: before
reference: without a lesion
levels:
  - {{level: with a lesion, events: {}, total: {}}}
  - {{level: without a lesion, events: {}, total: {}}}
"""


def test_levels_of_the_section_of_all_are_not_those_of_another(open_problems: Asked) -> None:
    of_all, of_molars = BY_LESION.format(60, 80, 66, 70), BY_LESION.format(22, 40, 28, 30)
    assert not open_problems(SECTIONS, of_all, files=FILES)
    assert not open_problems(SECTIONS, f"{MOLARS}\n{of_molars}", files=FILES)
    assert {each.rule for each in open_problems(SECTIONS, of_molars, files=FILES)} == {"figure-of-a-part"}
    assert {each.rule for each in open_problems(SECTIONS, f"{MOLARS}\n{of_all}", files=FILES)} == {"other-level"}


POOLS = {
    "restricted": (
        "Pooled from 12 studies, 88% healed (95% CI 84% to 91%). Restricted to the five studies of cracked teeth, the "
        "pooled rate was 79% (95% CI 70% to 86%)."
    ),
    "only": (
        "Overall pooled success 88% (84% to 91%, 12 studies); prospective studies only, 79% (70% to 86%, 5 studies)."
    ),
    "kind": "The pooled success was 88% (84% to 91%; 12 studies); in molars it was 79% (70% to 86%; 5 studies).",
}


@pytest.mark.parametrize("passage", POOLS.values(), ids=POOLS)
def test_a_pool_of_some_studies_typed_for_all_is_asked_about(open_problems: Asked, passage: str) -> None:
    some, every = (
        f"pooled: {{studies: {studies}}}\nrate: {rate}\ninterval: {ends}"
        for studies, rate, ends in ((5, "79%", "70% to 86%"), (12, "88%", "84% to 91%"))
    )
    assert {each.rule for each in open_problems(passage, some, files=FILES)} == {"figure-of-a-part"}
    assert not open_problems(passage, every, files=FILES)


RATIO = """\
factor: material
known_at: during
reference: calcium hydroxide
contrast: {{measure: odds ratio, value: {}, interval: {}, level: MTA, reference: calcium hydroxide, event: healed,
           event_is: good, adjusted_for: not reported}}
"""
OF_AGES = (
    "Healing was likelier with MTA than with calcium hydroxide (odds ratio 2.2, 95% CI 1.3 to 3.7). In patients over "
    "60 the odds ratio, MTA against calcium hydroxide, was 3.9 (95% CI 1.7 to 8.9)."
)


def test_a_ratio_of_some_ages_typed_for_all_is_asked_about(open_problems: Asked) -> None:
    (asked,) = open_problems(OF_AGES, RATIO.format("3.9", "1.7 to 8.9"), files=FILES)
    assert asked.rule == "figure-of-a-part"
    assert not open_problems(OF_AGES, RATIO.format("2.2", "1.3 to 3.7"), files=FILES)
