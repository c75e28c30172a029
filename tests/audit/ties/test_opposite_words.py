"""Lesions that persisted, pulps that died, rows "failed to ... by 12 months": typed as what is good.

The ways of print are common practice of reports, no source; all figures are invented.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest

Rules = Callable[..., list[str]]

WRONG = [
    ("healed", "Lesions persisted in {14 of 60} teeth.", "event-opposite"),
    ("healed", "In {14 of 60} teeth the lesion had persisted.", "event-opposite"),
    ("healed", "At 2 years lesions persisted in {14 of 60} teeth; all the others were healed.", "event-opposite"),
    ("healed", "Disease persisted in {14 of 60}.", "event-opposite"),
    ("healed", "Lesions were still present in {14 of 60} teeth.", "event-opposite"),
    ("vital", "Group | necrotic pulp\n All | {14 of 60}", "event-opposite"),
    ("vital", "Necrosis was found in {14 of 60} pulps.", "event-opposite"),
    ("vital", "{14 of 60} pulps were non-vital.", "event-opposite"),
    ("vital", "{14 of 60} pulps had lost their vitality.", "event-opposite"),
    ("vital", "Pulp necrosis: {14 of 60}", "event-opposite"),
    ("healed", "Teeth: 60\nFailed to heal by 12 months: {14 of 60}\nNo film: 2", "event-denied"),
    ("healed", "Teeth: 60\nDid not heal within 2 years: {14 of 60}\nNo film: 2", "event-denied"),
    ("healed", "Teeth | 60\nNot healed at 12 months | {14 of 60}\nNo film | 2", "event-opposite"),
    ("vital", "Teeth: 60\nNecrotic at 12 months: {14 of 60}\nNo film: 2", "event-opposite"),
]


@pytest.mark.parametrize(("outcome", "passage", "rule"), WRONG)
def test_the_opposite_is_asked_about(rules: Rules, outcome: str, passage: str, rule: str) -> None:
    assert rules(outcome, passage) == [rule]


RIGHT = [
    ("unhealed", "Lesions persisted in {14 of 60} teeth."),
    ("failed", "Lesions persisted in {14 of 60} teeth."),
    ("healed", "Lesions persisted in 14 of 60 teeth; {46 of 60} healed."),
    ("healed", "Teeth in which lesions persisted were treated again; {46 of 60} healed."),
    ("healed", "Necrotic pulps: {46 of 60} healed."),
    ("healed", "Healed\n Necrotic pulps | {46 of 60}"),
    ("healed", "Healing by diagnosis\n Pulp necrosis | {46 of 60}"),
    ("healed", "Of 60 teeth with pulp necrosis {46 of 60} healed."),
    ("healed", "Teeth with necrotic pulps healed in {46 of 60}."),
    ("kept", "In non-vital teeth survival was {46 of 60}."),
    ("vital", "Group | vital\n All | {46 of 60}"),
    ("vital", "Necrosis was found in 14 of 60 pulps; {46 of 60} were vital."),
    ("healed", "Teeth: 60\nHealed by 12 months: {46 of 60}\nNo film: 2"),
    ("failed", "Teeth: 60\nFailed by 12 months: {14 of 60}\nNo film: 2"),
]


@pytest.mark.parametrize(("outcome", "passage"), RIGHT)
def test_what_is_meant_is_not(rules: Rules, outcome: str, passage: str) -> None:
    assert rules(outcome, passage) == []
