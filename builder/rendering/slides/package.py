"""A presentation as its parts (Open Packaging Conventions, ECMA-376 Part 2): read, added to, always written alike."""

from __future__ import annotations

import io
import posixpath
import zipfile
from collections.abc import Iterable
from xml.etree import ElementTree
from xml.sax.saxutils import quoteattr

from ...records import NamedTuple

_CONTENT_TYPES = "[Content_Types].xml"
_TYPES = "http://schemas.openxmlformats.org/package/2006/content-types"
_RELATIONS = "http://schemas.openxmlformats.org/package/2006/relationships"
OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships/"
"""What the types of relationships begin with."""

_HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n'

# The earliest day that a zip can tell: what was written when is no affair of the bytes.
_DAY = (1980, 1, 1, 0, 0, 0)


class Relation(NamedTuple):
    """What one part says of another, or of an address outside."""

    id: str
    type: str
    target: str
    """The whole name of a part, "ppt/slides/slide1.xml", or an address."""
    is_outside: bool = False


class Package:
    """Parts by name, the type of each, and what leads from each to others; "" is the package itself."""

    def __init__(self) -> None:
        self.parts: dict[str, bytes] = {}
        self.types: dict[str, str] = {}
        self.relations: dict[str, list[Relation]] = {}

    def add(self, name: str, content: bytes | str, content_type: str) -> None:
        """Adds a part. name: "ppt/slides/slide1.xml"."""
        self.parts[name] = content if isinstance(content, bytes) else (_HEAD + content).encode("utf-8")
        self.types[name] = content_type

    def relate(self, source: str, kind: str, target: str, *, is_outside: bool = False) -> str:
        """Leads from a part to another, or to an address; gives the id that the part names it by.

        kind: the end of the relationship's type, "slideLayout".
        """
        known = self.relations.setdefault(source, [])
        whole = kind if "/" in kind else OFFICE + kind
        for relation in known:
            if (relation.type, relation.target) == (whole, target):
                return relation.id
        taken = {relation.id for relation in known}
        number = len(known) + 1
        while f"rId{number}" in taken:
            number += 1
        known.append(Relation(f"rId{number}", whole, target, is_outside))
        return f"rId{number}"

    def related(self, source: str, kind: str) -> list[Relation]:
        """What a part leads to in this way, in the order of its list."""
        return [relation for relation in self.relations.get(source, ()) if relation.type.rpartition("/")[2] == kind]

    def keep_reachable(self) -> None:
        """Drops every part that nothing leads to any more."""
        reached: set[str] = set()
        left = [""]
        while left:
            source = left.pop()
            for relation in self.relations.get(source, ()):
                if not relation.is_outside and relation.target in self.parts and relation.target not in reached:
                    reached.add(relation.target)
                    left.append(relation.target)
        self.parts = {name: content for name, content in self.parts.items() if name in reached}
        self.types = {name: kind for name, kind in self.types.items() if name in reached}
        self.relations = {name: kept for name, kept in self.relations.items() if name in reached or not name}

    def written(self) -> bytes:
        """The whole as bytes: parts in the order of their names, none with a day of its own."""
        out = io.BytesIO()
        with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED, compresslevel=6) as packed:
            _put(packed, _CONTENT_TYPES, self._content_types())
            files = dict(self.parts)
            for source, relations in self.relations.items():
                if relations:
                    files[_relations_name(source)] = _relations_part(source, relations)
            for name in sorted(files):
                _put(packed, name, files[name])
        return out.getvalue()

    def _content_types(self) -> bytes:
        rows = [
            '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>',
            '<Default Extension="xml" ContentType="application/xml"/>',
        ]
        rows.extend(
            f"<Override PartName={quoteattr('/' + name)} ContentType={quoteattr(kind)}/>"
            for name, kind in sorted(self.types.items())
            if kind != "application/xml"
        )
        return f'{_HEAD}<Types xmlns="{_TYPES}">{"".join(rows)}</Types>'.encode()


def _put(packed: zipfile.ZipFile, name: str, content: bytes) -> None:
    entry = zipfile.ZipInfo(name, _DAY)
    # The same on every system that builds.
    entry.create_system = 0
    # What is packed already grows by packing it again.
    entry.compress_type = zipfile.ZIP_STORED if name.endswith(".png") else zipfile.ZIP_DEFLATED
    packed.writestr(entry, content)


def _relations_name(source: str) -> str:
    folder, name = posixpath.split(source)
    return posixpath.join(folder, "_rels", f"{name}.rels")


def _relations_part(source: str, relations: Iterable[Relation]) -> bytes:
    folder = posixpath.dirname(source)
    rows = []
    for relation in relations:
        target = relation.target if relation.is_outside else posixpath.relpath(relation.target, folder or ".")
        mode = ' TargetMode="External"' if relation.is_outside else ""
        rows.append(
            f'<Relationship Id="{relation.id}" Type={quoteattr(relation.type)} Target={quoteattr(target)}{mode}/>'
        )
    return f'{_HEAD}<Relationships xmlns="{_RELATIONS}">{"".join(rows)}</Relationships>'.encode()


def read_package(content: bytes) -> Package:
    """The parts of a file. Raises zipfile.BadZipFile, KeyError or ElementTree.ParseError where it is none."""
    package = Package()
    with zipfile.ZipFile(io.BytesIO(content)) as packed:
        types = ElementTree.fromstring(packed.read(_CONTENT_TYPES))
        defaults = {
            found.get("Extension", "").lower(): found.get("ContentType", "")
            for found in types.iter(f"{{{_TYPES}}}Default")
        }
        overrides = {
            found.get("PartName", "").lstrip("/"): found.get("ContentType", "")
            for found in types.iter(f"{{{_TYPES}}}Override")
        }
        for name in packed.namelist():
            if name == _CONTENT_TYPES or name.endswith("/"):
                continue
            if name.endswith(".rels"):
                folder, file = posixpath.split(name)
                source = posixpath.join(posixpath.dirname(folder), file.removesuffix(".rels"))
                package.relations[source] = list(_read_relations(source, packed.read(name)))
            else:
                package.parts[name] = packed.read(name)
                extension = name.rpartition(".")[2].lower()
                package.types[name] = overrides.get(name) or defaults.get(extension, "application/octet-stream")
    return package


def _read_relations(source: str, content: bytes) -> Iterable[Relation]:
    folder = posixpath.dirname(source)
    for found in ElementTree.fromstring(content):
        target, is_outside = found.get("Target", ""), found.get("TargetMode") == "External"
        if not is_outside:
            target = (
                target.lstrip("/") if target.startswith("/") else posixpath.normpath(posixpath.join(folder, target))
            )
        yield Relation(found.get("Id", ""), found.get("Type", ""), target, is_outside)
