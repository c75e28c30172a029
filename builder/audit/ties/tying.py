"""Every tie of the numbers of one claim or study, kind after kind."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from ..proving.field_roles import Scope
from .tie import Known, Stands, Ties

Find = Callable[[Sequence[Stands], Ties, Known], None]
"""Looks at all numbers of a scope that stand in their passages, and tells a `Ties` what it finds of one kind."""

ORDER: tuple[Find, ...] = ()
"""One for each kind of tie."""


def find_ties(scope: Scope, standing: Sequence[Stands], known: Known, *, wanted: bool) -> Ties:
    """What the passages say of these numbers. wanted: whether somebody is shown the ties."""
    ties = Ties(scope, wanted=wanted)
    for find in ORDER:
        find(standing, ties, known)
    return ties
