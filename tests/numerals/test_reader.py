"""Every printed form of a number is read with value, unit, precision and role."""

import string
from decimal import Decimal

import pytest
from hypothesis import given, settings, strategies as st
from passageproof.numerals import Token, read_numerals


def only(text: str) -> Token:
    """The one number of a text."""
    (token,) = read_numerals(text)
    return token


def facts(text: str) -> list[tuple[str, str, str]]:
    """Value, unit and kind of each number."""
    return [(str(token.value), token.unit, token.kind) for token in read_numerals(text)]


# ISO 80000-1:2009, 7.3.2 (decimal sign), 7.3.1 (thin space between groups of three); the raised point is the house
# style of
# some British journals; AMA Manual of Style 11, 18.4 (per cent sign closed up). All from memory.
@pytest.mark.parametrize(
    ("text", "value", "decimals"),
    [
        ("86%", "86", 0), ("86 %", "86", 0), (r"86\%", "86", 0), (r"86\,\%", "86", 0), ("86~%", "86", 0),
        ("86.0 per cent", "86.0", 1), ("86 percent", "86", 0), ("86·0%", "86.0", 1), (r"86$\cdot$5\%", "86.5", 1),
        ("5.40%", "5.40", 2), ("$86$%", "86", 0), ("eighty-six per cent", "86", 0), ("0.5\u2009%", "0.5", 1),
    ],
)  # fmt: skip
def test_percentage_is_read_in_every_form(text: str, value: str, decimals: int) -> None:
    token = only(text)
    assert (str(token.value), token.decimals, token.unit, token.kind) == (value, decimals, "%", "percent")


@pytest.mark.parametrize(
    "text",
    [
        "17/20", "17 / 20", "17 of 20", "17 out of 20", "17 out of the 20 teeth", "17 of the 20 teeth",
        "17 (85%) of 20",
        "17 teeth (85%) of 20", "17 of a total of 20", "seventeen of twenty", "17 healed of 20",
    ],
)  # fmt: skip
def test_events_and_total_are_a_pair(text: str) -> None:
    tokens = read_numerals(text)
    events = next(token for token in tokens if token.part == "events")
    total = tokens[events.pair]
    assert (events.value, total.value, total.part) == (17, 20, "total")


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("1,125 teeth", 1125), (r"1\,125 teeth", 1125), ("1{,}125 teeth", 1125), ("1\u2009125 teeth", 1125),
        ("1\u202f125 teeth", 1125), ("12,345,678 teeth", 12345678), ("twenty-one teeth", 21), ("ninety teeth", 90),
        ("one hundred teeth", 100),
    ],
)  # fmt: skip
def test_thousands_and_words_are_one_number(text: str, value: int) -> None:
    token = only(text)
    assert (token.value, token.unit, token.kind) == (value, "tooth", "count")


def test_n_equals_is_a_size_and_says_so() -> None:
    assert [(token.value, token.role) for token in read_numerals("n = 20; N=1,125")] == [(20, "n"), (1125, "n")]


@pytest.mark.parametrize("by", ["-", "–", "--", " to ", " – ", r"\textendash{}", "$-$", "‐"])
def test_unit_holds_for_both_ends_of_a_range(by: str) -> None:
    assert facts(f"12{by}65 months") == [("12", "month", "length"), ("65", "month", "length")]
    assert facts(f"62{by}80%") == [("62", "%", "percent"), ("80", "%", "percent")]


def test_number_words_make_a_range() -> None:
    assert facts("one to ten years") == [("1", "year", "length"), ("10", "year", "length")]


def test_time_in_two_units_is_one_number_in_the_smaller() -> None:
    token = only("3 years 5 months")
    assert (token.value, token.unit, token.text) == (41, "month", "3 years 5 months")


@pytest.mark.parametrize(
    ("text", "role"),
    [
        ("median 31 months", "median"),
        ("mean of 31 months", "mean"),
        ("minimum: 31 months", "minimum"),
        ("31 months (median)", ""),
    ],
)
def test_word_before_a_time_is_its_role(text: str, role: str) -> None:
    assert only(text).role == role


