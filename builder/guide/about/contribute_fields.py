"""Every field of every file, as the forms that read it describe it: one closed part a kind of file, and a block."""

from __future__ import annotations

from ...describing.files import BLOCKS, FILES, FileKind, blocks_of
from ...describing.in_words import taken
from ...describing.schema import schema_path
from ...describing.told import told_of
from ...numerals import Unit as CountedUnit
from ...reading.form import Slot
from ...reading.kinds import kind_of
from ...results.saying.marking import marked_words
from ...results.values.document import Block, Details, Facts, Paragraph, Raw, Section
from ...results.values.line import Line, Link, Span, joined, line, typed
from .contribute_templates import TEMPLATES
from .contribute_texts import template


def fields_section(unit: CountedUnit) -> Section:
    """All fields by name, then all kinds of file, each closed. unit: what most studies count, for the templates."""
    told: set[str] = set()
    return Section(
        "Every field",
        "fields",
        (
            Paragraph(
                line(
                    "A field marked as needed must be there. Where a field may be not reported, not applicable and "
                    "could not access may stand too. An editor that knows the JSON Schema of a file says while you "
                    "type what fits; the check knows more, since it reads all files together."
                )
            ),
            _by_name(),
            *(_of_file(file, unit, told) for file in FILES),
        ),
    )


def field_anchor(block: str, name: str) -> str:
    """Where on the page one field of one block is told."""
    return f"field-{name}-in-{block}"


def _by_name() -> Details:
    """Every name of a field, with each block that has one: whoever meets a name in a message begins here."""
    blocks: dict[str, list[str]] = {}
    for file in FILES:
        for block in blocks_of(file):
            for slot in BLOCKS[block].form.slots:
                places = blocks.setdefault(slot.name, [])
                if block not in places:
                    places.append(block)
    names = sorted(blocks)
    rows = tuple(
        (
            line(Span("code", line(typed(name, "identifier")))),
            joined([line(Link(f"#{field_anchor(at, name)}", line(_short(at)))) for at in blocks[name]], ", "),
        )
        for name in names
    )
    facts = Facts(rows, "names", tuple(f"field-{name}" for name in names))
    return Details("All fields by name", (facts,), "part", anchor="all-fields")


def _of_file(file: FileKind, unit: CountedUnit, told: set[str]) -> Details:
    """told: the blocks that stand above; those of this file are added."""
    path = schema_path(file)
    place = line(typed(file.path), ". For editors: ", Link(path, (path,)), ".")
    blocks: list[Block] = [Paragraph(place)]
    if file.name in TEMPLATES:
        copied = Raw(template(TEMPLATES[file.name], unit), f"{file.title}: file to copy")
        blocks.append(Details("A file to copy", (copied,), anchor=f"template-{file.name}"))
    above = []
    for name in blocks_of(file):
        if name in told:
            above.append(line(Link(f"#fields-{name}", line(_short(name)))))
        else:
            told.add(name)
            blocks.append(Details(BLOCKS[name].title, (_facts(name),), anchor=f"fields-{name}"))
    if above:
        blocks.append(Paragraph(line("As told above: ", joined(above, ", "), ".")))
    return Details(file.title, tuple(blocks), "part", anchor=f"file-{file.name}")


def _short(block: str) -> str:
    return block.replace("-", " ")


def _facts(name: str) -> Facts:
    slots = BLOCKS[name].form.slots
    return Facts(
        tuple(_row(name, slot) for slot in slots), "fields", tuple(field_anchor(name, slot.name) for slot in slots)
    )


def _row(name: str, slot: Slot) -> tuple[Line, Line]:
    told = told_of(BLOCKS[name], slot.name)
    field = line(Span("code", line(typed(slot.name, "identifier"))), " (needed)" if slot.required else None)
    said = (_sentence(told.says), _taken(slot), line("Example: ", _example(told.example)))
    return field, line(*(Span("each", part) for part in said))


def _sentence(says: str) -> Line:
    return marked_words(says[0].upper() + says[1:] + ".")


def _taken(slot: Slot) -> Line:
    out: list[Line | Link | Span] = []
    for piece in taken(kind_of(slot.read)):
        words = marked_words(piece.words)
        out.append(Span("code", words) if piece.is_typed else words)
        if piece.block:
            out.append(Link(f"#fields-{piece.block}", line(_short(piece.block))))
    return line("Typed: ", *out)


def _example(example: str) -> Span:
    """As typed; any number in it is none of the evidence."""
    return Span("code", line(typed(example, "convention")))
