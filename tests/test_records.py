"""Our named tuples are those of the standard library (typing.NamedTuple, collections.namedtuple), made in less time."""

from __future__ import annotations

import pickle
from collections.abc import Callable
from typing import Any, NamedTuple

import pytest
from passageproof import records


class Theirs(NamedTuple):
    """A place."""

    file: str
    line: int
    column: int = 1
    """From 1."""

    @property
    def shown(self) -> str:
        """As an editor shows it."""
        return f"{self.file}:{self.line}"


class Ours(records.NamedTuple):
    """A place."""

    file: str
    line: int
    column: int = 1
    """From 1."""

    @property
    def shown(self) -> str:
        """As an editor shows it."""
        return f"{self.file}:{self.line}"


class AsLong(records.NamedTuple):
    """As many fields as `Ours`, under other names."""

    low: int
    high: int
    step: int


USES: list[Callable[[Any], object]] = [
    lambda made: made("a", 2),
    lambda made: made("a", column=4, line=2).column,
    lambda made: made("a", 2).shown,
    lambda made: made("a", 2)[1:],
    lambda made: made("a", 2) == ("a", 2, 1),
    lambda made: hash(made("a", 2)),
    lambda made: made("a", 2)._replace(line=3),
    lambda made: made("a", 2)._asdict(),
    lambda made: made._make(["a", 2, 3]),
    lambda made: pickle.loads(pickle.dumps(made("a", 2))),
    lambda made: (made._fields, made._field_defaults, made.__match_args__, made.__doc__, list(made.__annotations__)),
    lambda made: [str(value) for value in made("a", 2)],
    lambda made: repr(made("a", 2)).partition("(")[2],
]
FAULTS: list[Callable[[Any], object]] = [
    lambda made: made("a"),
    lambda made: made("a", 2, 3, 4),
    lambda made: made("a", 2, place=3),
    lambda made: made("a", 2, file="b"),
    lambda made: made._make(["a", 2]),
    lambda made: made("a", 2)._replace(place=3),
    lambda made: setattr(made("a", 2), "line", 3),
    lambda made: setattr(made("a", 2), "place", 3),
    lambda made: delattr(made("a", 2), "line"),
]


@pytest.mark.parametrize("number", range(len(USES)))
def test_what_they_give_is_the_same(number: int) -> None:
    assert USES[number](Ours) == USES[number](Theirs)


@pytest.mark.parametrize("number", range(len(FAULTS)))
def test_what_they_refuse_is_the_same(number: int) -> None:
    raised = []
    for made in (Theirs, Ours):
        with pytest.raises((TypeError, ValueError, AttributeError)) as fault:
            FAULTS[number](made)
        raised.append(fault.type)
    assert raised[0] is raised[1]


def test_two_classes_with_as_many_fields_keep_their_own_names() -> None:
    assert AsLong(step=3, low=1, high=2) == (1, 2, 3)
    assert repr(AsLong(1, 2, 3)) == "AsLong(low=1, high=2, step=3)"
    with pytest.raises(TypeError):
        AsLong(file="a", line=2, column=1)  # type: ignore[call-arg]


def test_a_field_with_a_default_stands_behind_those_without() -> None:
    body = {"__annotations__": {"low": "int", "high": "int"}, "low": 1}
    with pytest.raises(TypeError, match="stand behind"):
        type(records.NamedTuple)("Range", (records.NamedTuple,), body)
