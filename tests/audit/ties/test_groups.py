"""A figure of a part of those studied, typed for all of them, in each of the ways in which journals print parts.

The ways of print are common practice of reports, no source; all figures are invented.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest

from .conftest import STUDY, Asked

VOCABULARY = """\
factors:
  material:
    title: Material
    role: treatment
    levels: [{id: mta, title: MTA}, {id: ca, title: calcium hydroxide}]
  lesion:
    title: Lesion
    role: prognostic
    levels:
      - {id: "yes", title: lesion, synonyms: [with a lesion]}
      - {id: "no", title: no lesion, synonyms: [without a lesion]}
  sex:
    title: Sex
    role: prognostic
    levels: [{id: women, title: women}, {id: men, title: men}]
outcomes:
  healed: {title: healed, construct: success, strictness: strict, basis: film, threshold: normal space, good: yes}
  kept: {title: kept, construct: survival, strictness: not applicable, basis: seen, threshold: in place, good: yes}
"""
FILES = {"vocabulary.yaml": VOCABULARY}


def rate(counts: str, more: str = "") -> str:
    """A claim with "39 of 47"."""
    events, _, total = counts.partition(" of ")
    return f"events: {events}\ntotal: {total}\n{more}"


PARTS = {
    "women and men": ("In women, 12 of 15 teeth healed; in men, 16 of 25 healed.", ["12 of 15", "16 of 25"]),
    "smokers alone": ("Among smokers 9 of 19 teeth (47%) healed.", ["9 of 19"]),
    "words behind": ("Twelve of 15 teeth in women and 16 of 25 in men healed.", ["12 of 15", "16 of 25"]),
    "respectively": (
        "Healing in women and men was 12 of 15 and 16 of 25, respectively.", ["12 of 15", "16 of 25"],
    ),
    "diabetics": ("In diabetic patients 9 of 14 healed, in non-diabetic patients 30 of 33.", ["9 of 14", "30 of 33"]),
    "children": ("Children healed in 12 of 15 cases, adults in 30 of 40.", ["12 of 15", "30 of 40"]),
    "a kind beside all": ("Success in all teeth 112/134; in molars 61/78.", ["61 of 78"]),
    "kinds beside overall": (
        "Success was 112/134 overall, 61/78 in molars and 51/56 in premolars.", ["61 of 78", "51 of 56"],
    ),
    "kinds in brackets": (
        "Of the 47 teeth 39 healed (molars 20 of 25, premolars 19 of 22).", ["20 of 25", "19 of 22"],
    ),
    "counts in brackets": (
        "The success in molars (61/78, 78%) was below that in premolars (51/56, 91%).", ["61 of 78", "51 of 56"],
    ),
    "a level of the vocabulary": (
        "In teeth with a lesion 30 of 44 healed; in teeth without a lesion 65 of 76 did.", ["30 of 44", "65 of 76"],
    ),
    "a treatment": ("With MTA 39 of 47 healed, with calcium hydroxide 30 of 45.", ["39 of 47", "30 of 45"]),
    "rows": (
        "Group | Healed/total\n all teeth | 95/120\n initial treatments | 65/76\n retreatments | 30/44",
        ["65 of 76", "30 of 44"],
    ),
    "columns": ("Outcome | women | men | all\n healed | 12 of 15 | 16 of 25 | 28 of 40", ["12 of 15", "16 of 25"]),
    "another dentition": ("In primary molars 12 of 15 healed.", ["12 of 15"]),
}  # fmt: skip


@pytest.mark.parametrize(("passage", "counts"), PARTS.values(), ids=PARTS)
def test_a_figure_of_a_part_typed_for_all_is_asked_about(open_problems: Asked, passage: str, counts: list[str]) -> None:
    for count in counts:
        # Of primary molars the study's own dentition is asked about as well.
        found = [each for each in open_problems(passage, rate(count), files=FILES) if each.rule != "fact-otherwise"]
        (asked,) = found
        assert (asked.rule, asked.severity, asked.position.line) == ("figure-of-a-part", "ask", 17)
        given = open_problems(passage, rate(count, "given: this part of the teeth"), files=FILES)
        assert "figure-of-a-part" not in {each.rule for each in given}


def test_the_question_names_the_part_and_what_to_paste(open_problems: Asked) -> None:
    passage = "In women, 12 of 15 teeth healed; in men, 16 of 25 healed."
    (asked,) = open_problems(passage, rate("12 of 15"), files=FILES)
    assert asked.message == (
        '"12 of 15": the passage typed from p. 2 (evidence/sources/x.bib:4) gives it to a part: "women", the claim, '
        "without `within` and `given`, to all; which is meant?"
    )
    assert "within: [{factor: sex, level: women}]" in asked.hint
    within = "within: [{factor: sex, level: women}]"
    assert open_problems(passage, rate("12 of 15", within), files=FILES) == []
    (swapped,) = open_problems(passage, rate("16 of 25", within), files=FILES)
    assert swapped.rule == "other-level"


def test_another_part_may_stand_in_another_passage(open_problems: Asked) -> None:
    mta, other = "[p. 2] MTA, healed: 39 of 47", "[p. 3] calcium hydroxide, healed: 30 of 45"
    (asked,) = open_problems(f"{mta}\n{other}", rate("39 of 47"), files=FILES)
    assert asked.rule == "figure-of-a-part"
    assert open_problems(f"{mta}\n[p. 3] calcium hydroxide was the dressing", rate("39 of 47"), files=FILES) == []
    assert open_problems(mta, rate("39 of 47"), files=FILES) == []


def test_an_estimate_of_people_of_some_ages_is_asked_about(open_problems: Asked) -> None:
    claim = (
        "outcome: kept\nestimate: {{kind: survival, at: 5 years, value: {}, from: treatment}}\n"
        "follow_up: not applicable\n"
    )
    passage = "Survival at 5 years was 90% overall and 96% in patients younger than 40 years."
    assert open_problems(passage, claim.format("90%"), files=FILES) == []
    (asked,) = open_problems(passage, claim.format("96%"), files=FILES)
    assert asked.rule == "figure-of-a-part"
    assert "given: patients younger than 40 years" in asked.hint
    young = STUDY.replace("permanent}", "permanent, age: under 40 years}")
    assert open_problems(passage, claim.format("96%"), young, FILES) == []


MORE = VOCABULARY.replace(
    "outcomes:",
    """\
  place:
    title: Place
    role: prognostic
    levels: [{id: mol, title: molar, synonyms: [molars]}, {id: pre, title: premolar, synonyms: [premolars]}]
  jaw: {title: Jaw, role: prognostic, levels: [{id: up, title: upper}, {id: down, title: lower}]}
  visits: {title: Visits, role: treatment, levels: [{id: one, title: one visit}, {id: two, title: two visits}]}
  operator: {title: Operator, role: prognostic, levels: [{id: st, title: students}, {id: de, title: dentists}]}