def test_mean_and_deviation_in_brackets_share_the_unit_behind() -> None:
    # AMA Manual of Style 11, 19.5, "mean (SD) 31 (12) months", from memory.
    mean, deviation = read_numerals("mean (SD) 31 (12) months")
    assert (mean.unit, mean.role, deviation.unit, deviation.role) == ("month", "mean", "month", "sd")


def test_plus_minus_is_a_deviation() -> None:
    assert [token.roles for token in read_numerals(r"mean 31 $\pm$ 12 months")] == [("mean",), ("sd",)]


# Forms as AMA, ICMJE and Lancet style print them, from memory; brackets and separators are common practice, no source.
@pytest.mark.parametrize(
    "text",
    [
        "95% CI 55 to 85", "(95% CI, 55-85)", "(95 % CI: 55–85)", "95% CI [55, 85]", "95% CI (55; 85)", "CI95 55 to 85",
        r"95\% CI 55--85", "95% confidence interval 55 to 85", "95% CI = 55 to 85", "CI 95%: 55, 85",
        "95% CI from 55 to 85",
        "95% confidence limits 55 and 85", "95%-CI 55-85", "95% CI [55,85]",
    ],
)  # fmt: skip
def test_interval_is_read_in_every_bracket_and_separator(text: str) -> None:
    level, low, high = read_numerals(text)
    assert (level.value, level.kind, level.unit) == (95, "confidence", "%")
    assert [(end.value, end.kind, end.part) for end in (low, high)] == [
        (55, "interval", "low"),
        (85, "interval", "high"),
    ]


def test_square_brackets_alone_are_an_interval() -> None:
    assert facts("[0.76, 0.92]") == [("0.76", "none", "interval"), ("0.92", "none", "interval")]


def test_negative_ends_keep_their_sign() -> None:
    assert [token.value for token in read_numerals("MD −0.98 (95% CI −3.58 to 1.62)")] == [
        Decimal("-0.98"), 95, Decimal("-3.58"), Decimal("1.62"),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "measure"),
    [
        ("OR 2.15", "odds ratio"), ("aOR = 2.15", "odds ratio"), ("odds ratio of 2.15", "odds ratio"),
        ("RR: 2.15", "risk ratio"), ("relative risk was 2.15", "risk ratio"), ("adjusted HR 2.15", "hazard ratio"),
        ("hazard ratio (HR) 2.15", "hazard ratio"), ("crude OR for failure = 2.15", "odds ratio"),
        ("mean difference 2.15", "mean difference"),
    ],
)  # fmt: skip
def test_ratio_is_named(text: str, measure: str) -> None:
    token = only(text)
    assert (token.kind, token.measure, token.value) == ("ratio", measure, Decimal("2.15"))


def test_brackets_behind_a_ratio_are_its_interval() -> None:
    assert [token.kind for token in read_numerals("HR 2.9 (1.2-7.1)")] == ["ratio", "interval", "interval"]
    assert [token.kind for token in read_numerals("OR (95% CI): 2.9 (1.2, 7.1)")] == [
        "ratio" if at == 1 else "confidence" if at == 0 else "interval" for at in range(4)
    ]


def test_or_between_two_numbers_is_no_ratio() -> None:
    assert [token.kind for token in read_numerals("41 or 44 teeth")] == ["number", "count"]


@pytest.mark.parametrize(
    ("text", "comparator", "value"),
    [
        ("P = .024", "", ".024"), ("p<0.05", "<", "0.05"), ("P<=.001", "<=", ".001"), (r"$P \leq .001$", "<=", ".001"),
        (r"P \textless\ .05", "<", ".05"), ("P value of .02", "", ".02"), ("P-value > .9", ">", ".9"),
        ("p ≥ 0.9", ">=", "0.9"),
    ],
)  # fmt: skip
def test_p_value_is_read_with_its_comparator(text: str, comparator: str, value: str) -> None:
    token = only(text)
    assert (token.kind, token.comparator, token.value) == ("p", comparator, Decimal(value))


