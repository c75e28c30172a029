"""A figure typed at another time than its passage gives it, and lengths that are no follow-up, as journals print them.

The ways of print are common practice of reports, no source; all figures are invented.
"""

from __future__ import annotations

import pytest

from .conftest import Asked

VOCABULARY = """\
factors:
  material:
    title: Material
    role: treatment
    levels: [{id: mta, title: MTA}, {id: ca, title: calcium hydroxide}]
outcomes:
  healed: {title: healed, construct: success, strictness: strict, basis: film, threshold: normal space, good: yes}
  kept: {title: kept, construct: survival, strictness: not applicable, basis: seen, threshold: in place, good: yes}
"""
FILES = {"vocabulary.yaml": VOCABULARY}


def rate(events: int, total: int, at: str, where: str = "p. 2") -> str:
    """A rate at a time, whose follow-up stands in a passage of its own where one is named."""
    return (
        f"events: {events}\ntotal: {total}\n"
        f"follow_up: {{from: treatment, timing: at, at: {at}, tolerance: not reported, where: {where}}}\n"
    )


def survival(value: str, at: str) -> str:
    """An estimate at a time."""
    return (
        f"outcome: kept\nestimate: {{kind: survival, at: {at}, value: {value}, from: treatment}}\n"
        "follow_up: not applicable\n"
    )


RATES = {
    "list before its figures": ("At 6, 12 and 24 months, 35, 39 and 41 of 47 teeth were healed.", (39, 47)),
    "list with respectively": (
        "Healed teeth numbered 35 of 47, 39 of 47 and 41 of 47 at 6, 12 and 24 months, respectively.", (39, 47),
    ),
    "time in brackets": ("Healed were 39 of 47 (12 months) and 41 of 47 (24 months).", (39, 47)),
    "after, twice": ("After 1 year 39 of 47 teeth were healed, after 2 years 41 of 47.", (39, 47)),
    "time behind": ("Healed were 39 of 47 teeth (83%) at 1 year and 41 of 47 (87%) at 2 years.", (39, 47)),
    "words behind the time": (
        "Twelve months after repair 39 of 47 teeth had healed; two years after repair 41 of 47.", (39, 47),
    ),
    "hyphen": ("Healing at the 12-month recall was 39 of 47; it was 41 of 47 at the 24-month recall.", (39, 47)),
    "heading": (
        "One-year results: 39 of 47 teeth were healed. Two-year results: 41 of 47 teeth were healed.", (39, 47),
    ),
    "heading over two figures": (
        "One-year results: 8 of 47 teeth were lost, 39 of 47 teeth were healed. Two-year results: 41 of 47.", (39, 47),
    ),
    "table with a time over each column": (
        "Outcome | 6 months | 12 months | 24 months\n healed | 35 of 47 | 39 of 47 | 41 of 47", (39, 47),
    ),
    "table with a time before each row": (
        "Recall | healed\n 6 months | 35 of 47\n 12 months | 39 of 47\n 24 months | 41 of 47", (39, 47),
    ),
    "list behind figures of a whole": ("Of 47 teeth, 35, 39 and 41 had healed at 6, 12 and 24 months.", (39, 47)),
    "respectively, of a whole": (
        "Among the 47 teeth seen, 35, 39 and 41 had healed at 6, 12 and 24 months, respectively.", (39, 47),
    ),
    "list of two": ("Of 47 teeth, 39 and 41 had healed at 12 and 24 months.", (39, 47)),
    "whole behind all": ("Healing in 35, 39 and 41 teeth at 6, 12 and 24 months (n = 47).", (39, 47)),
    "whole behind the figures": ("35, 39 and 41 of 47 teeth had healed at 6, 12 and 24 months.", (39, 47)),
    "shares in brackets": (
        "Healed were 35 (74%), 39 (83%) and 41 (87%) of the 47 teeth after 6, 12 and 24 months.", (39, 47),
    ),
    "visits with dashes": ("35, 39 and 41 of 47 teeth were healed at the 6-, 12- and 24-month visits.", (39, 47)),
    "figures behind the times": (
        "The healed numbered, at 6, 12 and 24 months, 35, 39 and 41 of 47 teeth.", (39, 47),
    ),
    "columns parted by tabs": (
        "Visit\t6 months\t12 months\t24 months\n healed\t35/47\t39/47\t41/47", (39, 47),
    ),
    "columns parted by blanks": (
        "Visit   6 months   12 months   24 months\n healed   35/47   39/47   41/47", (39, 47),
    ),
}  # fmt: skip


