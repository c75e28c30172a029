"""A number that a passage gives to another report is asked about; one told beside others' words is not."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from passageproof.proof.proof import Audit

from .conftest import files

Case = tuple[str, str]
"""The outcome that the claim names, and a passage with the numbers of the claim in braces."""

OTHERS: list[Case] = [
    ("healed", "Smith (1998) reported healing in {66 of 81} teeth."),
    ("healed", "Smith [12] reported healing in {66 of 81} teeth."),
    ("healed", "Okonski, Brandt and Osei found healing in {66 of 81} teeth."),
    ("healed", "Smith, in 1998, reported healing in {66 of 81}."),
    ("healed", "In 1998 Okonski reported healing in {66 of 81}."),
    ("healed", "Healing has been described by others in {66 of 81} teeth [3]; we set out to see more."),
    ("healed", "Healing within a year has been reported by other clinics in {66 of 81} teeth."),
    ("healed", "Healing had been found by previous authors in {66 of 81} teeth."),
    ("healed", "Okonski and co-workers, in 1998, found healing in {66 of 81}; our series is described below."),
    ("healed", "Okonski et al., with films alone, saw {66 of 81} healed."),
    ("healed", "Okonski and colleagues, working in Leeds, have reported healing in {66 of 81}."),
    ("healed", "We saw 30 of 45 healed, whereas Okonski reported {66 of 81}."),
    ("healed", "In the Leeds trial, {66 of 81} teeth healed."),
    ("healed", "The Leeds trial found healing in {66 of 81}."),
    ("healed", "The Uppsala cohort had healing in {66 of 81}."),
    ("healed", "Our finding differs from that of the Leeds trial, where {66 of 81} teeth healed."),
    ("healed", "Previously published success amounts to {85%}."),
    ("healed", "Previously reported success rates average {85%}."),
    ("healed", "A previously published success of {85%} was cited."),
    ("healed", "The success already published is {85%}."),
    ("healed", "Healing of {66 of 81} teeth has been reported [12]."),
    ("healed", "Success in {66 of 81} has been described previously [3, 4]."),
    ("healed", "Success in {66 of 81} has been found (12)."),
    ("healed", "Our predecessors at this clinic had healed {66 of 81} teeth."),
    ("healed", "Others have reported healing in {66 of 81}."),
    ("healed", "It has been reported that {66 of 81} teeth heal."),
    ("healed", "Workers elsewhere have found healing in {66 of 81}."),
    ("healed", "As Okonski et al. reported, {66 of 81} teeth healed."),
    (
        "healed",
        "Okonski et al. (1998), in a series of their own, obtained healing in {66 of 81}; here it was 39 of 47.",
    ),
    ("healed", "Others had obtained success in {66 of 81}."),
    ("healed", "In the Turku study, {66 of 81} teeth healed, and in ours 39 of 47."),
    ("healed", "Ours healed in 39 of 47, but Brandt published success in {66 of 81}."),
    ("healed", "Previously reported healing reaches {70%}."),
    ("healed", "A success of {85%} has been published [4,7]."),
    ("healed", "In a previous registry analysis healing was seen more often, in {66 of 81}. Here it was 39 of 47."),
    ("healed", "An earlier analysis of the national register found healing in {66 of 81}; ours was 39 of 47."),
    ("healed", "We found healing in 39 of 47, whereas the Danish registry had given {66 of 81}."),
    ("healed", "The healing of earlier studies was {85%}."),
    ("healed", "Ours, 39 of 47, is less than the {66 of 81} of a Dutch cohort that healed."),
    ("healed", "A meta-analysis of five cohorts gave {85%} as healed [14]."),
    ("healed", "Two other centres have published healing in {66 of 81}. Here it was 39 of 47."),
]

OWN: list[Case] = [
    ("healed", "In a second analysis, without molars, {39 of 47} healed."),
    ("healed", "In an earlier analysis of these teeth, {39 of 47} had healed."),
    ("healed", "Healing was seen in {39 of 47}; earlier studies were smaller."),
    ("healed", "The second group of a Dutch cohort: {39 of 47} healed."),
    (
        "healed",
        "Healing, scored by the criteria that Okonski and colleagues described in 1998, was seen in {39 of 47} teeth.",
    ),
    ("healed", "Healing, which Okonski et al. found to be rare, was seen in {39 of 47} teeth."),
    ("healed", "Healing, judged the way Okonski and colleagues described, was seen in {39 of 47}."),
    ("healed", "Healing was judged as Okonski et al. described and found in {39 of 47} teeth."),
    ("healed", "As Okonski et al. proposed, healing was scored on film; {39 of 47} healed."),
    ("healed", "{39 of 47} teeth healed when scored as described by Okonski and Brandt."),
    ("healed", "{39 of 47} teeth healed, scored by the criteria described by Okonski."),
    ("healed", "Following Okonski et al., films were read twice and healing was found in {39 of 47}."),
    ("healed", "After Okonski and Brandt, residents found healing in {39 of 47}."),
    ("healed", "{39 of 47} teeth healed, as in the earlier series by Brandt."),
    ("healed", "{39 of 47} teeth healed, although more has been reported [12]."),
    ("healed", "The index that Smith (1998) published was used, and {39 of 47} healed."),
    ("healed", "By the scale Smith [12] introduced, {39 of 47} healed."),
    ("healed", "Previously reported cases were excluded; {39 of 47} healed."),
    ("healed", "Healing, previously described by others, was seen in {39 of 47}."),
    ("healed", "A protocol that has been published [12] was followed: {39 of 47} healed."),
    ("healed", "In the MTA series {39 of 47} healed."),
    ("healed", "In the Mta trial {39 of 47} healed."),
    ("healed", "In the present trial {39 of 47} healed."),
    ("pain", "Some had no pain, others reported it ({8 of 47})."),
    ("healed", "While Biodentine showed gaps, {39 of 47} teeth healed."),
    ("healed", "Our predecessors had used other cements; we saw healing in {39 of 47}."),
    ("healed", "Unlike our predecessors, we saw healing in {39 of 47}."),
    ("healed", "Contrary to the Leeds trial, we found {39 of 47} healed."),
    ("healed", "Teeth were treated as in the Leeds trial; {39 of 47} healed."),
    ("healed", "Teeth were chosen as in the Leeds trial, and {39 of 47} healed."),
    ("healed", "More than in the Leeds trial, {39 of 47} healed."),
    ("healed", "The Leeds trial found less: {39 of 47} of ours healed."),
    ("pain", "Patients in Leeds reported pain in {8 of 47}."),
    ("pain", "Patients given Ibuprofen reported pain in {8 of 47}."),
    ("healed", "In the Control series {39 of 47} healed."),
    ("healed", "Okonski et al. (1998) found healing in 66 of 81; {39 of 47} healed after a year."),
    ("healed", "Previously published success is 85%, and here {39 of 47} healed."),
    ("healed", "Previously published success is 85%; healing was seen in {39 of 47}."),
    ("healed", "In the Hydroxide series {39 of 47} healed."),
    ("healed", "The first series was published in 1998. In the second series {39 of 47} healed."),
    ("healed", "Films were read by Okonski and Brandt, and healing was found in {39 of 47}."),
    ("healed", "Okonski and Brandt read the films; {39 of 47} teeth had healed."),
    ("pain", "Pain has been seen in {8 of 47} (17%)."),
    ("healed", "Healing has been seen in {39 of 47} [83%]."),
    ("healed", "Teeth were capped as Smith (1998) published, and {39 of 47} healed."),
    ("healed", "It has been our practice to cap; {39 of 47} healed."),
    (
        "healed",
        "The Periapical Index, which Okonski and co-workers, in 1998, described, was normal in {39 of 47}: healed.",
    ),
]


@pytest.mark.parametrize(("outcome", "passage"), OTHERS)
def test_number_of_another_report_is_asked_about(rules: Callable[..., list[str]], outcome: str, passage: str):
    assert rules(outcome, passage) == ["result-of-others"]


@pytest.mark.parametrize(("outcome", "passage"), OWN)
def test_number_of_this_report_is_not(rules: Callable[..., list[str]], outcome: str, passage: str):
    assert rules(outcome, passage) == []


def test_study_that_is_called_by_its_place_may_be_this_one(
    audited: Callable[..., Audit], report_text: Callable[..., str], rules: Callable[..., list[str]]
):
    passage = "In the Leeds trial, {39 of 47} teeth healed."
    assert rules("healed", passage) == ["result-of-others"]
    assert rules("healed", passage, "given: the Leeds trial\n") == []
    titled = files("healed", passage, report_text)
    titled["sources/x.bib"] = titled["sources/x.bib"].replace("title = {T}", "title = {A trial in Leeds}")
    assert not audited(titled).problems
