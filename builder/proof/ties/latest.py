"""What is made of the same values claim after claim, made once for all of them."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import TypeVar

First = TypeVar("First")
Second = TypeVar("Second")
Made = TypeVar("Made")


def latest(make: Callable[[First, Second], Made], most: int = 1) -> Callable[[First, Second], Made]:
    """A function that gives what it made before, as long as it is asked with the very same two values.

    They need no hash, and are held until it was asked with `most` others.
    """
    held: dict[tuple[int, int], tuple[First, Second, Made]] = {}

    @wraps(make)
    def made(first: First, second: Second) -> Made:
        key = id(first), id(second)
        found = held.get(key)
        if found is None:
            if len(held) == most:
                del held[next(iter(held))]
            found = held[key] = first, second, make(first, second)
        return found[2]

    return made
