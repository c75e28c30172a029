"""How computed figures of a page came about: one closed section each, and the files in which their numbers stand."""

from __future__ import annotations

from collections.abc import Mapping
from html import escape

from ..numerals import Unit as CountedUnit
from ..results.values.document import WorkingsSection
from ..results.values.figures import Figure, Working
from ..results.values.line import Line, Part
from .inline import Place, figure_html, href, line_html, typed_html, unit_after

_MANY_INPUTS = 8


def workings_html(block: WorkingsSection, place: Place, units: Mapping[str, CountedUnit]) -> str:
    """One closed line for each, which a way to it opens by itself."""
    first: dict[frozenset[str], Working] = {}
    for working in block.workings:
        first.setdefault(_names(working), working)
    rows = "\n".join(_working(working, first[_names(working)], place, units) for working in block.workings)
    if block.names_methods:
        rows += f'\n<p class="more"><a href="{escape(href("methods/", place))}">Where each method was published</a></p>'
    return rows + _shared_downloads(block.workings, place)


_ALL_NUMBERS = "The numbers told above, with those they come from, not rounded"


def _shared_downloads(workings: tuple[Working, ...], place: Place) -> str:
    """Files that hold the numbers of several workings, below the last of them."""
    shared = list(dict.fromkeys(item.download for item in workings if item.download and not item.table))
    names = [f" ({typed_html(path.split('/')[-2])})" if len(shared) > 1 else "" for path in shared]
    return "".join(
        f'\n<p><a href="{escape(href(path, place))}" download>{_ALL_NUMBERS}</a>{name}</p>'
        for path, name in zip(shared, names, strict=True)
    )


def _names(working: Working) -> frozenset[str]:
    return frozenset(figure.id for figure in working.inputs)


def _working(working: Working, first: Working, place: Place, units: Mapping[str, CountedUnit]) -> str:
    """Closed, and the anchor is the element itself: without a script the way still ends where one tap opens it.

    first: on the page, of those that were made of the same numbers; it alone lists them where they are many.
    """
    inputs, results = _inputs_and_results(working, first, place, units)
    rows = [
        ("From", inputs),
        ("How", f'<span class="convention">{escape(working.formula, quote=False)}</span>'),
        ("Gives", results),
        (
            "Chosen",
            f'<span class="convention">{escape(working.convention, quote=False)}</span>' if working.convention else "",
        ),
        (
            "Published in",
            f'<span class="reference">{escape(working.published, quote=False)}</span>' if working.published else "",
        ),
    ]
    facts = "\n".join(f"<dt>{name}</dt><dd>{text}</dd>" for name, text in rows if text)
    table = ""
    if working.table:
        address = escape(href(working.download, place))
        table = f'<p><a href="{address}" download>The numbers, not rounded, to recompute it</a></p>'
    anchor, title = escape(working.name), typed_html(working.title)
    return (
        f'<details class="workings" id="workings-{anchor}"><summary>{title}</summary>\n'
        f"<dl>\n{facts}\n</dl>{table}\n</details>"
    )


def _inputs_and_results(
    working: Working, first: Working, place: Place, units: Mapping[str, CountedUnit]
) -> tuple[str, str]:
    """What workings start from and what they give, and where the rest of it stands."""
    if working.are_inputs_above and working.are_results_above and not working.inputs and not working.results:
        return "", ""
    if working is first or len(working.inputs) < _MANY_INPUTS:
        inputs = line_html(_inputs(working.inputs), place)
    else:
        way = f"#workings-{escape(first.name)}"
        inputs = f'the same numbers as <a href="{way}">{typed_html(first.title)}</a>'
    if working.are_inputs_above:
        inputs = f"{inputs}; " if inputs else ""
        inputs += "numbers of the studies, one by one in the file below"
    parts = [
        f"{typed_html(name, 'convention')} {figure_html(figure)}{unit_after(figure, units)}"
        for name, figure in working.results
    ]
    return inputs, "; ".join(
        [*parts, "numbers told above, each in the file below"] if working.are_results_above else parts
    )


def _inputs(figures: tuple[Figure, ...]) -> Line:
    """Numbers of one passage in the words that print them together, "39 of 47", so that they share a link."""
    out: list[Part] = []
    before: Figure | None = None
    for figure in figures:
        if before is not None:
            out.append(_between(before, figure))
        out.append(figure)
        before = figure
    return tuple(out)


def _between(before: Figure, figure: Figure) -> str:
    base, _, field = before.id.rpartition("/")
    words = {"events": " of ", "low": " to "}.get(field)
    if words and figure.id in (f"{base}/total", f"{base}/high"):
        return words
    if before.proof is None or figure.proof is None or before.proof.passage is not figure.proof.passage:
        return ", "
    return " and "
