"""Every kind of YAML file of the evidence with the blocks in it, found by following its form."""

from __future__ import annotations

from collections.abc import Iterator

from ..reading.form import Form
from ..reading.kinds import Block, Either, Kind, Many, Named, kind_of
from ..reading.standing import statuses, urgent_matters
from ..records import NamedTuple
from .claim_texts import CLAIM_BLOCKS
from .compendium_texts import COMPENDIUM_BLOCKS
from .question_texts import QUESTION_BLOCKS
from .report_texts import REPORT_BLOCKS

BLOCKS = {**REPORT_BLOCKS, **CLAIM_BLOCKS, **QUESTION_BLOCKS, **COMPENDIUM_BLOCKS}
"""Every kind of block by a name of its own."""

_NAMES = {id(block.form): name for name, block in BLOCKS.items()}


def block_name(form: Form) -> str:
    """The name of a block in `BLOCKS`. Raises KeyError for a form that nobody describes."""
    return _NAMES[id(form)]


class FileKind(NamedTuple):
    """One kind of file."""

    name: str
    """Of its schema, "claims" for data/schema/claims.json."""
    path: str
    """Where it stands, an id or key in capitals."""
    title: str
    takes: Kind


def _block(name: str) -> Block:
    return Block(BLOCKS[name].form)


FILES = (
    FileKind("claims", "evidence/claims/KEY.yaml", "What one report says", _block("report")),
    FileKind("question", "evidence/questions/ID.yaml", "What a reader asks", _block("question")),
    FileKind("vocabulary", "evidence/vocabulary.yaml", "Units, factors and outcomes", _block("vocabulary")),
    FileKind("compendium", "evidence/compendium.yaml", "Who publishes, and when", _block("compendium")),
    FileKind("urgent", "evidence/urgent.yaml", "What is worse than any question", kind_of(urgent_matters(set(), ""))),
    FileKind("local", "evidence/local.yaml", "Whom to call here", _block("local")),
    FileKind("status", "evidence/status.yaml", "Corrections and retractions", kind_of(statuses(set(), ""))),
)
"""All of them, in the order in which somebody who adds a report needs them."""


def forms_in(kind: Kind) -> Iterator[Form]:
    """The forms that a value of this kind is made of directly."""
    if isinstance(kind, (Block, Named)):
        yield kind.form
    elif isinstance(kind, Many):
        yield from forms_in(kind_of(kind.item))
    elif isinstance(kind, Either):
        for read in kind.readers:
            yield from forms_in(kind_of(read))


def blocks_of(file: FileKind) -> list[str]:
    """Names of all blocks of a file, each once, a block before those inside it."""
    found: list[str] = []
    waiting = list(forms_in(file.takes))
    while waiting:
        form = waiting.pop(0)
        name = block_name(form)
        if name not in found:
            found.append(name)
            inside = [inner for slot in form.slots for inner in forms_in(kind_of(slot.read))]
            waiting = inside + waiting
    return found
