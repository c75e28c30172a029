"""One sheet of paper about a question as values: its answer, who found what, what to say and what not, references."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping

from ...records import NamedTuple
from .document import walk
from .figures import Figure
from .line import Line
from .plots import PlotToTake


class Evidence(NamedTuple):
    """A table of studies, one line a study, all by one definition."""

    title: Line
    """What was compared or counted."""
    header: tuple[str, ...]
    rows: tuple[tuple[Line, ...], ...]
    below: tuple[Line, ...]
    """By which definition, how sure, and how many more there are."""


class Handout(NamedTuple):
    """One sheet."""

    question: str
    title: Line
    case: Line
    """The answers for which it was made; empty for the question as a whole."""
    answer: tuple[Line, ...]
    """The sentence, and what its numbers count."""
    tables: tuple[Evidence, ...]
    plot: PlotToTake | None
    say: tuple[Line, ...]
    not_say: tuple[Line, ...]
    references: tuple[str, ...]
    """Keys in the order of their numbers, from 1."""
    citation: Line
    foot: tuple[Line, ...]
    """What holds of every sheet: whose patients these are, local protocol."""


def handout_path(question: str) -> str:
    """Where the sheet of a question lies below the root of the site."""
    return f"{question}/talk/handout.pdf"


class Handouts(Mapping[str, Handout]):
    """The sheets of one guide by question, each composed when it is asked for."""

    def __init__(self, makers: Mapping[str, Callable[[Collection[str]], Handout]]) -> None:
        """makers: by question, each of whatever was answered."""
        self._makers = makers

    def for_case(self, question: str, answers: Collection[str]) -> Handout:
        """The sheet of one case. answers: "field=level" of each field that was answered."""
        return self._makers[question](answers)

    def __getitem__(self, question: str) -> Handout:
        return self._makers[question](())

    def __iter__(self) -> Iterator[str]:
        return iter(self._makers)

    def __len__(self) -> int:
        return len(self._makers)


def figures_on(handout: Handout) -> list[Figure]:
    """The numbers of a sheet in the order of reading, each as often as it stands there."""
    return [item for item in walk(handout) if isinstance(item, Figure)]
