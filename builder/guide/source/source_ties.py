"""What the passage says of each number of a claim: which level, at which time, which event; or that it says nothing."""

from __future__ import annotations

from functools import lru_cache

from ...audit.proof import Proof, Tie
from ...reading.model import Claim, Report
from ..findings.findings import Catalogue
from ..saying.source_passages import by_whom
from ..values.document import Block, Details, Facts, Line, joined, line, typed

_OF = {
    "level": "which level",
    "time": "at which time",
    "event": "what was counted",
    "group": "of whom",
    "direction": "which way",
    "adjustment": "adjusted or not",
    "statistic": "what kind of number",
    "analysis": "by which analysis",
    "test": "what was tested",
}
_LONGEST = 80
"""Characters of printed words that are shown; what is longer stands in the passage above."""
_WORDINGS = frozenset({"level", "reference", "range"})
"""Fields whose numbers are part of a level's own words."""


def ties_block(catalogue: Catalogue, report: Report, claim: Claim) -> tuple[Block, ...]:
    """One tap away: the numbers of a claim, those with the same ties together, with the words that tie them; of those
    that only stand there, that it is so."""
    groups: dict[tuple[tuple[str, str, tuple[str, ...]], ...], list[Proof]] = {}
    for proof in _proofs_by_claim(catalogue).get(f"{report.key}/{claim.id.text}", ()):
        if _WORDINGS.isdisjoint(proof.id.split("/")[2:]):
            key = tuple((tie.of, tie.by, tie_words(proof, tie)) for tie in proof.ties)
            groups.setdefault(key, []).append(proof)
    silent = groups.pop((), [])
    rows = []
    for proofs in groups.values():
        figures = [figure for proof in proofs if (figure := catalogue.book.quoted(proof.id)) is not None]
        if figures:
            numbers = joined([line(figure) for figure in figures], ", ")
            rows.append((numbers, joined([_tie(catalogue, report, proofs[0], tie) for tie in proofs[0].ties])))
    if silent:
        said = line("found there; what it counts is known from who read it, ", by_whom(catalogue, report))
        rows.append((line("every other number" if rows else "every number"), said))
    return (Details("What the passage says of each number", (Facts(tuple(rows), "ties"),), "ties"),) if rows else ()


def _tie(catalogue: Catalogue, report: Report, proof: Proof, tie: Tie) -> Line:
    of = _OF.get(tie.of, tie.of)
    words = joined([line("“", typed(text), "”") for text in tie_words(proof, tie)], " … ")
    if tie.by == "reader":
        return line(
            of, ": in these words, read so by ", by_whom(catalogue, report), line(": ", words) if words else None
        )
    if tie.by == "position":
        return line(of, ": by its place behind ", words) if words else line(of, ": by its place")
    return line(of, ": ", words) if words else line(of, ": ", typed(tie.says))


def tie_words(proof: Proof, tie: Tie) -> tuple[str, ...]:
    """The printed words of a tie, blanks collapsed."""
    found = (" ".join(proof.passage.text[start:end].split()) for start, end in tie.words)
    return tuple(text if len(text) <= _LONGEST else f"{text[:_LONGEST].rstrip()} …" for text in found if text)


@lru_cache(maxsize=2)  # one guide is composed at a time; the index is asked for once a claim
def _proofs_by_claim(catalogue: Catalogue) -> dict[str, list[Proof]]:
    """Proofs by "key/claim", in the order of the form."""
    found: dict[str, list[Proof]] = {}
    for proof in catalogue.audit.proofs.values():
        key, claim, _ = proof.id.split("/", 2)
        found.setdefault(f"{key}/{claim}", []).append(proof)
    return found


def located_only(catalogue: Catalogue, report: Report) -> tuple[int, int]:
    """How many numbers of a report's claims stand in their passage and nothing more, and how many there are in all."""
    proofs = [
        proof
        for claim in report.claims
        for proof in _proofs_by_claim(catalogue).get(f"{report.key}/{claim.id.text}", ())
        if _WORDINGS.isdisjoint(proof.id.split("/")[2:])
    ]
    return sum(not proof.ties for proof in proofs), len(proofs)
