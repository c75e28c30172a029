"""Messages are plain English of the field: read from the code, every text that a message is made of."""

from __future__ import annotations

import ast
import inspect
import re
from pathlib import Path

import pytest
from passageproof.problems import error
from passageproof.reading.sheet import Sheet

BUILDER = Path(__file__).parent.parent / "builder"
ROOMS = ("reading", "printed", "proof", "audit", "commands")

# What no message says: "is no `of`" names a field by its key alone, and an article goes by the sound that follows.
RIDDLES = {
    "a field that something is not": r"[\"}] is no \w",
    "no key of a field": r"\bno `",
    "a before a vowel": r"\ba (?=[aeiou])(?!uni|use|usu|eu|one\b)\w+",
    "an before a consonant": r"\ban (?=[bcdfgjklmnpqrstvwxyz])(?!SD\b|mm\b|rmse)\w+",
    "an article before a word that is filled in": r"\b(?:a|an) \{",
    "a dash or key that something stands behind": r"\bbehind\b",
}


def texts_of(path: Path) -> list[tuple[int, str]]:
    """Each text of a module with its line, a filled-in part as {}; without docstrings and what is not words."""
    tree = ast.parse(path.read_text())
    skipped = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    found = []
    for node in ast.walk(tree):
        if isinstance(node, ast.JoinedStr):
            skipped |= {id(part) for part in node.values}
            parts = [str(part.value) if isinstance(part, ast.Constant) else "{}" for part in node.values]
            found.append((node.lineno, "".join(parts)))
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in skipped:
            found.append((node.lineno, node.value))
    return [(line, text) for line, text in found if " " in text and "\\" not in text]


@pytest.fixture(scope="module")
def texts() -> list[tuple[str, int, str]]:
    """Each text of the rooms that make messages, with its file and line."""
    return [
        (path.relative_to(BUILDER).as_posix(), line, text)
        for room in ROOMS
        for path in sorted((BUILDER / room).rglob("*.py"))
        for line, text in texts_of(path)
    ]


def test_every_message_must_say_how_to_mend_it() -> None:
    """The hint is asked for wherever a message is made, so that none can be forgotten; and none is made empty."""
    for makes in (error, Sheet.error, Sheet.ask):
        assert inspect.signature(makes).parameters["hint"].default is inspect.Parameter.empty
    empty = []
    for room in ROOMS:
        for path in sorted((BUILDER / room).rglob("*.py")):
            for node in ast.walk(ast.parse(path.read_text())):
                if isinstance(node, ast.Call):
                    name = getattr(node.func, "attr", getattr(node.func, "id", ""))
                    hints = [*node.args[3:4], *(word.value for word in node.keywords if word.arg == "hint")]
                    if name in ("error", "ask") and any(isinstance(h, ast.Constant) and not h.value for h in hints):
                        empty.append(f"{path.name}:{node.lineno}")
    assert empty == []


@pytest.mark.parametrize("riddle", RIDDLES)
def test_no_message_reads_as_a_riddle(texts: list[tuple[str, int, str]], riddle: str) -> None:
    assert len(texts) > 300
    assert [item for item in texts if re.search(RIDDLES[riddle], item[2])] == []
