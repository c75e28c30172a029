"""The whole way from a folder of evidence to the files of a site, or to what must be mended first."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable
from functools import partial
from pathlib import Path

from .audit.addresses import taken
from .audit.whole import audit
from .ledger import ledger_lines
from .problems import Problem, in_order
from .proof.proved_before import ProvedBefore
from .reading.evidence import ReadBefore, read_evidence
from .reading.files import WRITTEN_DIR
from .reading.latex import readable_text
from .reading.model import Evidence
from .reading.page_kinds import DESK, LETTERS
from .reading.published import published_path
from .reading.slide_template import read_slide_template
from .records import NamedTuple
from .rendering.desk_page import desk_markdown
from .rendering.letter_page import letters_markdown
from .rendering.pages import page_markdown, page_path
from .rendering.site import SiteFiles, Writer, made, writers
from .results.values.guide import Guide


class Built(NamedTuple):
    """What came of one folder of evidence: a guide and its files, or problems and neither."""

    guide: Guide | None
    """None while something is left to mend or to answer."""
    files: SiteFiles
    """Every file by its path below the documents' folder; empty where there is no guide."""
    problems: tuple[Problem, ...]
    """Sorted, the acknowledged ones included; a guide exists exactly where none of them is open."""


NO_FILES = SiteFiles({})


class Before:
    """What was found the last time, for whoever builds one folder again and again; it changes nothing but the time."""

    def __init__(self) -> None:
        self.read = ReadBefore()
        self.proved = ProvedBefore()
        self.evidence: Evidence | None = None
        """What the last guide was composed from."""


def compose(root: Path, before: Before | None = None) -> tuple[Guide | None, tuple[Problem, ...]]:
    """Reads, audits and composes; no guide while the audit does not pass.

    root: the folder that holds evidence/.
    """
    evidence = read_evidence(root, before.read if before is not None else None)
    outcome = audit(evidence, before.proved) if before is not None else audit(evidence)
    if not outcome.passes:
        return None, outcome.problems
    # Here and not above: what is wrong is told without loading the statistics.
    from .guide.compose import compose_guide

    if before is not None:
        before.evidence = evidence
    return compose_guide(evidence, outcome), outcome.problems


def early_markdown(root: Path, before: Before, guide: Guide, address: str) -> str | None:
    """One page of the guide as it is now, before anybody has composed the others. None where more may have changed than
    what single reports and questions say, or where the page cannot be told from the others.

    before: what `guide` was made with. guide: the last one. address: of the page.
    """
    evidence = read_evidence(root, before.read)
    if before.evidence is None or _shared(evidence) != _shared(before.evidence):
        return None
    outcome = audit(evidence, before.proved)
    if not outcome.passes:
        return None
    from .guide.one_page import compose_page

    pages = compose_page(evidence, outcome, before.read.texts, list(guide.pages.heads), address)
    if pages is None:
        return None
    # What stands in the frame of every page has not changed; of heads the page asks for that of its question alone.
    return page_markdown(pages[address], guide._replace(pages=pages), readable_text)


def _shared(evidence: Evidence) -> tuple[object, ...]:
    """What pages of more than one question or report rest on, and the names that make up the list of pages."""
    from .guide.one_page import on_every_page

    return (
        *on_every_page(evidence), evidence.urgent, evidence.statuses, evidence.pages, evidence.files_beside_pages,
        list(evidence.reports), list(evidence.sources),
    )  # fmt: skip


def build_files(root: Path, before: Before | None = None) -> Built:
    """The whole way: read, audit, compose, render, and the ledger beside it."""
    guide, problems = compose(root, before)
    return render(guide, root, readable_text, problems) if guide is not None else Built(None, NO_FILES, problems)


def render(guide: Guide, root: Path, decode: Callable[[str], str], problems: tuple[Problem, ...] = ()) -> Built:
    """The files of a composed guide, or a problem for each hand-written file that stands at an address of the guide.

    decode: turns BibTeX's own notation into readable text.
    """
    # What describes the form is loaded when its files are written: nobody else waits for it.
    from .describing.schema import schema_writers
    from .desk.shipped import size_of

    own: dict[str, Writer] = {"data/figures.jsonl": partial(ledger_lines, guide), **schema_writers()}
    own[f"{DESK}index.md"] = partial(made, partial(desk_markdown, guide, size_of(root)))
    own[f"{LETTERS}index.md"] = partial(made, partial(letters_markdown, guide))
    files = SiteFiles({**writers(guide, decode, read_slide_template(root)), **own})
    taken = _taken_addresses(guide, files, root)
    if taken:
        return Built(None, NO_FILES, tuple(in_order([*problems, *taken])))
    return Built(guide, files, problems)


def _taken_addresses(guide: Guide, files: Iterable[str], root: Path) -> list[Problem]:
    """A hand-written file never takes the place of a generated one in silence."""
    written = {page.path for page in guide.written}
    own = {page_path(head) for head in guide.pages.heads.values()} | {path for path in files if path not in written}
    generated = {published_path(path).casefold() for path in own}
    where = ((path, published_path(path)) for path in _written_files(root / WRITTEN_DIR))
    return [taken(f"{WRITTEN_DIR}/{path}", address) for path, address in where if address.casefold() in generated]


def _written_files(folder: Path) -> list[str]:
    """Every file below the folder, as paths with "/"; none where the folder is missing."""
    out: list[str] = []
    for parent, _, names in os.walk(folder):
        out.extend((Path(parent) / name).relative_to(folder).as_posix() for name in names)
    return sorted(out)
