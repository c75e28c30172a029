"""A list that names no event goes through those of the clause before it; a clause with its own words has these."""

from __future__ import annotations

from collections.abc import Callable

import pytest

OTHER = [
    "With MTA 84 of 100 teeth healed, 11 were doubtful and 5 failed. With hydroxide the corresponding figures were 70 "
    "and 16 and {14 of 100}.",
    "With MTA 84 of 100 teeth healed and 16 failed; the corresponding figures for hydroxide were 70 and {30 of 100}.",
    "Of 100 teeth with MTA 84 healed, 11 were doubtful and 5 failed; the figures for hydroxide were 70, 16 and "
    "{14 of 100}.",
    "Healed, uncertain and failed were 84, 11 and 5 of 100 with MTA and 70, 16 and {14 of 100} with hydroxide.",
    "31 of 412 and 44 of 409 healed, whereas {58 of 412} and 83 of 409, respectively, had been in pain.",
    "31 of 412 healed with MTA and 44 of 409 with hydroxide, whereas 58 of 412 and {83 of 409} had been in pain.",
]
OWN = [
    "With MTA 84 of 100 teeth healed and 16 failed; with MTA and hydroxide of another make {70 of 100} and 75 of 100.",
    "With MTA 84 of 100 teeth healed and 16 failed; at 1 and 2 years 70 and {75 of 100}.",
    "31 of 412 were in pain, whereas {58 of 412} and 83 of 409 healed.",
    "{31 of 412} and 44 of 409 healed, whereas 58 of 412 and 83 of 409, respectively, had been in pain.",
    "{31 of 412} healed, but 44 of 409 did not.",
]


@pytest.mark.parametrize("passage", OTHER)
def test_number_of_another_event_of_the_list_is_asked_about(rules: Callable[..., list[str]], passage: str):
    assert set(rules("healed", passage, "factor: material\nknown_at: during\n")) & {"event-opposite", "event-other"}


@pytest.mark.parametrize("passage", OWN)
def test_number_of_the_event_is_not(rules: Callable[..., list[str]], passage: str):
    found = rules("healed", passage, "factor: material\nknown_at: during\n")
    assert not [rule for rule in found if rule.startswith("event")]
