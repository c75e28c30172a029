"""Of two works in one sentence, each with its number, only the other one's is asked about."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest
from passageproof.problems import Problem

Found = Callable[..., list[Problem]]

BESIDE_OUR_OWN = [
    "An earlier group reported that {42 of 50} teeth had healed. In our clinic (55 of 70) had healed.",
    "In a series from the north {42 of 50} teeth had healed, against (55 of 70) here.",
    "Our (55 of 70) healed teeth compare with the {42 of 50} of Brandt's group.",
    "Where others had healing in {42 of 50} teeth, we had it in (55 of 70).",
    "The {42 of 50} teeth that healed in the multicentre trial exceed our (55 of 70).",
    "Compared with {42 of 50} in the national registry, (55 of 70) of our teeth healed.",
    "In their hands, {42 of 50} teeth healed; in ours (55 of 70).",
    "Reviews put healing at {42 of 50} teeth; in this cohort it was (55 of 70).",
    "While a meta-analysis gives healing in {42 of 50}, we found it in (55 of 70).",
    "Healing in (55 of 70) of our teeth falls short of the {42 of 50} given by a recent systematic review.",
    "Unlike Tarrow and co-workers, who had {42 of 50} teeth healed, we had (55 of 70).",
    "We saw (55 of 70) teeth heal, fewer than the {42 of 50} in the paper by Tarrow.",
    "Healing was seen here in (55 of 70), below the {42 of 50} of earlier work.",
    "(55 of 70) of our teeth healed; in the historical controls {42 of 50} had.",
    "The series was compared with a historical cohort in which {42 of 50} teeth had healed; here (55 of 70) healed.",
    "(55 of 70) healed, against {42 of 50} among historical controls treated before the microscope came.",
    "In ours (55 of 70) healed, below the 84% [{42 of 50} teeth] published by Tarrow et al. for such holes.",
]
"""The other work's number in braces, the report's own in round brackets."""

ALONE = [
    "Healing was seen in 83% ({42 of 50} in the review by Orr).",
    "The only comparable paper counted {42 of 50} teeth as healed.",
    "{42 of 50} teeth healed in the study that first described the method.",
    "So far the largest series had {42 of 50} teeth healed.",
    "The benchmark of {42 of 50} teeth healed set by earlier work was not reached.",
    "Elsewhere {42 of 50} teeth were healed.",
    "This is at odds with an earlier trial by Orr et al., in which {42 of 50} teeth healed.",
    "Tarrow and colleagues (2011) calculated healing in {42 of 50} teeth.",
]
"""Asked about in a discussion; none has a number of the report's own."""

BY_THEM = [
    "Kestrel and Vaud (2011) followed 50 teeth and kept {42 of 50} healed.",
    "Kestrel et al. (2011) treated molars and healed {42 of 50}.",
    "In 2011, Kestrel and Vaud (2011) had {42 of 50} healed.",
    "For example, Kestrel and colleagues (2011) successfully treated {42 of 50}.",
    "Kestrel and Vaud (2011) healed {42 of 50} teeth with the first material.",
    "Kestrel and Vaud [2011] reexamined fifty teeth and found {42 of 50} healed.",
]
"""Authors with their year, who did it all: wherever it stands."""

OWN = [
    "In our series {42 of 50} teeth healed, which agrees with the literature.",
    "{42 of 50} teeth healed, more than in earlier series.",
    "We saw {42 of 50} teeth heal; others have had less success.",
    "Healing in {42 of 50} teeth is close to what Brandt et al. reported (81%).",
    "Contrary to earlier work, {42 of 50} teeth healed here.",
    "Of those referred from elsewhere, {42 of 50} teeth healed.",
    "{42 of 50} teeth healed (81% in the review by Orr).",
    "Using the criteria of Tarrow et al., {42 of 50} teeth had healed.",
    "In the registry of our clinic {42 of 50} teeth had healed.",
    "Healing of {42 of 50} teeth exceeds the 70% of the registry.",
    "Judged by two other examiners, {42 of 50} teeth had healed.",
    "In this trial, unlike the earlier one, {42 of 50} teeth healed.",
    "{42 of 50} teeth treated by others than the authors had healed.",
    "In a retrospective cohort, we found healing in {42 of 50} teeth.",
    "In a randomised trial, {42 of 50} teeth healed; we conclude that the material is suitable.",
    "The results of earlier studies were confirmed with {42 of 50} teeth healed in our clinic.",
    "Contrary to what previous authors reported, {42 of 50} teeth healed.",
    "Some had 55 of 70 healed, while others had {42 of 50} healed.",
    "Kestrel and Vaud (2011) designed the method, and {42 of 50} teeth healed.",
    "Kestrel and Vaud (2011) modified the index; {42 of 50} teeth healed.",
    "Modified after Kestrel and Vaud (2011), the index gave {42 of 50} teeth as healed.",
    "Marlow and Vaud (2011) followed 50 teeth and kept {42 of 50} healed.",
    "Unlike Kestrel and Vaud (2011) we found {42 of 50} healed.",
    "Films were read as in the study by Orr, and {42 of 50} teeth had healed.",
]


