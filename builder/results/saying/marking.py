"""Our own words with their numbers marked: limits of a rule, constants of a method, references."""

from __future__ import annotations

import re

from ..values.line import Line, Marked, MarkKind, Part, Span

_WITH_DIGIT = re.compile(r"\S*\d\S*")


def marked_words(text: str, kind: MarkKind = "convention") -> Line:
    """A sentence of ours, each word that holds a digit marked, stops and brackets around it left out."""
    out: list[Part] = []
    end = 0
    for found in _WITH_DIGIT.finditer(text):
        word = found[0]
        start = found.start() + len(word) - len(word.lstrip("([\"'`"))
        close = found.start() + len(word.rstrip(")].,;:!?\"'`"))
        if start > end:
            out.append(text[end:start])
        out.append(Marked(kind, text[start:close]))
        end = close
    if end < len(text):
        out.append(text[end:])
    return tuple(out)


def with_basis(text: str) -> Line:
    """A rule's paragraph: limits marked as conventions, and what follows "Basis:" as a reference."""
    said, basis, source = text.partition("Basis: ")
    return (*_with_code(said), "Basis: ", *_reference(source)) if basis else _with_code(said)


def _with_code(text: str) -> Line:
    """Names of fields, which stand between backticks, as code."""
    out: list[Part] = []
    for index, piece in enumerate(text.split("`")):
        out.extend([Span("code", marked_words(piece))] if index % 2 else marked_words(piece))
    return tuple(out)


def _reference(source: str) -> Line:
    return (Marked("reference", source),) if re.search(r"\d", source) else (source,)