@pytest.mark.parametrize(("passage", "counts"), RATES.values(), ids=RATES)
def test_a_rate_at_another_time_is_asked_about_and_its_own_time_is_not(
    open_problems: Asked, passage: str, counts: tuple[int, int]
) -> None:
    assert open_problems(passage, rate(*counts, "12 months"), files=FILES) == []
    (asked,) = open_problems(passage, rate(*counts, "24 months"), files=FILES)
    assert (asked.rule, asked.severity) == ("other-time", "ask")
    assert asked.position.line == 16
    assert "the claim at 24 months" in asked.message


DAYS = {
    "list of days": "Failing on days 1, 3 and 7: 20, 9 and 2 of 40 teeth; the others had healed.",
    "figures first": "The healed were 20, 9 and 2 of 40 teeth on days 1, 3 and 7.",
    "a day each": "Healed on day 1: 20 of 40 teeth; day 3: 9 of 40; day 7: 2 of 40.",
    "postoperative days": "On postoperative days 1, 3 and 7 healing was seen in 20, 9 and 2 of 40 teeth.",
    "hours": "Healed were 20 of 40 teeth at 24 h, 9 of 40 at 3 days and 2 of 40 at 7 days.",
}


@pytest.mark.parametrize("passage", DAYS.values(), ids=DAYS)
def test_figures_on_several_days_have_each_its_own(open_problems: Asked, passage: str) -> None:
    for events, day in ((20, "1 day"), (9, "3 days"), (2, "7 days")):
        assert open_problems(passage, rate(events, 40, day), files=FILES) == []
    (asked,) = open_problems(passage, rate(9, 40, "7 days"), files=FILES)
    assert asked.rule == "other-time"


@pytest.mark.parametrize("hours", ["6 h", "6 hours", "6 hrs"])
def test_hours_are_a_time(open_problems: Asked, hours: str) -> None:
    passage = f"Healed were 12 of 40 teeth at {hours} and 4 of 40 at 48 h."
    assert open_problems(passage, rate(12, 40, "6 hours"), files=FILES) == []
    assert open_problems(passage, rate(4, 40, "48 hours"), files=FILES) == []
    (asked,) = open_problems(passage, rate(12, 40, "48 hours"), files=FILES)
    assert asked.rule == "other-time"
    assert f"at {hours}" in asked.message


ESTIMATES = {
    "list with respectively": "Survival at 1, 5 and 10 years was 97%, 92% and 83%, respectively.",
    "list with intervals": (
        "Survival was 97% (95% CI 93% to 99%), 92% (88% to 95%) and 83% (76% to 88%) at 1, 5 and 10 years."
    ),
    "falling": "Survival fell from 97% at 1 year to 92% at 5 years and 83% at 10 years.",
    "dashes": "The 1-, 5- and 10-year survival rates were 97%, 92% and 83%.",
    "time before": "Kept (Kaplan-Meier): 1 year 97%; 5 years 92% (84 at risk); 10 years 83% (31 at risk)",
    "adjective": "The 5-year survival was 92% and the 10-year survival 83%.",
    "table of years": "Year | At risk | Kept (%)\n 1 | 280 | 97\n 5 | 118 | 92\n 10 | 31 | 83",
    "table of a time in years": "Time (years) | Kept, %\n 1 | 97\n 5 | 92\n 10 | 83",
}


@pytest.mark.parametrize("passage", ESTIMATES.values(), ids=ESTIMATES)
def test_an_estimate_at_another_time_is_asked_about_and_its_own_time_is_not(open_problems: Asked, passage: str) -> None:
    assert open_problems(passage, survival("92%", "5 years"), files=FILES) == []
    assert open_problems(passage, survival("83%", "10 years"), files=FILES) == []
    assert [each.rule for each in open_problems(passage, survival("92%", "10 years"), files=FILES)] == ["other-time"]


def test_the_question_has_both_readings_and_is_answered_at_the_claim(open_problems: Asked) -> None:
    (asked,) = open_problems(
        "At 6, 12 and 24 months: 35, 39 and 41 of 47 healed.", rate(39, 47, "24 months"), files=FILES
    )
    assert asked.message == (
        '"39 and 41 of 47": the passage typed from p. 2 (evidence/sources/x.bib:4) gives it by its place at 12 months '
        '("12"), the claim at 24 months; which is meant?'
    )
    assert "type the time that it gives: 12 months" in asked.hint
    assert '- {rule: other-time, printed: 39 and 41 of 47, by: YOUR INITIALS, reason: "WHY IT IS SO"}' in asked.hint


