"""Nothing on the demonstration's pages can be read as its opposite: stop lists, and shares that are still good."""

from __future__ import annotations

import re
from html.parser import HTMLParser
from pathlib import Path

import pytest
from demo import demo_built, demo_evidence
from passageproof.audit.whole import audit
from passageproof.build import Built
from passageproof.guide.sentences.advice import basis_line
from passageproof.reading.model import Question
from passageproof.reading.values import Percentage
from passageproof.results.findings.findings import Catalogue
from passageproof.results.values.document import walk
from passageproof.results.values.figures import Figure

ROOT = Path(__file__).parent.parent.parent
QUESTIONS = demo_evidence().questions
LOSS = re.compile(
    r"\b(lost|loss|losing|came back|comes back|revers\w+|relaps\w+|fail\w*|taken back|fractur\w+)\b", re.IGNORECASE
)


@pytest.fixture(scope="module")
def demo() -> Built:
    return demo_built()


@pytest.mark.parametrize("question", QUESTIONS.values(), ids=QUESTIONS)
def test_every_item_of_a_stop_list_is_a_prohibition(question: Question) -> None:
    # Read at arm's length, an order below a heading that forbids is read as forbidden.
    assert question.stop
    orders = [item.words.text for item in question.stop if not re.match(r"(Do not|Never|No|Nothing) ", item.words.text)]
    assert orders == []


class Lines(HTMLParser):
    """The lines of a page with the ids of their figures, each behind the headings it stands under."""

    LINES = frozenset(("p", "li", "tr", "figcaption", "dd", "dt"))
    HEADINGS = frozenset(("h1", "h2", "h3", "summary"))
    PARTS = frozenset(("section", "details", "main", "aside"))

    def __init__(self, text: str) -> None:
        super().__init__(convert_charrefs=True)
        self.found: list[tuple[str, str, list[str]]] = []
        """Heading, text and ids of figures of each line."""
        self._headings: list[str] = [""]
        self._lines: list[tuple[str, list[str]]] = []
        self._heading: str | None = None
        self.feed(text)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = dict(attrs)
        if tag in self.PARTS:
            self._headings.append("")
        if tag in self.HEADINGS:
            self._heading = ""
        if tag in self.LINES:
            self._lines.append(("", []))
        if self._lines and given.get("data-figure"):
            self._lines[-1][1].append(str(given["data-figure"]))

    def handle_data(self, data: str) -> None:
        if self._heading is not None:
            self._heading += data
        elif self._lines:
            text, ids = self._lines[-1]
            self._lines[-1] = (text + data, ids)

    def handle_endtag(self, tag: str) -> None:
        if tag in self.HEADINGS and self._heading is not None:
            self._headings[-1], self._heading = self._heading, None
        if tag in self.LINES and self._lines:
            text, ids = self._lines.pop()
            self.found.append((self._headings[-1], " ".join(text.split()), ids))
        if tag in self.PARTS and len(self._headings) > 1:
            self._headings.pop()


def still_good() -> dict[str, str]:
    """The figures that count those still well at a time: the text of each by its id."""
    return {
        f"{key}/{claim.id.text}/estimate/value": claim.estimate.value.text
        for key, report in demo_evidence().reports.items()
        for claim in report.claims
        if claim.estimate is not None
        and claim.estimate.kind.text == "survival"
        and isinstance(claim.estimate.value, Percentage)
    }


def sentence_of(text: str, share: str) -> str:
    """The words before a share, back to the sentence's or the half sentence's beginning, and those behind it."""
    at = text.index(share)
    begins = max(text.rfind(mark, 0, at) for mark in (". ", "; ", "), ")) + 1
    ends = min((found for found in (text.find(mark, at) for mark in (". ", "; ", "),")) if found >= 0), default=None)
    return text[begins:ends]


def test_no_share_still_good_stands_beside_words_of_loss(demo: Built) -> None:
    wanted = still_good()
    seen, faults = 0, []
    for path, page in demo.files.items():
        if not path.endswith(".md"):
            continue
        for heading, text, ids in Lines(page).found:
            for name in wanted.keys() & ids:
                seen += 1
                said = sentence_of(text, wanted[name])
                if LOSS.search(heading) or LOSS.search(said):
                    faults.append(f"{path}: {heading}: {said}")
    assert seen > 10
    assert faults == []


def test_what_is_said_of_a_way_stands_beside_the_number_of_that_way() -> None:
    evidence = demo_evidence()
    catalogue = Catalogue(evidence, audit(evidence))
    seen = 0
    for question in evidence.questions.values():
        for option in question.options:
            level = option.is_level.text if option.is_level is not None else ""
            for item in (*option.for_, *option.against):
                claim = item.basis.claim
                own = [row for row in catalogue.of_claim(claim.text) if level in row.level_ids] if claim else []
                if not own or own[0].standing == "retracted":
                    continue
                line = basis_line(item.basis, catalogue, level)
                shown = {part.id for part in walk(line) if isinstance(part, Figure)}
                bases = tuple(f"{row.base}/" for row in own)
                assert any(name.startswith(bases) for name in shown), f"{item.words.text}: {sorted(shown)}"
                seen += 1
    assert seen > 3
