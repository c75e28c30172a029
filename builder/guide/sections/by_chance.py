"""How many comparisons a page holds, and how many of so many would look clear by chance alone."""

from __future__ import annotations

from collections.abc import Iterable

from ...results.findings.findings import Catalogue
from ...results.findings.side import Side
from ...results.numbers.clearness import clearness, is_silent_about_owners
from ...results.numbers.shown_numbers import count
from ...results.values.document import Paragraph
from ...results.values.figures import Figure
from ...results.values.line import Line, line
from .several_studies import inputs_of

# Of comparisons in which nothing differs, so many in a hundred leave out no difference at 95%.
_BY_CHANCE = 5


WHAT_IS_COUNTED = "A comparison is two groups, one ending and one study."
"""Said on every page that counts them, and in these words alone."""


def by_chance(
    catalogue: Catalogue, question: str, factor: str, sides: Iterable[Side], name: str = "", page: str = ""
) -> list[Paragraph]:
    """Said once a page; empty below two comparisons with an interval that decides.

    question, factor: of its page, "overall" for one of the whole question. sides: those that the page shows.
    name: tells pages of one place apart. page: of a report, what tells it from those of others.
    """
    named: dict[tuple[str, str], tuple[Side, bool]] = {}
    for side in sides:
        of = side.finding.claim.question[0].text if page else question
        is_clear = clearness(side, f"{of}/{side.finding.factor or 'overall'}").is_clear
        if is_clear is not None:
            named[(side.finding.base, side.finding.kind)] = (side, is_clear)
    if len(named) < 2:
        return []
    end = f"-{page or name}" if page or name else ""
    return [Paragraph(_line(catalogue, question, factor, [found for _, found in sorted(named.items())], end), "quiet")]


def _line(catalogue: Catalogue, question: str, factor: str, found: list[tuple[Side, bool]], end: str) -> Line:
    compared = inputs_of(side for side, _ in found)
    workings = catalogue.book.explain(
        f"{question}-by-chance",
        "Comparisons on this page, and how many would look clear by chance",
        "comparisons with an interval that decides; those whose 95% interval leaves out no difference; of all × 0.05",
        called="comparisons by chance",
        convention="each taken as if it stood alone; they share patients, so this is a guide and no test",
        inputs=compared, is_each_told=True,
    )  # fmt: skip

    def figure(of: str, number: int, inputs: tuple[Figure, ...]) -> Figure:
        what = f"{of.replace('-', ' ')}, {end[1:].replace('-', ' ') or factor}"
        return count(
            catalogue.book, f"{question}/{factor}/{of}{end}", number, "none", workings, says=what, inputs=inputs
        )

    above = _as_above(catalogue, question, compared) if end or factor != "overall" else ()
    every = figure("comparisons", len(found), above or compared)
    clear = [side for side, is_clear in found if is_clear]
    expected = (_BY_CHANCE * len(found) + 50) // 100
    return line(
        WHAT_IS_COUNTED, " On this page, with an interval: ", every,
        "; clear by themselves: ", figure("comparisons-clear", len(clear), (every,)),
        ". Were nothing to differ, chance alone would still make one in twenty look clear: of so many ",
        line("about ", figure("clear-by-chance", expected, (every,))) if expected else "fewer than one",
        ".", _owners([side for side, _ in found]),
    )  # fmt: skip


def _as_above(catalogue: Catalogue, question: str, compared: tuple[Figure, ...]) -> tuple[Figure, ...]:
    """The number on the page of the question, where another page of it holds the same comparisons; else empty."""
    known = catalogue.book.get(f"{question}/overall/comparisons")
    is_same = known is not None and set(known.derived_from) == {figure.id for figure in compared}
    return (known,) if known is not None and is_same else ()


def _owners(sides: list[Side]) -> str:
    """What is assumed where reports do not tell whether several units were of one patient; "" where all tell it."""
    silent = [side.finding for side in sides if is_silent_about_owners(side.finding)]
    if not silent:
        return ""
    counted = silent[0].counted
    return (
        f" Where a report does not say of how many patients its {counted.many} were, each {counted.one} counts as a "
        "patient's own; if several were, the differences are less clear than they look."
    )
