"""Meanings exchanged are asked about, pinned or not; honest claims are silent in every style of print."""

from __future__ import annotations

from pathlib import Path

import pytest
from mutation import styles
from mutation.meaning_table import EACH, KINDS, ROOT, SEED, Row, exchanged, not_clean, rows


@pytest.fixture(scope="module")
def table() -> list[Row]:
    """Demo, published reports and the styles of print."""
    found = exchanged([ROOT, ROOT / "tests" / "published"], styles.cases(SEED, EACH))
    return rows(meaning for _, meaning in found)


@pytest.mark.slow
def test_each_kind_of_meaning_exchanged_is_asked_about(table: list[Row]) -> None:
    assert {kind for row in table for kind in row.kind.split(", ")} == set(KINDS)
    assert [row for row in table if 20 * row.caught < 19 * row.made] == []


@pytest.mark.slow
def test_a_pin_hides_no_wrong_meaning(table: list[Row]) -> None:
    assert [row for row in table if 20 * row.caught_when_pinned < 19 * row.made] == []


@pytest.mark.slow
def test_honest_claims_are_silent_in_every_style_of_print() -> None:
    made, told = not_clean()
    assert len(styles.STYLES) >= 30
    assert 100 * len(told) <= made, told


def test_an_exchange_that_nobody_asks_about_would_be_seen(tmp_path: Path) -> None:
    case = next(styles.cases(SEED, 1))
    (found, *_) = (meaning for _, meaning in exchanged(corpus=[case]))
    assert (found.kind, found.is_caught) == ("levels", True)
    assert rows([found._replace(is_caught=False)] * 40)[0].caught == 0
