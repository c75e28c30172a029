"""evidence/pictures/: drawings of plain shapes, whose colours and lines are those of the page that shows them."""

from __future__ import annotations

from xml.parsers import expat

from ..compiled_patterns import compiled
from ..problems import Position, Problem, error
from ..records import NamedTuple

SHAPES = ("path", "rect", "circle", "ellipse", "polygon", "line", "g")
"""Elements that draw; title and desc say in words what the drawing shows."""

_WORDS = ("title", "desc")
_KEPT = {
    "id", "d", "x", "y", "width", "height", "rx", "ry", "cx", "cy", "r", "points", "x1", "y1", "x2", "y2", "transform",
    "fill-rule", "stroke-linecap", "stroke-linejoin",
}  # fmt: skip
"""Attributes that give place and form. Others say how the drawing looks elsewhere, and are left out."""

_SVG = "http://www.w3.org/2000/svg"
_ESCAPED = str.maketrans({"&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;", "'": "&#x27;"})
"""As `html.escape` has it, which would import the names of all signs."""
_is_box = compiled(r"\s*(?:-?[0-9.]+[\s,]+){2}[0-9.]+[\s,]+[0-9.]+\s*").fullmatch


class Picture(NamedTuple):
    """A drawing that pages may take in."""

    name: str
    """Path below evidence/pictures/: "eye.svg"."""
    view_box: str
    """Its frame, "0 0 18 21"."""
    parts: tuple[tuple[str, str], ...]
    """Its shapes as SVG text, place and form alone, in the order drawn: each with its id, or several with ""."""

    @property
    def shapes(self) -> str:
        """The whole drawing without its frame."""
        return "".join(text for _, text in self.parts)


class _Refused(Exception):
    """The drawing holds something that no page may take in."""


def read_picture(name: str, file: str, text: str, problems: list[Problem]) -> Picture | None:
    """The drawing, or None once its fault is noted: one problem a file.

    name: below evidence/pictures/. file: from the root, for the place of a fault.
    """
    parser = expat.ParserCreate(namespace_separator=" ")
    drawing = _Drawing()

    def start(tag: str, attributes: dict[str, str]) -> None:
        drawing.open(tag, attributes)

    def refuse(*_: object) -> None:
        raise _Refused("a document type or an instruction of its own")

    parser.StartElementHandler = start
    parser.EndElementHandler = drawing.close
    parser.CharacterDataHandler = drawing.words
    parser.StartDoctypeDeclHandler = refuse
    parser.ProcessingInstructionHandler = refuse
    try:
        parser.Parse(text, True)
    except expat.ExpatError as fault:
        message = (
            f"from here on this drawing is not valid SVG: {expat.errors.messages.get(fault.code, 'unknown fault')}"
        )
        problems.append(_fault(file, fault.lineno, fault.offset + 1, message))
        return None
    except _Refused as fault:
        message = f"this drawing contains {fault}"
        problems.append(_fault(file, parser.CurrentLineNumber, parser.CurrentColumnNumber + 1, message))
        return None
    if not drawing.parts:
        problems.append(_fault(file, 1, 1, "this drawing has no shape"))
        return None
    return Picture(name, drawing.view_box, tuple(drawing.parts))


def _fault(file: str, line: int, column: int, message: str) -> Problem:
    hint = f"a drawing may consist only of {', '.join(SHAPES)}, title and desc, without script, style or link"
    return error(Position(file, line, column), "picture-not-allowed", message, hint)


def _refuse_leading_out(attributes: dict[str, str]) -> None:
    """What styles, runs or leads elsewhere."""
    for attribute, value in attributes.items():
        if attribute == "style" or attribute.startswith("on") or attribute.endswith("href"):
            raise _Refused(f"`{attribute.rpartition(' ')[2]}`")
        if "url(" in value:
            raise _Refused("`url(`")


def _frame(space: str, name: str, attributes: dict[str, str]) -> str:
    """The frame of a drawing whose outermost element this is."""
    if name != "svg" or space != _SVG:
        raise _Refused(f"<{name}> in place of an <svg> of {_SVG}")
    box = attributes.get("viewBox", "")
    if not _is_box(box):
        raise _Refused("an <svg> without a `viewBox` of four numbers")
    return box


class _Drawing:
    """What was read so far."""

    def __init__(self) -> None:
        self.view_box = ""
        self.parts: list[tuple[str, str]] = []
        self._open: list[str] = []
        self._named = 0
        """How many elements stand open where a group with an id began, 0 outside of one."""

    def open(self, tag: str, attributes: dict[str, str]) -> None:
        space, _, name = tag.rpartition(" ")
        _refuse_leading_out(attributes)
        if not self._open:
            self.view_box = _frame(space, name, attributes)
        elif space != _SVG or name not in (*SHAPES, *_WORDS) or self._open[-1] in _WORDS:
            raise _Refused(f"<{name}>")
        elif name in SHAPES:
            kept = "".join(f' {key}="{value.translate(_ESCAPED)}"' for key, value in attributes.items() if key in _KEPT)
            self._draw(attributes.get("id", ""), f"<{name}{kept}>" if name == "g" else f"<{name}{kept}/>")
            if name == "g" and "id" in attributes and not self._named:
                self._named = len(self._open)
        self._open.append(name)

    def close(self, tag: str) -> None:
        if self._open.pop() == "g":
            self._draw("", "</g>")
            if self._named == len(self._open):
                self._named = 0

    def _draw(self, name: str, text: str) -> None:
        """Shapes inside a group with an id belong to it, whatever ids they have."""
        if self._named:
            above, drawn = self.parts[-1]
            self.parts[-1] = (above, drawn + text)
        else:
            self.parts.append((name, text))

    def words(self, text: str) -> None:
        if text.strip() and self._open[-1] not in _WORDS:
            raise _Refused(f'the text "{" ".join(text.split())[:40]}"')