@pytest.mark.parametrize(
    ("text", "comparator"),
    [
        (">3 mm", ">"), ("over 3 mm", ">"), ("more than 3 mm", ">"), ("up to 3 mm", "<="), ("at most 3 mm", "<="),
        ("≤3mm", "<="), ("under 3 mm", "<"), ("at least 3 mm", ">="), ("3 mm or more", ">="), ("3 mm or less", "<="),
        ("no more than 3 mm", "<="), (r"\textgreater 3 mm", ">"), (r"$\geq$3 mm", ">="),
    ],
)  # fmt: skip
def test_size_is_read_with_its_comparator(text: str, comparator: str) -> None:
    token = only(text)
    assert (token.value, token.unit, token.kind, token.comparator) == (3, "mm", "size", comparator)


@pytest.mark.parametrize("gap", [" | ", "|", "   ", "\t"])
@pytest.mark.parametrize("sign", ["-", "−", "–"])
def test_a_minus_that_begins_a_cell_is_a_minus(gap: str, sign: str) -> None:
    tokens = read_numerals(f"Difference{gap}3.1{gap}{sign}5.0 to 11.2")
    assert [str(token.value) for token in tokens] == ["3.1", "-5.0", "11.2"]
    assert [token.part for token in tokens] == ["", "low", "high"]


def test_minutes_are_a_unit() -> None:
    assert facts("under 10 minutes") == [("10", "minute", "minutes")]


@pytest.mark.parametrize(
    "text",
    [
        "88.4992.34", "0.42e21.72", "OR2.15", "12,5 teeth", "95% CI 85 to 55", "MD -0.98 (95% CI 3.58 to 1.62)",
        "12 -65 months", "71 of 37 teeth", "1,3,5 teeth", "1.2.3",
    ],
)  # fmt: skip
def test_what_extraction_destroyed_is_unreadable(text: str) -> None:
    assert "unreadable" in {token.kind for token in read_numerals(text)}


def test_names_and_ordinals_are_no_quantities() -> None:
    assert [token.role for token in read_numerals("Table 2, tooth 46, group 3")] == ["label"] * 3
    assert read_numerals("the 2nd of its kind, one-stage, two thirds, MTA2") == ()


def test_unit_that_is_not_ours_is_no_bare_number() -> None:
    assert only("3 cm").unit == "other"


def test_unit_stands_behind_an_adjective_but_not_behind_a_noun() -> None:
    assert only("47 permanent teeth").unit == "tooth"
    assert only("39 residents treated teeth").unit == "none"


def test_roles_follow_the_order_of_the_clause() -> None:
    after = read_numerals("58 teeth treated, 55 due, 47 examined")
    before = read_numerals("treated: 58, due: 55, examined: 47")
    assert [token.role for token in after] == [token.role for token in before] == ["treated", "due", "examined"]


def test_roles_reach_over_brackets_and_commas() -> None:
    assert [token.roles for token in read_numerals("healed (n = 39), failed (n = 8)")] == [("n", "good"), ("n", "bad")]
    assert [token.roles for token in read_numerals("median follow-up, 31 months (range, 12-65)")] == [
        ("median",), ("range",), ("range",),
    ]  # fmt: skip
    assert [token.roles for token in read_numerals("mean 31 ± 12 months (IQR 20 to 40)")][2:] == [("iqr",), ("iqr",)]


def test_count_in_brackets_is_of_the_number_behind_them() -> None:
    assert [(token.value, token.part) for token in read_numerals("10% (n = 5) of 50 teeth")][1:] == [
        (5, "events"), (50, "total"),
    ]  # fmt: skip


def test_last_of_several_times_gives_the_unit() -> None:
    assert [token.unit for token in read_numerals("at 1, 2 and 5 years")] == ["year"] * 3


def test_due_to_is_no_role() -> None:
    assert only("8 lost due to fracture").role == "lost"


def test_shown_text_is_what_a_reader_reads() -> None:
    assert [token.shown for token in read_numerals(r"86\% 1\,125 $P \leq .05$ 86{\cdot}0\% up to~3 mm")] == [
        "86%", "1\u2009125", "≤ .05", "86·0%", "up to\u00a03",
    ]  # fmt: skip


def test_places_are_those_of_the_text_as_typed() -> None:
    text = "İ healed: 39 of 47 teeth (83\\%)"
    assert [text[token.start : token.end] for token in read_numerals(text)] == ["39", "47", "83"]
    rate = read_numerals(text)[2]
    assert text[rate.outer_start : rate.outer_end] == "83\\%"


