"""Whether a ratio, and the counts it may be compared with, lie so far from no difference that nothing turns them."""

from __future__ import annotations

from decimal import Decimal

from ..reading.report_model import Contrast
from ..reading.values import Ends, Number
from ..synthesis.contrast import Contrast as Contrasted, TwoByTwo, contrast as crude_contrast


def is_clear(contrast: Contrast) -> bool:
    """Whether a ratio leaves out 1 by its interval, or, without one, is at least 2 or at most a half."""
    value, interval = contrast.value, contrast.interval
    if type(value) is not Number or value.value <= 0:
        return False
    if type(interval) is Ends:
        return interval.low.value > 1 or interval.high.value < 1
    return value.value >= 2 or value.value <= Decimal("0.5")


def clear_side(table: TwoByTwo) -> int:
    """1 where the level has more events and the interval of the crude odds ratio leaves out 1, -1 where it has fewer,
    0 where that is open."""
    crude = crude_contrast(table, "odds ratio")
    if not isinstance(crude, Contrasted) or crude.interval.low <= 0 <= crude.interval.high:
        return 0
    return 1 if crude.estimate > 0 else -1
