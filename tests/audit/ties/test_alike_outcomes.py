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


DEATHS = {
    "vocabulary.yaml": """\
factors:
  graft: {title: Graft, role: treatment, levels: [{id: r, title: radial}, {id: v, title: vein}]}
outcomes:
  death: {title: death, construct: event, strictness: not reported, basis: told, threshold: any, good: no}
  occlusion: {title: occlusion, construct: event, strictness: not reported, basis: film, threshold: any, good: no}
"""
}
NAMES_AND_RATIOS = {
    "lines": "{0}, HR 0.72 (95% CI 0.54 to 0.96)\n {1}, HR 0.91 (95% CI 0.70 to 1.18)",
    "lines with articles": "the {0}, HR 0.72 (95% CI 0.54 to 0.96);\n the {1}, HR 0.91 (95% CI 0.70 to 1.18).",
    "without a sign": "{0} HR 0.72 (95% CI 0.54 to 0.96)\n {1} HR 0.91 (95% CI 0.70 to 1.18)",
    "in brackets": "{0} (HR 0.72, 95% CI 0.54 to 0.96)\n {1} (HR 0.91, 95% CI 0.70 to 1.18)",
    "one line": "{0}, HR 0.72 (95% CI 0.54 to 0.96); {1}, HR 0.91 (95% CI 0.70 to 1.18)",
    "times": "{0} by five years, HR 0.72 (95% CI 0.54 to 0.96)\n {1} by five years, HR 0.91 (95% CI 0.70 to 1.18)",
}
RATIO = """\
outcome: {0}
factor: graft
known_at: during
reference: vein
contrast:
  {{measure: hazard ratio, event: {0}, event_is: bad, level: radial, reference: vein, value: {1}, interval: {2},
   adjusted_for: [age]}}
"""


@pytest.mark.parametrize("lines", NAMES_AND_RATIOS.values(), ids=NAMES_AND_RATIOS)
@pytest.mark.parametrize("names", [("occlusion", "death"), ("death", "occlusion")])
def test_a_ratio_behind_the_name_of_another_outcome_is_asked_about(
    open_problems: Asked, lines: str, names: tuple[str, str]
) -> None:
    passage = "Radial against vein graft, all adjusted for age:\n " + lines.format(*names)
    figures = ("0.72", "0.54 to 0.96"), ("0.91", "0.70 to 1.18")
    for of, typed in ((0, 0), (0, 1), (1, 0), (1, 1)):
        found = open_problems(passage, RATIO.format(names[typed], *figures[of]), files=DEATHS)
        assert [each.rule for each in found] == ([] if of == typed else ["event-other"]), (of, typed)


NAMES_AND_COUNTS = {
    "in a row": "{0}, 44 of 47; {1}, 39 of 47.",
    "behind a colon": "At two years: {0}, 44 of 47 (94%); {1}, 39 of 47 (83%).",
    "lines": "{0}, 44 of 47\n {1}, 39 of 47",
    "below a heading": "Findings at recall\n {0}, 44/47\n {1}, 39/47",
    "in brackets": "{0} (44 of 47)\n {1} (39 of 47)",
}


@pytest.mark.parametrize("printed", NAMES_AND_COUNTS.values(), ids=NAMES_AND_COUNTS)
@pytest.mark.parametrize(
    ("files", "ids", "names"),
    [
        (FILES, ("tooth", "crown"), ("tooth survival", "crown survival")),
        (DEATHS, ("death", "occlusion"), ("death", "occlusion")),
    ],
)
def test_a_count_behind_the_name_of_another_outcome_is_asked_about(
    open_problems: Asked, printed: str, files: dict[str, str], ids: tuple[str, str], names: tuple[str, str]
) -> None:
    passage = printed.format(*names)
    for of, typed in ((0, 0), (0, 1), (1, 0), (1, 1)):
        claim = f"outcome: {ids[typed]}\nevents: {(44, 39)[of]}\ntotal: 47"
        found = open_problems(passage, claim, files=files)
        assert [each.rule for each in found] == ([] if of == typed else ["event-other"]), (of, typed)


def test_whom_a_count_is_of_is_no_name_of_it(open_problems: Asked) -> None:
    passage = "Occlusion at recall: of those whose death was told, 3 of 47; of those without, 5 of 48."
    assert open_problems(passage, "outcome: occlusion\nevents: 3\ntotal: 47", files=DEATHS) == []
