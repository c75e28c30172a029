"""How often studies point the same way."""

from __future__ import annotations

import math

from .ranges import whole


def sign_test(favouring: int, stated: int) -> float:
    """Exact two-sided P that so uneven a split of directions, or more so, comes from a fair coin.

    favouring: 0 to stated. stated: studies with a direction, at least 1; ties and studies without one are left out.
    Raises ValueError outside these ranges. Descriptive only: where effects vary the count of positive studies is not
    binomial (Nikolakopoulos 2020, Res Synth Methods 11:714-719), and below 6 studies P cannot fall under .05.

    McKenzie and Brennan, Cochrane Handbook, chapter 12 (from memory).
    """
    stated = whole("stated", stated, 1)
    favouring = whole("favouring", favouring, 0, stated)
    fewer = min(favouring, stated - favouring)
    ways = 2 * sum(math.comb(stated, count) for count in range(fewer + 1))
    return min(1.0, ways / (1 << stated))
