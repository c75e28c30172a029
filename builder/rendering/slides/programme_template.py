"""A programme's own template as what slides are laid out on: its look and places, and none of its slides."""

from __future__ import annotations

from ...reading.slide_template import Frame, SlideTemplate
from ...results.values.talk import Layout
from .fitting import Box, Room
from .own_template import NOTES_MASTER, PRESENTATION, ROOMS, add_notes_master
from .package import read_package
from .template import Template

# Its typeface may be wider than ours.
_NARROWER = 0.9

_P = "{http://schemas.openxmlformats.org/presentationml/2006/main}"
_OF_ITS_OWN = ("slide", "extended-properties", "thumbnail", "custom-properties")
_NUMBERS = {"references": "14", "mark": "15", "number": "12"}


def programme_template(found: SlideTemplate) -> Template:
    """The template without its slides."""
    package = read_package(found.content)
    for source in ("", PRESENTATION):
        kept = package.relations.get(source, [])
        package.relations[source] = [each for each in kept if each.type.rpartition("/")[2] not in _OF_ITS_OWN]
    package.keep_reachable()
    masters = package.related(PRESENTATION, "notesMaster")
    if not masters:
        add_notes_master(package)
    rooms: dict[Layout, Room] = {}
    holders: dict[Layout, frozenset[str]] = {}
    layouts: dict[Layout, str] = {}
    for name, ours in ROOMS.items():
        layout = found.layouts[name]
        places = layout.places
        picture = places.get("picture")
        text = places.get("text") or places["picture"]
        rooms[name] = Room(
            _box(places["title"], _NARROWER), _box(text, _NARROWER), _box(picture) if picture else None,
            ours.title_size, _box(places["references"], _NARROWER) if "references" in places else ours.references,
        )  # fmt: skip
        holders[name] = frozenset(number for each, number in _NUMBERS.items() if each in places)
        layouts[name] = layout.part
    notes = masters[0].target if masters else NOTES_MASTER
    return Template(package, rooms, layouts, holders, notes, package.parts[PRESENTATION])


def _box(frame: Frame, narrower: float = 1.0) -> Box:
    left, top, width, height = frame
    return Box(left, top, width * narrower, height)


def with_slides(template: Template, slides: list[str]) -> bytes:
    """Its list of slides, all else that it says of itself kept. slides: ids of the relationships, in order."""
    # Here and not above: a guide without a template of its own does without; this one keeps names as they are written.
    from lxml import etree  # type: ignore[import-untyped]

    root = etree.fromstring(template.presentation)
    gone = [f"{_P}{name}" for name in ("sldIdLst", "custShowLst", "extLst", "notesMasterIdLst")]
    for child in list(root):
        if child.tag in gone:
            root.remove(child)
    relation = "{http://schemas.openxmlformats.org/officeDocument/2006/relationships}id"
    at = next(index for index, child in enumerate(root) if child.tag == f"{_P}sldMasterIdLst") + 1
    notes = etree.Element(f"{_P}notesMasterIdLst")
    for found in template.package.related(PRESENTATION, "notesMaster"):
        etree.SubElement(notes, f"{_P}notesMasterId", {relation: found.id})
    root.insert(at, notes)
    is_handout = at + 1 < len(root) and root[at + 1].tag == f"{_P}handoutMasterIdLst"
    listed = etree.Element(f"{_P}sldIdLst")
    for index, name in enumerate(slides):
        etree.SubElement(listed, f"{_P}sldId", {"id": str(256 + index), relation: name})
    root.insert(at + (2 if is_handout else 1), listed)
    made: bytes = etree.tostring(root, xml_declaration=True, encoding="UTF-8", standalone=True)
    return made