numbers = st.integers(0, 999)
units = st.sampled_from(["teeth", "patients", "months", "years", "mm", "%", "minutes", "roots", ""])


@settings(deadline=None)
@given(st.text(alphabet=string.printable + "–−·≤≥±İß\\{}$~%²", max_size=80))
def test_no_text_raises_and_places_are_in_order(text: str) -> None:
    tokens = read_numerals(text)
    assert all(0 <= token.outer_start <= token.start < token.end <= token.outer_end <= len(text) for token in tokens)
    assert [token.start for token in tokens] == sorted({token.start for token in tokens})
    assert all(tokens[token.pair].pair == at for at, token in enumerate(tokens) if token.pair >= 0)


@settings(deadline=None)
@given(st.decimals(min_value=0, max_value=9999, places=2), units)
def test_printed_decimal_is_read_back(value: Decimal, unit: str) -> None:
    token = only(f"{value} {unit}")
    assert (token.value, token.decimals) == (value, 2)
    assert (token.unit == "none") == (not unit)


@settings(deadline=None)
@given(st.integers(1, 99_999_999))
def test_thousands_are_read_back(value: int) -> None:
    assert only(f"{value:,} teeth").value == value


@settings(deadline=None)
@given(numbers, numbers, st.sampled_from(["{} of {} teeth", "{}/{}", "{} out of the {} teeth", "{} of {} (50%)"]))
def test_n_of_n_is_read_back(one: int, other: int, form: str) -> None:
    low, high = sorted((one, other))
    tokens = read_numerals(form.format(low, high))
    assert [(token.value, token.part) for token in tokens[:2]] == [(low, "events"), (high, "total")]


@settings(deadline=None)
@given(
    st.decimals(min_value=-9, max_value=9, places=2),
    st.decimals(min_value=-9, max_value=9, places=2),
    st.sampled_from(["95% CI {} to {}", "(95% CI, {} to {})", "[{}, {}]", "95% CI [{}; {}]", "MD 0 (95% CI {}, {})"]),
)
def test_interval_is_read_back_or_refused(one: Decimal, other: Decimal, form: str) -> None:
    low, high = sorted((one, other))
    ends = [token for token in read_numerals(form.format(low, high)) if token.kind == "interval"]
    assert [end.value for end in ends] == [low, high]
    if low < high:
        assert not [token for token in read_numerals(form.format(high, low)) if token.kind == "interval"]


@settings(deadline=None)
@given(numbers, numbers, units.filter(bool), st.sampled_from(["-", "–", " to ", "--"]))
def test_range_is_read_back_with_one_unit(one: int, other: int, unit: str, by: str) -> None:
    low, high = sorted((one, other))
    first, second = read_numerals(f"{low}{by}{high} {unit}")
    assert (first.value, second.value, first.unit) == (low, high, second.unit)


@pytest.mark.parametrize(
    "text", ["enrolled in 2012", "1999 to 2009", "2012–2016", "between 2001 and 2005", "since March 2010"]
)
def test_years_of_the_calendar_count_nothing(text: str) -> None:
    assert {token.kind for token in read_numerals(text)} == {"calendar"}


def test_role_passes_over_a_year_of_the_calendar() -> None:
    assert [token.roles for token in read_numerals("110 patients enrolled from 1999 to 2009")] == [("treated",), (), ()]


@pytest.mark.parametrize(
    "text", ["9 not healed", "9 were not yet healed", "9 teeth did not heal", "not healing 9 (8%)"]
)
def test_not_turns_a_role_round(text: str) -> None:
    assert read_numerals(text)[0].roles == ("bad",)


@pytest.mark.parametrize(
    "text", ["134 root canal treated teeth", "134 root-filled teeth", "134 root canal filled teeth"]
)
def test_what_was_done_to_a_root_is_no_unit(text: str) -> None:
    assert (only(text).unit, only(text).roles) == ("tooth", ())


def test_words_behind_a_share_of_a_whole_speak_of_the_share() -> None:
    share, whole = read_numerals("54.5% of 110 patients were male")
    assert (share.roles, whole.roles) == (("who",), ())


