"""A presentation read back by its XML alone: every run with what it says of its number, and the list of figures."""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

from lxml import etree

A = "{http://schemas.openxmlformats.org/drawingml/2006/main}"
P = "{http://schemas.openxmlformats.org/presentationml/2006/main}"
R = "{http://schemas.openxmlformats.org/officeDocument/2006/relationships}"
T = "{urn:passageproof:talk:1}"


class Run(NamedTuple):
    """One run of text."""

    text: str
    figure: str
    mark: str
    blank: str
    size: int
    """Hundredths of a point; 0 where the run says none."""


class Paragraph(NamedTuple):
    runs: tuple[Run, ...]

    @property
    def text(self) -> str:
        return "".join(run.text for run in self.runs)


class Shape(NamedTuple):
    name: str
    paragraphs: tuple[Paragraph, ...]
    xml: etree._Element

    @property
    def text(self) -> str:
        return "\n".join(paragraph.text for paragraph in self.paragraphs)


class Slide(NamedTuple):
    shapes: tuple[Shape, ...]
    notes: tuple[Paragraph, ...]
    name: str
    of: str
    is_spare: bool

    def shape(self, name: str) -> Shape | None:
        return next((shape for shape in self.shapes if shape.name == name), None)

    @property
    def runs(self) -> list[Run]:
        return [run for shape in self.shapes for paragraph in shape.paragraphs for run in paragraph.runs]

    @property
    def note_runs(self) -> list[Run]:
        return [run for paragraph in self.notes for run in paragraph.runs]


class Deck(NamedTuple):
    slides: list[Slide]
    listed: dict[str, str]
    """Id and text of every figure, as the part of our own has them."""
    about: etree._Element
    parts: dict[str, bytes]

    @property
    def main(self) -> list[Slide]:
        return [slide for slide in self.slides if not slide.is_spare]


def read_deck(content: bytes | Path) -> Deck:
    """The slides in the order of their list."""
    data = content.read_bytes() if isinstance(content, Path) else content
    with zipfile.ZipFile(io.BytesIO(data)) as packed:
        parts = {name: packed.read(name) for name in packed.namelist()}
    about = etree.fromstring(parts["customXml/item1.xml"])
    told = {int(slide.get("number")): slide for slide in about.iter(f"{T}slide")}
    listed = {figure.get("id"): figure.text for figure in about.iter(f"{T}figure")}
    presentation = etree.fromstring(parts["ppt/presentation.xml"])
    targets = relations(parts, "ppt/presentation.xml")
    slides = []
    for number, entry in enumerate(presentation.iter(f"{P}sldId"), start=1):
        name = targets[entry.get(f"{R}id")]
        root = etree.fromstring(parts[name])
        notes: tuple[Paragraph, ...] = ()
        for target in relations(parts, name).values():
            if "notesSlide" in target:
                body = etree.fromstring(parts[target])
                notes = tuple(paragraph for shape in shapes_of(body) for paragraph in shape.paragraphs)
        slides.append(
            Slide(tuple(shapes_of(root)), notes, told[number].get("name"), told[number].get("of"),
                  told[number].get("spare") == "yes")
        )  # fmt: skip
    return Deck(slides, listed, about, parts)


def relations(parts: dict[str, bytes], name: str) -> dict[str, str]:
    """Whole names of what a part leads to inside of the file, by the id of the relationship."""
    folder, _, file = name.rpartition("/")
    content = parts.get(f"{folder}/_rels/{file}.rels" if folder else f"_rels/{file}.rels")
    out = {}
    for found in etree.fromstring(content) if content is not None else ():
        if found.get("TargetMode") != "External":
            path = [*folder.split("/"), *found.get("Target").split("/")] if folder else found.get("Target").split("/")
            whole: list[str] = []
            for step in path:
                whole = whole[:-1] if step == ".." else [*whole, step]
            out[found.get("Id")] = "/".join(whole)
    return out


def shapes_of(root: etree._Element) -> Iterator[Shape]:
    for shape in root.iter(f"{P}sp"):
        name = shape.find(f"{P}nvSpPr/{P}cNvPr").get("name")
        paragraphs = tuple(Paragraph(tuple(_runs(found))) for found in shape.iter(f"{A}p"))
        yield Shape(name, paragraphs, shape)


def _runs(paragraph: etree._Element) -> Iterator[Run]:
    for run in paragraph.iter(f"{A}r", f"{A}fld"):
        said = run.find(f"{A}rPr/{A}extLst/{A}ext/{T}run")
        told = said.attrib if said is not None else {}
        mark = "page" if run.tag == f"{A}fld" else told.get("mark", "")
        size = int(run.find(f"{A}rPr").get("sz", "0"))
        yield Run(run.findtext(f"{A}t"), told.get("figure", ""), mark, told.get("blank", ""), size)


def slides_in(site: Path) -> dict[str, Deck]:
    """Every presentation of a site, by its path."""
    return {path.relative_to(site).as_posix(): read_deck(path) for path in sorted(site.rglob("*.pptx"))}


def has_digit(text: str) -> bool:
    return re.search(r"\d", text) is not None
