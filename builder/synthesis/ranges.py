"""Arguments of the right kind and inside their range, or a ValueError that names them."""

from __future__ import annotations

import math
from collections.abc import Sequence


def number(name: str, value: object) -> float:
    """The value as a finite float.

    Text, truth values, infinities and NaN raise ValueError; a number of another library is taken as it is.
    """
    if isinstance(value, (str, bytes, bool)) or value is None:
        raise ValueError(f"{name} must be a number, not {value!r}")
    try:
        result = float(value)  # type: ignore[arg-type]
    except (TypeError, ValueError, OverflowError):
        raise ValueError(f"{name} must be a number, not {value!r}") from None
    if not math.isfinite(result):
        raise ValueError(f"{name} must be a finite number, not {value!r}")
    return result


def positive(name: str, value: object) -> float:
    """The value as a float above 0, or ValueError."""
    result = number(name, value)
    if result <= 0:
        raise ValueError(f"{name} must be above 0, not {value!r}")
    return result


def whole(name: str, value: object, low: int, high: int | None = None) -> int:
    """The value as an int from low to high, both included, or ValueError; 18.0 counts as 18."""
    result = value if type(value) is int else None
    if result is None:
        as_float = number(name, value)
        if not as_float.is_integer():
            raise ValueError(f"{name} must be a whole number, not {value!r}")
        result = int(as_float)
    if result < low or (high is not None and result > high):
        bounds = f"at least {low}" if high is None else f"from {low} to {high}"
        raise ValueError(f"{name} must be {bounds}, not {value!r}")
    return result


def counts(events: object, total: object) -> tuple[int, int]:
    """Events and total as ints, with total at least 1 and events from 0 to total, or ValueError."""
    of = whole("total", total, 1)
    return whole("events", events, 0, of), of


def confidence_level(confidence: object) -> float:
    """The confidence level as a float strictly between 0 and 1, or ValueError."""
    level = number("confidence", confidence)
    if not 0 < level < 1:
        raise ValueError(f"confidence must lie between 0 and 1 (0.95, never 95), not {confidence!r}")
    return level


def proportion(name: str, value: object) -> float:
    """The value as a float from 0 to 1, or ValueError."""
    result = number(name, value)
    if not 0 <= result <= 1:
        raise ValueError(f"{name} must be from 0 to 1, not {value!r}")
    return result


def same_length(first: str, one: Sequence[object], second: str, other: Sequence[object]) -> int:
    """How many items both sequences hold; ValueError if they differ or are empty."""
    if len(one) != len(other):
        raise ValueError(f"{first} and {second} must have one item a study each: {len(one)} and {len(other)}")
    if len(one) == 0:
        raise ValueError(f"{first} and {second} are empty: there is no study")
    return len(one)
