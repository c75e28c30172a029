"""Agreement of two readers."""

from __future__ import annotations

from collections.abc import Sequence

from ..records import NamedTuple
from .ranges import whole
from .results import Refusal


class Agreement(NamedTuple):
    """Agreement beyond what the readers' own rates would give by chance."""

    observed: float
    expected: float
    kappa: float


def cohen_kappa(table: Sequence[Sequence[int]]) -> Agreement | Refusal:
    """Unweighted kappa of a square table: rows one reader, columns the other, categories in the same order.

    Refused where chance alone would give full agreement. Raises ValueError for a table that is not square, holds
    negative counts or nothing.

    Cohen 1960, Educ Psychol Meas 20:37-46 (from memory).
    """
    size = len(table)
    if size < 2 or any(len(row) != size for row in table):
        raise ValueError("the table must be square, with at least two categories")
    cells = [[whole("count", cell, 0) for cell in row] for row in table]
    total = sum(map(sum, cells))
    if total == 0:
        raise ValueError("the table is empty")
    observed = sum(cells[i][i] for i in range(size))
    by_chance = sum(sum(cells[i]) * sum(row[i] for row in cells) for i in range(size))
    if by_chance == total * total:
        return Refusal("Both readers put everything into one category: agreement beyond chance is not defined.")
    kappa = (observed * total - by_chance) / (total * total - by_chance)
    return Agreement(observed / total, by_chance / total**2, kappa)
