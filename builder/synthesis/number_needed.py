"""Numbers needed to treat, for trials only; the guide never makes one for a prognostic factor."""

from __future__ import annotations

import math

from ..records import NamedTuple
from .ranges import number
from .results import Refusal


class NumberNeeded(NamedTuple):
    """How many to treat for one more or one fewer event."""

    number: int
    """Rounded up to the next whole number."""
    direction: str
    """"benefit" or "harm"."""


def number_needed_to_treat(risk_difference: float, event_is: str = "bad") -> NumberNeeded | Refusal:
    """The reciprocal of a risk difference, treated minus untreated, rounded up.

    risk_difference: -1 to 1, of full precision, never from rounded parts. event_is: "bad" (a failure: fewer is benefit)
    or "good". Refused at a difference of 0, where the number is infinite. Raises ValueError outside these ranges.

    Cochrane Handbook 5.1, section 12.5.4.2; Altman 1998, BMJ 317:1309-1312 (from memory).
    """
    difference = number("risk_difference", risk_difference)
    if not -1 <= difference <= 1:
        raise ValueError(f"risk_difference must be from -1 to 1, not {risk_difference!r}")
    if event_is not in ("bad", "good"):
        raise ValueError(f"event_is must be bad or good, not {event_is!r}")
    if difference == 0:
        return Refusal("The risks are equal: no number of patients makes one event more or fewer.")
    fewer_is_benefit = event_is == "bad"
    direction = "benefit" if (difference < 0) == fewer_is_benefit else "harm"
    # 1 / (0.25 - 0.20) is 20.000000000000004 in floats and must not become 21.
    return NumberNeeded(math.ceil(1 / abs(difference) * (1 - 1e-12)), direction)
