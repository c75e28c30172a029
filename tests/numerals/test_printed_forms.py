"""Every form of print has an example that it reads."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from passageproof.numerals import FORMAT_1, Token, read_numerals
from passageproof.numerals.forms import _BEGINNING, ORDER, forms_in
from passageproof.numerals.forms.found import Form
from passageproof.numerals.kinds import Kind, pattern
from passageproof.numerals.printed import Printed

LINES = (Path(__file__).parent / "printed_forms.txt").read_text("utf-8").splitlines()
EXAMPLES = [line for line in LINES if line and not line.startswith("#")]


def told(token: Token) -> str:
    """What was read of one number, as the table has it."""
    unit = "" if token.unit == "none" else token.unit
    return " ".join(filter(None, (token.shown, unit, token.kind, token.part, token.measure, *token.roles)))


@pytest.mark.parametrize("line", EXAMPLES)
def test_example_is_read_by_its_form(line: str) -> None:
    name, _, rest = line.partition(": ")
    text, _, expected = rest.rpartition(" -> ")
    assert "; ".join(told(token) for token in read_numerals(text)) == expected
    assert name in [match.lastgroup for match in forms_in(Printed(text, FORMAT_1).kinds)]


def test_every_form_has_an_example_here_and_in_its_docstring() -> None:
    assert [form.name for form in ORDER if not any(line.startswith(f"{form.name}: ") for line in EXAMPLES)] == []
    assert [form.name for form in ORDER if '"' not in (form.read.__doc__ or "")] == []
    assert len({form.name for form in ORDER}) == len(ORDER)


def examples_of(form: Form) -> list[str]:
    """The texts of a form's examples, as kinds."""
    texts = [line.removeprefix(f"{form.name}: ").rpartition(" -> ")[0] for line in EXAMPLES]
    named = [text for text, line in zip(texts, EXAMPLES, strict=True) if line.startswith(f"{form.name}: ")]
    return [Printed(text, FORMAT_1).kinds for text in named]


@pytest.mark.parametrize("form", ORDER, ids=lambda form: form.name)
def test_what_a_form_begins_with_is_among_the_beginnings_that_are_looked_at(form: Form) -> None:
    # `_BEGINNING` is asked before every form: one that begins with another kind would silently never be tried there.
    written = re.compile(pattern(form.written, form.name))
    beginning = re.compile(pattern(_BEGINNING))
    found = [(kinds, match.start()) for kinds in examples_of(form) for match in written.finditer(kinds)]
    assert found
    begun = [kinds[start:] for kinds, start in found]
    # Of a beginning that may be there or not, or may be one of several, the examples may show one alone.
    begun += [kind + rest for text in begun for kind in Kind for rest in (text, text[1:])]
    missed = {text[0] for text in begun if written.match(text) and not beginning.match(text)}
    assert [Kind(letter).name for letter in missed] == [], "add these to _BEGINNING in numerals/forms/__init__.py"


@pytest.mark.parametrize(
    ("text", "level"),
    [
        ("kept: 88% (confidence limits 81% and 93%, alpha = 0.10)", "90"),
        ("rate 88% (CI 81% to 93%; α = .01)", "99"),
        ("At $\\alpha = 0.10$, the confidence limits were 81% and 93%", "90"),
        ("Intervals were calculated at an alpha of 10%", "90"),
        ("with alpha set at 0.05, confidence intervals were computed", "95"),
    ],
)
def test_an_alpha_beside_an_interval_is_its_level(text: str, level: str) -> None:
    assert [str(token.value) for token in read_numerals(text) if token.kind == "confidence"] == [level]


@pytest.mark.parametrize(
    "text", ["Significance was set at alpha = 0.05. Healed 30 of 40.", "Cronbach's alpha 0.45, interval 0.3 to 0.5"]
)
def test_any_other_alpha_is_none(text: str) -> None:
    assert not [token for token in read_numerals(text) if token.kind == "confidence"]


def test_numbers_that_come_to_a_total_are_each_of_it() -> None:
    tokens = read_numerals("Healing was complete in 70, uncertain in 16 and absent in 14 of 100 eyes.")
    assert [(token.part, token.pair) for token in tokens] == [("events", 3)] * 3 + [("total", 2)]
    tokens = read_numerals("Healing was complete in 60, uncertain in 16 and absent in 14 of 100 eyes.")
    assert [token.part for token in tokens] == ["", "", "events", "total"]


def test_brackets_of_two_kinds_have_each_their_heading() -> None:
    tokens = read_numerals("Mean (SD) [SE] gain was 2.41 (0.90) [0.18] mm.")
    assert [token.roles for token in tokens] == [("mean",), ("sd",), ("se",)]


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("pain in 13 of the two visit group", [("13", "number", ()), ("two", "number", ())]),
        ("Studies | Eyes\nA | 14 | 1 206", [("14", "number", ()), ("1 206", "number", ())]),
        ("74.8% - I2 71%", [("74.8%", "percent", ()), ("71%", "percent", ("i2",))]),
        ("the crude effect was lost (adjusted OR 1.4)", [("1.4", "ratio", ("adjusted",))]),
        ("in the control group 39 healed", [("39", "number", ("good",))]),
        ("in each group 8 healed", [("8", "number", ("good",))]),
        ("Group 2 healed", [("2", "number", ("label", "good"))]),
        ("60 teeth of 6 dogs were examined", [("60", "count", ("examined",)), ("6", "number", ("examined",))]),
        ("later than 30 days", [("later than 30", "length", ())]),
    ],
)  # fmt: skip
def test_words_beside_a_number_are_of_the_right_one(text: str, read: list[tuple[str, str, tuple[str, ...]]]) -> None:
    assert [(token.shown, token.kind, token.roles) for token in read_numerals(text)] == read


def test_none_of_some_and_two_of_others_are_no_sum() -> None:
    tokens = read_numerals("Swelling was not observed in any of the 46 eyes with A and in 2 of the 48 with B.")
    assert [(token.part, token.pair) for token in tokens] == [("events", 1), ("", -1), ("events", 3), ("total", 2)]
