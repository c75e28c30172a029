"""Lines of text set into a drawing: broken where they are too long, each number an element of its own."""

from __future__ import annotations

import re
from collections.abc import Iterator
from html import escape

from ...records import NamedTuple
from ...results.values.figures import Figure
from ...results.values.line import Line, Marked
from ..faces import Face


class Run(NamedTuple):
    """Text of one kind, or one number of the evidence."""

    text: str
    kind: str = ""
    """Class of the element: "figure", a kind of number that is no evidence, "" for words."""
    figure: str = ""
    """Id of the figure; "" for none."""
    is_bold: bool = False


def runs_of(line: Line, *, is_bold: bool = False) -> tuple[Run, ...]:
    """The texts of a line one after the other; what it links to is left out."""
    out: list[Run] = []
    for part in line:
        if isinstance(part, str):
            out.append(Run(part, is_bold=is_bold))
        elif isinstance(part, Figure):
            out.append(Run(part.text, "figure", part.id, is_bold))
        elif isinstance(part, Marked):
            out.append(Run(part.text, part.kind, is_bold=is_bold))
        else:
            # What stands below its sentence on a page goes on behind it.
            before = (Run(" "),) if getattr(part, "kind", "") == "below" else ()
            out.extend((*before, *runs_of(part.line, is_bold=is_bold)))
    return tuple(out)


def broken(runs: tuple[Run, ...], width: float, size: float, face: Face) -> list[tuple[Run, ...]]:
    """The runs in lines no wider than the given width, broken at blanks; a longer word is cut where it has to be."""
    lines: list[tuple[Run, ...]] = []
    now: list[Run] = []
    used = 0.0
    blank = face.width(" ", size)
    for word in _words(runs):
        for piece in _cut(word, width, size, face):
            needs = sum(_width(run, size, face) for run in piece)
            if now and used + blank + needs > width:
                lines.append(tuple(now))
                now, used = [], 0.0
            if now:
                now.append(Run(" ", now[-1].kind if now[-1].kind == piece[0].kind != "figure" else ""))
                used += blank
            now.extend(piece)
            used += needs
    if now:
        lines.append(tuple(now))
    return lines


def _words(runs: tuple[Run, ...]) -> Iterator[list[Run]]:
    """What holds together: texts without a blank, of however many kinds: "(83%)," is of three."""
    word: list[Run] = []
    for run in runs:
        # A number of several words ("3 years 5 months") is one thing.
        for piece in [run.text] if run.kind == "figure" else re.split(r"( +)", run.text):
            if piece.strip(" "):
                word.append(run._replace(text=piece))
            elif piece and word:
                yield word
                word = []
    if word:
        yield word


def _cut(word: list[Run], width: float, size: float, face: Face) -> Iterator[list[Run]]:
    if len(word) > 1 or word[0].kind == "figure" or _width(word[0], size, face) <= width:
        yield word
        return
    (run,) = word
    start = 0
    for end in range(1, len(run.text) + 1):
        if end - start > 1 and _width(run._replace(text=run.text[start:end]), size, face) > width:
            yield [run._replace(text=run.text[start : end - 1])]
            start = end - 1
    yield [run._replace(text=run.text[start:])]


def _width(run: Run, size: float, face: Face) -> float:
    return face.width(run.text, size, is_bold=run.is_bold)


def set_svg(runs: tuple[Run, ...], x: float, y: float, size: float, face: Face, kind: str = "") -> str:
    """One line from x on its baseline y. kind: class of every text in it, beside its own."""
    out = []
    for run in _joined(runs):
        width = _width(run, size, face)
        text = run.text.strip(" ")
        if text:
            before = _width(run._replace(text=run.text[: len(run.text) - len(run.text.lstrip(" "))]), size, face)
            own = _width(run._replace(text=text), size, face)
            names = " ".join(name for name in (run.kind, kind, "strong" if run.is_bold else "") if name)
            named = f' class="{names}"' if names else ""
            told = f' data-figure="{escape(run.figure)}"' if run.figure else ""
            out.append(
                f'<text{named}{told} x="{_short(x + before)}" y="{_short(y)}" font-size="{_short(size)}" '
                f'textLength="{_short(own)}" lengthAdjust="spacingAndGlyphs">{escape(text, quote=False)}</text>'
            )
        x += width
    return "".join(out)


def _joined(runs: tuple[Run, ...]) -> list[Run]:
    """Texts of one kind that follow one another as one, so that a reader who copies them gets whole words."""
    out: list[Run] = []
    for run in runs:
        last = out[-1] if out else None
        is_alike = last is not None and last.kind == run.kind != "figure"
        if last is not None and is_alike and (last.is_bold == run.is_bold or not run.text.strip(" ")):
            out[-1] = last._replace(text=last.text + run.text)
        else:
            out.append(run)
    return out


def _short(number: float) -> str:
    return f"{number:.1f}".removesuffix(".0")
