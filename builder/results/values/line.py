"""A line of a page: words, figures, links, and numbers that are no evidence, each marked with its kind."""

from __future__ import annotations

import datetime
import re
from typing import Literal

from ...records import NamedTuple
from .figures import Figure

MarkKind = Literal[
    "date", "locator", "step", "identifier", "reference", "passage", "words", "definition", "threshold", "visit",
    "scale", "convention", "instruction",
]  # fmt: skip


class Marked(NamedTuple):
    """Text whose numbers are no evidence, with the kind of number it holds."""

    kind: MarkKind
    text: str


class Link(NamedTuple):
    """Text that leads elsewhere. A figure carries its own link and stands in no other."""

    target: str
    """Address from the root of the site ("some-question/size/#levels"), "#anchor" on the same page, or https://..."""
    line: Line
    kind: str = ""
    """Class for the stylesheet."""


class Span(NamedTuple):
    """Text with a class: "strong", "quiet", "invented", "basis", ...

    "code" is an element of its own, and so are "below": a line below its sentence, and the last of its parts; and
    "each": one of several things that a cell of a table says, on a line of its own; "in-doubt": words that go once
    all answers that they wait for are given; and "of-ways": what is known of an answer, as counted in these ways.
    """

    kind: str
    line: Line
    of: str = ""
    """For the script of the page, of "each" and "in-doubt" the answers for which it holds ("size=large&size=middle"),
    of "of-ways" the ids of the ways, with blanks between and a "+" behind one in which it was not counted alone."""


Part = str | Figure | Marked | Link | Span
Line = tuple[Part, ...]

_DIGIT = re.compile(r"\d")


def line(*parts: Part | Line | None) -> Line:
    """A line of text. Plain words carry no digit: a number is a figure or is marked.

    None is left out; a line among the parts is taken in.
    Raises ValueError for a digit in plain words, which is a fault of ours.
    """
    out: list[Part] = []
    for part in parts:
        if isinstance(part, str):
            if _DIGIT.search(part):
                raise ValueError(f"a number in plain words: {part!r}; make it a figure or mark it")
            if part:
                out.append(part)
        elif isinstance(part, (Figure, Marked, Link, Span)):
            out.append(part)
        elif part:
            out.extend(part)
    return tuple(out)


def typed(text: str, kind: MarkKind = "words") -> Part:
    """Text as somebody typed it: marked where it holds a digit, plain where not."""
    return Marked(kind, text) if _DIGIT.search(text) else text


def date(day: datetime.date) -> Marked:
    """A day as pages print it, ISO 8601."""
    return Marked("date", day.isoformat())


def plain_text(line: Line) -> str:
    """A line without marks, for attributes, descriptions of drawings, and whoever counts its words."""
    out = []
    for part in line:
        if isinstance(part, str):
            out.append(part)
        elif isinstance(part, (Figure, Marked)):
            out.append(part.text)
        else:
            out.append(plain_text(part.line))
    return "".join(out)


def above_and_below(line: Line) -> tuple[Line, Line]:
    """A sentence, and what stands below it."""
    at = next((index for index, part in enumerate(line) if isinstance(part, Span) and part.kind == "below"), len(line))
    return line[:at], line[at:]


def joined(lines: list[Line], separator: str = "; ") -> Line:
    """Lines one behind the other."""
    out: list[Part] = []
    for index, item in enumerate(lines):
        if index:
            out.append(separator)
        out.extend(item)
    return tuple(out)
