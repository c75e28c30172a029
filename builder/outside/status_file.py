"""status.yaml with new statuses in it: sorted by key, and every other entry, comment and word as people typed it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from ..problems import Problem
from ..reading.standing import read_statuses
from ..reading.standing_model import Status
from ..reading.yaml_text import MappingNode, ScalarNode, Sheet, compose
from ..records import NamedTuple
from ..writing.layout import WIDTH, comments_in
from ..writing.scalars import typed
from .standings import NewStatus

FILE = "evidence/status.yaml"
_SCHEMA = "# yaml-language-server"


class CannotRenew(Exception):
    """The file is not changed; the message says why."""


class _Entry(NamedTuple):
    key: str
    above: list[str]
    """Its own comments and blank lines before it."""
    lines: list[str]


def renewed(text: str, new: Mapping[str, NewStatus]) -> str:
    """The whole file. text: as it is, "" where there is none. new: by key. Raises CannotRenew."""
    problems: list[Problem] = []
    root = compose(Sheet(FILE, text, problems)) if any(_holds(line) for line in text.splitlines()) else None
    before = read_statuses(root, Sheet(FILE, text, problems)) if root is not None else {}
    if problems:
        first = problems[0]
        raise CannotRenew(f"{first.position}: {first.message}; mend it first")
    if root is not None and (not isinstance(root, MappingNode) or root.flow_style):
        raise CannotRenew(f"{FILE} stands in brackets: write one report a line first")
    head, entries, foot = _parts(text, root)
    values = {key.value: value for key, value in root.value} if root is not None else {}
    by_key = {entry.key: entry for entry in entries}
    for key, status in new.items():
        old = by_key.get(key)
        if old is None:
            by_key[key] = _Entry(key, [], _lines(key, status, before.get(key)))
        else:
            said = [*old.above, *_comments(text, root, values[key])]
            by_key[key] = _Entry(key, said, _lines(key, status, before[key]))
    lines = [*head]
    for key in sorted(by_key):
        lines += [*by_key[key].above, *by_key[key].lines]
    result = "\n".join([*lines, *foot]) + "\n"
    _compare(result, before, new)
    return result


def _holds(line: str) -> bool:
    return bool(line.strip()) and not line.lstrip().startswith("#")


def _parts(text: str, root: Any) -> tuple[list[str], list[_Entry], list[str]]:
    """The lines before the first entry that are about all of them; each entry with what stands above it; those below
    the last."""
    lines = text.split("\n")
    while lines and not lines[-1].strip():
        lines.pop()
    if root is None:
        return lines, [], []
    starts = [key.start_mark.line for key, _ in root.value]
    first = starts[0]
    # A comment that a blank line parts from the first entry is about the file.
    about_all = max((number + 1 for number in range(first) if not lines[number].strip()), default=0)
    if not about_all and lines[0].startswith(_SCHEMA):
        about_all = 1
    entries = []
    above_from = about_all
    for (key, value), start in zip(root.value, starts, strict=True):
        end = _last_line(value) + 1
        entries.append(_Entry(key.value, lines[above_from:start], lines[start:end]))
        above_from = end
    return lines[:about_all], entries, lines[above_from:]


def _last_line(node: Any) -> int:
    if isinstance(node, ScalarNode) or node.flow_style or not node.value:
        mark = node.end_mark
        # A text of several lines (|, >) ends where the next line begins.
        return int(mark.line) - int(mark.column == 0 and mark.line > node.start_mark.line)
    last: int = max(_last_line(value) for _, value in node.value)
    return last


def _comments(text: str, root: Any, value: Any) -> list[str]:
    """Comments inside of an entry that is written anew."""
    last = _last_line(value)
    return [said for line, said in comments_in(text, root) if value.start_mark.line <= line <= last]


def _lines(key: str, status: NewStatus, before: Status | None) -> list[str]:
    notice = _notice(status, before)
    fields = [f"state: {status.state}", f"on: {status.on.isoformat()}", f"by: {typed(status.by, is_in_brackets=True)}"]
    line = f"{key}: {{{', '.join([*fields, *([notice] if notice else [])])}}}"
    if len(line) <= WIDTH:
        return [line]
    return [f"{key}:", *(f"  {field}" for field in [*fields, notice])]


def _notice(status: NewStatus, before: Status | None) -> str:
    parts = []
    if status.notice is not None:
        on = status.notice.on.isoformat() if status.notice.on is not None else ""
        parts = [("doi", status.notice.doi), ("on", on), ("words", status.notice.words)]
    elif before is not None and before.notice is not None:
        held = before.notice
        parts = [(name, part.text) for name, part in zip(("doi", "on", "words"), held, strict=True) if part is not None]
    said = [f"{name}: {typed(text, is_in_brackets=True)}" for name, text in parts if text]
    return f"notice: {{{', '.join(said)}}}" if said else ""


def _compare(text: str, before: Mapping[str, Status], new: Mapping[str, NewStatus]) -> None:
    """What was written says what was meant, and of every other report what it said before."""
    problems: list[Problem] = []
    sheet = Sheet(FILE, text, problems)
    after = read_statuses(compose(sheet), sheet)
    meant = {key: _said(status) for key, status in before.items()}
    for key, status in new.items():
        notice = tuple(
            (status.notice.doi, status.notice.on.isoformat() if status.notice.on else "", status.notice.words)
            if status.notice is not None
            else meant[key][3:] if key in meant else ("", "", "")
        )  # fmt: skip
        meant[key] = (status.state, status.on.isoformat(), status.by, *notice)
    if problems or {key: _said(status) for key, status in after.items()} != meant:
        raise CannotRenew(f"{FILE} could not be written so that it says what was found: a fault of this program")


def _said(status: Status) -> tuple[str, ...]:
    notice = status.notice or (None, None, None)
    texts = [part.text if part is not None else "" for part in notice]
    return (status.state.text, status.on.text, status.by.text, *texts)
