"""What somebody wrote, line by line with its place: slides (.pptx), a text document (.docx), plain text, Markdown."""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Iterator
from pathlib import PurePath
from xml.etree import ElementTree

from ..records import NamedTuple

KINDS = (".pptx", ".docx", ".txt", ".md")
"""Endings of files that can be read."""

# No part of a presentation that people made is as large; a zip that unpacks to more is refused.
_MOST = 64 * 1024 * 1024


class WrittenLine(NamedTuple):
    """One paragraph or line."""

    place: str
    """ "slide 3", "slide 3, notes", "line 12"."""
    text: str


class Document(NamedTuple):
    """What was written, and the numbers that the guide gave it when it was made."""

    lines: tuple[WrittenLine, ...]
    given: dict[str, str]
    """Text by id of each figure that the document says it was made with; empty where it says nothing."""


class UnreadableDocumentError(Exception):
    """A file that is none of those kinds, or a damaged one; the message says which, in plain words."""


def read_document(name: str, content: bytes) -> Document:
    """Reads a document by the ending of its name. Raises UnreadableDocumentError."""
    kind = PurePath(name).suffix.lower()
    if kind not in KINDS:
        raise UnreadableDocumentError(f'"{name}" is none of {", ".join(KINDS)}')
    if kind in (".pptx", ".docx"):
        try:
            return _packed(content, kind)
        except (zipfile.BadZipFile, ElementTree.ParseError, KeyError) as fault:
            raise UnreadableDocumentError(f'"{name}" cannot be opened as {kind}: {fault}') from fault
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as fault:
        raise UnreadableDocumentError(f'"{name}" is not text in UTF-8') from fault
    lines = (WrittenLine(f"line {number}", line) for number, line in enumerate(text.splitlines(), start=1))
    return Document(tuple(line for line in lines if line.text.strip()), {})


def _packed(content: bytes, kind: str) -> Document:
    with zipfile.ZipFile(io.BytesIO(content)) as package:
        if sum(info.file_size for info in package.infolist()) > _MOST:
            raise zipfile.BadZipFile("it unpacks to more than any talk is")
        if kind == ".docx":
            body = _parsed(package.read("word/document.xml"))
            said = (WrittenLine(f"paragraph {at}", text) for at, text in enumerate(_paragraphs(body), start=1))
            return Document(tuple(said), {})
        return Document(tuple(_slides(package)), _given(package))


def _parsed(content: bytes) -> ElementTree.Element:
    if b"<!DOCTYPE" in content[:1000]:
        # Office Open XML has none (ECMA-376 Part 2, 8.1.4); entities could unpack without end.
        raise KeyError("a part has a document type of its own")
    return ElementTree.fromstring(content)


def _name(element: ElementTree.Element) -> str:
    return element.tag.rpartition("}")[2]


def _paragraphs(root: ElementTree.Element) -> Iterator[str]:
    for paragraph in root.iter():
        if _name(paragraph) == "p":
            texts = (
                run.text or "" if _name(run) == "t" else " " for run in paragraph.iter() if _name(run) in ("t", "br")
            )
            said = "".join(texts).strip()
            if said:
                yield said


def _slides(package: zipfile.ZipFile) -> Iterator[WrittenLine]:
    """In the order in which they are shown, each with its notes behind it."""
    targets = _relations(package, "ppt/presentation.xml")
    shown = [
        targets[value]
        for item in _parsed(package.read("ppt/presentation.xml")).iter()
        if _name(item) == "sldId"
        for key, value in item.attrib.items()
        if key.startswith("{") and value in targets
    ]
    for number, part in enumerate(shown, start=1):
        for text in _paragraphs(_parsed(package.read(part))):
            yield WrittenLine(f"slide {number}", text)
        for target in _relations(package, part).values():
            if "notesSlide" in target:
                for text in _paragraphs(_parsed(package.read(target))):
                    yield WrittenLine(f"slide {number}, notes", text)


def _relations(package: zipfile.ZipFile, part: str) -> dict[str, str]:
    """Where each relationship of a part leads, as the whole name of a part; those outside are left out."""
    folder, _, name = part.rpartition("/")
    path = f"{folder}/_rels/{name}.rels"
    if path not in package.namelist():
        return {}
    out = {}
    for item in _parsed(package.read(path)):
        if item.get("TargetMode") != "External":
            target = item.get("Target", "")
            whole = target.lstrip("/") if target.startswith("/") else f"{folder}/{target}"
            while (found := re.sub(r"[^/]+/\.\./", "", whole, count=1)) != whole:
                whole = found
            out[item.get("Id", "")] = whole
    return out


def _given(package: zipfile.ZipFile) -> dict[str, str]:
    """The figures that a deck of ours lists in a part of its own."""
    out: dict[str, str] = {}
    for path in package.namelist():
        if re.fullmatch(r"customXml/item\d+\.xml", path):
            for item in _parsed(package.read(path)).iter():
                if _name(item) == "figure" and item.get("id"):
                    out[item.get("id", "")] = item.text or ""
    return out