def test_at_risk_holds_for_the_numbers_of_its_list_and_for_no_time() -> None:
    assert [token.roles for token in read_numerals("number at risk at 36 months: 41 and 30")] == [
        (),
        ("at risk",),
        ("at risk",),
    ]


@pytest.mark.parametrize(
    "text",
    [
        "93% of sealed eyes, of which 61 were still at risk, and 78% of open ones, of which 29 were",
        "93% with a seal (61 at risk) and 78% without (29)",
        "61 sealed eyes and 29 open ones were still at risk",
    ],
)
def test_those_at_risk_need_the_words_once(text: str) -> None:
    at_risk = [token.text for token in read_numerals(text) if "at risk" in token.roles]
    assert at_risk == ["61", "29"]


def test_a_pair_behind_a_share_is_not_at_risk_for_the_words_before() -> None:
    tokens = read_numerals("93% with a seal (61 at risk) and 78% without (29 of 37)")
    assert [token.text for token in tokens if "at risk" in token.roles] == ["61"]


@pytest.mark.parametrize(
    ("text", "values"),
    [
        ("Of 1 248 teeth 1 123 were in use", [1248, 1123]),
        ("Of 1248 teeth 1 123 were in use", [1248, 1123]),
        ("Of 60 teeth 1 123 were in use", [60, 1, 123]),
        ("Tooth 2 120 was in use", [2, 120]),
    ],
)
def test_thousands_behind_what_was_counted_are_one_number(text: str, values: list[int]) -> None:
    assert [token.value for token in read_numerals(text)] == values


def test_mean_said_again_in_another_unit_is_the_mean() -> None:
    assert [token.roles for token in read_numerals("mean 2 years and 3 months (27.4 months)")] == [("mean",), ("mean",)]


def test_mean_stands_before_its_number_whatever_was_counted_first() -> None:
    tokens = read_numerals("56 teeth (93%) were reviewed at a mean of 26 months (range 12 to 48)")
    assert next(token.roles for token in tokens if token.unit == "month") == ("mean",)
    assert "mean" not in tokens[0].roles


def test_count_of_a_total_behind_the_word_group_is_no_name() -> None:
    assert read_numerals("in the MTA group 2 of 41 teeth failed")[0].roles == ("bad",)
    assert read_numerals("group 2: 9 of 40 failed")[0].roles == ("label",)


@pytest.mark.parametrize("text", ["rate ratios 2 and 3", "hazards ratios 2 and 3", "2 or fewer of 3", "2 and fewer, 3"])
def test_phrase_that_says_nothing_of_a_number_leaves_numbers_alone(text: str) -> None:
    assert [int(token.value) for token in read_numerals(text)] == [2, 3]


@pytest.mark.parametrize(
    "repeated", ["ci ", "c.i. ", "(ci) ", "OR ", "OR (ci ", "90% a ", "ci 90% ", "95% ci ", "~", "$"]
)
def test_a_word_again_and_again_changes_no_number_behind_it(repeated: str) -> None:
    # Long enough that a pattern which begins anew at each word would not come to an end within minutes.
    few, many = (read_numerals(f"{repeated * count}. Then 39 of 47 eyes healed") for count in (20, 20_000))

    def last(tokens: tuple[Token, ...]) -> list[tuple[str, str, str]]:
        return [(token.text, token.kind, token.role) for token in tokens[-2:]]

    assert last(few) == last(many) == [("39", "count", "healed"), ("47", "count", "healed")]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Sixty-four (64) patients", [64]),
        ("six (n = 6) of 47 healed", [6, 47]),
        ("seven (8) of 20", [7, 8, 20]),
        ("64 (64) patients", [64, 64]),
    ],
)
def test_a_number_in_words_and_again_in_digits_is_one(text: str, expected: list[int]) -> None:
    assert [int(token.value) for token in read_numerals(text)] == expected


@pytest.mark.parametrize(
    "text",
    [
        "No fractures occurred in 210 teeth", "There was no fracture among 210 teeth", "Not one of 210 teeth fractured",
        "A fracture never occurred in the 210", "none (210 teeth)", "nil of 210", "no fracture of any root among 210",
        "There were no fractures among the 210 teeth and one crack", "not a single one of the 210",
    ],
)  # fmt: skip
def test_nought_in_words_is_of_its_total(text: str) -> None:
    """Common practice, no source."""
    tokens = read_numerals(text)
    zero = next(token for token in tokens if token.value == 0)
    assert (zero.kind, zero.part, tokens[zero.pair].value) == ("count", "events", 210)


