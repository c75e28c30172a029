"""A line of a slide as runs of text, each with what its number is."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from ...records import NamedTuple
from ...results.values.figures import Figure
from ...results.values.line import Line, Link, Marked, Span

_SOURCES = "sources/"
_RESOLVER = "https://"


class Run(NamedTuple):
    """A piece of text that is written alike and is one thing."""

    text: str
    figure: str = ""
    """Id of the figure that it is; else ""."""
    mark: str = ""
    """What its number is where it is no evidence: a kind of `Marked`; else ""."""
    blank: str = ""
    """What fills it, "answer:size", or "own" where the speaker alone knows; "" where it is no blank."""
    target: str = ""
    """Where a tap on it leads, outside of the slides; else ""."""
    is_bold: bool = False
    key: str = ""
    """Of the report whose number in the list of references it is; else ""."""


Numbering = Callable[[str], int]
"""Gives the number of a report in the list of references, by its key."""


def runs_of(line: Line, number: Numbering, fills: Callable[[str], str] = lambda blank: "") -> tuple[Run, ...]:
    """The runs of a line; behind the name of each report stands its number in the list of references.

    fills: what is known in the place of a blank; "" where nothing is.
    """
    return tuple(_joined(_runs(line, number, fills)))


def _runs(line: Line, number: Numbering, fills: Callable[[str], str]) -> Iterator[Run]:
    for part in line:
        if isinstance(part, str):
            yield Run(part)
        elif isinstance(part, Figure):
            yield Run(part.text, figure=part.id)
        elif isinstance(part, Marked):
            yield Run(part.text, mark=part.kind)
        elif isinstance(part, Link):
            is_outside = part.target.startswith(_RESOLVER)
            for run in _runs(part.line, number, fills):
                yield run._replace(target=part.target) if is_outside else run
            if part.target.startswith(_SOURCES):
                key = part.target.split("/")[1]
                yield Run(f" [{number(key)}]", mark="reference", key=key)
        elif isinstance(part, Span):
            yield from _of_span(part, number, fills)


def _of_span(part: Span, number: Numbering, fills: Callable[[str], str]) -> Iterator[Run]:
    if part.kind == "blank":
        known = fills(part.of)
        if known:
            yield Run(known, mark="definition")
        else:
            yield from (run._replace(blank=part.of or "own") for run in _runs(part.line, number, fills))
        return
    for run in _runs(part.line, number, fills):
        yield run._replace(is_bold=True) if part.kind == "strong" else run
    if part.kind == "each":
        yield Run(" ")


def _joined(runs: Iterable[Run]) -> Iterator[Run]:
    """Words that follow one another as one run; what is a number by itself stays so."""
    last: Run | None = None
    for run in runs:
        if last is not None and last._replace(text="") == run._replace(text="") and not (run.figure or run.blank):
            last = last._replace(text=last.text + run.text)
            continue
        if last is not None:
            yield last
        last = run
    if last is not None:
        yield last


def text_of(runs: Iterable[Run]) -> str:
    """What one reads."""
    return "".join(run.text for run in runs)


def cut(runs: tuple[Run, ...], at: int) -> tuple[tuple[Run, ...], tuple[Run, ...]]:
    """The runs before and behind this place of their text; a figure or a blank is never cut."""
    before: list[Run] = []
    for index, run in enumerate(runs):
        if at >= len(run.text):
            before.append(run)
            at -= len(run.text)
            continue
        if run.figure or run.blank or at <= 0:
            return tuple(before), runs[index:]
        return (*before, run._replace(text=run.text[:at])), (run._replace(text=run.text[at:]), *runs[index + 1 :])
    return runs, ()
