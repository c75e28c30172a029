"""One page as the whole guide has it, without composing all the others: for whoever waits for it after an edit.

What is computed belongs to a question, and the name of its workings begins with the question's id. So the workings of a
page are whole once every page that may compute for its questions has been composed, in the order of the site: pages of
these questions, of other questions and sources whose texts name one of their results, and all that belong to none.
Of workings whose results are all told beside what they are of, the page of a source shows its own part alone.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from ..proof.proof import Audit
from ..reading.model import Evidence
from ..reading.prose import reports_named_in
from ..results.findings.findings import Catalogue
from ..results.values.line import Line
from .compose import ComposedPages, Maker, makers_of
from .named_results import named_result
from .written import written_pages


def on_every_page(evidence: Evidence) -> tuple[object, ...]:
    """What pages of all questions and reports rest on beside their own files."""
    titles = [(name, question.title.text) for name, question in evidence.questions.items()]
    # Each question leads to every emergency by its title.
    dangers = [(name, item.title.text) for name, item in evidence.urgent.items()]
    return (evidence.compendium, evidence.vocabulary, evidence.local, evidence.pictures, titles, dangers)


def compose_page(
    evidence: Evidence, audit: Audit, texts: Mapping[str, str], addresses: Sequence[str], address: str
) -> ComposedPages | None:
    """Pages among which is the one at this address, as the whole guide has it. None where only composing all tells.

    texts: of every file of the evidence, by its path from the root. addresses: of all pages, in the order of the site.
    """
    kind, _, key = address.partition("/")
    scopes = _named(texts, f"evidence/claims/{key.rstrip('/')}.yaml", evidence) if kind == "sources" else {kind}
    if address not in addresses or (kind != "sources" and kind not in evidence.questions) or address == "sources/":
        return None
    while more := {name for scope in scopes for name in _named(texts, question_file(scope), evidence)} - scopes:
        scopes |= more
    catalogue = Catalogue(evidence, audit)

    def named(text: str) -> Line | None:
        return named_result(catalogue, text)

    def needed() -> Iterator[Maker]:
        for at, maker in zip(addresses, makers, strict=True):
            if maker.question:
                names = _named(texts, question_file(maker.question), evidence)
                is_needed = maker.question in scopes or bool(names & scopes)
            elif maker.source:
                names = _named(texts, f"evidence/claims/{maker.source}.yaml", evidence)
                is_needed = at == address or bool(names & scopes)
            else:
                is_needed = True
            if is_needed:
                yield maker
                wanted.append(at)

    wanted: list[str] = []
    makers = list(makers_of(catalogue, named))
    if len(makers) != len(addresses):
        return None
    pages = ComposedPages(needed(), catalogue.book)
    written_pages(catalogue, named)
    if list(pages.heads) != wanted:
        return None
    starts = tuple(f"{scope}-" for scope in scopes)
    is_whole = all(
        working.name.startswith(starts) or (kind == "sources" and working.is_each_told)
        for working in pages.workings(address)
    )
    return pages if is_whole else None


def question_file(question: str) -> str:
    """The path of a question's file, from the root."""
    return f"evidence/questions/{question}.yaml"


def _named(texts: Mapping[str, str], file: str, evidence: Evidence) -> set[str]:
    """Questions of which a text of this file may name a result."""
    text = texts.get(file, "")
    return reports_named_in(text) & evidence.questions.keys()
