"""Plots that are taken along from a page, each with what must go with it."""

from __future__ import annotations

from ...records import NamedTuple
from .document import StudyRows
from .drawings import TimePlot
from .line import Line


class PlotToTake(NamedTuple):
    """One plot of a page with the words that go with it wherever it is shown."""

    name: str
    """What its files are called: "some-question.size"; no id has a full stop in it."""
    title: Line
    drawn: StudyRows | TimePlot
    """Rows open nothing here."""
    caption: tuple[Line, ...]
    """What it comes to and how sure, what was counted and when."""
    citation: Line
    """How it is cited."""
    page: str
    """Address of the page it is from."""
    read: Line = ()
    """How its marks are read; empty where the drawing says so itself."""


def plot_path(name: str, kind: str) -> str:
    """Where a plot lies below the root of the site. kind: svg or png."""
    return f"data/plots/{name}.{kind}"