def _typed(passage: str, number: str) -> tuple[str, str]:
    found = re.search(number, passage)
    assert found is not None
    return re.sub(r"[{}]|\((?=\d+ of \d+\))|(?<=of \d\d)\)", "", passage), f"events: {found[1]}\ntotal: {found[2]}"


def _rules(found: Found, passage: str, number: str, bracket: str) -> list[str]:
    text, counts = _typed(passage, number)
    claim = f"outcome: healed\n{counts}\nwhere: {bracket}"
    return [problem.rule for problem in found(f"[{bracket}] {text}", claim)]


OTHERS, OURS = r"\{(\d+) of (\d+)\}", r"\((\d+) of (\d+)\)"


@pytest.mark.parametrize("passage", [*BESIDE_OUR_OWN, *ALONE])
def test_number_of_the_other_work_is_asked_about(open_problems: Found, passage: str):
    assert _rules(open_problems, passage, OTHERS, "Discussion") == ["result-of-others"]


@pytest.mark.parametrize("bracket", ["Introduction", "p. 4"])
@pytest.mark.parametrize("passage", BY_THEM)
def test_number_of_authors_who_did_it_all_is_asked_about(open_problems: Found, passage: str, bracket: str):
    assert _rules(open_problems, passage, OTHERS, bracket) == ["result-of-others"]


@pytest.mark.parametrize("passage", BESIDE_OUR_OWN)
def test_own_number_beside_it_is_not(open_problems: Found, passage: str):
    assert _rules(open_problems, passage, OURS, "Discussion") == []


@pytest.mark.parametrize("bracket", ["Discussion", "p. 4, Results"])
@pytest.mark.parametrize("passage", OWN)
def test_own_number_beside_another_work_without_one_is_not(open_problems: Found, passage: str, bracket: str):
    assert _rules(open_problems, passage, OTHERS, bracket) == []


IN_ROWS = [
    "Healing was more frequent than in historical controls (55/70 versus 42/50).",
    "Series | healed\n Present material | 55/70\n Earlier series, hospital | 42/50",
    "Series | healed\n Present material | 55/70\n Brandt et al. | 42/50",
    "Group | healed | n\n This study | 55 | 70\n Historical controls | 42 | 50",
    "Series | healed\n Dremmel 2008 | 42/50\n Present study | 55/70",
    "Series | healed\n Dremmel (2008) | 42/50\n Oast et al. (2011) | 12/20\n This study | 55/70",
    "Author | healed | n\n Dremmel and Oast, 2008 | 42 | 50\n Our series | 55 | 70",
    "Source | healed\n Dremmel [12] | 42/50\n Ours | 55/70",
    "  | Dremmel 2008 | Present series\n healed/n | 42/50 | 55/70",
    "Study | healed\n Dremmel & Oast 2008 | 42/50\n Oast 2012 | 12/20\n Current study | 55/70",
    "  | Present study | Historical controls\n healed/n | 55/70 | 42/50",
]


@pytest.mark.parametrize("passage", IN_ROWS)
def test_a_row_of_another_series_is_not_the_reports_own(open_problems: Found, passage: str):
    asked = open_problems(passage, "events: 42\ntotal: 50")
    assert {problem.rule for problem in asked} == {"result-of-others"}
    assert open_problems(passage, "events: 55\ntotal: 70") == []


NO_AUTHORS = [
    "Year | healed\n January 2008 | 42/50\n Present study | 55/70",
    "Series | healed\n Marlow 2008 | 42/50\n Present study | 55/70",
    "Centre | healed\n Leeds 2008 | 42/50\n Current list | 55/70",
]


@pytest.mark.parametrize("passage", NO_AUTHORS)
def test_a_row_with_a_year_is_not_always_of_other_authors(open_problems: Found, passage: str):
    assert open_problems(passage, "events: 42\ntotal: 50") == []


VOCABULARY = """\
factors:
  period:
    {title: Period, role: prognostic, levels: [{id: now, title: this study}, {id: then, title: historical controls}]}
outcomes:
  healed: {title: healed, construct: success, strictness: strict, basis: film, threshold: normal space, good: yes}
"""
LEVELS = """\
factor: period
known_at: before
reference: historical controls
levels:
  - {level: this study, events: 55, total: 70}
  - {level: historical controls, events: 42, total: 50}
"""


def test_historical_controls_that_are_a_level_of_the_claim_are_its_own(open_problems: Found):
    files = {"vocabulary.yaml": VOCABULARY}
    for passage in ("Healed: this study 55 of 70, historical controls 42 of 50.", IN_ROWS[3]):
        assert open_problems(passage, LEVELS, files=files) == []
