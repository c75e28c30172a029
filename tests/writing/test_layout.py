"""One layout: indents and blanks change, and nothing that anybody typed."""

from __future__ import annotations

import random
import re
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings, strategies as st
from passageproof.guide.about.contribute_templates import TEMPLATES
from passageproof.guide.about.contribute_texts import CLAIM_TEMPLATE
from passageproof.problems import Problem
from passageproof.reading.yaml_text import Sheet, compose
from passageproof.writing.layout import WIDTH, laid_out
from passageproof.writing.starting import compendium_files

ROOT = Path(__file__).parents[2]
FOUND = [
    *sorted((ROOT / "evidence").rglob("*.yaml")),
    *sorted((ROOT / "tests").glob("*/evidence/**/*.yaml")),
]


def said(text: str) -> object:
    """All names and values of a file in order."""
    problems: list[Problem] = []
    root = compose(Sheet("", text, problems))
    assert problems == []
    return _plain(root)


def _plain(node: object) -> object:
    value = node.value  # type: ignore[attr-defined]
    if isinstance(value, str):
        return value
    return [_plain(item) for pair in value for item in (pair if isinstance(pair, tuple) else (pair,))]


CASES = {
    "indents": (
        "claims:\n    -   id:   overall\n        total:  47\n    -   id: other\n",
        "claims:\n  - id: overall\n    total: 47\n  - id: other\n",
    ),
    "a list at the margin of its name": ("claims:\n- id: a\n- id: b\n", "claims:\n  - id: a\n  - id: b\n"),
    "blanks in brackets": ("read: { by: IM,on: 2026-02-03 ,depth:   full text }\n", None),
    "brackets over lines": (
        "factors:\n  size: {title: Size,\n     levels: [\n       {id: small},\n       {id: large}\n     ]}\n",
        "factors:\n  size: {title: Size, levels: [{id: small}, {id: large}]}\n",
    ),
    "quotes stay": ('a: \'x, y\'\nb: "z: 1"\nc: [no, "no"]\n', 'a: \'x, y\'\nb: "z: 1"\nc: [no, "no"]\n'),
    "a text over two lines": ("a: one\n  two\nb: 'it''s\n  so'\n", "a: one two\nb: 'it''s so'\n"),
    "a text with line ends": ("a: |\n  one\n  two\nb: x\n", 'a: "one\\ntwo\\n"\nb: x\n'),
    "comments": (
        "# first\na: 1   # beside\n\n\n# before b\nb:  # of b\n    # inside\n    c: 1\n# last\n",
        "# first\na: 1 # beside\n\n# before b\nb: # of b\n  # inside\n  c: 1\n# last\n",
    ),
    "comments of a list": (
        "b:\n- x # one\n# two\n- id: y\n  # three\n  z: 1\n",
        "b:\n  - x # one\n  # two\n  - id: y\n    # three\n    z: 1\n",
    ),
    "a comment in brackets": ("a: {b: 1, # why\n    c: 2}\nd:   3\n", "a: {b: 1, # why\n    c: 2}\nd: 3\n"),
    "a sign that is no comment": ("a: b#c\nd: '# e'\nf: \"g # h\"\n", "a: b#c\nd: '# e'\nf: \"g # h\"\n"),
    "a list of lists": ("a:\n- - b\n  - c\n- d\n", "a:\n  -\n    - b\n    - c\n  - d\n"),
    "empty": ("a: []\nb: {}\nc:\nd: ''\n", "a: []\nb: {}\nc:\nd: ''\n"),
    "a document mark": ("---\na: 1\n", "a: 1\n"),
}


@pytest.mark.parametrize("name", CASES)
def test_layout_of(name: str):
    typed, expected = CASES[name]
    if expected is None:
        expected = "read: {by: IM, on: 2026-02-03, depth: full text}\n"
    assert laid_out(typed) == expected
    assert laid_out(expected) == expected


@pytest.mark.parametrize("path", FOUND, ids=lambda path: str(path.relative_to(ROOT)))
def test_no_file_says_anything_else_in_its_layout(path: Path):
    text = path.read_text("utf-8")
    result = laid_out(text)
    assert result is not None
    assert said(result) == said(text)
    assert laid_out(result) == result
    long = [line for line in result.split("\n") if len(line) > WIDTH]
    assert [line for line in long if line.count(": ") > 6] == []


@pytest.mark.parametrize("seed", range(40))
def test_another_layout_of_a_file_comes_to_the_same(seed: int):
    chance = random.Random(seed)
    text = chance.choice(FOUND).read_text("utf-8")
    lines = []
    for line in text.split("\n"):
        blanks = len(line) - len(line.lstrip(" "))
        wide = re.sub(r"^( *- )", r"\1  ", " " * blanks + line)
        lines.append(wide + " " * chance.choice((0, 0, 3)))
    assert laid_out("\n".join(lines)) == laid_out(text)


WORD = st.from_regex(r"[a-z][a-z ]{0,8}[a-z]|[0-9]{1,3}|'a, b: c'|\"d # e\"", fullmatch=True)
FLOW = st.recursive(
    WORD,
    lambda inner: (
        st.lists(inner, max_size=4).map(lambda items: f"[{', '.join(items)}]")
        | st.dictionaries(st.from_regex(r"[a-z]{1,6}", fullmatch=True), inner, max_size=4).map(
            lambda block: "{" + ",".join(f" {name}:  {value}" for name, value in block.items()) + "}"
        )
    ),
    max_leaves=12,
)


@settings(deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.dictionaries(st.from_regex(r"[a-z]{1,6}", fullmatch=True), FLOW, min_size=1, max_size=5), st.booleans())
def test_any_file_says_the_same_in_its_layout(block: dict[str, str], commented: bool):
    text = "".join(f"{name}:  {value}{'  # ' + name if commented else ''}\n" for name, value in block.items())
    result = laid_out(text)
    assert result is not None
    assert said(result) == said(text)
    assert laid_out(result) == result
    assert re.findall(r"(?<= )# [a-z]+$", result, re.M) == re.findall(r"(?<= )# [a-z]+$", text, re.M)


@pytest.mark.parametrize("text", ["a: {b: 1\n", "a: &x 1\n", "a: b: c\n", "", "? [a]\n: b\n"])
def test_what_cannot_be_read_is_left_alone(text: str):
    assert laid_out(text) is None


@pytest.mark.parametrize("text", [*TEMPLATES.values(), CLAIM_TEMPLATE])
def test_what_a_contributor_copies_stands_in_this_layout(text: str):
    text = text.replace("NEEDED", "")
    assert laid_out(text) == text


def test_what_new_writes_stands_in_this_layout():
    written = {name: text for name, text in compendium_files().items() if re.match(r"evidence/.*yaml$", name)}
    assert len(written) == 7
    assert {name for name, text in written.items() if laid_out(text) != text} == set()
