"""A figure of some, typed by `given` or `within` for those whose figure stands beside it.

The ways of print are common practice of reports, no source; all figures are invented.
"""

from __future__ import annotations

import pytest

from .conftest import Asked

FILES = {
    "vocabulary.yaml": """\
factors:
  material:
    {title: Material, role: treatment, levels: [{id: mta, title: MTA}, {id: ca, title: calcium hydroxide}]}
  kind:
    title: Tooth
    role: prognostic
    levels: [{id: m, title: molar, synonyms: [molars]}, {id: p, title: premolar, synonyms: [premolars]}]
outcomes:
  healed: {title: healed, construct: success, strictness: not reported, basis: film, threshold: normal, good: yes}
"""
}
RATIO = """\
factor: material
known_at: during
reference: calcium hydroxide
{0}
contrast:
  {{measure: odds ratio, event: healed, event_is: good, level: MTA, reference: calcium hydroxide, value: {1},
   adjusted_for: not reported}}
"""
RATIOS = [
    "MTA against calcium hydroxide gave an OR of 3.9 in molars and an OR of 1.2 in premolars.",
    "MTA against calcium hydroxide: OR 3.9 for molars and OR 1.2 for premolars.",
    "The OR of MTA against calcium hydroxide was 3.9 in molars and 1.2 in premolars.",
    "MTA against calcium hydroxide: OR 3.9 (95% CI 1.5 to 9.8) in molars, OR 1.2 (95% CI 0.7 to 2.1) in premolars.",
    "For healing with MTA against calcium hydroxide there was an OR of 3.9 among the molars, but 1.2 among premolars.",
]


BEFORE = [
    "MTA against calcium hydroxide: the odds ratio of healing was in molars 3.9 and in premolars 1.2.",
    "For MTA against calcium hydroxide the OR was, in molars, 3.9 and, in premolars, 1.2.",
    "MTA against calcium hydroxide: for molars OR 3.9 and for premolars OR 1.2.",
    "Among molars MTA against calcium hydroxide had an OR of 3.9, among premolars of 1.2.",
    "MTA against calcium hydroxide, OR: in molars, 3.9 (95% CI 1.4 to 10.9); in premolars, 1.2 (95% CI 0.6 to 2.4).",
]


@pytest.mark.parametrize("field", ["given: {0}s", "within: [{{factor: kind, level: {0}}}]"])
@pytest.mark.parametrize("passage", [*RATIOS, *BEFORE])
def test_a_ratio_of_another_part_is_asked_about(open_problems: Asked, passage: str, field: str) -> None:
    for of, value in (("molar", "3.9"), ("premolar", "1.2")):
        for typed in ("molar", "premolar"):
            claim = RATIO.format(field.format(typed), value)
            found = {each.rule for each in open_problems(passage, claim, files=FILES)}
            asked = found & {"figure-of-another-part", "other-level"}
            assert bool(asked) == (of != typed), (of, typed, found)
            assert found == asked


@pytest.mark.parametrize("passage", BEFORE)
def test_a_ratio_of_a_part_is_none_of_all(open_problems: Asked, passage: str) -> None:
    found = {each.rule for each in open_problems(passage, RATIO.format("", "3.9"), files=FILES)}
    assert found == {"figure-of-a-part"}


COUNTS = [
    "Healing was seen in 38/46 without and 22/34 with a large lesion.",
    "With a large lesion 22/34 healed, without 38/46.",
    "With a large lesion 22/34 healed, without one 38/46.",
    "Teeth with a large lesion healed in 22/34, those without in 38/46.",
    "38/46 without a large lesion healed, but 22/34 with one.",
    "Healed: with large lesion 22/34, without 38/46.",
    "Where a large lesion was present 22/34 healed, where it was absent 38/46.",
    "Healing was seen in 22/34 with and 38/46 without a large lesion.",
    "Of the teeth, 22/34 (65%) with and 38/46 (83%) without a large lesion healed.",
    "Healing was seen in 22 of 34 teeth with and in 38 of 46 teeth without a large lesion.",
    "The tooth healed in 22 of 34 with a large lesion and in 38 of 46 without one.",
]


@pytest.mark.parametrize("passage", COUNTS)
def test_a_count_of_those_with_is_none_of_those_without(open_problems: Asked, passage: str) -> None:
    for of, counts in (("with", (22, 34)), ("without", (38, 46))):
        for typed in ("with", "without"):
            claim = "events: {}\ntotal: {}\n".format(*counts) + f"given: teeth {typed} a large lesion"
            found = [each.rule for each in open_problems(passage, claim, files=FILES)]
            assert found == ([] if of == typed else ["figure-of-another-part"]), (of, typed)


SILENT = {
    "no word of another": ("In 22/34 in molars and 38/46 in premolars.", "given: teeth seen at two years"),
    "the same figure twice": ("Healing: 22/34 in molars and 22/34 in premolars.", "given: premolars"),
    "one alone": ("Healing was seen in 22/34 in cracked teeth.", "given: premolars of adults"),
}


@pytest.mark.parametrize(("passage", "given"), SILENT.values(), ids=SILENT)
def test_words_of_other_parts_alone_say_nothing(open_problems: Asked, passage: str, given: str) -> None:
    found = open_problems(passage, f"events: 22\ntotal: 34\n{given}", files=FILES)
    assert "figure-of-another-part" not in {each.rule for each in found}
