"""The slides of a question as one file, which every program for slides opens and changes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ...reading.slide_template import SlideTemplate
from ...results.values.document import walk
from ...results.values.figures import Figure
from ...results.values.guide import Guide
from ...results.values.line import Link, Marked, line
from ...results.values.talk import Group, Plot, Said, Slide, Talk, for_case
from .fitting import DISTANCE, SMALLEST, Fitted, fitted
from .listed import add_days, add_listed
from .making import BEHIND, NO_REPORT, making_markup
from .markup import empty_frame, line_markup, paragraph_markup, picture, run_markup, shape
from .own_template import FIELD, GROUP, MARK, NAMESPACES, NUMBER, PRESENTATION
from .pictures import Picture, pictures_of, says_of
from .pieces import Run, runs_of, text_of
from .template import Template, ours, presentation_part
from .widths import lines_of

_MAIN = "application/vnd.openxmlformats-officedocument.presentationml."
_MARK = "invented for demonstration"


def deck(
    guide: Guide,
    question: str,
    answers: frozenset[str] | None = None,
    *,
    template: SlideTemplate | None = None,
) -> bytes:
    """The talk of a question. Raises KeyError where there is no such question.

    answers: those of one case, "field=level" each, whose slides alone are kept; None for the slides of all answers.
    template: the programme's own; None for ours.
    """
    talk = guide.talks[question]
    if answers is not None:
        talk = for_case(talk, answers)
    return _Writer(guide, talk, answers, _laid_out_on(template)).written()


def _laid_out_on(template: SlideTemplate | None) -> Template:
    if template is None:
        return ours()
    from .programme_template import programme_template

    return programme_template(template)


class _Writer:
    """One presentation while it is written."""

    def __init__(self, guide: Guide, talk: Talk, answers: frozenset[str] | None, template: Template) -> None:
        self._guide = guide
        self._talk = talk
        self._template = template
        self._package = template.package
        self._numbers: dict[str, int] = {}
        self._fills = {
            f"answer:{name.partition('=')[0]}": talk.answers[name]
            for name in sorted(answers or ())
            if name in talk.answers
        }
        self._is_for_case = answers is not None
        self._pictures: dict[str, Picture] = {}

    def written(self) -> bytes:
        """The bytes of the file."""
        slides = fitted(
            self._drawn(), self._template.rooms, self._number, self._fill, is_for_case=self._is_for_case
        )  # fmt: skip
        notes = [tuple(runs_of(said.line, self._number, self._fill) for said in slide.notes) for slide in slides]
        references = fitted(
            self._talk._replace(slides=(self._references(),)), self._template.rooms, self._number, self._fill,
            is_for_case=True,
        )  # fmt: skip
        slides = [*slides, *references]
        notes.extend(() for _ in references)
        ids = []
        for index, (slide, said) in enumerate(zip(slides, notes, strict=True), start=1):
            ids.append(self._add(index, slide, said))
        self._package.add(PRESENTATION, self._listed(ids), f"{_MAIN}presentation.main+xml")
        figures = {item.id: item for item in walk(self._talk.slides) if isinstance(item, Figure)}
        making = "" if self._is_for_case else making_markup(slides, self._template.rooms, self._named())
        add_listed(self._package, self._guide, self._talk, slides, figures, making)
        add_days(self._package, self._guide, self._talk)
        return self._package.written()

    def _listed(self, ids: list[str]) -> bytes | str:
        if not self._template.presentation:
            return presentation_part(self._template, ids)
        from .programme_template import with_slides

        return with_slides(self._template, ids)

    def _number(self, key: str) -> int:
        return self._numbers.setdefault(key, len(self._numbers) + 1)

    def _named(self) -> dict[str, str]:
        """What the foot of a slide calls each report, by its key, in the order of their numbers."""
        return {key: self._short(key) for key in sorted(self._numbers, key=self._number)}

    def _fill(self, blank: str) -> str:
        return self._fills.get(blank, "")

    def _drawn(self) -> Talk:
        """The talk with a plot only where it has room."""
        slides = []
        for slide in self._talk.slides:
            box = self._template.rooms[slide.layout].picture
            if slide.plot is None or box is None:
                slides.append(slide)
                continue
            found = pictures_of(slide.plot, box, is_demonstration=self._guide.is_demonstration)
            if not found and slide.layout != "Plot":
                slides.append(slide._replace(plot=None, layout="Text"))
            for index, made in enumerate(found):
                more = slide if not index else _further(slide, index)
                slides.append(more._replace(plot=made.plot) if made.is_whole else _in_part(more, made.plot))
                self._pictures[more.name] = made
        return self._talk._replace(slides=tuple(slides))

    def _references(self) -> Slide:
        """All that was named, in the order of their numbers."""
        rows = []
        for key, number in sorted(self._numbers.items(), key=lambda item: item[1]):
            found = self._talk.references.get(key)
            whole = found.whole if found is not None else key
            doi = found.doi if found is not None else ""
            link = Link(f"https://doi.org/{doi}", (Marked("identifier", doi),))
            said = line(Marked("reference", f"[{number}] {whole}"), line(" DOI ", link) if doi else None)
            rows.append(Group((Said(said, "quiet"),)))
        if not rows:
            rows.append(Group((Said(line(NO_REPORT)),)))
        return Slide("references", "Text", line("References"), tuple(rows), is_spare=True)

    def _add(self, number: int, slide: Fitted, notes: tuple[tuple[Run, ...], ...]) -> str:
        part = f"ppt/slides/slide{number}.xml"
        package = self._package
        package.relate(part, "slideLayout", self._template.layouts[slide.layout])
        package.add(part, self._markup(part, number, slide), f"{_MAIN}slide+xml")
        if notes:
            page = f"ppt/notesSlides/notesSlide{number}.xml"
            package.relate(page, "notesMaster", self._template.notes_master)
            package.relate(page, "slide", part)
            package.relate(part, "notesSlide", page)
            kinds = [said.kind for said in slide.notes]
            package.add(page, _notes_markup(notes, kinds), f"{_MAIN}notesSlide+xml")
        return package.relate(PRESENTATION, "slide", part)

    def _markup(self, part: str, number: int, slide: Fitted) -> str:
        def address(target: str) -> str:
            return self._package.relate(part, "hyperlink", target, is_outside=True)

        room = self._template.rooms[slide.layout]
        size, distance = room.title_size
        title = line_markup(slide.title, size, distance, "tx1", address, is_bold=True)
        body = "".join(
            paragraph_markup(paragraph, address, is_first=index == 0)
            for index, paragraph in enumerate(slide.paragraphs)
        )
        shapes = [shape(2, "Title", 'type="title"', title)]
        if body or slide.layout != "Plot":
            shapes.append(shape(3, "Text", 'type="body" idx="1"', body))
        if room.picture is not None and slide.plot is not None:
            shapes.append(self._picture(part, slide))
        elif room.picture is not None and slide.frame:
            shapes.append(empty_frame(4, room.picture, slide.frame))
        shapes.extend(self._foot(number, slide))
        return (
            f"<p:sld {NAMESPACES}><p:cSld><p:spTree>{GROUP}{''.join(shapes)}</p:spTree></p:cSld>"
            "<p:clrMapOvr><a:masterClrMapping/></p:clrMapOvr></p:sld>"
        )

    def _picture(self, part: str, slide: Fitted) -> str:
        found, box = self._pictures[slide.name], self._template.rooms[slide.layout].picture
        assert box is not None
        assert slide.plot is not None
        media = f"ppt/media/{slide.name}.png"
        self._package.add(media, found.png, "image/png")
        placed = box._replace(width=found.width, height=found.height)
        said = says_of(slide.plot, text_of(slide.title))
        return picture(4, "Plot", said, self._package.relate(part, "image", media), placed)

    def _foot(self, number: int, slide: Fitted) -> Iterator[str]:
        """References named on the slide, the mark of the demonstration, and the number of the slide."""
        has = self._template.holders[slide.layout]

        def held(place: str, kind: str) -> str:
            return f'type="{kind}" sz="quarter" idx="{place}"' if place in has else ""

        def no_address(target: str) -> str:
            return ""

        named = self._named_on(slide)
        if named:
            said = line_markup(named, SMALLEST, DISTANCE, "tx2", no_address)
            yield shape(
                5,
                "References",
                held("14", "body"),
                said,
                None if "14" in has else self._template.rooms[slide.layout].references,
            )
        if self._guide.is_demonstration:
            mark = line_markup((Run(_MARK),), SMALLEST, DISTANCE, "tx2", no_address, is_slanted=True)
            yield shape(6, "Mark", held("15", "body"), mark, None if "15" in has else MARK)
        field = (
            f'<a:p><a:pPr algn="r"/><a:fld id="{FIELD}" type="slidenum"><a:rPr lang="en-GB" sz="{SMALLEST}00">'
            f'<a:latin typeface="+mn-lt"/></a:rPr><a:t>{number}</a:t></a:fld></a:p>'
        )
        yield shape(7, "Number", held("12", "sldNum"), field, None if "12" in has else NUMBER)

    def _named_on(self, slide: Fitted) -> tuple[Run, ...]:
        """The reports that the slide names by their numbers, with their DOI as far as two lines have room."""
        named = {run.key for paragraph in slide.paragraphs for run in paragraph.runs if run.key}
        keys = sorted(named, key=self._number)
        if not keys:
            return ()
        full = "  ".join(f"[{self._numbers[key]}] {self._short(key)}" for key in keys)
        box = self._template.rooms[slide.layout].references
        if len(lines_of(full, SMALLEST, box.width)) <= box.height // DISTANCE:
            return (Run(full, mark="reference"),)
        numbers = _ranges([self._numbers[key] for key in keys])
        return (Run(BEHIND), Run(numbers, mark="reference"))

    def _short(self, key: str) -> str:
        found = self._talk.references.get(key)
        if found is None:
            return key
        return f"{found.short}, doi {found.doi}" if found.doi else f"{found.short}, DOI not reported"


def _ranges(numbers: Sequence[int]) -> str:
    """ "1 to 3, 7": the numbers, those that follow one another as one."""
    out: list[list[int]] = []
    for number in numbers:
        if out and number == out[-1][-1] + 1:
            out[-1].append(number)
        else:
            out.append([number])
    return ", ".join(f"{each[0]} to {each[-1]}" if len(each) > 2 else ", ".join(map(str, each)) for each in out)


def _further(slide: Slide, index: int) -> Slide:
    """A further slide of a plot that needs several; the notes stand with the first."""
    return slide._replace(name=f"{slide.name}-{index}", title=line(slide.title, " (continued)"), notes=(), body=())


def _in_part(slide: Slide, plot: Plot) -> Slide:
    """A slide on which some studies have no room says so."""
    if slide.layout == "Plot":
        return slide._replace(title=line(slide.title, "; others are in the notes"), plot=plot)
    said = Said(line("Of studies without a stated time some are drawn; all are in the notes."), "quiet")
    return slide._replace(body=(*slide.body, Group((said,))), plot=plot)


def _notes_markup(notes: Sequence[tuple[Run, ...]], kinds: Sequence[str]) -> str:
    paragraphs = "".join(
        "<a:p>" + "".join(_note_run(run, is_bold=kind == "lead") for run in runs) + "</a:p>"
        for runs, kind in zip(notes, kinds, strict=True)
    )
    image = (
        '<p:sp><p:nvSpPr><p:cNvPr id="2" name="Slide"/><p:cNvSpPr><a:spLocks noGrp="1" noRot="1" noChangeAspect="1"/>'
        '</p:cNvSpPr><p:nvPr><p:ph type="sldImg"/></p:nvPr></p:nvSpPr><p:spPr/></p:sp>'
    )
    text = (
        '<p:sp><p:nvSpPr><p:cNvPr id="3" name="Notes"/><p:cNvSpPr><a:spLocks noGrp="1"/></p:cNvSpPr>'
        '<p:nvPr><p:ph type="body" idx="1"/></p:nvPr></p:nvSpPr><p:spPr/><p:txBody><a:bodyPr/><a:lstStyle/>'
        f"{paragraphs}</p:txBody></p:sp>"
    )
    return (
        f"<p:notes {NAMESPACES}><p:cSld><p:spTree>{GROUP}{image}{text}</p:spTree></p:cSld>"
        "<p:clrMapOvr><a:masterClrMapping/></p:clrMapOvr></p:notes>"
    )


def _note_run(run: Run, *, is_bold: bool) -> str:
    return run_markup(run._replace(target=""), 0, "", lambda target: "", is_bold=is_bold)
