"""Figures: the only numbers of the evidence a page can show, each made from a proof or from a derivation."""

from __future__ import annotations

import re
from collections.abc import Iterable
from decimal import Decimal

from ...proof.proof import Proof
from ...records import NamedTuple

_is_decimal = re.compile(r"\d*\.?\d+", re.ASCII).fullmatch


class Figure(NamedTuple):
    """One number that pages may show. Make it through `FigureBook` alone."""

    id: str
    text: str
    """What pages print, with comparator and percent sign where printed: "83%", "< .05"."""
    value: str
    """A plain decimal with its leading zero."""
    unit: str
    proof: Proof | None
    """None for a computed one."""
    derived_from: tuple[str, ...] = ()
    """Ids of the figures it was computed from; empty for a quoted one."""
    formula: str = ""
    """How it was computed, or what its workings call a long formula; empty for a quoted one."""
    workings: str = ""
    """Name of the section that shows how it was computed: its anchor is "workings-NAME" on every page that shows it."""
    unrounded: str = ""
    """What was rounded to `value`, for the table of its workings; "" where nothing was."""
    is_only_worked: bool = False
    """True for a result that stands nowhere but in its workings, since it decides nothing."""

    @property
    def is_quoted(self) -> bool:
        """True where the number stands in a passage; False where we computed it."""
        return self.proof is not None

    @property
    def is_proportion(self) -> bool:
        """True for a percentage that was printed as a proportion: "0.84" for 84%, which takes no sign of per cent."""
        if self.unit != "%" or self.text.endswith("%"):
            return False
        printed = self.text.replace("·", ".").replace(",", ".")
        return _is_decimal(printed) is not None and Decimal(printed) != self.number

    @property
    def number(self) -> Decimal:
        """The value to calculate with, in the figure's own unit."""
        return Decimal(self.value)


class Working(NamedTuple):
    """How one or more computed figures came about: a section with an anchor on the page that shows them."""

    name: str
    """Its anchor is "workings-NAME"."""
    title: str
    inputs: tuple[Figure, ...]
    formula: str
    """In words and signs, as a person would write it on paper."""
    published: str
    """The published source of the formula; "" where it is plain arithmetic."""
    convention: str
    """Which convention was chosen where implementations differ; may be ""."""
    results: tuple[tuple[str, Figure], ...]
    """What each result is, and the result."""
    table: tuple[tuple[str, ...], ...] = ()
    """Header and rows of the CSV that recomputes it; may be empty."""
    download: str = ""
    """Address of that CSV from the root of the site: "data/workings/some-question-size-pooled.csv"."""
    is_each_told: bool = False
    """True where every result stands beside what it is of, so that the section repeats none; pages share such workings,
    and each tells its own part of them."""
    are_inputs_above: bool = False
    """True where some of the inputs are left out here, since the page or the working's own table has them."""
    are_results_above: bool = False
    """The same of the results."""
    called: str = ""
    """What the ledger calls a long formula; "" where it has the formula itself."""
    said: tuple[str, ...] = ()
    """What each result is, in the same order, without whose it is: in a table its id says that beside it."""


class FigureBook:
    """Every figure of one guide, by id. An id has one text and one value wherever it stands."""

    def __init__(self, proofs: dict[str, Proof]) -> None:
        self._proofs = proofs
        self._figures: dict[str, Figure] = {}
        self._explained: dict[str, Working] = {}
        self._results: dict[str, dict[str, tuple[str, Figure]]] = {}
        self._said: dict[str, str] = {}

    def quoted(self, figure_id: str) -> Figure | None:
        """The figure of a proved number; None where the evidence has no such proof."""
        figure = self._figures.get(figure_id)
        if figure is None:
            proof = self._proofs.get(figure_id)
            if proof is None:
                return None
            figure = Figure(figure_id, proof.text, plain(proof.value), proof.unit, proof)
            self._figures[figure_id] = figure
        return figure

    def explain(
        self,
        name: str,
        title: str,
        formula: str,
        *,
        called: str = "",
        published: str = "",
        convention: str = "",
        inputs: Iterable[Figure] = (),
        table: tuple[tuple[str, ...], ...] = (),
        download: str = "",
        is_each_told: bool = False,
    ) -> str:
        """Open the workings that the computed figures of this name share; gives the name back.

        name: unique in the guide, a slug. Explaining a name again adds its inputs and keeps everything else.
        called: a name for a long formula, which stands in its place in the many rows of the ledger.
        """
        known = self._explained.get(name)
        if known is None:
            given = tuple(dict.fromkeys(inputs))
            self._explained[name] = Working(
                name, title, given, formula, published, convention, (), table, download, is_each_told,
                called=called,
            )  # fmt: skip
            self._results[name] = {}
        elif inputs:
            self._explained[name] = known._replace(inputs=tuple(dict.fromkeys((*known.inputs, *inputs))))
        return name

    def computed(
        self,
        figure_id: str,
        text: str,
        value: Decimal | int | float | str,
        unit: str,
        workings: str,
        *,
        inputs: Iterable[Figure] | None = None,
        of: str = "",
        says: str = "",
        unrounded: Decimal | None = None,
        is_only_worked: bool = False,
    ) -> Figure:
        """A figure that we derived; the same id again must mean the same number.

        workings: a name already explained. inputs: what this one was derived from; None: all inputs of its workings.
        says: what this result is, for the workings, "" where the title says it. of: before it, whose it is, where its
        id says so too. unrounded: what `value` was rounded from.
        Raises ValueError where the id already stands for another number.
        """
        working = self._explained[workings]
        derived = tuple(figure.id for figure in (working.inputs if inputs is None else inputs))
        whole = plain(unrounded) if unrounded is not None else ""
        formula = working.called or working.formula
        figure = Figure(
            figure_id, text, plain(value), unit, None, derived, formula, workings, whole, is_only_worked
        )  # fmt: skip
        known = self._figures.setdefault(figure_id, figure)
        if (known.text, known.value) != (figure.text, figure.value):
            raise ValueError(f"{figure_id}: stands for {known.text!r} and for {figure.text!r}")
        self._results[workings].setdefault(figure_id, (f"{of}, {says}" if of else says, known))
        self._said.setdefault(figure_id, says)
        return known

    def working(self, name: str) -> Working:
        """The workings of this name with every result made so far, in the order they were made."""
        results = self._results[name]
        said = tuple(self._said[figure_id] for figure_id in results)
        return self._explained[name]._replace(results=tuple(results.values()), said=said)

    def get(self, figure_id: str) -> Figure | None:
        """A figure that was already made, of either kind."""
        return self._figures.get(figure_id) or self.quoted(figure_id)

    def all(self) -> dict[str, Figure]:
        """Every figure made so far, by id."""
        return self._figures


def plain(value: Decimal | int | float | str) -> str:
    """A plain decimal with its leading zero and no exponent: ".02" is "0.02", "1E+2" is "100"."""
    number = value if isinstance(value, Decimal) else Decimal(str(value))
    text = format(number, "f")
    if text.startswith("."):
        return "0" + text
    if text.startswith("-."):
        return "-0" + text[1:]
    return text
