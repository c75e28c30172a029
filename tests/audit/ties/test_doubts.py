"""Numbers that stand on another page, in a heading, or beside words that are of something else, and are what was typed.

The ways of print are common practice of reports, no source; all figures are invented.
"""

from __future__ import annotations

import pytest

from .conftest import STUDY, Asked
from .test_levels import FILES, claim


def study(flow: str, where: str = "p. 1") -> str:
    return f"{STUDY}  flow: {{{flow}}}\n  where: {where}\n"


FLOW = "treated: 186, examined: {}, lost: 55"
PAGES = "[p. 1] 186 teeth were treated; 55 were lost.\n[p. 2] Of the 131 teeth examined, 112 healed."
ALL = "events: 112\ntotal: 131"


def test_a_step_that_another_page_names_is_read_there(open_problems: Asked) -> None:
    assert open_problems(PAGES, ALL, study(FLOW.format(131))) == []


@pytest.mark.parametrize(
    ("pages", "examined"),
    [
        (PAGES, "130"),  # printed nowhere
        (PAGES.replace("55 were lost", "133 were examined"), "131"),  # its own page says otherwise
        (PAGES.replace("131 teeth examined", "131 teeth"), "131"),  # nobody says that these were examined
    ],
)
def test_any_other_number_is_not(open_problems: Asked, pages: str, examined: str) -> None:
    assert open_problems(pages, "events: 112\ntotal: not reported", study(FLOW.format(examined)))


def test_patients_who_did_not_return_are_the_eyes_that_are_missing(open_problems: Asked) -> None:
    passage = "Twenty-six teeth were treated. Five patients did not return. Of the remaining 21 teeth 18 had healed."
    flow = study("treated: 26, examined: 21, lost: 5", "p. 2")
    assert open_problems(passage, "events: 18\ntotal: 21", flow) == []
    flow = study("treated: 30, examined: 21, lost: 5", "p. 2")
    assert open_problems(passage.replace("Twenty-six", "Thirty"), "events: 18\ntotal: 21", flow)


def test_what_was_counted_as_failed_is_said_by_a_note(open_problems: Asked) -> None:
    passage = "By intention to treat, lost teeth counted as not healed, 47 of 62 with MTA and 41 of 62 with calcium "
    levels = claim("material", ("MTA", "47", "62"), ("calcium hydroxide", "41", "62"))
    assert open_problems(f"{passage}hydroxide healed.", f"{levels}note: by intention to treat", files=FILES) == []
    rules = {problem.rule for problem in open_problems(f"{passage}hydroxide healed.", levels, files=FILES)}
    assert rules == {"result-imputed"}


TABLE = (
    "Healed, n (%)\nTime | MTA (n = 32) | no suture (n = 31)\n1 year | 14 (43.8) | 15 (48.4)\n"
    "2 years | 5 (15.6) | 12 (38.7)"
)
SUTURES = FILES["vocabulary.yaml"].replace("title: glass ionomer", "title: no suture")


def test_a_total_in_the_heading_over_quoted_words_is_theirs(open_problems: Asked) -> None:
    levels = claim("material", ("MTA", "5", "32"), ("no suture", "12", "31"))
    quoted = f'{levels}in_words: ["2 years | 5 (15.6) | 12 (38.7)"]'
    files = {"vocabulary.yaml": SUTURES}
    assert open_problems(TABLE, quoted, files=files) == []
    assert open_problems(TABLE, quoted.replace("events: 5,", "events: 14,"), files=files)


def test_points_are_the_difference_of_two_shares(open_problems: Asked) -> None:
    passage = (
        "Healed: MTA 92 of 108 (85.2%), calcium hydroxide 94 of 107 (87.9%); difference -2.7 points (95% CI -11.8 to "
        "6.5)."
    )
    contrast = (
        "factor: material\nknown_at: during\nreference: calcium hydroxide\ncontrast: {{measure: risk "
        "difference, value: {}, interval: {}, level: MTA, reference: calcium hydroxide, event: healed, event_is: good, "
        "adjusted_for: none}}"
    )
    assert open_problems(passage, contrast.format("-2.7", "-11.8 to 6.5"), files=FILES) == []
    assert open_problems(passage, contrast.format("-2.9", "-11.8 to 6.5"), files=FILES)


def test_both_sides_are_heard_over_the_words_between(open_problems: Asked) -> None:
    passage = (
        "In the 32 teeth of this trial both sides were healed in 21, only the side with the film in 6, only the volume "
        "side in 2 and neither side in 3."
    )
    pairs = "pairs: {{a: film, b: volume, both: {}, only_a: {}, only_b: {}, neither: 3}}"
    assert open_problems(passage, pairs.format(21, 6, 2)) == []
    assert open_problems(passage, pairs.format(21, 2, 6))
    assert open_problems(passage, pairs.format(6, 21, 2))


def test_a_level_of_the_reference_is_told_by_its_other_name(open_problems: Asked) -> None:
    vocabulary = FILES["vocabulary.yaml"].replace(
        "outcomes:\n",
        "  visits: {title: Visits, role: treatment, levels: [{id: a, title: single visit, synonyms: [single-visit]}, "
        "{id: b, title: two visits, synonyms: [multiple-visit]}]}\noutcomes:\n",
    )
    passage = "Single-visit compared with multiple-visit treatment: RR 1.37 (95% CI 0.82 to 2.29)."
    contrast = (
        "factor: visits\nknown_at: during\nreference: two visits\ncontrast: {measure: risk ratio, value: 1.37, "
        "interval: 0.82 to 2.29, level: single visit, reference: multiple-visit, event: healed, event_is: good, "
        "adjusted_for: none}"
    )
    assert open_problems(passage, contrast, files={"vocabulary.yaml": vocabulary}) == []


ANEW = (
    "At 24 hours healing was seen in 29, 21 and 16 of the 60, 58 and 59 MTA, calcium hydroxide and glass ionomer teeth"
)
LATER = [("MTA", "8", "60"), ("calcium hydroxide", "6", "58"), ("glass ionomer", "7", "59")]


def test_figures_taken_up_again_are_of_the_same(open_problems: Asked) -> None:
    passage = f"{ANEW}, respectively; by 72 hours the differences had disappeared (8, 6 and 7 teeth, respectively)."
    assert open_problems(passage, claim("material", *LATER), files=FILES) == []
    passage = f"{ANEW}, respectively. Down-growth was found at 8, 6 and 7 sites, respectively."
    assert open_problems(passage, claim("material", *LATER), files=FILES)
