"""No word of our files for how strictly something was judged stands where a resident or a patient reads."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from guide.compendium import VOCABULARY, catalogue_of
from passageproof.results.findings.findings import Catalogue
from passageproof.results.saying.event_words import said_of
from passageproof.results.saying.speech import counted_as
from passageproof.results.saying.wording import definition
from passageproof.results.values.line import plain_text

OUTCOME = (
    '  judged: {{title: "{title}", construct: success, strictness: {strictness}, basis: film, threshold: shadow '
    "smaller, good: yes}}\n"
)


def titled(title: str, strictness: str) -> Catalogue:
    """A compendium with one outcome more."""
    vocabulary = VOCABULARY + OUTCOME.format(title=title, strictness=strictness)
    return catalogue_of({"vocabulary.yaml": vocabulary, "questions/hole.yaml": "id: hole\ntitle: A hole\n"})


@pytest.mark.parametrize(
    ("title", "strictness", "spoken", "counted", "defined"),
    [
        ("closed", "strict", "closed", "closed (stricter definition)", "closed, by the stricter definition: "),
        ("closed, strict", "strict", "closed", "closed (stricter definition)", "closed, by the stricter definition: "),
        ("closed (strict)", "strict", "closed", "closed (stricter definition)", "closed, by the stricter definition: "),
        ("Strictly closed", "strict", "closed", "closed (stricter definition)", "closed, by the stricter definition: "),
        (
            "closed, lenient", "lenient", "closed, by the looser definition", "closed, by the looser definition",
            "closed, by the looser definition: ",
        ),
        ("closing", "lenient", "closing", "closing (looser definition)", "closing, by the looser definition: "),
        ("strict", "strict", "strict", "strict (stricter definition)", "strict, by the stricter definition: "),
        ("no restriction of the bite", "not applicable", *["no restriction of the bite"] * 2, "no restriction of the bite: "),
    ],
)  # fmt: skip
def test_a_title_is_said_without_the_word_of_the_file(
    title: str, strictness: str, spoken: str, counted: str, defined: str
) -> None:
    outcome = titled(title, strictness).evidence.vocabulary.outcomes["judged"]
    assert outcome.title.text == spoken
    assert plain_text(counted_as(outcome)) == counted
    assert plain_text(definition(outcome)).startswith(defined)
    assert "definition" not in said_of(outcome)


# What people typed stays as they typed it: a paper's title, a passage, an id; so do the pages for those who write.
_AS_TYPED = frozenset(("source", "contribute", "conference", "written"))
_FILE_WORDS = re.compile(r"\b(?:strict|lenient)\b|\(within \d", re.IGNORECASE)


def test_no_page_of_the_demo_speaks_the_words_of_the_file(demo_site: Path) -> None:
    read = 0
    for path in sorted(demo_site.rglob("index.html")):
        html = path.read_text("utf-8")
        kind = re.search(r'<body data-page="([\w-]+)"', html)
        if kind is None or kind[1] in _AS_TYPED:
            continue
        body = re.sub(r"<(script|style)\b.*?</\1>|<[^>]+>", "", html[kind.start() :], flags=re.DOTALL)
        found = _FILE_WORDS.search(body)
        assert found is None, (path.parent.name, body[max(0, found.start() - 60) : found.end() + 60])
        read += 1
    assert read > 50
