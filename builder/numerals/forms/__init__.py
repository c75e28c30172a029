"""The forms in which papers print numbers together: for each a pattern, and a function with its example."""

from __future__ import annotations

import re
from functools import lru_cache

from ...compiled_patterns import compiled
from ..kinds import pattern
from ..printed import Printed
from . import counts, intervals, ratios, shares, spreads, times, wholes
from .found import Form, Found

ORDER: tuple[Form, ...] = (
    ratios.ratio,
    intervals.confidence_interval,
    intervals.confidence_alone,
    intervals.in_square_brackets,
    intervals.in_round_brackets,
    shares.share_in_brackets,
    shares.share_before_n,
    ratios.p_value,
    times.times_with_slashes,
    shares.slashed_shares,
    times.slashed_behind_unit,
    counts.slashed_of_n,
    times.date,
    times.years_and_months,
    spreads.mean_and_deviation,
    wholes.all_but_few,
    wholes.all_of_n_but_few,
    wholes.all_of_n,
    wholes.no_unit_of_n,
    times.times_with_dashes,
    counts.numbers_of_numbers,
    counts.numbers_of_n,
    counts.n_of_n,
    counts.share_of_n,
    counts.n_in_brackets_of_n,
    times.at_times,
    times.times_behind_unit,
    counts.n_slash_n,
    shares.shares_with_one_sign,
    spreads.a_to_b,
    counts.n_equals,
)
"""Every form, in the order in which they are tried at a place: what holds more comes first."""

_BEGINNING = """[MEASURE CI NUMBER P_SIGN BETWEEN N_SIGN COMPARATOR ROUND_OPEN SQUARE_OPEN ALL]
    | [FILLER ROLE WORD UNIT] NUMBER [COMMA AND SLASH] | LABEL UNIT OF"""
"""What a form may begin with, looked at once before each form is tried."""
_FORMS = compiled(
    f"(?={pattern(_BEGINNING)})(?:{'|'.join(f'(?P<{form.name}>{pattern(form.written, form.name)})' for form in ORDER)})"
)
_BY_NAME = {form.name: form for form in ORDER}


def read_forms(printed: Printed) -> None:
    """Pair, name and carry units over within each form of a text, then find elided times and years of the calendar."""
    for match in forms_in(printed.kinds):
        name = match.lastgroup or ""
        _BY_NAME[name].read(Found(printed, name, match))
    shares.read_behind_commas(printed)
    times.read_elided(printed)
    times.read_calendar(printed)


@lru_cache(maxsize=4096)
def forms_in(kinds: str) -> tuple[re.Match[str], ...]:
    """Each form found in a text that is given as kinds; the name of the form is the match's `lastgroup`.

    Papers print the same few sentences: "39 of 47 healed (83%)" and "7 of 12 healed (58%)" are alike in kinds.
    """
    return tuple(_FORMS.finditer(kinds))
