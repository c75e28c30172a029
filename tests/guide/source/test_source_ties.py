"""The page of a source says what ties each number to its claim; the ledger and the upkeep page say it too."""

from __future__ import annotations

import re
from html import unescape
from pathlib import Path

import pytest
from guide.compendium import html_of
from passageproof.audit.whole import audit
from passageproof.guide.compose import compose_guide
from passageproof.guide.source import source_ties
from passageproof.ledger import ledger_rows
from passageproof.proof import ties
from passageproof.proof.proof import Tie
from passageproof.reading.evidence import read_evidence
from passageproof.results.values.document import Page
from passageproof.results.values.guide import Guide

EXAMPLE = Path(__file__).parents[2] / "example"
LARGE = "marlow2019furcal/by-size/over-3-mm"


@pytest.fixture(scope="module")
def guide() -> Guide:
    """The guide of the example, where the passage says of one row which level it is, and of another nothing."""
    evidence = read_evidence(EXAMPLE)
    found = audit(evidence)
    proofs = {name: proof._replace(ties=()) for name, proof in found.proofs.items()}
    for name in ("events", "total"):
        proof = proofs[f"{LARGE}/{name}"]
        start = proof.passage.text.index("over 3 mm")
        tie = Tie("level", "over 3 mm", "words", ((start, start + len("over 3 mm")),))
        proofs[proof.id] = proof._replace(ties=(tie,))
    overall = proofs["marlow2019furcal/overall/events"]
    proofs[overall.id] = overall._replace(ties=(Tie("event", "healed", "reader", ((0, 6),)),))
    return compose_guide(evidence, found._replace(proofs=proofs))


def text_of(page: Page) -> str:
    """The page as it is read, links and marks within their words."""
    parted = re.sub(r"</(td|th|dt|dd|p|li|caption|h\d|summary)>", " ", html_of(page))
    return " ".join(unescape(re.sub(r"<[^>]+>", "", parted)).split())


def test_numbers_with_the_same_ties_stand_together_with_the_words(guide: Guide) -> None:
    page = text_of(guide.pages["sources/marlow2019furcal/"])
    told = page.split("The passage itself says")[1:]
    assert len(told) == 2
    assert told[1].startswith(" which level: “over 3 mm” (count, of how many)")
    read = "in these words, read so by Ines Marlow, re-read by Tam Okafor: “healed” (count)"
    assert told[0].startswith(f" what was counted: {read}")
    assert page.count("who read it says what it counts") == 1


def test_every_kind_of_tie_has_its_words() -> None:
    told = re.compile(r'\.tie\(\s*(?:self\.)?stands, "(\w+)"')
    kinds = {kind for path in Path(ties.__path__[0]).glob("*.py") for kind in told.findall(path.read_text("utf-8"))}
    assert set(source_ties.TIE_NAMES) == kinds


def test_the_ledger_has_the_ties_of_every_quoted_figure(guide: Guide) -> None:
    rows = {str(row["id"]): row["proof"] for row in ledger_rows(guide)}
    # The passage has the level in the claim's own words; of the event somebody says so who read it.
    assert rows[f"{LARGE}/events"]["ties"] == {"level": "over 3 mm"}  # type: ignore[index]
    by_reader = rows["marlow2019furcal/overall/events"]["ties"]  # type: ignore[index]
    assert by_reader == {"event": {"says": "healed", "by": "reader"}}
    assert "ties" not in rows[f"{LARGE}/success_rate"]  # type: ignore[operator]


def test_upkeep_counts_what_only_stands_in_its_passage(guide: Guide) -> None:
    page = text_of(guide.pages["upkeep/"])
    rows = [figure for figure in guide.pages.figures("upkeep/") if figure.id.startswith("upkeep/overall/")]
    told = {figure.id.removeprefix("upkeep/overall/"): int(figure.text) for figure in rows}
    claims = [
        proof_id.split("/")
        for proof_id in audit(read_evidence(EXAMPLE)).proofs
        if proof_id.startswith("marlow2019furcal/") and "/studies/" not in proof_id
    ]
    of = sum("level" not in steps and "reference" not in steps and "range" not in steps for steps in claims)
    # Its report was re-read: told of all such together.
    assert told["quoted-re-read"] == of
    assert told["located-re-read"] == of - 3
    assert f"{of - 3} of {of}" in page
