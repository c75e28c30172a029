"""BibTeX of somebody else: each entry stays as it is typed, for it says already what an entry can say."""

from __future__ import annotations

from collections.abc import Iterator

from ...problems import Problem
from ...reading.bibtex import RawEntry, read_bibtex
from .reference import CannotRead, Reference

_PASSAGES = ("annotation", "annote")


def read_references(text: str) -> Iterator[Reference | CannotRead]:
    """Every entry in order; then what of the file could not be read."""
    problems: list[Problem] = []
    found = read_bibtex("", text, problems)
    for entry in found.entries:
        yield _reference(entry)
    for problem in problems:
        hint = f" ({problem.hint})" if problem.hint else ""
        yield CannotRead(f"{problem.message}{hint}", problem.position.line, problem.position.column)


def _reference(entry: RawEntry) -> Reference:
    fields = {name: field.text for name, field in entry.fields.items()}
    notices = tuple(
        f"what `{name}` holds is read as passages of the paper, each after its place in brackets: look it through"
        for name in _PASSAGES
        if fields.get(name, "").strip()
    )
    raw = "\n".join([*entry.strings, entry.raw.strip()]) + "\n"
    return Reference(entry.position.line, entry.type, fields, notices=notices, raw=raw, key=entry.key)
