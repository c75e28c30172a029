"""evidence/slides.pptx: a programme's own template for slides, whose layouts are found by their names."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from ..problems import Position, Problem, error
from ..records import NamedTuple

if TYPE_CHECKING:
    from xml.etree.ElementTree import Element
    from zipfile import ZipFile

NAME = "slides.pptx"
FILE = f"evidence/{NAME}"

LAYOUTS = {
    "Opening": ("title", "text"),
    "Text": ("title", "text"),
    "Text with plot": ("title", "text", "picture"),
    "Plot": ("title", "picture"),
    "Frame to fill": ("title", "text", "picture"),
}
"""Each layout by its name, and the places that it must have."""

_A = "{http://schemas.openxmlformats.org/drawingml/2006/main}"
_P = "{http://schemas.openxmlformats.org/presentationml/2006/main}"
_LAYOUT = "slideLayout+xml"
_WIDE = 16 / 9

Frame = tuple[float, float, float, float]
"""Left, top, width and height in points."""


class TemplateLayout(NamedTuple):
    """One layout of a template."""

    part: str
    """Its name in the file, "ppt/slideLayouts/slideLayout1.xml"."""
    places: dict[str, Frame]
    """ "title", "text", "picture", and as far as it has them "references", "mark" and "number"."""


class SlideTemplate(NamedTuple):
    """A template that has what slides need."""

    content: bytes
    layouts: dict[str, TemplateLayout]
    """By name."""


def read_slide_template(root: Path) -> SlideTemplate | None:
    """The programme's own template, None where there is none or where `template_problem` has something to say."""
    path = root / FILE
    if not path.is_file():
        return None
    found = _read(path.read_bytes())
    return found if isinstance(found, SlideTemplate) else None


def template_problem(path: str) -> Problem | None:
    """What is wrong with the file, all of it in one problem; None where nothing is."""
    with open(path, "rb") as file:
        found = _read(file.read())
    if isinstance(found, SlideTemplate):
        return None
    return error(Position(FILE, 1, 1), "slide-template", *found)


def _read(content: bytes) -> SlideTemplate | tuple[str, str]:
    """The template, or what it lacks and how to mend it."""
    # Who has no template of their own does not wait for these.
    import io
    import zipfile
    from xml.etree.ElementTree import ParseError

    try:
        with zipfile.ZipFile(io.BytesIO(content)) as packed:
            return _layouts(content, packed)
    except (zipfile.BadZipFile, KeyError, ParseError, NotImplementedError, ValueError, OSError):
        mend = "save it once more as a presentation (.pptx), or delete it: slides then have the look of the guide"
        return f"{FILE} cannot be read as a presentation", mend


def _layouts(content: bytes, packed: ZipFile) -> SlideTemplate | tuple[str, str]:
    from xml.etree.ElementTree import fromstring

    size = fromstring(packed.read("ppt/presentation.xml")).find(f"{_P}sldSz")
    width, height = (int(size.get(name, "0")) if size is not None else 0 for name in ("cx", "cy"))
    if not height or abs(width / height - _WIDE) > 0.02:
        return f"{FILE} has slides of another shape than 16 to 9", "set the size of its slides to 16 to 9"
    found: dict[str, TemplateLayout] = {}
    for name in sorted(packed.namelist()):
        if name.startswith("ppt/slideLayouts/") and name.endswith(".xml"):
            layout = fromstring(packed.read(name))
            shared = _places(fromstring(packed.read(_master_of(name, packed))), {})
            held = layout.find(f"{_P}cSld")
            found.setdefault(
                held.get("name", "") if held is not None else "", TemplateLayout(name, _places(layout, shared))
            )
    faults: list[str] = []
    for name, needed in LAYOUTS.items():
        missing = [each for each in needed if name in found and each not in found[name].places]
        if name not in found:
            faults.append(f'no layout is called "{name}"')
        elif missing:
            faults.append(f'the layout "{name}" has no place for {" and ".join(missing)}')
    if faults:
        mend = "name the layouts so in the template, and give each its placeholders: title, text, picture"
        return f"{FILE}: {'; '.join(faults)}", mend
    return SlideTemplate(content, {name: found[name] for name in LAYOUTS})


def _master_of(layout: str, packed: ZipFile) -> str:
    from posixpath import basename, join, normpath
    from xml.etree.ElementTree import fromstring

    relations = fromstring(packed.read(f"ppt/slideLayouts/_rels/{basename(layout)}.rels"))
    targets = [each.get("Target", "") for each in relations if each.get("Type", "").endswith("/slideMaster")]
    return normpath(join("ppt/slideLayouts", targets[0])).lstrip("/") if targets else ""


_KINDS = {"title": "title", "ctrTitle": "title", "pic": "picture", "sldNum": "number"}
_BY_INDEX = {"1": "text", "14": "references", "15": "mark"}


def _places(root: Element, shared: dict[str, Frame]) -> dict[str, Frame]:
    """Where each placeholder stands; one that does not say it stands where the master has it."""
    out: dict[str, Frame] = {}
    for shape in root.iter(f"{_P}sp"):
        holder = shape.find(f"{_P}nvSpPr/{_P}nvPr/{_P}ph")
        if holder is None:
            continue
        name = _KINDS.get(holder.get("type", "")) or _BY_INDEX.get(holder.get("idx", ""), "")
        if not name and holder.get("type") == "body":
            name = "text" if "text" not in out else ""
        own = shape.find(f"{_P}spPr/{_A}xfrm")
        frame = _frame(own) if own is not None else shared.get(name)
        if name and frame is not None:
            out.setdefault(name, frame)
    return out


def _frame(found: Element) -> Frame | None:
    place, size = found.find(f"{_A}off"), found.find(f"{_A}ext")
    if place is None or size is None:
        return None
    left, top = (int(place.get(name, "0")) / 12700 for name in ("x", "y"))
    width, height = (int(size.get(name, "0")) / 12700 for name in ("cx", "cy"))
    return left, top, width, height
