"""The guide: everything that is published, before it has a look."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Generic, TypeVar

from ...numerals import Unit as CountedUnit
from ...records import NamedTuple
from .document import Blocks, Page, Section, WorkingsSection, figures_of
from .figures import Figure, Working
from .handout import Handouts
from .line import Line
from .news import News
from .page_lines import PageLine, page_lines
from .plots import PlotToTake
from .references import Reference
from .talk import Talks

T = TypeVar("T")
Rows = tuple[tuple[str, ...], ...]
"""A table to take along, its header first."""


class WrittenPage(NamedTuple):
    """A hand-written page of site_src: Markdown in which the references to figures are already lines."""

    path: str
    """Below site_src: "about.md"."""
    parts: tuple[str | Line, ...]
    """Markdown as typed, and in place of each reference the line it stands for."""
    workings: tuple[Working, ...] = ()
    """Those of every computed figure it names; they stand at its end."""


class SourceEntry(NamedTuple):
    """A BibTeX entry for the downloads."""

    key: str
    raw: str
    """As typed."""
    is_retracted: bool
    """Then its annotation is left out."""
    strings: tuple[str, ...] = ()
    """The @string definitions that it needs, as typed."""
    reference: Reference = Reference()
    """What it says of the publication."""


class Question(NamedTuple):
    """A question as other pages name it."""

    id: str
    title: str
    urgent: tuple[str, ...]
    """Ids of what is worse, this question's first."""
    doors: tuple[str, ...] = ()
    """Where the bar of its page, and of those below it, leads: what to do now, the case in hand, whom to call."""


class UrgentEntry(NamedTuple):
    """A heading of the urgent page, as the links to it name it."""

    id: str
    title: str


CLAIM_WORDS = (
    "study", "where", "outcome", "factor", "known at", "reference", "planned", "within", "given", "differ in",
    "cut", "quotes",
    "follow-up", "follow-up of", "timing", "from", "estimate", "measure", "adjusted for", "contrast level",
    "contrast reference", "per", "event", "event is", "model", "proportional", "margin by",
    "margin sides", "level", "direction", "stated",
    "level where", "counted as", "in words", "note",
)  # fmt: skip
"""Names of the words that a row may hold, in the order of the form."""


class ClaimRow(NamedTuple):
    """What claims.csv, claim-words.csv and claims.json say of a claim, or of one level of it."""

    key: str
    claim: str
    level: str
    questions: tuple[str, ...]
    state: str
    """Standing of the report: none found, corrected, concern, retracted, unknown or not checked."""
    words: tuple[tuple[str, str], ...]
    """Names, of CLAIM_WORDS, and typed texts that are no figures. A level has its own alone: those of its claim stand
    in the row of the claim, and what an outcome or a study is stands in their tables."""
    figures: tuple[tuple[str, Figure], ...]
    """Field and figure, each figure in one row alone; none for a retracted report."""


class Letter(NamedTuple):
    """What a report's letter of contribution says, all but where it stands."""

    key: str
    title: str
    reference: str
    read_by: str
    read_on: str
    depth: str
    checked_by: str
    """"" where nobody has re-read it."""
    checked_on: str
    claims: tuple[str, ...]
    """Their titles."""


class Anew(Generic[T]):
    """Rows that are made whenever somebody walks them, so that nobody holds them all."""

    def __init__(self, make: Callable[[], Iterable[T]]) -> None:
        self._make = make

    def __iter__(self) -> Iterator[T]:
        return iter(self._make())


class Pages:
    """The pages of one guide, by address. Whoever needs no blocks asks for the heads alone.

    Here all of them are held; composing a guide gives pages that are made anew whenever somebody asks for one.
    """

    def __init__(self, pages: Iterable[Page]) -> None:
        held = {page.address: page for page in pages}
        self.heads: dict[str, Page] = {address: page._replace(blocks=()) for address, page in held.items()}
        """Every page in order and without its blocks, by address."""
        self._held = held

    def __iter__(self) -> Iterator[Page]:
        return (self[address] for address in self.heads)

    def __getitem__(self, address: str) -> Page:
        """The whole page. Raises KeyError where none has this address."""
        return self._held[address]

    def figures(self, address: str) -> Iterable[Figure]:
        """Every figure on the page, its workings included."""
        return figures_of(self._held[address])

    def workings(self, address: str) -> tuple[Working, ...]:
        """How the computed figures of the page came about."""
        return tuple(_below(self._held[address].blocks))

    def lines(self, address: str) -> tuple[PageLine, ...]:
        """What the search shows of the page, its workings left out."""
        return page_lines(self._held[address])


def _below(blocks: Blocks) -> Iterator[Working]:
    for block in blocks:
        if isinstance(block, WorkingsSection):
            yield from block.workings
        elif isinstance(block, Section):
            yield from _below(block.blocks)


class Guide(NamedTuple):
    """Every page with its address, every figure, the hand-written pages and what is downloaded."""

    title: str
    programme: str
    is_demonstration: bool
    evidence_date: datetime.date
    release: str
    repository: str
    licence_text: str
    licence_data: str
    contact: str
    """Whom to call here, as typed; "" where the programme has not set it."""
    status_checked: datetime.date | None
    """The newest day on which the standing of reports was checked."""
    questions: tuple[Question, ...]
    urgent: tuple[UrgentEntry, ...]
    pages: Pages
    figures: dict[str, Figure]
    """Every figure that any page shows, by id."""
    written: tuple[WrittenPage, ...]
    sources: tuple[SourceEntry, ...]
    claims: Iterable[ClaimRow]
    outcomes: Rows
    """What each outcome counts, on its four axes, below the names of the columns; the id comes first."""
    studies: Rows
    """Whom and what each study counts, in the same shape."""
    units: Mapping[str, CountedUnit]
    """What is counted, by id: the words behind a number."""
    withdrawn: tuple[tuple[str, str], ...]
    """Keys of retracted reports and the day of the notice, for copies that ask for the newest standing."""
    tables: Mapping[str, Rows]
    """The numbers behind workings: the rows of each of their downloads, by its path."""
    letters: tuple[Letter, ...] = ()
    """Of every report that has a claim and was not retracted, in the order of their keys."""
    doors: tuple[str, ...] = ()
    """Anchors of the front page that the bar of a page of no question leads to, in the order of `Question.doors`."""
    plots: Mapping[str, PlotToTake] = {}
    """What is drawn to be taken along, by name, each made when it is asked for."""
    talks: Talks = Talks({})
    """Slides of each question, to take along."""
    news: tuple[News, ...] = ()
    """What changed, the newest first."""
    handouts: Handouts = Handouts({})
    """The sheet of each question that is handed out, composed when it is asked for."""