@pytest.mark.parametrize(
    "text",
    [
        "No difference was found in 210 teeth", "teeth with no fracture in 210 patients", "no pain in 12 months",
        "There was no significant change among 210", "No fractures occurred. In 210 teeth", "no teeth in group 2",
        "no failure before 2012", "No. 210", "No fractures occurred in 3 of 210",
    ],
)  # fmt: skip
def test_no_nought_is_read_where_words_tell_of_no_count(text: str) -> None:
    assert all(token.value != 0 for token in read_numerals(text))


def test_nought_in_a_list_of_counts_stands_for_itself() -> None:
    tokens = read_numerals("Among 210 teeth there were eight flare-ups, three fractures and no swelling.")
    assert [(str(token.value), token.part) for token in tokens] == [("210", ""), ("8", ""), ("3", ""), ("0", "")]


@pytest.mark.parametrize(
    ("text", "values"),
    [
        ("Result | n | %\nHealed | 58 | 82,9", ["58", "82.9"]),
        ("Healed, n (%): 58 (82,9)", ["58", "82.9"]),
        ("odds ratio of healing: 2,6 (95% CI 1,1 to 6,0)", ["2.6", "95", "1.1", "6.0"]),
        ("OR 4,66; IC 95% 1,98 a 10,93", ["4.66", "95", "1.98", "10.93"]),
        ("82,9% (P = .02)", ["82.9", "0.02"]),
        ("OR 2,4 (95% CI 0.9 to 6.5)", ["2.4", "95", "0.9", "6.5"]),
        ("39/47 (83,0 %), mean 31.5 months", ["39", "47", "83.0", "31.5"]),
    ],
)
def test_decimal_comma_is_told_by_its_cell_or_its_range(text: str, values: list[str]) -> None:
    """ISO 80000-1:2009, 7.3.2: the decimal sign is a comma or a point; from memory."""
    assert [str(token.value) for token in read_numerals(text)] == values


@pytest.mark.parametrize(
    "text", ["Grades | n\nfair | 3,5", "83% at grades 3,5 and 7", "58 (3,5,7) of 70 (83%)", "n (%): 58 (82,9) and 2.5"]
)
def test_comma_of_a_list_stays_no_decimal_sign(text: str) -> None:
    assert any(token.kind == "unreadable" for token in read_numerals(text))


@pytest.mark.parametrize("words", ["no wider than 5 mm", "not larger than 5 mm", "no greater than 5 mm"])
def test_no_wider_than_is_up_to(words: str) -> None:
    assert only(words).comparator == "<="


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("a decade after treatment", "10 year"), ("after two decades", "20 year"), ("over one decade", "10 year"),
        ("in the first decade", "10 year"), ("a fortnight later", "2 week"), ("a year after treatment", "1 year"),
        ("after a year", "1 year"), ("within a month", "1 month"), ("followed for a year", "1 year"),
        ("at the yearly control", "1 year"), ("at the first annual recall", "1 year"),
        ("at their third annual review", "3 year"), ("at the half-yearly clinical examination", "0.5 year"),
        ("at the six-monthly visit", "6 month"), ("on the third day swelling", "3 day"),
        ("by the 7th postoperative day", "7 day"), ("at the sixth week", "6 week"), ("at the second year", "2 year"),
    ],
)  # fmt: skip
def test_a_time_told_without_a_figure_is_read(text: str, expected: str) -> None:
    """Common practice, no source."""
    token = next(token for token in read_numerals(text) if token.kind == "length")
    assert f"{token.value} {token.unit}" == expected


@pytest.mark.parametrize(
    "text",
    ["twice a year", "every year at annual recalls", "the third decade of life", "a year-old film", "once a week",
     "on the third visit", "in the third year", "the first days", "on the tenth day of life",
     "at annual recall visits", "half a decade of experience", "a decade ago"],
)  # fmt: skip
def test_words_that_tell_how_often_are_no_time(text: str) -> None:
    assert not [token for token in read_numerals(text) if token.kind == "length"]


