"""Two outcomes of one kind side by side: the number of one typed as the other.

The ways of print are common practice of reports, no source; all figures are invented.
"""

from __future__ import annotations

import pytest

from .conftest import Asked

FILES = {
    "vocabulary.yaml": """\
outcomes:
  tooth: {title: tooth survival, construct: survival, strictness: not reported, basis: seen, threshold: in, good: yes}
  crown: {title: crown survival, construct: survival, strictness: not reported, basis: seen, threshold: in, good: yes}
  clinical:
    {title: clinical success, construct: success, strictness: not reported, basis: examination, threshold: no pain,
     good: yes}
  film:
    {title: radiographic success, construct: success, strictness: not reported, basis: film, threshold: normal,
     good: yes}
"""
}
PRINTS = {
    "sentences": "{0}: 44/47. {1}: 39/47.",
    "clauses": "{0} was seen in 44 of 47 and {1} in 39 of 47.",
    "semicolon": "{0}: 44 of 47; {1}: 39 of 47",
    "behind": "There was {0} in 44 of 47 and {1} in 39 of 47.",
    "rows": "Outcome | n/N\n {0} | 44/47\n {1} | 39/47",
    "columns": "  | {0} | {1}\n All | 44/47 | 39/47",
    "lines": "{0}: 44/47\n {1}: 39/47",
}


@pytest.mark.parametrize(
    ("first", "other", "names"),
    [
        ("tooth", "crown", ("tooth survival", "crown survival")),
        ("clinical", "film", ("clinical success", "radiographic success")),
    ],
)
@pytest.mark.parametrize("printed", PRINTS.values(), ids=PRINTS)
def test_a_number_of_an_outcome_of_the_same_kind_is_asked_about(
    open_problems: Asked, printed: str, first: str, other: str, names: tuple[str, str]
) -> None:
    passage = printed.format(*names)
    for outcome, events in ((first, 39), (other, 44)):
        wrong = open_problems(passage, f"outcome: {outcome}\nevents: {events}\ntotal: 47", files=FILES)
        assert {each.rule for each in wrong} == {"event-other"}, outcome
    for outcome, events in ((first, 44), (other, 39)):
        assert open_problems(passage, f"outcome: {outcome}\nevents: {events}\ntotal: 47", files=FILES) == []


@pytest.mark.parametrize("outcome", ["tooth", "crown"])
def test_an_outcome_that_the_passage_names_by_another_word_is_not(open_problems: Asked, outcome: str) -> None:
    assert open_problems("Survival: 39 of 47", f"outcome: {outcome}\nevents: 39\ntotal: 47", files=FILES) == []