outcomes:""",
)
ALONE = [
    "Molars: 39 of 47 healed.",
    "In molars 39 of 47 healed.",
    "Healing in molars was 39 of 47.",
    "Premolars healed in 39 of 47 cases.",
    "Of the molars, 39 of 47 healed.",
    "In upper teeth 39 of 47 healed.",
    "Women: 39 of 47 healed.",
    "Of the women, 39 of 47 healed.",
    "Among teeth with a lesion, 39 of 47 healed.",
    "Of the teeth with a lesion, 39 of 47 healed.",
    "In the MTA group, 39 of 47 healed.",
    "After one visit, 39 of 47 healed.",
    "Teeth treated by students healed in 39 of 47 cases.",
    "In patients over 60 years, 39 of 47 healed.",
]
ALL = [
    "Healing with MTA: 39 of 47.",
    "MTA: 39 of 47 healed.",
    "Thirty-nine of 47 teeth repaired with MTA healed.",
    "Lesions healed in 39 of 47 teeth.",
    "No lesion was left in 39 of 47 teeth, which had healed.",
    "Teeth filled in one visit healed in 39 of 47 cases.",
    "In molars and premolars together 39 of 47 healed.",
    "In both women and men 39 of 47 healed.",
    "After two visits of instruction 39 of 47 healed.",
]


@pytest.mark.parametrize("passage", ALONE)
def test_a_part_named_alone_is_asked_about_unless_it_is_all_that_was_studied(
    open_problems: Asked, passage: str
) -> None:
    files = {"vocabulary.yaml": MORE}
    (asked,) = open_problems(passage, rate("39 of 47"), files=files)
    assert asked.rule == "figure-of-a-part"
    assert open_problems(passage, rate("39 of 47", "given: this part of the teeth"), files=files) == []


@pytest.mark.parametrize("passage", ALL)
def test_words_beside_all_that_were_studied_are_no_part(open_problems: Asked, passage: str) -> None:
    assert open_problems(passage, rate("39 of 47"), files={"vocabulary.yaml": MORE}) == []


def test_a_part_that_the_study_or_another_passage_has_as_all_is_none(open_problems: Asked) -> None:
    files = {"vocabulary.yaml": MORE}
    molars = STUDY.replace("permanent}", "permanent, teeth: molars}")
    assert open_problems("In molars 39 of 47 healed.", rate("39 of 47"), molars, files) == []
    passages = "[p. 1] All teeth were molars.\n[p. 2] In molars 39 of 47 healed."
    assert open_problems(passages, rate("39 of 47"), files=files) == []


CENTRES = "The three centres saw 148 of 175 teeth healed. In the university centre alone, 57 of 63 healed."
SAYING_ALL = [
    "all teeth of the three centres", "all teeth", "all randomised", "all teeth randomised, by intention to treat",
    "every tooth treated", "the whole series", "all teeth as randomised, missing teeth counted as failures",
]  # fmt: skip
SAYING_SOME = [
    "teeth of the university centre",
    "all teeth of one centre",
    "all teeth that were recalled",
    "one centre",
]


@pytest.mark.parametrize("given", SAYING_ALL)
def test_a_figure_of_a_part_given_as_of_all_is_asked_about(open_problems: Asked, given: str) -> None:
    (asked,) = open_problems(CENTRES, rate("57 of 63", f"given: {given}"), files=FILES)
    assert asked.rule == "figure-of-a-part"
    assert "the claim, by its `given:" in asked.message
    assert open_problems(CENTRES, rate("148 of 175", f"given: {given}"), files=FILES) == []


@pytest.mark.parametrize("given", SAYING_SOME)
def test_a_given_of_some_says_whose_a_figure_is(open_problems: Asked, given: str) -> None:
    assert open_problems(CENTRES, rate("57 of 63", f"given: {given}"), files=FILES) == []


def test_all_of_a_part_are_a_part(open_problems: Asked) -> None:
    for given in ("all women", "all female patients", "all teeth in women", "all teeth, women only"):
        assert open_problems("In women, 12 of 15 teeth healed.", rate("12 of 15", f"given: {given}"), files=FILES) == []


WHOLES = {
    "the whole beside a part": ("Success in all teeth 112/134; in molars 61/78.", "112 of 134"),
    "the whole behind parts": ("In women 12 of 15 and in men 16 of 25 healed, 28 of 40 in all.", "28 of 40"),
    "the whole before a bracket": ("Of the 47 teeth 39 of 47 healed (women 20 of 25, men 19 of 22).", "39 of 47"),
    "the row of all": ("Sex | Healed\n women | 12 of 15\n men | 16 of 25\n total | 28 of 40", "28 of 40"),
    "only molars": ("Thirty-nine of 47 molars healed.", "39 of 47"),
    "in molars, no others": ("In molars 39 of 47 healed.", "39 of 47"),
    "who they were": ("39 of 47 teeth in 20 women and 15 men healed.", "39 of 47"),
    "both alike": ("In women as in men, 39 of 47 teeth healed.", "39 of 47"),
    "no difference": ("Healing did not differ between women and men; 39 of 47 teeth healed.", "39 of 47"),
    "who treated them": ("Women treated the teeth, and 39 of 47 healed.", "39 of 47"),
    "what was left out": ("Excluding molars, 39 of 47 teeth healed.", "39 of 47"),
    "a finding": ("At 1 year no lesion was visible in 39 of 47 teeth; a lesion persisted in 8 of 47.", "39 of 47"),
    "the ages of all": ("In patients aged 18 to 65 years 39 of 47 teeth healed.", "39 of 47"),
    "in these": ("[p. 1] 37 women took part.\n[p. 2] 39 of 47 teeth healed in these women.", "39 of 47"),
    "women alone were studied": ("[p. 1] 37 women took part.\n[p. 2] In women, 39 of 47 teeth healed.", "39 of 47"),
}


@pytest.mark.parametrize(("passage", "count"), WHOLES.values(), ids=WHOLES)
def test_a_figure_of_all_is_not(open_problems: Asked, passage: str, count: str) -> None:
    assert open_problems(passage, rate(count), files=FILES) == []


def test_a_part_that_the_study_names_is_all_of_it(open_problems: Asked) -> None:
    women = STUDY.replace("permanent}", "permanent, patients: women}")
    assert open_problems("In women, 12 of 15 teeth healed.", rate("12 of 15"), women, FILES) == []
    primary = STUDY.replace("permanent}", "primary}")
    assert open_problems("In primary molars 12 of 15 healed.", rate("12 of 15"), primary, FILES) == []


def test_levels_of_a_claim_are_its_parts(open_problems: Asked) -> None:
    levels = (
        "factor: sex\nknown_at: before\nreference: men\nlevels:\n"
        "  - {level: women, events: 12, total: 15}\n  - {level: men, events: 16, total: 25}\n"
    )
    assert open_problems("In women, 12 of 15 teeth healed; in men, 16 of 25 healed.", levels, files=FILES) == []


RESTRICTED = [
    "Healing was seen in 81 of 108 teeth. In the subset with previous surgery it was seen in {19 of 34}.",
    "81 of 108 teeth healed; in smokers alone {19 of 34}.",
    "Overall most teeth healed. Only among molars was healing seen in {19 of 34}.",
    "81 of 108 teeth healed. When the analysis was restricted to molars, {19 of 34} healed.",
    "81 of 108 teeth healed. In the subgroup of teeth with pus {19 of 34} healed.",
    "Of the molars, {19 of 34} healed; of all teeth, 81 of 108.",
]
NOT_RESTRICTED = [
    "Healing was seen in {81 of 108} teeth. In the subset with previous surgery it was seen in 19 of 34.",
    "{81 of 108} teeth healed; in smokers alone 19 of 34.",
    "120 teeth were treated. Restricted to teeth with a recall, {81 of 108} healed.",
    "In the subgroup with pus {81 of 108} teeth healed.",
    "When only healed teeth were counted, {81 of 108} healed; 112 of 120 survived.",
    "In molars only {19 of 34} teeth healed.",
]


@pytest.mark.parametrize("passage", RESTRICTED)
def test_figure_of_some_only_is_asked_about(rules: Callable[..., list[str]], passage: str):
    assert rules("healed", passage) == ["figure-of-a-part"]


@pytest.mark.parametrize("passage", NOT_RESTRICTED)
def test_figure_of_all_beside_one_of_some_is_not(rules: Callable[..., list[str]], passage: str):
    assert rules("healed", passage) == []
