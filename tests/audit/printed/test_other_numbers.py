"""Numbers that are no ratio, no interval and no difference between groups, by the words beside them.

The forms are common practice of reports, no source; all figures are invented.
"""

from __future__ import annotations

import pytest
from passageproof.numerals import read_numerals
from passageproof.printed.other_numbers import coefficient_of, range_of
from passageproof.printed.time_watched import may_watch
from passageproof.printed.within_change import change_within


@pytest.mark.parametrize(
    ("text", "number", "label"),
    [
        ("A against B (reference): B 0.92, SE 0.38, Exp(B) 2.51", "0.92", "B"),
        ("A against B (reference): B 0.92, SE 0.38, Exp(B) 2.51", "0.38", "SE"),
        ("A against B (reference): B 0.92, SE 0.38, Exp(B) 2.51", "2.51", None),
        ("a regression coefficient of 0.92", "0.92", "regression coefficient"),
        ("Wald = 5.86; OR = 2.51", "5.86", "Wald"),
        ("ln(HR) 0.64", "0.64", "ln(HR)"),
        ("A against group B 2.51", "2.51", None),
        ("the odds ratio was 2.51", "2.51", None),
    ],
)
def test_a_coefficient_is_known_by_its_label(text: str, number: str, label: str | None) -> None:
    token = next(each for each in read_numerals(text) if each.text == number)
    found = coefficient_of(text, token, None)
    assert (text[slice(*found)] if found is not None else None) == label


@pytest.mark.parametrize(
    ("text", "is_range"),
    [
        ("78%, with a range over the nine centres of 64% to 91%", True),
        ("78%, varying between 64% and 91% from one centre to the next", True),
        ("78% (64% to 91% across operators)", True),
        ("78% (95% confidence interval ranging from 64% to 91%)", False),
        ("78% (64% to 91%)", False),
    ],
)
def test_a_range_over_centres_is_no_interval(text: str, is_range: bool) -> None:
    tokens = read_numerals(text)
    low = next(each for each in tokens if each.text.startswith("64"))
    high = next(each for each in tokens if each.text.startswith("91"))
    assert (range_of(text, low, max(high.end, high.outer_end)) is not None) == is_range


@pytest.mark.parametrize(
    ("text", "is_within"),
    [
        ("Pain fell by 38 mm with A. The groups differed by 9 mm.", True),
        ("Within group A pain changed by 38 mm; between groups the difference was 9 mm.", True),
        ("Pain fell by 38 mm more with A than with B. The groups differed by 9 mm at entry.", False),
        ("The difference was 38 mm. At entry the groups differed by 9 mm.", False),
        ("Pain fell by 38 mm with A.", False),
    ],
)
def test_a_change_of_one_group_is_no_difference_of_two(text: str, is_within: bool) -> None:
    token = next(each for each in read_numerals(text) if each.text == "38")
    sentence = (0, text.index(".") + 1)
    assert (change_within(text, token, sentence) is not None) == is_within


@pytest.mark.parametrize(("text", "may"), [("604 eye-years", True), ("604 eye years", True), ("within 2 years", False)])
def test_a_time_behind_a_word_may_count_time_watched(text: str, may: bool) -> None:
    assert may_watch(text) == may
