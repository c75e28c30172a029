"""How many comparisons a page holds, and how many of so many would look clear by chance alone."""

from __future__ import annotations

from collections.abc import Iterable

from ..findings.direction import Side
from ..findings.findings import Catalogue
from ..numbers.clearness import clearness
from ..numbers.shown_numbers import count
from ..values.document import Line, Paragraph, line
from ..values.figures import Figure

# Of comparisons in which nothing differs, so many in a hundred leave out no difference at 95%.
_BY_CHANCE = 5


def by_chance(
    catalogue: Catalogue, question: str, factor: str, sides: Iterable[Side], name: str = "", page: str = ""
) -> list[Paragraph]:
    """Said once a page; empty below two comparisons with an interval that decides.

    question, factor: of its page, "overall" for one of the whole question. sides: those that the page shows.
    name: tells pages of one place apart. page: as for `clearness`.
    """
    named: dict[tuple[str, str], tuple[Side, bool | None]] = {}
    for side in sides:
        of = side.finding.claim.question[0].text if page else question
        is_clear = clearness(side, f"{of}/{side.finding.factor or 'overall'}", page).is_clear
        if is_clear is not None:
            named[(side.finding.base, side.finding.kind)] = (side, is_clear)
    if len(named) < 2:
        return []
    said = _line(catalogue, question, factor, [found for _, found in sorted(named.items())], name, page)
    return [Paragraph(said, "quiet")]


def _line(
    catalogue: Catalogue, question: str, factor: str, found: list[tuple[Side, bool | None]], name: str, page: str
) -> Line:
    end = f"-{page or name}" if page or name else ""
    workings = catalogue.book.explain(
        f"{question}-source{end}-by-chance" if page else f"{question}-{factor}-by-chance{end}",
        "Comparisons on this page, and how many would look clear by chance",
        "comparisons of single studies with an interval that decides; those whose 95% interval leaves out no "
        "difference; by chance alone: comparisons × 0.05, rounded",
        convention="each taken as if it stood alone; they share patients, so this is a guide and no test",
        inputs=tuple(dict.fromkeys(figure for side, _ in found for figure in side.figures)),
    )  # fmt: skip

    def figure(of: str, number: int, says: str) -> Figure:
        return count(catalogue.book, f"{question}/{factor}/{of}{end}", number, "none", workings, says=says)

    clear = sum(is_clear is True for _, is_clear in found)
    expected = (_BY_CHANCE * len(found) + 50) // 100
    return line(
        "Comparisons of single studies on this page, each with an interval: ",
        figure("comparisons", len(found), "comparisons"),
        ", of them clear: ", figure("comparisons-clear", clear, "clear"),
        ". Where nothing differs, one in twenty still looks clear by chance alone: of so many ",
        line("about ", figure("clear-by-chance", expected, "clear by chance alone")) if expected else "fewer than one",
        ".",
    )  # fmt: skip
