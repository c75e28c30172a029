"""Pages as blocks of text: what rendering prints whole, and what the ledger walks to know which figure stands where."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from typing import Literal

from ...reading.page_kinds import PageKind
from ...reading.pictures import Picture
from ...records import NamedTuple
from .drawings import Icons, StudyScale, TimePlot
from .figures import Figure, Working
from .line import Line, Marked


class Paragraph(NamedTuple):
    """One paragraph. kind: "", "answer" (carries the mark of the demo), "warning", "quiet", ...

    "if-answered" stands only once the answer that it is of was given.
    """

    line: Line
    kind: str = ""
    of: str = ""
    """Answers of the situation whose number it is, with blanks between: "size=small size=middle"."""


class Items(NamedTuple):
    """A list; each item is a line, or blocks."""

    items: tuple[Line | Blocks, ...]
    ordered: bool = False
    kind: str = ""


class Facts(NamedTuple):
    """Terms and what is said of each (a definition list)."""

    rows: tuple[tuple[Line, Line], ...]
    kind: str = ""
    anchors: tuple[str, ...] = ()
    """Of each term its own, where each is looked up by itself."""


class Table(NamedTuple):
    """A table that carries the mark of the demo in its caption. The first column heads its row."""

    caption: Line
    header: tuple[Line, ...]
    rows: tuple[tuple[Line, ...], ...]
    label: str
    """Unique on its page: what a screen reader calls the region that scrolls; no number in it."""
    kind: str = ""
    joins: bool = False
    """Neighbours in a row that say the same, without a number, stand as one cell under the names of all of them."""


class Section(NamedTuple):
    """A heading with an anchor and what stands below it. The title carries no figure."""

    title: str
    anchor: str
    blocks: Blocks
    kind: str = ""


class Details(NamedTuple):
    """Something one tap away. The summary carries no figure."""

    summary: str
    blocks: Blocks
    kind: str = ""
    is_open: bool = False
    anchor: str = ""
    group: str = ""
    """Of all that have the same group one alone stands open at a time."""
    locator: str = ""
    """Where in a source it stands, behind its title."""


class Entry(NamedTuple):
    """One entry of advice: what to do, what it rests on, who stands behind it."""

    words: Line
    basis: Line
    caution: Line
    ratified: Line
    of: str = ""
    """The answers for which it holds: "size=small&size=middle"; of one field any will do. "" for all."""


class AdviceList(NamedTuple):
    """Entries of advice.

    kind: "stop", "now", "is-it-this", "steps", "medical", "call", "for", "against", "neither" (of ways), "until-help",
    "say", "afterwards".
    """

    entries: tuple[Entry, ...]
    kind: str
    ordered: bool = False
    shown: int = 0
    """So many entries stand on the page, each opening its own caution; the rest are one tap away. 0: all stand."""
    rest: str = ""
    """What that tap is called, behind how many they are: "more not to do"."""
    start: int = 1
    """The number of the first entry, where the list goes on from another."""


class Choice(NamedTuple):
    """One answer to a field of the situation, and what is known for it."""

    value: str
    """Vocabulary id of the level, for the fragment; "" for "can't tell"."""
    label: str
    """No figure; digits of a level's title are shown as a definition."""
    summary: Blocks
    """What is known for this level beside its reference; for "can't tell", what each answer would change.
    Empty where the choice only sets others."""
    sets: tuple[tuple[str, str], ...] = ()
    """Other fields and their values that follow from this choice: a number of a chart sets what follows from it."""


class ChoiceField(NamedTuple):
    """One field of the situation."""

    field: str
    """Factor id, or the name of a chart."""
    ask: str
    choices: tuple[Choice, ...]
    """"can't tell" is always the last."""
    picture: Picture | None = None
    """A drawing whose shapes are choices, by their value."""
    follows: tuple[ChoiceField, ...] = ()
    """Fields that the numbers of a chart set, and that may be answered without one."""
    quarters: tuple[tuple[str, ...], ...] = ()
    """Of a chart drawn as two bows, the values of its quarters, each from the middle outwards: above on the left, above
    on the right, below on the left, below on the right, as one looks at it."""
    notes: tuple[Line, ...] = ()
    """What must be known of the answers before one is chosen."""
    unit: str = ""
    """Unit of what its answers are bands of, so that a record can ask for the measured value."""


class Situation(NamedTuple):
    """The question's own fields. Without a script all answers stand below as sections."""

    fields: tuple[ChoiceField, ...]


class Marks(NamedTuple):
    """A number's place in a passage as typed."""

    start: int
    end: int
    figures: tuple[Figure, ...]
    """More than one where several claims quote the same number."""


