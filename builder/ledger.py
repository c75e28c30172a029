"""Every figure that the site shows, as rows: the ledger a stranger can audit."""

from __future__ import annotations

import json
from collections.abc import Iterator

from .proof.proof import Proof, Tie
from .reading.published import published_path
from .results.values.document import walk
from .results.values.figures import Figure
from .results.values.guide import Guide
from .results.values.handout import figures_on, handout_path
from .results.values.plots import plot_path
from .results.values.talk import slides_path


def ledger_rows(guide: Guide) -> Iterator[dict[str, object]]:
    """One row a figure, in order of id; `shown_on` lists the pages and slides under site/ that print it."""
    shown_on: dict[str, list[str]] = {}
    figures: dict[str, Figure] = {}
    for address in guide.pages.heads:
        path = f"{address}index.html"
        for figure in guide.pages.figures(address):
            figures.setdefault(figure.id, figure)
            shown_on.setdefault(figure.id, []).append(path)
    for name in guide.plots:
        for item in walk(guide.plots[name]):
            if isinstance(item, Figure):
                figures.setdefault(item.id, item)
                shown_on.setdefault(item.id, []).append(plot_path(name, "svg"))
    for question in guide.talks:
        for figure in guide.talks.figures(question):
            figures.setdefault(figure.id, figure)
            shown_on.setdefault(figure.id, []).append(slides_path(question))
    for question in guide.handouts:
        for figure in figures_on(guide.handouts[question]):
            figures.setdefault(figure.id, figure)
            shown_on.setdefault(figure.id, []).append(handout_path(question))
    for written in guide.written:
        path = published_path(written.path)
        for item in (*walk(written.parts), *walk(written.workings)):
            if isinstance(item, Figure):
                figures.setdefault(item.id, item)
                shown_on.setdefault(item.id, []).append(path)
    for figure_id in sorted(figures):
        yield _row(figures[figure_id], sorted(set(shown_on[figure_id])))


def _row(figure: Figure, shown_on: list[str]) -> dict[str, object]:
    proof = figure.proof
    written_in: dict[str, object] | None = None
    proved: dict[str, object] | None = None
    if proof is not None:
        written_in = {
            "file": proof.written_in.file,
            "line": proof.written_in.line,
            "column": proof.written_in.column,
        }
        at = proof.position
        proved = {
            "source": proof.passage.key,
            "locator": proof.passage.bracket,
            "file": at.file,
            "line": at.line,
            "column": at.column,
            "passage": " ".join(proof.passage.text.split()),
        }
        if proof.ties:
            proved["ties"] = _ties(proof)
    return {
        "id": figure.id,
        "text": figure.text,
        "value": figure.value,
        "unit": figure.unit,
        "kind": "quoted" if proof is not None else "computed",
        "written_in": written_in,
        "proof": proved,
        "derived_from": list(figure.derived_from),
        "formula": figure.formula,
        "shown_on": shown_on,
    }


def _ties(proof: Proof) -> dict[str, object]:
    """By what of the number is said; a list where several are."""
    told: dict[str, list[object]] = {}
    for tie in proof.ties:
        told.setdefault(tie.of, []).append(_tie(proof, tie))
    return {of: said[0] if len(said) == 1 else said for of, said in told.items()}


def _tie(proof: Proof, tie: Tie) -> object:
    """What the claim says of a number and its passage too, where that says it in the same words; else also by what, and
    the printed words if they are others."""
    words = [" ".join(proof.passage.text[start:end].split()) for start, end in tie.words]
    by = {} if tie.by == "words" else {"by": tie.by}
    other = {} if words == [tie.says] else {"words": words}
    return {"says": tie.says, **by, **other} if by or other else tie.says


def ledger_lines(guide: Guide) -> Iterator[str]:
    """The ledger as JSON lines, one after the other."""
    return (json.dumps(row, ensure_ascii=False, separators=(",", ":")) + "\n" for row in ledger_rows(guide))