@pytest.mark.parametrize(
    ("text", "values"),
    [("24 to 48 hours after", ["1", "2"]), ("at 24-48 h", ["1", "2"]), ("after 6, 24 and 72 h", ["360", "1", "3"])],
)
def test_hours_of_a_range_or_list_are_read_with_their_unit(text: str, values: list[str]) -> None:
    tokens = read_numerals(text)
    assert [str(token.value) for token in tokens] == values
    assert [token.stands_for for token in tokens] == ["hour"] * (len(tokens) - 1) + [""]


@pytest.mark.parametrize(
    ("text", "pairs"),
    [
        ("55 and 47 of the 61 and the 58 teeth, respectively", [(55, 61), (47, 58)]),
        ("55 and 47 of the 61 teeth closed with MTA and the 58 closed with IRM, respectively", [(55, 61), (47, 58)]),
        ("9, 8 and 7 of 20 teeth in A, 21 in B and 22 in C, respectively", [(9, 20), (8, 21), (7, 22)]),
        ("55 and 47 of the 61 teeth closed with MTA and the 58 closed with IRM", [(47, 61)]),
    ],
)
def test_a_list_of_totals_with_words_between_goes_in_step(text: str, pairs: list[tuple[int, int]]) -> None:
    tokens = read_numerals(text)
    assert [(int(token.value), int(tokens[token.pair].value)) for token in tokens if token.part == "events"] == pairs


@pytest.mark.parametrize(
    "text", ["3.1 mm²", "3.1 mm3", "3.1 mm$^3$", r"3.1 mm\textsuperscript{2}", "3.1 mm/month", "3.1 cm³"]
)
def test_an_area_a_volume_and_a_rate_are_no_length(text: str) -> None:
    assert read_numerals(text)[0].unit == "other"


def test_millimetres_of_two_things_stay_lengths() -> None:
    assert [token.unit for token in read_numerals("3 mm / 5 mm wide, 4 mm deep")] == ["mm", "mm", "mm"]


@pytest.mark.parametrize(
    ("text", "comparator"),
    [
        ("Pooled over 12 studies, the rate", ""), ("The rate, averaged over 12 trials,", ""),
        ("was combined over 12 included studies", ""), ("We pooled over 12 studies", ">"),
        ("The review pooled over 12 trials", ">"), ("In over 12 studies", ">"), ("pooled over 12 teeth", ">"),
        ("pooled more than 12 studies", ">"),
    ],
)  # fmt: skip
def test_what_is_pooled_over_studies_is_over_all_of_them(text: str, comparator: str) -> None:
    assert only(text).comparator == comparator


@pytest.mark.parametrize(
    ("text", "values"),
    [("24.7 | −6.5 (−11.0 to −2.0)", ["24.7", "-6.5", "-11.0", "-2.0"]), ("24.7\t-6.5", ["24.7", "-6.5"])],
)
def test_a_minus_behind_a_cell_is_no_range(text: str, values: list[str]) -> None:
    tokens = read_numerals(text)
    assert [str(token.value) for token in tokens] == values
    assert "unreadable" not in {token.kind for token in tokens}
    assert "unreadable" in {token.kind for token in read_numerals("24.7 −6.5")}


@pytest.mark.parametrize(
    ("text", "is_interval"),
    [
        ("MTA 0.62 (0.44; 0.87)", True), ("MTA 0.62 (0.44, 0.87)", True), ("MTA 0.62 (0.84; 0.97)", False),
        ("MTA 19 (10; 31)", False), ("MTA 0.62 (0.4; 0.87)", False),
    ],
)  # fmt: skip
def test_two_numbers_around_the_one_before_them_are_its_interval(text: str, is_interval: bool) -> None:
    assert ("interval" in {token.kind for token in read_numerals(text)}) == is_interval


def test_a_median_that_parts_people_is_no_statistic_of_the_next_number() -> None:
    for text in ("older versus younger than the median: HR 1.38", "Above the mean (older) HR 1.38"):
        assert read_numerals(text)[-1].roles == ()
    assert "median" in read_numerals("longer than the median of 31 months")[0].roles