class PassageText(NamedTuple):
    """A passage as typed, its proved numbers marked."""

    anchor: str
    bracket: str
    text: str
    """As typed; the marks' offsets count in it."""
    marks: tuple[Marks, ...]


class WorkingsSection(NamedTuple):
    """How computed figures of this page came about."""

    workings: tuple[Working, ...]
    names_methods: bool = False
    """True where the page of methods says which publication each is from, instead of each of them."""


class Raw(NamedTuple):
    """Text in a box for copying: a BibTeX entry, a template; its numbers are a reference."""

    text: str
    label: str


class Sheet(NamedTuple):
    """Something to print and take along. kind: "tray", "before", "chair", "afterwards", "recall"."""

    title: str
    kind: str
    blocks: Blocks


class RecallForm(NamedTuple):
    """The recall planner's data; the script makes dates and a calendar file of it on the reader's device."""

    question: str
    visits: tuple[tuple[int, str], ...]
    """Months after treatment, and the visit as typed."""
    record: tuple[str, ...]
    failing: tuple[str, ...]
    closed: tuple[str, ...] = ()
    """Days of the week on which nobody is seen; empty where not set."""


class Filter(NamedTuple):
    """A table's rows, or the reports of lists, can be narrowed by one of these words; without a script all stand."""

    label: str
    words: tuple[str, ...]


class StudyRow(NamedTuple):
    """One study of a list: a name and its figures on a few short lines, and what a tap on it opens."""

    name: str
    """Who and when published; no figure."""
    first: Line
    """Its time and its counts."""
    said: Line
    """What that comes to in words, and what is to be known of the row: adjusted, withdrawn, counted elsewhere."""
    opened: Blocks
    point: float | None = None
    """On the scale of its list, as the ends of its interval are; None where nothing is drawn."""
    low: float | None = None
    high: float | None = None
    shape: Literal["open", "filled", "dot"] = "open"
    """An open upright: crude; a filled one: adjusted; a dot: a rate by itself, without a comparison."""
    is_broken: bool = False
    """The interval decides nothing."""
    margins: tuple[float, ...] = ()
    """Where a margin fixed beforehand lies on the scale of its list; mostly empty."""
    of: str = ""
    """Ids of the levels that it is of, with blanks between."""


class StudyRows(NamedTuple):
    """One row a study, two lines high; under the first line what it found is drawn, and a tap opens all of it."""

    caption: Line
    label: str
    """Unique on its page: what a screen reader calls the list; no number in it."""
    rows: tuple[StudyRow, ...]
    scale: StudyScale | None = None
    """None where nothing is drawn."""


Block = (
    Paragraph | Items | Facts | Table | Section | Details | AdviceList | Situation | PassageText | Icons
    | TimePlot | StudyRows | WorkingsSection | Raw | Sheet | RecallForm | Filter
)  # fmt: skip
Blocks = tuple[Block, ...]


class Page(NamedTuple):
    """One page of the guide."""

    address: str
    """From the root of the site, "" for the front page: "some-question/size/"."""
    kind: PageKind
    title: str
    """As typed; heads the page and carries no figure."""
    blocks: Blocks
    description: str = ""
    """For the page's meta element; repeats no number."""
    edit: str = ""
    """The evidence file to edit, from the root: "evidence/questions/some-question.yaml"."""
    trail: tuple[tuple[str, str], ...] = ()
    """Addresses and titles of the pages above this one, the front page left out."""
    search: tuple[str, ...] = ()
    """What the search finds it by beside its title: authors, answers, synonyms."""
    review_due: datetime.date | None = None
    touched_by: tuple[str, ...] = ()
    """Keys of the reports whose figures stand here: what a retraction touches."""


def walk(value: object) -> Iterator[object]:
    """Every block, line part and figure below a page, block or line, in the order of reading."""
    if isinstance(value, (Figure, Marked)):
        yield value
    elif isinstance(value, Working):
        yield value
        yield from value.inputs
        yield from (figure for _, figure in value.results)
    elif isinstance(value, tuple):
        if hasattr(value, "_fields"):
            yield value
        for item in value:
            yield from walk(item)


def figures_of(page: Page) -> list[Figure]:
    """The figures that stand on a page, each once, in the order of reading."""
    seen: dict[str, Figure] = {}
    _collect(page.blocks, seen)
    return list(seen.values())


def _collect(value: tuple[object, ...], seen: dict[str, Figure]) -> None:
    # `walk` says the same; asked of every page, the bare loop is what makes the difference.
    for item in value:
        kind = type(item)
        if kind is str or kind is Marked:
            continue
        if isinstance(item, Figure):
            seen.setdefault(item.id, item)
        elif isinstance(item, tuple):
            _collect(item, seen)
