"""Whatever a pattern that is asked only behind a gate can find, its gate lets through: each alternative once."""

from __future__ import annotations

import importlib
import pkgutil
import re._constants as codes
import re._parser as parser
from collections.abc import Iterator
from typing import Any

import passageproof.printed as printed
import pytest
from passageproof.numerals.late import holds_any
from passageproof.printed import whose_words
from passageproof.printed.unobserved import WORDS_OF_PLANS
from passageproof.printed.whose_words import TRIGGERS
from passageproof.printed.word_stream import different_words


def _gated() -> Iterator[tuple[str, Any]]:
    for module in pkgutil.iter_modules(printed.__path__):
        loaded = importlib.import_module(f"{printed.__name__}.{module.name}")
        for name, value in vars(loaded).items():
            owner = getattr(value, "__self__", value)
            if getattr(owner, "holds", ()) and hasattr(owner, "pattern"):
                yield f"{module.name}.{name}", owner


GATED = dict(_gated())


def _texts(parsed: Any) -> list[str]:
    """Texts of a parsed pattern in which each alternative stands once, the others being the first ones."""
    base, varied = "", []
    for code, what in parsed:
        found = _of(code, what)
        varied = [text + found[0] for text in varied] + [base + other for other in found[1:]]
        base += found[0]
    return [base, *varied]


def _of(code: Any, what: Any) -> list[str]:
    if code is codes.LITERAL:
        return [chr(what)]
    if code is codes.IN:
        return [_letter(what)]
    if code in (codes.ANY, codes.NOT_LITERAL, codes.CATEGORY):
        return ["x"]
    if code is codes.BRANCH:
        return [text for branch in what[1] for text in _texts(branch)]
    if code is codes.SUBPATTERN:
        return _texts(what[3])
    if code in (codes.MAX_REPEAT, codes.MIN_REPEAT, codes.POSSESSIVE_REPEAT):
        least, _, inner = what
        return [text * least for text in _texts(inner)] if least else [""]
    if code is codes.ASSERT:
        return [f" {text}" for text in _texts(what[1])] if what[0] > 0 else [""]
    return [""]


def _letter(members: Any) -> str:
    for code, what in members:
        if code is codes.LITERAL:
            return chr(what)
        if code is codes.RANGE:
            return chr(what[0])
    return "x"


@pytest.mark.parametrize("name", sorted(GATED))
def test_the_gate_of_a_pattern_lets_each_alternative_through(name: str):
    owner = GATED[name]
    texts = _texts(parser.parse(owner.pattern, owner.flags))
    shut = [text for text in texts if not holds_any(text.lower(), owner.holds)]
    assert shut == []


@pytest.mark.parametrize("name", ["ASSUMED", "IMPUTED", "START", "PER_PROTOCOL", "BY_INTENTION"])
def test_a_word_of_each_alternative_opens_the_reader_of_whose_a_number_is(name: str):
    owner = GATED.get(f"whose_words.{name}") or GATED[f"start_words.{name}"]
    shut = [
        text for text in _texts(parser.parse(owner.pattern, owner.flags))
        if TRIGGERS.isdisjoint(different_words(text)) and whose_words.CITED_YEAR.search(text) is None
    ]  # fmt: skip
    assert shut == []


@pytest.mark.parametrize("name", ["_leads", "_follows"])
def test_a_word_of_each_alternative_opens_the_reader_of_what_nobody_observed(name: str):
    owner = GATED[f"unobserved.{name}"]
    texts = _texts(parser.parse(owner.pattern, owner.flags))
    assert [text for text in texts if WORDS_OF_PLANS.isdisjoint(different_words(text))] == []


def test_there_are_such_patterns():
    assert len(GATED) > 5
    assert _texts(parser.parse(r"(?:ab|cd)c(?:d|e)?[fg]")) == ["abcf", "cdcf"]
