"""The files of every plot that is taken along: SVG for documents, and a picture for programs that take none."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial

from ...results.values.guide import Guide
from ...results.values.plots import plot_path
from ..faces import PRINT
from .png import png
from .standalone import ALONE, MARK, drawing

# Twice as many pixels as the drawing is wide.
_PIXELS = int(2 * ALONE.width)


def drawings(guide: Guide) -> dict[str, Callable[[], Iterator[str] | Iterator[bytes]]]:
    """What writes each of them, by its path."""
    out: dict[str, Callable[[], Iterator[str] | Iterator[bytes]]] = {}
    for name in guide.plots:
        out[plot_path(name, "svg")] = partial(_svg, guide, name)
        out[plot_path(name, "png")] = partial(_png, guide, name)
    return out


def _mark(guide: Guide) -> str:
    return MARK if guide.is_demonstration else ""


def _svg(guide: Guide, name: str) -> Iterator[str]:
    yield drawing(guide.plots[name], _mark(guide)).svg


def _png(guide: Guide, name: str) -> Iterator[bytes]:
    yield png(drawing(guide.plots[name], _mark(guide), face=PRINT).svg, _PIXELS)
