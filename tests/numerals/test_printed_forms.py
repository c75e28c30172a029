"""Every form of print has an example that it reads."""

from __future__ import annotations

from pathlib import Path

import pytest
from passageproof.numerals import FORMAT_1, Token, read_numerals
from passageproof.numerals.forms import ORDER, forms_in
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
