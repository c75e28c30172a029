"""What a guide says, as far as a change may move it: comparisons, pools, judgements, overlaps, figures, lines."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from ..guide.compose import compose_part, factors_shown
from ..guide.sections.compared_levels import compared_title, comparisons
from ..guide.sections.comparison import answer_line
from ..ledger import ledger_rows
from ..reading.latex import readable_text
from ..reading.model import Question
from ..reading.page_kinds import DESK
from ..reading.published import published_path
from ..records import NamedTuple
from ..rendering.desk_page import desk_markdown
from ..rendering.pages import page_markdown, written_markdown
from ..rendering.search import search_markdown
from ..results.findings.direction import Compared
from ..results.findings.findings import Catalogue
from ..results.findings.report_relations import relations
from ..results.numbers.clearness import clearness
from ..results.saying.titles import factor_title, levels_of
from ..results.values.guide import Guide
from ..results.values.line import plain_text
from .parts import Part, parts_of
from .read_lines import read_lines
from .touched import Touched


class Direction(NamedTuple):
    """Which way the studies of one comparison lie, and how clearly."""

    title: str
    question: str
    verdict: str
    """better, worse, no clear difference, mixed, not known."""
    better: int
    worse: int
    level: int
    """How many studies are on neither side."""
    clear: int
    """How many are clear by themselves."""
    says: str
    """The sentence of the guide."""
    sides: tuple[tuple[str, str], ...]
    """Key of each report, and the side that it is on."""


class PageText(NamedTuple):
    """A page as readers meet it."""

    title: str
    kind: str
    markup: str

    @property
    def lines(self) -> tuple[str, ...]:
        """Its lines in order, up to its workings: what was computed is told by its name."""
        lines = read_lines(self.markup.partition("\n---\n")[2] if self.markup.startswith("---\n") else self.markup)
        return lines[: lines.index("Workings")] if "Workings" in lines else lines


class Facts(NamedTuple):
    """All of one version, each by what it is of."""

    directions: dict[str, Direction]
    pooled: dict[str, tuple[str, str]]
    """By the name of its workings: what is put together, and every result."""
    certainty: dict[str, tuple[str, str]]
    """What was judged, and how sure."""
    overlaps: dict[str, str]
    """Whose patients count once."""
    pages: dict[str, PageText]
    """By path under site/."""
    figures: dict[str, dict[str, object]]
    """Rows of the ledger by id, places in files left out."""
    parts: dict[str, Part]
    """Plots and sheets, by where they stand."""


def facts_of(catalogue: Catalogue, scope: Touched | None) -> Facts:
    """What this version says of the questions and reports in scope, and on pages that belong to none; None: of all."""
    guide = compose_part(
        catalogue,
        lambda maker: (
            scope is None
            or (
                maker.question in scope.questions
                if maker.question
                else not maker.source or maker.source in scope.sources
            )
        ),
    )
    questions = [
        question
        for name, question in catalogue.evidence.questions.items()
        if scope is None or name in scope.questions
    ]  # fmt: skip
    return Facts(
        dict(_directions(catalogue, questions)),
        dict(_pooled(guide)),
        dict(_certainty(catalogue, questions)),
        _overlaps(catalogue),
        dict(_pages(catalogue, guide)),
        {str(row["id"]): _without_places(row) for row in ledger_rows(guide)},
        {
            name: part
            for address in guide.pages.heads
            for name, part in parts_of(f"{address}index.html", guide.pages[address])
        },
    )


def _directions(catalogue: Catalogue, questions: Iterable[Question]) -> Iterator[tuple[str, Direction]]:
    for question in questions:
        for factor in factors_shown(catalogue, question):
            for item in comparisons(catalogue, question, factor):
                yield f"{question.id}/{factor}/{item.name}", _direction(catalogue, question, item)


def _direction(catalogue: Catalogue, question: Question, item: Compared) -> Direction:
    place = f"{question.id}/{item.factor}"
    return Direction(
        f"{factor_title(catalogue, item.factor)}, {compared_title(catalogue, item)}",
        question.title.text,
        item.verdict,
        item.count("better"),
        item.count("worse"),
        item.count("no clear difference"),
        sum(clearness(side, place).is_clear is True for side in item.sides),
        plain_text(answer_line(catalogue, question, item)),
        tuple((side.finding.key, side.direction) for side in item.sides),
    )


def _pooled(guide: Guide) -> Iterator[tuple[str, tuple[str, str]]]:
    """Rates and ratios put together, or the ends between which they lie."""
    for address in guide.pages.heads:
        for working in guide.pages.workings(address):
            if working.name.endswith(("-rates", "-ratios", "-range")):
                yield working.name, (working.title, "; ".join(f"{said} {each.text}" for said, each in working.results))


def _certainty(catalogue: Catalogue, questions: Iterable[Question]) -> Iterator[tuple[str, tuple[str, str]]]:
    outcomes = catalogue.evidence.vocabulary.outcomes
    for question in questions:
        for item in question.certainty:
            factor = item.factor.text if item.factor else ""
            level = item.level.text if item.level else ""
            outcome = outcomes[item.outcome.text].title.text if item.outcome.text in outcomes else item.outcome.text
            titles = dict(levels_of(catalogue, factor)) if factor else {}
            of = f"{factor_title(catalogue, factor)}, {titles.get(level, level)}: " if factor else ""
            at = item.at.text if item.at else ""
            title = f"{question.title.text}: {of}{outcome}" + (f", at {at}" if at else "")
            yield f"{question.id}/{item.outcome.text}/{factor}/{level}/{at}", (title, item.final.text)


def _overlaps(catalogue: Catalogue) -> dict[str, str]:
    tied = relations(catalogue)
    out: dict[str, str] = {}
    for study, keys in tied.by_study.items():
        for key in keys[1:]:
            out[f"{study}/{keys[0]}/{key}"] = f"{keys[0]} and {key} tell of one study ({study})"
    for pairs in tied.replaced.values():
        for pair in pairs:
            gives_way, counts = pair.finding, pair.by
            out[f"{gives_way.base}/{counts.base}"] = (
                f"{gives_way.key} ({gives_way.claim.id.text}) gives way to {counts.key} ({counts.claim.id.text}): the "
                "same patients are counted once"
            )
    return out


def _pages(catalogue: Catalogue, guide: Guide) -> Iterator[tuple[str, PageText]]:
    for address, head in guide.pages.heads.items():
        page = guide.pages[address]
        yield f"{address}index.html", PageText(head.title, head.kind, page_markdown(page, guide, readable_text))
    for written in guide.written:
        yield published_path(written.path), PageText(written.path, "written", written_markdown(written, guide))
    yield "search/index.html", PageText("Search", "written", search_markdown(guide))
    # What is fetched for it is no evidence, and the same before and after.
    yield f"{DESK}index.html", PageText("Type a paper in", "written", desk_markdown(guide, 0))


def _without_places(row: Mapping[str, object]) -> dict[str, object]:
    """A row of the ledger without lines and columns, which move when anything above them does."""
    out = dict(row)
    for name in ("written_in", "proof"):
        held = out[name]
        if isinstance(held, dict):
            out[name] = {field: value for field, value in held.items() if field not in ("file", "line", "column")}
    return out
