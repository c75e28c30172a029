"""Pairs: the same units judged twice."""

from __future__ import annotations

from ...reading.model import Pairs
from ...results.findings.findings import Catalogue
from ...results.values.document import Table
from ...results.values.line import Line, line, typed


def pairs_table(catalogue: Catalogue, pairs: Pairs, base: str, label: str) -> Table:
    """The same units judged twice, as they pair: never two independent groups."""

    def cell(name: str) -> Line:
        figure = catalogue.book.quoted(f"{base}/pairs/{name}")
        return line(figure) if figure is not None else line("not reported")

    a, b = typed(pairs.a.text, "definition"), typed(pairs.b.text, "definition")
    header = (line("Judged twice"), line(b, ": yes"), line(b, ": no"))
    rows = (
        (line(a, ": yes"), cell("both"), cell("only_a")),
        (line(a, ": no"), cell("only_b"), cell("neither")),
    )
    caption = line("The same units by ", a, " and by ", b, ", as they pair")
    return Table(caption, header, rows, label, "pairs")
