"""One printed number speaks for or against one field: by kind, unit, role and comparator."""

from __future__ import annotations

from decimal import Decimal

import pytest
from passageproof.numerals import FORMAT_1, read_numerals
from passageproof.problems import Position
from passageproof.proof.proving.field_roles import ROLES, Quoted, Scope
from passageproof.proof.proving.likeness import has_precision, is_like
from passageproof.reading.values import Words

AT = Position("claims/x.yaml", 1, 1)
WHERE = Words("p. 1", AT)
SCOPE = Scope("x/c", [], [], (), FORMAT_1)


def quoted(role: str, value: str, unit: str, **more: str) -> Quoted:
    """A field as typed."""
    name = more.pop("name", role)
    decimals = len(value.partition(".")[2])
    return Quoted("x/c/" + name, AT, name, value, Decimal(value), decimals, unit, ROLES[role], WHERE, **more)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("field", "printed", "expected"),
    [
        (quoted("events", "39", "tooth"), "39 teeth healed", True),
        (quoted("events", "39", "tooth"), "39 months", False),
        (quoted("events", "39", "tooth"), "over 39 teeth", False),
        (quoted("events", "39", "patient"), "39 teeth", False),
        (quoted("events", "39", "specimen"), "39 teeth", True),
        (quoted("events", "39", ""), "39 teeth", True),
        (quoted("events", "39", "tooth", side="good"), "39 failed", False),
        (quoted("total", "39", "tooth"), "39 of 47 teeth", False),
        (quoted("events", "39", "tooth"), "39 of 47 teeth", True),
        (quoted("lost", "39", "tooth"), "39 healed", False),
        (quoted("rate", "39", "%"), "39%", True),
        (quoted("rate", "39", "%"), "39", False),
        (quoted("interval", "39", "%", part="low"), "95% CI 39 to 47%", True),
        (quoted("interval", "39", "%", part="high"), "95% CI 39 to 47%", False),
        (quoted("interval", "39", "odds ratio", part="low"), "95% CI 39 to 47%", False),
        (quoted("median", "39", "month"), "median 39 months", True),
        (quoted("median", "39", "month"), "mean 39 months", False),
        (quoted("median", "39", "month"), "39 years", True),
        (quoted("value", "3.9", "odds ratio"), "OR 3.9", True),
        (quoted("value", "3.9", "hazard ratio"), "OR 3.9", False),
        (quoted("p", ".039", "P"), "P = .039", True),
        (quoted("p", ".039", "P"), "P < .039", False),
        (quoted("p", ".039", "P"), ".039", True),
        (quoted("confidence", "90", "%"), "90% CI 1 to 2", True),
        (quoted("confidence", "90", "%"), "90%", False),
        (quoted("bound", "3", "mm", comparator=">"), "over 3 mm", True),
        (quoted("bound", "3", "mm", comparator=">"), "up to 3 mm", False),
        (quoted("per", "100", "none"), "per 100", True),
    ],
)
def test_number_is_like_a_field_or_not(field: Quoted, printed: str, expected: bool) -> None:
    token = next(token for token in read_numerals(printed) if token.value == field.value)
    assert is_like(field, token, SCOPE) is expected


def test_what_the_claim_is_about_says_nothing_against_a_number() -> None:
    (token,) = read_numerals("39 women")
    assert not is_like(quoted("total", "39", "patient"), token, SCOPE)
    assert is_like(quoted("total", "39", "patient"), token, SCOPE._replace(named=frozenset({"who"})))


def test_a_converted_length_has_the_precision_of_its_own_unit() -> None:
    (token,) = read_numerals("1.0 years")
    assert has_precision(quoted("at", "12", "month"), token)
    assert not has_precision(quoted("at", "1", "year"), token)
