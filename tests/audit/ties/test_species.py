"""Numbers of animals or of specimens, typed as those of people. Common practice of reports, no source."""

from __future__ import annotations

import pytest

from .conftest import Asked

CLAIM = "events: 26\ntotal: 32"
ANIMALS = (
    "In thirty-two rats the floor was perforated; 26 of 32 had healed",
    "Six beagle dogs were used. 26 of 32 teeth healed",
    "26 of 32 teeth healed in adult macaque monkeys",
    "Twelve young minipigs; 26 of 32 teeth healed",
    "26 of 32 teeth of New Zealand rabbits healed",
    "In this murine model 26 of 32 teeth healed",
    "After sacrifice 26 of 32 teeth were seen to have healed",
    "26 of 32 teeth of non-human primates healed",
    "Bovine teeth were used: 26 of 32 teeth healed",
)
BENCH = (
    "Freshly extracted molars were mounted; 26 of 32 held",
    "26 of 32 teeth in acrylic blocks leaked",
    "An ex vivo study: 26 of 32 teeth leaked",
    "Simulated canals: 26 of 32 teeth leaked",
)
PEOPLE = (
    "26 of 32 teeth in 30 patients healed",
    "26 of 32 teeth healed, more than the 14 of 20 that Ramsey et al. saw in dogs",
    "26 of 32 teeth healed. Previous work in twelve dogs had shown 60%",
    "In dogs 14 of 20 healed; in our patients 26 of 32 teeth healed",
    "Unlike in rats, 26 of 32 teeth healed",
    "With a bovine graft 26 of 32 teeth healed",
    "26 of 32 teeth healed under a porcine membrane",
    "Maxillary canines: 26 of 32 teeth healed",
    "Patients with dog bites were left out; 26 of 32 teeth healed",
    "Experiments in 12 animals were excluded; 26 of 32 teeth healed",
)


@pytest.mark.parametrize("passage", [*ANIMALS, *BENCH])
def test_what_is_not_of_people_is_asked_about_where_it_is_typed_as_theirs(open_problems: Asked, passage: str) -> None:
    (problem,) = open_problems(passage, CLAIM)
    assert (problem.rule, problem.severity) == ("passage-of-another-species", "ask")
    assert problem.place == "x/c"
    assert "the claim counts people" in problem.message


@pytest.mark.parametrize("passage", ANIMALS)
def test_animals_typed_as_animals_are_silent(open_problems: Asked, passage: str) -> None:
    study = "- {id: s, species: animal, design: experiment}\n"
    assert open_problems(passage, CLAIM, study) == []


@pytest.mark.parametrize("passage", PEOPLE)
def test_people_are_silent_whatever_else_is_told_of_animals(open_problems: Asked, passage: str) -> None:
    assert open_problems(passage, CLAIM) == []


def test_people_typed_as_animals_are_asked_about(open_problems: Asked) -> None:
    study = "- {id: s, species: animal, design: experiment}\n"
    (problem,) = open_problems("40 patients were treated. 26 of 32 teeth healed", CLAIM, study)
    assert "the claim counts animals" in problem.message


def test_another_passage_of_the_report_tells_it_too(open_problems: Asked) -> None:
    animals = "[Methods] Ten minipigs gave 40 premolars.\n[p. 2] 26 of 32 teeth healed"
    assert [problem.rule for problem in open_problems(animals, CLAIM)] == ["passage-of-another-species"]
    talk = "[p. 2] 26 of 32 teeth healed\n[Discussion] In dogs nothing else was seen."
    assert open_problems(talk, CLAIM) == []


def test_a_figure_taken_over_from_another_report_is_its_own(open_problems: Asked) -> None:
    found = open_problems("26 of 32 teeth in six dogs healed", f"{CLAIM}\nquotes: other/c")
    assert [problem.rule for problem in found] == ["source-unknown"]


def test_human_specimens_on_a_bench_are_no_animals(open_problems: Asked) -> None:
    animals = "- {id: s, species: animal, design: experiment}\n"
    bench = animals.replace("animal,", "bench,")
    passage = "Forty extracted human premolars were mounted in resin blocks. 26 of 32 teeth leaked in vitro"
    assert [each.rule for each in open_problems(passage, CLAIM, animals)] == ["passage-of-another-species"]
    assert open_problems(passage, CLAIM, bench) == []
    of_dogs = "Teeth of six dogs were embedded in resin blocks and cut in vitro. 26 of 32 teeth healed"
    assert open_problems(of_dogs, CLAIM, animals) == []
    unnamed = "The teeth were embedded in resin blocks and cut. 26 of 32 teeth healed"
    assert open_problems(unnamed, CLAIM, animals) == []
