"""A talk about one question as values: slides with their lines and figures, what each holds for, and the notes."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Literal

from ...records import NamedTuple
from .document import StudyRows, walk
from .drawings import TimePlot
from .figures import Figure
from .line import Line

Layout = Literal["Opening", "Text", "Text with plot", "Plot", "Frame to fill"]
"""What a slide is laid out as; a programme's own template has layouts of these names."""

Plot = TimePlot | StudyRows


class Said(NamedTuple):
    """One paragraph of a slide or of its notes."""

    line: Line
    kind: Literal["", "lead", "quiet", "item"] = ""
    """ "lead" heads what follows; "quiet": what one must know to read what stands above; "item": one of a list."""


class Group(NamedTuple):
    """Paragraphs that stand on one slide together or not at all."""

    said: tuple[Said, ...]
    of: str = ""
    """The one answer of the situation for which it stands, "size=large"; "" for every case, and "none" for a case of
    which nothing was answered."""


class Slide(NamedTuple):
    """One slide."""

    name: str
    """Unique in its talk, a slug."""
    layout: Layout
    title: Line
    body: tuple[Group, ...]
    notes: tuple[Said, ...] = ()
    plot: Plot | None = None
    of: str = ""
    """The one answer for which it stands; "" for every case."""
    is_spare: bool = False
    """True behind the end, for what somebody may ask."""
    frame: Line = ()
    """What image belongs on it, where only the speaker has one."""
    has_rest_elsewhere: bool = False
    """True where what finds no room stands on slides of its own anyway."""


class Publication(NamedTuple):
    """A publication that a talk names."""

    short: str
    """First author and year."""
    whole: str
    """The reference in one line."""
    doi: str
    """Without the address of a resolver; "" where none is known."""


class Talk(NamedTuple):
    """Slides of one question: those of every case and of each answer."""

    question: str
    title: str
    slides: tuple[Slide, ...]
    references: Mapping[str, Publication]
    """By key; every report that a line of a slide leads to."""
    unanswered: tuple[tuple[str, str], ...] = ()
    """Blanks that answers fill: the field's id and what it asks."""
    answers: Mapping[str, str] = {}
    """What each answer is called, by "field=level"."""


def slides_path(question: str) -> str:
    """Where the slides of a question stand on the site, from its root."""
    return f"{question}/talk/slides.pptx"


class Talks:
    """The talks of one guide by question, each composed anew when it is asked for; the figures of each are held."""

    def __init__(self, makers: Mapping[str, Callable[[], Talk]]) -> None:
        self._makers = makers
        self._figures: dict[str, tuple[Figure, ...]] = {}

    def __iter__(self) -> Iterator[str]:
        return iter(self._makers)

    def __getitem__(self, question: str) -> Talk:
        """The talk. Raises KeyError where there is no such question."""
        return self._makers[question]()

    def figures(self, question: str) -> tuple[Figure, ...]:
        """Every figure that stands on a slide, in a plot or in the notes, each once."""
        if question not in self._figures:
            found = (item for item in walk(self[question].slides) if isinstance(item, Figure))
            self._figures[question] = tuple({figure.id: figure for figure in found}.values())
        return self._figures[question]


def for_case(talk: Talk, answers: frozenset[str]) -> Talk:
    """The talk without what belongs to other answers; where answers are given, without what stands for none of them.

    answers: "field=level" of each field that was answered.
    """

    def holds(of: str) -> bool:
        return of in answers or not of or (of == "none" and not answers)

    slides = (
        slide._replace(body=tuple(group for group in slide.body if holds(group.of)))
        for slide in talk.slides
        if holds(slide.of)
    )
    return talk._replace(slides=tuple(slides))
