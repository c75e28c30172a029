"""What a text says as a number, an interval, a length, a range or a day."""

from __future__ import annotations

import datetime
from decimal import Decimal

import pytest
from hypothesis import given, strategies as st
from passageproof.reading import parsing
from passageproof.reading.limits import FIRST_YEAR, LAST_YEAR, NUMBER


@pytest.mark.parametrize(
    ("text", "value", "decimals"),
    [
        ("39", "39", 0),
        ("2.9", "2.9", 1),
        (".02", "0.02", 2),
        ("-3.58", "-3.58", 2),
        ("−3.58", "-3.58", 2),
        ("42,300", "42300", 0),
        ("1,042,300.5", "1042300.5", 1),
        ("12.10", "12.10", 2),
        ("012", "12", 0),
    ],
)
def test_number_is_read_with_its_printed_decimals(text: str, value: str, decimals: int) -> None:
    assert parsing.number(text) == (Decimal(value), decimals)


@pytest.mark.parametrize(
    "text", ["", "-", ".", "4 2", "4,23", "1e3", "0x1F", "4·3", "1.2.3", "²", "٣", "12%", "NaN", "1_000"]
)
def test_text_that_is_no_number_is_none(text: str) -> None:
    assert parsing.number(text) is None


def test_percentage_keeps_its_printed_decimals() -> None:
    assert parsing.percentage("5.40%") == (Decimal("5.40"), 2)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("62% to 80%", ("62", "80", True)),
        ("1.2 to 7.1", ("1.2", "7.1", False)),
        ("-3.58 to 1.62", ("-3.58", "1.62", False)),
        (".8 to .95", (".8", ".95", False)),
        ("62 to 80%", None),
        ("62% - 80%", None),
        ("to 80%", None),
        ("1 to 2 to 3", None),
    ],
)
def test_interval_has_two_ends_of_one_kind(text: str, expected: object) -> None:
    assert parsing.interval(text) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (".02", ("", Decimal("0.02"), 2)),
        ("<.05", ("<", Decimal("0.05"), 2)),
        ("<=.05", ("<=", Decimal("0.05"), 2)),
        ("≤ .05", ("<=", Decimal("0.05"), 2)),
        (">.9", (">", Decimal("0.9"), 1)),
        ("NS", None),
        ("P = .02", None),
    ],
)
def test_p_keeps_its_comparator(text: str, expected: object) -> None:
    assert parsing.p_value(text) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("12 months", (Decimal(12), "month", 0)),
        ("1 year", (Decimal(1), "year", 0)),
        ("2.5 years", (Decimal("2.5"), "year", 1)),
        ("3 years 5 months", (Decimal(41), "month", 0)),
        ("2 weeks 3 days", (Decimal(17), "day", 0)),
        ("90 days", (Decimal(90), "day", 0)),
        ("1 year 2 weeks", None),
        ("2.5 years 3 months", None),
        ("12", None),
        ("12months", None),
        ("-3 days", None),
        ("3 minutes", None),
    ],
)
def test_length_is_read_in_its_smallest_unit(text: str, expected: object) -> None:
    assert parsing.length(text) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("up to 3 mm", (None, Decimal(3), "mm", False, True)),
        ("under 10 minutes", (None, Decimal(10), "minute", False, False)),
        ("over 3 mm", (Decimal(3), None, "mm", False, False)),
        ("from 5 mm", (Decimal(5), None, "mm", True, False)),
        ("1 mm to 3 mm", (Decimal(1), Decimal(3), "mm", True, True)),
        ("1 to 3 mm", (Decimal(1), Decimal(3), "mm", True, True)),
        ("over 1 mm to 3 mm", (Decimal(1), Decimal(3), "mm", False, True)),
        ("over 40 years", (Decimal(40), None, "year", False, False)),
        ("over 2 teeth", (Decimal(2), None, "tooth", False, False)),
        ("3 mm to 1 mm", None),
        ("3 mm", None),
        ("up to 3 cm", None),
        ("1 mm to 3 minutes", None),
        ("large", None),
    ],
)
def test_range_says_which_ends_belong_to_it(text: str, expected: object) -> None:
    assert parsing.measured_range(text) == expected


@pytest.mark.parametrize("text", ["2026-02-30", "2026-2-3", "03.02.2026", "20260203", "2026-W05-2", "2026-13-01", ""])
def test_day_that_is_not_real_or_not_written_in_full_is_none(text: str) -> None:
    assert parsing.date(text) is None


# The Gregorian rule as in ISO 8601: 2000 was a leap year, 2100 will be none.
@pytest.mark.parametrize(("text", "is_real"), [("2000-02-29", True), ("2100-02-29", False)])
def test_leap_days_follow_the_calendar(text: str, is_real: bool) -> None:
    assert (parsing.date(text) is not None) == is_real


@given(st.dates(datetime.date(FIRST_YEAR, 1, 1), datetime.date(LAST_YEAR, 12, 31)))
def test_every_day_is_read_back(day: datetime.date) -> None:
    assert parsing.date(day.isoformat()) == day


@given(st.integers(0, NUMBER - 1), st.integers(0, 6))
def test_number_printed_in_any_usual_way_is_read_back(units: int, decimals: int) -> None:
    value = Decimal(units).scaleb(-decimals)
    for text in (f"{value:f}", f"{value:,f}"):
        found = parsing.number(text)
        assert found is not None
        assert found == (value, decimals)


@pytest.mark.parametrize(("text", "is_one"), [("1.0.0", True), ("0.10.2", True), ("1.0", False), ("v1.0.0", False),
                                              ("01.0.0", False), ("1.0.0-rc1", False), ("1.0.0\n", False)])  # fmt: skip
def test_a_release_is_three_numbers(text: str, is_one: bool) -> None:
    assert parsing.is_release(text) == is_one


_PARSERS = (
    parsing.number,
    parsing.percentage,
    parsing.interval,
    parsing.p_value,
    parsing.length,
    parsing.measured_range,
    parsing.date,
    parsing.is_id,
    parsing.is_key,
    parsing.is_release,
)


@given(st.one_of(st.text(), st.text("0123456789.,-−%<>≤ tonmyearsdupf")))
def test_no_text_makes_a_parser_fail(text: str) -> None:
    for parse in _PARSERS:
        parse(text)


@pytest.mark.parametrize("parse", _PARSERS)
def test_endless_digits_are_refused_and_cost_no_time(parse) -> None:  # type: ignore[no-untyped-def]
    assert not parse("9" * 1_000_000 + "%") or parse in (parsing.is_id, parsing.is_key)
