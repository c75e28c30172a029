"""Which paragraphs find room on which slide: nothing is made smaller, what has no room goes to a slide of its own."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from ...records import NamedTuple
from ...results.values.line import line
from ...results.values.talk import Group, Layout, Plot, Said, Slide, Talk
from .pieces import Numbering, Run, cut, runs_of, text_of
from .widths import lines_of, text_width

SMALLEST = 18
"""Points; nothing on a slide is set smaller (said in the pages for whoever gives a talk)."""

DISTANCE = 22
"""Points from line to line where text is set so small."""

# Font size and distance of lines in points, by what a paragraph is.
SIZES: Mapping[str, tuple[int, int]] = {"": (20, 24), "lead": (20, 24), "item": (20, 24), "quiet": (SMALLEST, DISTANCE)}
INDENT = 18
"""Points before an item of a list."""
TITLE = (28, 33)
BEFORE = 7
"""Points above each paragraph but the first."""


class Box(NamedTuple):
    """A place for text or a picture, in points from the upper left corner; its text has no margin inside."""

    left: float
    top: float
    width: float
    height: float


REFERENCES = Box(48, 444, 864, 46)
"""Where the reports named on a slide stand on our own template."""


class Room(NamedTuple):
    """What a layout has room for."""

    title: Box
    body: Box
    picture: Box | None = None
    title_size: tuple[int, int] = TITLE
    references: Box = REFERENCES


class Paragraph(NamedTuple):
    """A paragraph in runs, as it is set."""

    runs: tuple[Run, ...]
    kind: str
    of: str = ""

    def height(self, width: float) -> float:
        """In points, without the distance above it."""
        return SIZES[self.kind][1] * len(self.lines(width))

    def lines(self, width: float) -> list[str]:
        """As it will be broken, at the latest."""
        size, _ = SIZES[self.kind]
        is_bold = self.kind == "lead" or any(run.is_bold for run in self.runs)
        own = width - INDENT if self.kind == "item" else width
        return lines_of(text_of(self.runs), size, own, is_bold=is_bold)


class Fitted(NamedTuple):
    """A slide on which everything has room."""

    name: str
    layout: Layout
    title: tuple[Run, ...]
    paragraphs: tuple[Paragraph, ...]
    notes: tuple[Said, ...]
    plot: Plot | None
    of: str
    is_spare: bool
    frame: tuple[Run, ...] = ()
    """What image belongs there; empty without a place for one."""
    groups: tuple[tuple[str, tuple[Paragraph, ...]], ...] = ()
    """All that may stand on the slide, with the answer each group is of: a copy for one case is made from it."""
    has_rest_elsewhere: bool = False


def fitted(
    talk: Talk, rooms: Mapping[Layout, Room], number: Numbering, fills: Callable[[str], str], *, is_for_case: bool
) -> list[Fitted]:
    """Every slide in order: the talk, then the spares, before them what of the talk found no room.

    rooms: by layout. fills: see `runs_of`. is_for_case: True where the talk has the paragraphs of one case alone.
    """
    main: list[Fitted] = []
    over: list[Fitted] = []
    spares: list[Fitted] = []
    for slide in talk.slides:
        shown = [group for group in slide.body if is_for_case or group.of in ("", "none")]
        first, *more = _split(slide, shown, rooms, number, fills)
        _, left_of_title = _title(slide, rooms[slide.layout], number, fills)
        first = first._replace(
            groups=(
                *((("", (Paragraph(left_of_title, "lead"),)),) if left_of_title else ()),
                *(
                    (group.of, tuple(_paragraph(said, group.of, number, fills) for said in group.said))
                    for group in slide.body
                ),
            ),
            has_rest_elsewhere=slide.has_rest_elsewhere,
        )
        (spares if slide.is_spare else main).append(first)
        (spares if slide.is_spare else over).extend(part._replace(is_spare=True) for part in more)
    return [*main, *over, *spares]


def _paragraph(said: Said, of: str, number: Numbering, fills: Callable[[str], str]) -> Paragraph:
    return Paragraph(runs_of(said.line, number, fills), said.kind, of)


ELSEWHERE = Said(line("More of this: behind the end."), "quiet")


def _split(
    slide: Slide,
    groups: Sequence[Group],
    rooms: Mapping[Layout, Room],
    number: Numbering,
    fills: Callable[[str], str],
) -> list[Fitted]:
    """The slide, and as many further ones as its paragraphs need."""
    room = rooms[slide.layout]
    title, left_of_title = _title(slide, room, number, fills)
    blocks = [[_paragraph(said, group.of, number, fills) for said in group.said] for group in groups]
    if left_of_title:
        blocks.insert(0, [Paragraph(left_of_title, "lead")])
    end = _paragraph(ELSEWHERE, "", number, fills)
    kept = BEFORE + end.height(room.body.width)
    here, rest = _filled(blocks, room.body)
    if rest and slide.has_rest_elsewhere:
        here, rest = [*_chosen(blocks, room.body.width, room.body.height - kept), end], []
    first = Fitted(
        slide.name, slide.layout, title, tuple(here), slide.notes, slide.plot, slide.of, slide.is_spare,
        runs_of(slide.frame, number, fills),
    )  # fmt: skip
    out = [first]
    text_room = rooms["Text"]
    while rest:
        here, rest = _filled(rest, text_room.body)
        further = (*title, Run(" (continued)"))
        if len(lines_of(text_of(further), text_room.title_size[0], text_room.title.width, is_bold=True)) > 2:
            further = title
        name = f"{slide.name}-{len(out)}"
        out.append(Fitted(name, "Text", further, tuple(here), (), None, slide.of, slide.is_spare))
    return out


def _title(
    slide: Slide, room: Room, number: Numbering, fills: Callable[[str], str]
) -> tuple[tuple[Run, ...], tuple[Run, ...]]:
    """The title as far as it has room, and all of it for the text below where it has not."""
    whole = runs_of(slide.title, number, fills)
    size, distance = room.title_size
    lines = lines_of(text_of(whole), size, room.title.width, is_bold=True)
    most = max(1, int(room.title.height // distance))
    if len(lines) <= most:
        return whole, ()
    last = lines[most - 1]
    while last and text_width(last + "…", size, is_bold=True) > room.title.width:
        last = last[:-1]
    shortened = " ".join([*lines[: most - 1], last.rstrip() + "…"])
    mark = next((run.mark for run in whole if run.mark), "")
    return (Run(shortened, mark=mark),), whole


def _filled(blocks: list[list[Paragraph]], box: Box) -> tuple[list[Paragraph], list[list[Paragraph]]]:
    """Paragraphs for one slide, and the blocks that are left; a block is cut only where it is alone too high."""
    here: list[Paragraph] = []
    used = 0.0
    for index, block in enumerate(blocks):
        needed = _height(block, box.width) + (BEFORE if here else 0)
        if used + needed <= box.height:
            here.extend(block)
            used += needed
            continue
        if here and _height(block, box.width) <= box.height:
            # What heads others is never the last of a slide.
            back = [here.pop()] if here[-1].kind == "lead" and len(here) > 1 else []
            return here, ([back] if back else []) + blocks[index:]
        first, second = _cut_block(block, box.width, box.height - used - (BEFORE if here else 0))
        if not first and here:
            return here, blocks[index:]
        if not first:
            # Not one line has room: it is set anyway, for a slide cannot be empty for ever.
            first, second = block[:1], block[1:]
        return [*here, *first], ([second] if second else []) + blocks[index + 1 :]
    return here, []


def _chosen(blocks: list[list[Paragraph]], width: float, height: float) -> list[Paragraph]:
    """As many blocks as have room, in their order; of one that has none the others go before it."""
    out: list[Paragraph] = []
    for block in blocks:
        needed = _height(block, width) + (BEFORE if out else 0)
        if needed <= height:
            out.extend(block)
            height -= needed
    return out or _cut_block(blocks[0], width, height)[0]


def _height(block: Sequence[Paragraph], width: float) -> float:
    return sum(paragraph.height(width) for paragraph in block) + BEFORE * (len(block) - 1)


def _cut_block(block: list[Paragraph], width: float, height: float) -> tuple[list[Paragraph], list[Paragraph]]:
    """The paragraphs that have room in this height, the last of them cut between words where none has it whole."""
    used = 0.0
    for index, paragraph in enumerate(block):
        needed = paragraph.height(width) + (BEFORE if index else 0)
        if used + needed <= height:
            used += needed
            continue
        if index and block[index - 1].kind == "lead" and index > 1:
            return block[: index - 1], block[index - 1 :]
        if index and paragraph.height(width) <= height:
            return block[:index], block[index:]
        one, other = _cut_paragraph(paragraph, width, height - used - (BEFORE if index else 0))
        if one is None:
            return block[:index], block[index:]
        return [*block[:index], one], ([other] if other is not None else []) + block[index + 1 :]
    return block, []


def _cut_paragraph(paragraph: Paragraph, width: float, height: float) -> tuple[Paragraph | None, Paragraph | None]:
    text = text_of(paragraph.runs)
    lines = paragraph.lines(width)
    number = int(height // SIZES[paragraph.kind][1])
    if number < 1:
        return None, paragraph
    # Lines leave out the blanks between them: where the text goes on is found by counting signs.
    signs, at = sum(len(each.replace(" ", "")) for each in lines[:number]), 0
    while signs and at < len(text):
        signs -= text[at] != " "
        at += 1
    before, behind = cut(paragraph.runs, at)
    if not before or not behind:
        return None, paragraph
    behind = (behind[0]._replace(text=behind[0].text.lstrip(" ")), *behind[1:])
    return paragraph._replace(runs=before), paragraph._replace(runs=behind)
