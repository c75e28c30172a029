"""What slides are laid out on: our own template, or the programme's."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from ...records import NamedTuple
from ...results.values.talk import Layout
from .fitting import Room
from .own_template import HEIGHT, NAMESPACES, NOTES_MASTER, POINT, PRESENTATION, ROOMS, WIDTH, own_template
from .package import Package


class Template(NamedTuple):
    """A presentation without slides, and what its layouts have room for."""

    package: Package
    rooms: Mapping[Layout, Room]
    layouts: Mapping[Layout, str]
    """The part of each layout."""
    holders: Mapping[Layout, frozenset[str]]
    """Which of its places a layout has: "14" (references), "15" (mark), "12" (number of the slide)."""
    notes_master: str = NOTES_MASTER
    presentation: bytes = b""
    """What a programme's own template says of itself; empty for ours."""


def ours() -> Template:
    """Our own."""
    package = own_template()
    names = {name: f"ppt/slideLayouts/slideLayout{number}.xml" for number, name in enumerate(ROOMS, start=1)}
    every = frozenset({"12", "14", "15"})
    return Template(package, ROOMS, names, dict.fromkeys(ROOMS, every))


def presentation_part(template: Template, slides: Iterable[str]) -> str:
    """The list of slides and what all of them share. slides: ids of the relationships that lead to them, in order."""
    package = template.package
    masters = "".join(
        f'<p:sldMasterId id="{2147483648 + 100 * index}" r:id="{relation.id}"/>'
        for index, relation in enumerate(package.related(PRESENTATION, "slideMaster"))
    )
    notes = "".join(f'<p:notesMasterId r:id="{found.id}"/>' for found in package.related(PRESENTATION, "notesMaster"))
    listed = "".join(f'<p:sldId id="{256 + index}" r:id="{name}"/>' for index, name in enumerate(slides))
    return (
        f"<p:presentation {NAMESPACES}><p:sldMasterIdLst>{masters}</p:sldMasterIdLst>"
        f"<p:notesMasterIdLst>{notes}</p:notesMasterIdLst><p:sldIdLst>{listed}</p:sldIdLst>"
        f'<p:sldSz cx="{WIDTH * POINT}" cy="{HEIGHT * POINT}"/><p:notesSz cx="{HEIGHT * POINT}" cy="{WIDTH * POINT}"/>'
        "</p:presentation>"
    )
