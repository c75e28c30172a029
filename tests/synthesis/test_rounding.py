"""Percentages and means from whole counts."""

from decimal import ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal

import pytest
from hypothesis import given, strategies as st
from passageproof.synthesis import (
    achievable_percents,
    events_for_percent,
    percent_near_misses,
    printed_number,
    totals_for_mean,
)

MODES = {"half-up": ROUND_HALF_UP, "half-even": ROUND_HALF_EVEN}
COUNTS = st.integers(1, 120).flatmap(lambda total: st.tuples(st.integers(0, total), st.just(total)))


def printed_percent(events: int, total: int, decimals: int, rounding: str) -> str:
    # 60 digits are enough to tell a tie for totals up to 120
    share = Decimal(100 * events) / Decimal(total)
    return str(share.quantize(Decimal(1).scaleb(-decimals), MODES[rounding]))


@pytest.mark.parametrize(
    ("percent", "total", "events"),
    [
        # from abstracts that were read: Mente 2010, Krupp 2013, Gorni 2016 and 2022, Chong 2003
        ("86", 21, [18]),
        ("86", 64, [55]),
        ("73.3", 90, [66]),
        ("70.3", 128, [90]),
        ("81", 26, [21]),
        ("54.5", 110, [60]),
        ("53.2", 124, [66]),
        ("29", 21, [6]),
        ("52", 21, [11]),
        ("19", 21, [4]),
        # constructed: no count gives these
        ("88", 21, []),
        ("74.0", 90, []),
        # Mente 2010: 29 % and 52 % stand in a sentence about 26 teeth, which cannot give them
        ("29", 26, []),
        ("52", 26, []),
        ("85.7%", 21, [18]),
    ],
)
def test_counts_behind_a_printed_percentage(percent: str, total: int, events: list[int]) -> None:
    assert events_for_percent(percent, total) == events


def test_tie_is_rounded_by_either_rule() -> None:
    # 1 of 8 is 12.5 %
    assert events_for_percent("13", 8, "half-up") == [1]
    assert events_for_percent("12", 8, "half-up") == []
    assert events_for_percent("12", 8, "half-even") == [1]
    assert events_for_percent("13", 8, "half-even") == []


def test_trailing_zero_counts() -> None:
    assert events_for_percent("86", 50) == events_for_percent("86.0", 50) == [43]
    assert events_for_percent("86", 21) == [18]
    assert events_for_percent("86.0", 21) == []


@given(COUNTS, st.integers(0, 2), st.sampled_from(tuple(MODES)))
def test_a_count_is_found_behind_its_own_percentage(counts: tuple[int, int], decimals: int, rounding: str) -> None:
    events, total = counts
    percent = printed_percent(events, total, decimals, rounding)
    assert events in events_for_percent(percent, total, rounding)
    assert round(Decimal(percent) * 10**decimals) in achievable_percents(total, decimals, rounding)


@given(st.integers(1, 400), st.integers(0, 1), st.sampled_from(tuple(MODES)))
def test_achievable_percents_are_those_with_a_count(total: int, decimals: int, rounding: str) -> None:
    reachable = [
        scaled
        for scaled in range(100 * 10**decimals + 1)
        if events_for_percent(str(Decimal(scaled).scaleb(-decimals)), total, rounding)
    ]
    assert achievable_percents(total, decimals, rounding) == reachable


def test_every_percentage_is_reachable_from_a_hundred_up() -> None:
    # Brown and Heathers 2017, Soc Psychol Personal Sci 8:363-369 (from memory): silent from n = 100 x 10**decimals
    assert achievable_percents(100, 0) == list(range(101))
    assert achievable_percents(1000, 1) == list(range(1001))
    assert achievable_percents(10**9, 1) == list(range(1001))
    assert len(achievable_percents(99, 0)) == 100


@pytest.mark.parametrize(
    ("percent", "total", "exact", "truncated", "adjusted"),
    [
        ("86.66", 15, [], [13], []),  # Panda 2022, J Clin Med 11:3909, Table 4
        ("45.4", 11, [], [5], []),  # the same table
        ("18", 27, [], [5], []),  # Rud 1998: 5 of 27 is 18.5; the column was made to sum to 100
        ("85.57", 42, [], [], []),  # Pisano 2023: 36 of 42 is 85.71
        ("67", 3, [2], [], []),
        ("34", 3, [], [], [1]),  # 33 + 33 + 34: one unit given so that thirds sum to 100
        ("12", 8, [1], [], []),  # half-even
        ("13", 8, [1], [], []),  # half-up
    ],
)
def test_near_misses_are_distinguished(
    percent: str, total: int, exact: list[int], truncated: list[int], adjusted: list[int]
) -> None:
    assert percent_near_misses(percent, total) == (exact, truncated, adjusted)


@pytest.mark.parametrize(
    ("mean", "count", "totals"),
    [
        ("5.27", 43, []),  # Brown and Heathers 2017, worked example
        ("3.48", 20, []),  # twenty dice: means go by .05 (teaching case, common practice, no source)
        ("3.45", 20, [69]),
        ("3.5", 2, [7]),
        ("2", 2, [3, 4, 5]),  # 2.5 prints as 2 by half-even, 3 by half-up
        ("3", 2, [5, 6]),
        ("-2", 2, [-5, -4, -3]),
    ],
)
def test_sums_behind_a_printed_mean(mean: str, count: int, totals: list[int]) -> None:
    assert totals_for_mean(mean, count) == totals


@pytest.mark.parametrize(
    ("text", "scaled", "decimals"),
    [
        ("85.70", 8570, 2),
        (".02", 2, 2),
        ("-3.58", -358, 2),
        ("42,300", 42300, 0),
        ("\u22120.5%", -5, 1),
        (" 7. ", 7, 0),
    ],
)
def test_printed_number_keeps_its_places(text: str, scaled: int, decimals: int) -> None:
    assert printed_number(text) == (scaled, decimals)


@pytest.mark.parametrize("text", ["", "%", ".", "1e3", "4,23", "12-14", "<.05", "nan", "1.2.3"])
def test_text_that_is_no_number_is_named(text: str) -> None:
    with pytest.raises(ValueError, match="not a number"):
        printed_number(text)


def test_impossible_arguments_are_named() -> None:
    with pytest.raises(ValueError, match="total"):
        events_for_percent("50", 0)
    with pytest.raises(ValueError, match="decimals"):
        achievable_percents(20, -1)
    with pytest.raises(ValueError, match="rounding"):
        events_for_percent("50", 20, "down")
