"""The two files of one paper, as the formatter lays them out: its entry with the passages, and its claim file."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import Any

from ..reading.bibtex import read_bibtex
from ..reading.parsing import is_key
from ..reading.sources import Sources
from ..records import NamedTuple
from ..writing.layout import WIDTH, laid_out
from ..writing.scalars import typed

SCHEMA_LINE = "# yaml-language-server: $schema=../schema/claims.json\n"
ANNOTATION = "annotation"

_head = re.compile(r"\s*@\s*(\w+)\s*[{(]\s*([^\s,{}()=]*)\s*,")
_field_of_passages = re.compile(rf"^[ \t]*{ANNOTATION}[ \t]*=", re.MULTILINE | re.IGNORECASE)


class Passage(NamedTuple):
    """One passage as it was typed."""

    where: str
    """Its place in the paper: "p. 46, Table 2"."""
    text: str


class Entry(NamedTuple):
    """A file of sources."""

    text: str
    lines: tuple[int, ...]
    """The line on which each passage begins, from 1."""


def key_of(entry: str) -> str:
    """The key of the first entry in a text, "" where it has none that can name a file."""
    found = _head.match(entry)
    return found[2] if found is not None and is_key(found[2]) else ""


def with_passages(entry: str, passages: Sequence[Passage]) -> Entry:
    """The entry with these passages in place of its own; as it is typed where it is no entry that can be closed."""
    body = without_passages(entry)
    closing = body.rstrip()
    if not closing.endswith(("}", ")")) or not _head.match(body):
        return Entry(f"{entry.rstrip()}\n", ())
    before = closing[:-1].rstrip().removesuffix(",")
    kept = [each for each in passages if each.where.strip() or each.text.strip()]
    lines = []
    out = f"{before},\n  {ANNOTATION} = {{\n"
    for passage in kept:
        lines.append(out.count("\n") + 1)
        out += f"    [{_one_line(passage.where)}] {_indented(passage.text)}\n"
    return Entry(f"{out}  }}\n{closing[-1]}\n", tuple(lines))


def without_passages(entry: str) -> str:
    """The entry alone: a field of passages is cut out with whatever its braces hold."""
    found = _field_of_passages.search(entry)
    if found is None:
        return entry
    depth, at = 0, entry.find("{", found.end())
    if at < 0:
        return entry
    for end in range(at, len(entry)):
        depth += {"{": 1, "}": -1}.get(entry[end], 0)
        if depth == 0:
            rest = entry[end + 1 :].lstrip()
            return entry[: found.start()].rstrip() + "\n" + rest.removeprefix(",").lstrip()
    return entry


def passages_in(file: str, entry: str) -> list[Passage]:
    """The passages that an entry brings along."""
    sources = Sources([])
    sources.add(read_bibtex(file, entry, []))
    return [Passage(each.bracket, each.text) for source in sources.finish().values() for each in source.passages]


def _one_line(text: str) -> str:
    return " ".join(text.split())


def _indented(text: str) -> str:
    """Each typed line below the first: of a table every row stays on a line of its own."""
    return "\n      ".join(line.strip() for line in text.strip().splitlines() if line.strip())


def claim_file_text(said: Mapping[str, Any]) -> str:
    """The claim file of what was typed, in the order of the form. Whatever is empty is left out."""
    kept = _kept(said)
    text = SCHEMA_LINE + _block(kept if isinstance(kept, dict) else {}, "")
    return laid_out(text) or text


def _kept(said: Any) -> Any:
    """What was typed: empty fields, and blocks and lists of nothing but empty ones, are left out."""
    if isinstance(said, Mapping):
        found = {str(name): _kept(value) for name, value in said.items()}
        return {name: value for name, value in found.items() if value is not None} or None
    if isinstance(said, list):
        kept = [value for value in map(_kept, said) if value is not None]
        # An empty list says something, "less: []"; one of empty fields says nothing yet.
        return kept if kept or not said else None
    text = str(said).strip() if said is not None else ""
    return text or None


def _block(said: Mapping[str, Any], indent: str) -> str:
    return "".join(_entry(f"{indent}{_name(name)}:", value, indent) for name, value in said.items())


def _entry(head: str, value: Any, indent: str) -> str:
    if isinstance(value, str):
        return f"{head} {typed(value)}\n"
    if not value:
        return f"{head} {'{}' if isinstance(value, dict) else '[]'}\n"
    line = f"{head} {_in_brackets(value)}\n"
    if _is_small(value) and len(line) <= WIDTH:
        return line
    if isinstance(value, dict):
        return f"{head}\n{_block(value, indent + '  ')}"
    return f"{head}\n" + "".join(_item(each, indent + "  ") for each in value)


def _item(value: Any, indent: str) -> str:
    if isinstance(value, dict) and value:
        line = f"{indent}- {_in_brackets(value)}\n"
        if len(line) <= WIDTH and _is_small(value) and "id" not in value:
            return line
        inner = _block(value, indent + "  ")
        return f"{indent}- {inner[len(indent) + 2 :]}"
    return f"{indent}- {typed(value) if isinstance(value, str) else _in_brackets(value)}\n"


def _is_small(value: Any) -> bool:
    """True for what reads well on one line: a block or list of texts."""
    inner = value.values() if isinstance(value, dict) else value
    return all(isinstance(each, str) or (isinstance(each, list) and all(map(_is_text, each))) for each in inner)


def _is_text(value: Any) -> bool:
    return isinstance(value, str)


def _in_brackets(value: Any) -> str:
    if isinstance(value, str):
        return typed(value, is_in_brackets=True)
    if isinstance(value, dict):
        return "{" + ", ".join(f"{_name(name)}: {_in_brackets(each)}" for name, each in value.items()) + "}"
    return "[" + ", ".join(map(_in_brackets, value)) + "]"


def _name(name: str) -> str:
    return typed(name, is_in_brackets=True)