def test_a_claim_that_takes_over_another_s_follow_up_is_asked_about_too(open_problems: Asked) -> None:
    passage = "At 12 months 39 of 47 teeth were healed. At 24 months 38 of 44 were kept."
    first = "- id: a\n  question: hole\n  outcome: healed\n  where: p. 2\n  " + rate(
        39, 47, "12 months"
    ).strip().replace("\n", "\n  ")
    later = "\n- {id: b, question: hole, outcome: kept, where: p. 2, events: 38, total: 44, follow_up: a}\n"
    assert [each.rule for each in open_problems(passage, first + later, files=FILES)] == ["other-time"]
    assert open_problems(passage.replace("At 24 months", "Then"), first + later, files=FILES) == []


def test_a_follow_up_with_two_ends_holds_the_times_between_them(open_problems: Asked) -> None:
    passage = (
        "At the last recall (12 to 60 months) 39 of 47 healed; at 24 months 40 of 48 were; at 6 months 44 of 50 were."
    )
    window = "follow_up: {from: treatment, timing: last recall, minimum: 12 months, maximum: 60 months}\n"
    assert open_problems(passage, f"events: 39\ntotal: 47\n{window}", files=FILES) == []
    assert open_problems(passage, f"events: 40\ntotal: 48\n{window}", files=FILES) == []
    found = open_problems(passage, f"events: 44\ntotal: 50\n{window}", files=FILES)
    assert [each.rule for each in found] == ["other-time"]


HONEST = {
    "the time stands in another sentence": "Recalls took place at 6, 12 and 24 months. Of the 47 teeth 39 were healed.",
    "the same time in years": "One year after repair 39 of 47 teeth were healed.",
    "a state before, with its own time": "Of 47 teeth healed at 3 months, 39 stayed healed at 12 months.",
    "the time that leads the sentence": "At 12 months, 39 of the 47 teeth healed at 3 months were still healed.",
    "an age beside it": "In patients aged 43 years 39 of 47 teeth were healed at 12 months.",
    "a length of medicine beside it": "With an antibiotic for 7 days 39 of 47 teeth were healed after 12 months.",
}


@pytest.mark.parametrize("passage", HONEST.values(), ids=HONEST)
def test_nothing_is_asked_where_the_passage_does_not_say_otherwise(open_problems: Asked, passage: str) -> None:
    assert open_problems(passage, rate(39, 47, "12 months"), files=FILES) == []


def test_levels_in_a_list_are_no_times_in_a_list(open_problems: Asked) -> None:
    passage = "At 6 and 12 months, MTA and calcium hydroxide healed in 39 of 47 and 30 of 45 teeth, respectively."
    levels = (
        "factor: material\nknown_at: during\nreference: calcium hydroxide\nlevels:\n"
        "  - {level: MTA, events: 39, total: 47}\n  - {level: calcium hydroxide, events: 30, total: 45}\n"
        "follow_up: {from: treatment, timing: at, at: 12 months, tolerance: not reported}\n"
    )
    assert open_problems(passage, levels, files=FILES) == []


# Lengths of something else

ELSE = {
    "renewed every": ("The paste was renewed every 12 weeks until a barrier formed.", "12 weeks"),
    "changed after": ("The paste was changed after 7 days in all.", "7 days"),
    "recruited over": ("Patients were recruited over 24 months in one clinic.", "24 months"),
    "the trial ran": ("The trial ran for 3 years.", "3 years"),
    "the study lasted": ("The study lasted about 3 years.", "3 years"),
    "enrolment lasted": ("Enrolment lasted 3 years.", "3 years"),
    "all were entered": ("Over a period of 10 years all such teeth were entered.", "10 years"),
    "median age": ("Patients had a median age of 43 years.", "43 years"),
    "aged": ("Only patients aged 12 years or more took part, all aged 12 years.", "12 years"),
    "older than": ("Patients older than 40 years were left out.", "40 years"),
    "years old": ("All were 18 years old.", "18 years"),
    "pain before": ("There had been pain for 3 months before treatment.", "3 months"),
    "practice": ("The operators had 10 years of practice.", "10 years"),
    "practised for": ("Both had practised for 6 years.", "6 years"),
    "apart": ("The two visits were 2 weeks apart.", "2 weeks"),
    "between visits": ("Between the visits 4 weeks passed.", "4 weeks"),
    "wash-out": ("The wash-out was 4 weeks.", "4 weeks"),
    "medicine": ("An antibiotic was taken for 7 days.", "7 days"),
    "course": ("A 7-day course of medicine followed.", "7 days"),
    "delay": ("Holes were closed within 2 weeks of the accident.", "2 weeks"),
    "time to failure": ("The time to failure was 14 months.", "14 months"),
    "healing took": ("Healing took 9 months.", "9 months"),
}
FOLLOWED = (
    "All were followed for {}.",
    "Recall took place at {}.",
    "The observation lasted {}.",
    "The follow-up of the trial ran for {}.",
    "Teeth were entered if they had been followed for {}.",
    "All recruited patients were reviewed for {}.",
    "Treated teeth were seen again after {}.",
    "The treatment was completed and after {} the film was read.",
    "Age and sex were noted, and at {} the film was read.",
)


