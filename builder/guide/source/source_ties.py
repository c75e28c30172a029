"""What the passage says of each number of a claim: which level, at which time, which event; or that it says nothing."""

from __future__ import annotations

from functools import lru_cache

from ...proof.proof import Proof, Tie
from ...reading.model import Claim, Report
from ...results.findings.findings import Catalogue
from ...results.saying.source_passages import by_whom
from ...results.values.line import Line, joined, line, typed

TIE_NAMES = {
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


def ties_line(catalogue: Catalogue, report: Report, claim: Claim) -> Line:
    """The printed words that tie the numbers of a claim, each with what it tells and of which numbers, by name.

    Of a number that no word is named for the page says once that what it counts is known from who read it.
    """
    said: dict[tuple[str, Line], dict[str, None]] = {}
    for proof in _proofs_by_claim(catalogue).get(f"{report.key}/{claim.id.text}", ()):
        if _WORDINGS.isdisjoint(proof.id.split("/")[2:]):
            for tie in proof.ties:
                said.setdefault((tie.of, _tie(catalogue, report, proof, tie)), {})[_named(proof)] = None
    by_kind: dict[str, list[Line]] = {}
    for (of, words), names in said.items():
        by_kind.setdefault(of, []).append(line(words, " (", ", ".join(names), ")"))
    return joined([line(TIE_NAMES.get(of, of), ": ", joined(told, ", ")) for of, told in by_kind.items()])


_NAMES = {
    "events": "count",
    "total": "of how many",
    "rate": "share",
    "success_rate": "share",
    "starting": "at the start",
    "at_risk": "at risk",
    "value": "value",
    "at": "time",
    "p": "P",
}
"""The last step of an id as readers know the number."""


def _named(proof: Proof) -> str:
    step = next(word for word in reversed(proof.id.split("/")) if not word.isdigit() and word not in ("low", "high"))
    return _NAMES.get(step, "".join(sign for sign in step.replace("_", " ").replace("-", " ") if not sign.isdigit()))


def _tie(catalogue: Catalogue, report: Report, proof: Proof, tie: Tie) -> Line:
    words = joined([line("“", typed(text), "”") for text in tie_words(proof, tie)], " … ")
    if tie.by == "reader":
        return line("in these words, read so by ", by_whom(catalogue, report), line(": ", words) if words else None)
    if tie.by == "position":
        return line("by its place behind ", words) if words else line("by its place")
    return words or line(typed(tie.says))


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
