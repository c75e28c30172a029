"""Every field of every file, as the forms that read it describe it: one closed part a kind of file."""

from __future__ import annotations

from ...describing.files import BLOCKS, FILES, FileKind, blocks_of
from ...describing.in_words import taken
from ...describing.schema import schema_path
from ...describing.told import told_of
from ...numerals import Unit as CountedUnit
from ...reading.form import Slot
from ...reading.kinds import kind_of
from ..saying.marking import marked_words
from ..values.document import Block, Details, Facts, Line, Link, Paragraph, Raw, Section, Span, line, typed
from .contribute_templates import TEMPLATES
from .contribute_texts import template


def fields_section(unit: CountedUnit) -> Section:
    """All kinds of file, each closed. unit: what most studies count, for the templates."""
    told: set[str] = set()
    return Section(
        "Every field",
        "fields",
        (
            Paragraph(
                line(
                    "A field marked as needed must be there. Where a field may be not reported, not applicable and "
                    "could not access may stand too. An editor that knows the JSON Schema below says while you type "
                    "what fits; the check knows more, since it reads all files together."
                )
            ),
            *(_of_file(file, unit, told) for file in FILES),
        ),
    )


def _of_file(file: FileKind, unit: CountedUnit, told: set[str]) -> Details:
    """told: the blocks that stand above; those of this file are added."""
    path = schema_path(file)
    place = line(typed(file.path), ". For editors: ", Link(path, (path,)), ".")
    blocks: list[Block] = [Paragraph(place)]
    if file.name in TEMPLATES:
        blocks.append(Raw(template(TEMPLATES[file.name], unit), f"{file.title}: file to copy"))
    for name in blocks_of(file):
        if name not in told:
            told.add(name)
            blocks.append(Section(BLOCKS[name].title, f"fields-{name}", (_facts(name),)))
    return Details(file.title, tuple(blocks), anchor=f"file-{file.name}")


def _facts(name: str) -> Facts:
    return Facts(tuple(_row(name, slot) for slot in BLOCKS[name].form.slots), "fields")


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
            out.append(Link(f"#fields-{piece.block}", line(piece.block.replace("-", " "))))
    return line("Typed: ", *out)


def _example(example: str) -> Span:
    """As typed; any number in it is none of the evidence."""
    return Span("code", line(typed(example, "convention")))