@pytest.mark.parametrize(("methods", "length"), ELSE.values(), ids=ELSE)
def test_a_length_of_something_else_typed_as_follow_up_is_asked_about(
    open_problems: Asked, methods: str, length: str
) -> None:
    passages = f"[p. 1] {methods}\n[p. 2] 39 of 47 teeth were healed."
    (asked,) = open_problems(passages, rate(39, 47, length, "p. 1"), files=FILES)
    assert (asked.rule, asked.severity) == ("time-of-something-else", "ask")
    assert "the claim as follow-up (`at`)" in asked.message
    both = f"[p. 1] {methods} {FOLLOWED[0].format(length)}\n[p. 2] 39 of 47 teeth were healed."
    assert "time-of-something-else" not in {
        each.rule for each in open_problems(both, rate(39, 47, length, "p. 1"), files=FILES)
    }


@pytest.mark.parametrize("methods", FOLLOWED)
def test_a_length_for_which_teeth_were_followed_is_not(open_problems: Asked, methods: str) -> None:
    passages = f"[p. 1] {methods.format('14 months')}\n[p. 2] 39 of 47 teeth were healed."
    assert open_problems(passages, rate(39, 47, "14 months", "p. 1"), files=FILES) == []


@pytest.mark.parametrize(
    ("passage", "block"),
    [
        ("Patients aged 12 to 60 years were followed for 24 to 72 months;", "minimum: 12 years, maximum: 60 years"),
        ("Patients were seen for a median of 31 months; their median age was 43 years;", "median: 43 years"),
    ],
)  # fmt: skip
def test_ages_are_no_ends_and_no_median_of_a_follow_up(open_problems: Asked, passage: str, block: str) -> None:
    follow_up = "follow_up: {{from: treatment, timing: last recall, {}}}\n"
    text = f"{passage} 39 of 47 teeth healed."
    found = open_problems(text, "events: 39\ntotal: 47\n" + follow_up.format(block), files=FILES)
    assert {each.rule for each in found} == {"time-of-something-else"}
    right = block.replace("12 years", "24 months").replace("60 years", "72 months").replace("43 years", "31 months")
    assert open_problems(text, "events: 39\ntotal: 47\n" + follow_up.format(right), files=FILES) == []


TESTED = (
    "Teeth | MTA | calcium hydroxide | P\n Healed 6 months, n/N | 39/47 | 20/45 | .02\n"
    " Healed 24 months, n/N | 40/47 | 35/45 | .35",
    "Healing at 6 months: MTA 39/47, calcium hydroxide 20/45 (P = .02). Healing at 24 months: MTA 40/47, calcium "
    "hydroxide 35/45 (P = .35).",
)


@pytest.mark.parametrize("passage", TESTED)
def test_a_p_value_of_another_time_is_asked_about(open_problems: Asked, passage: str) -> None:
    claim = (
        "factor: material\nknown_at: during\nreference: calcium hydroxide\n"
        "test: {{between: [MTA, calcium hydroxide], p: {}, method: not reported}}\n"
        "follow_up: {{from: treatment, timing: at, at: {}, tolerance: not reported}}\n"
    )
    for p, own, other in ((".02", "6 months", "24 months"), (".35", "24 months", "6 months")):
        assert open_problems(passage, claim.format(p, own), files=FILES) == []
        assert {each.rule for each in open_problems(passage, claim.format(p, other), files=FILES)} == {"other-time"}
