"""One layout for the files of the evidence: indents of two, one blank in brackets, comments where they were.

Words stay as they are typed, in the quotes they are typed in, and brackets stay brackets: only blanks and line ends
change. So two people who touch one file see each other's words in the difference, and nothing else.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from typing import Any

from ..reading.yaml_text import MappingNode, ScalarNode, SequenceNode, Sheet, compose
from ..records import NamedTuple

WIDTH = 120
"""Characters a line; longer ones are broken behind the commas of a bracket, never inside a text."""


class _Comment(NamedTuple):
    start: int
    line: int
    text: str
    is_alone: bool
    """True where nothing else stands on its line."""


def laid_out(text: str) -> str | None:
    """The file in its layout; the same text again gives the same. None where it cannot be read as YAML.

    Raises ValueError where the result would not say the same, which is a fault of ours.
    """
    before = _composed(text)
    if before is None:
        return None
    result = _Layout(text, before).whole()
    after = _composed(result)
    if after is None or _said(after) != _said(before):
        raise ValueError("another layout of this file would not say the same")
    if [comment.text for comment in _comments(result, after)] != [comment.text for comment in _comments(text, before)]:
        raise ValueError("another layout of this file would lose a comment")
    return result


def _composed(text: str) -> Any:
    problems: list[Any] = []
    root = compose(Sheet("", text, problems))
    return None if problems or not _has_plain_keys(root) else root


def _has_plain_keys(node: Any) -> bool:
    return all(type(inner) is not MappingNode or all(type(key) is ScalarNode for key, _ in inner.value)
               for inner in _nodes(node))  # fmt: skip


def _nodes(node: Any) -> Iterator[Any]:
    yield node
    if isinstance(node, MappingNode):
        for key, value in node.value:
            yield from _nodes(key)
            yield from _nodes(value)
    elif isinstance(node, SequenceNode):
        for item in node.value:
            yield from _nodes(item)


def _said(node: Any) -> Any:
    """What a reader makes of a file: values with their kind, and whether a text is in quotes or a block in brackets."""
    if isinstance(node, ScalarNode):
        return node.value, bool(node.style)
    if isinstance(node, MappingNode):
        return bool(node.flow_style), [(_said(key), _said(value)) for key, value in node.value]
    return bool(node.flow_style), [_said(item) for item in node.value]


def comments_in(text: str, root: Any) -> list[tuple[int, str]]:
    """The line of each comment of a file, from 0, and the comment. root: its root node."""
    return [(comment.line, comment.text) for comment in _comments(text, root)]


def _comments(text: str, root: Any) -> list[_Comment]:
    texts = sorted((node.start_mark.index, node.end_mark.index) for node in _nodes(root) if type(node) is ScalarNode)
    out: list[_Comment] = []
    place = 0
    end = 0
    for found in re.finditer(r"(?:^|(?<=[ \t]))#", text, re.MULTILINE):
        start = found.start()
        while place < len(texts) and texts[place][1] <= start:
            place += 1
        if start < end or (place < len(texts) and texts[place][0] <= start):
            continue
        begin = text.rfind("\n", 0, start) + 1
        end = text.find("\n", start)
        end = len(text) if end < 0 else end
        is_alone = not text[begin:start].strip()
        out.append(_Comment(start, text.count("\n", 0, begin), text[start:end].rstrip(), is_alone))
    return out


class _Layout:
    """A file on its way into its layout."""

    def __init__(self, text: str, root: Any) -> None:
        self._text = text
        self._root = root
        self._source = text.split("\n")
        self._comments = _comments(text, root)
        self._next = 0
        self._lines: list[str] = []

    def whole(self) -> str:
        """Every line."""
        self._block(self._root, "", "")
        self._comments_before(len(self._text), "")
        return "\n".join(self._lines) + "\n"

    def _block(self, node: Any, indent: str, first: str) -> None:
        """A block below its name, or at the top. first: what stands before its first entry, "- " in place of blanks."""
        if isinstance(node, MappingNode):
            entries = [(key.start_mark, f"{self._scalar(key)}:", value) for key, value in node.value]
        else:
            entries = [(item.start_mark, "-", item) for item in node.value]
        for order, (mark, head, value) in enumerate(entries):
            at = first if first and not order else indent
            if not (first and not order):
                self._comments_before(mark.index, indent)
                self._blank_above(mark.line)
            self._entry(at, head, value, indent)

    def _entry(self, at: str, head: str, value: Any, indent: str) -> None:
        if self._is_one_line(value):
            self._lines.extend(self._filled(f"{at}{head}", value))
            self._trailing(value.end_mark.line)
        elif head == "-":
            if isinstance(value, MappingNode):
                self._block(value, f"{indent}  ", f"{at}- ")
            else:
                self._lines.append(f"{at}-")
                self._block(value, f"{indent}  ", "")
        else:
            self._lines.append(f"{at}{head}")
            self._trailing(value.start_mark.line - 1, value.start_mark.index)
            self._block(value, f"{indent}  ", "")

    def _is_one_line(self, node: Any) -> bool:
        return isinstance(node, ScalarNode) or bool(node.flow_style) or not node.value

    def _filled(self, head: str, value: Any) -> list[str]:
        """An entry whose value is a text or stands in brackets."""
        if isinstance(value, ScalarNode):
            text = self._scalar(value)
            return [f"{head} {text}" if text else head]
        if self._is_left(value):
            return f"{head} {self._raw(value)}".split("\n")
        line = f"{head} {self._flow(value)}"
        if len(line) <= WIDTH:
            return [line]
        opening, closing = "{}" if isinstance(value, MappingNode) else "[]"
        parts = self._parts(value)
        lines = [f"{head} {opening}{parts[0]}"]
        margin = " " * (len(head) + 2)
        for part in parts[1:]:
            if len(lines[-1]) + len(part) + 3 > WIDTH:
                lines[-1] += ","
                lines.append(margin + part)
            else:
                lines[-1] += f", {part}"
        lines[-1] += closing
        return lines

    def _flow(self, node: Any) -> str:
        if isinstance(node, ScalarNode):
            return self._scalar(node)
        inner = ", ".join(self._parts(node))
        return f"{{{inner}}}" if isinstance(node, MappingNode) else f"[{inner}]"

    def _parts(self, node: Any) -> list[str]:
        if isinstance(node, MappingNode):
            return [f"{self._scalar(key)}: {self._flow(value)}" for key, value in node.value]
        return [self._flow(item) for item in node.value]

    def _is_left(self, node: Any) -> bool:
        """True for what is in brackets and holds a comment or a name without a value: it stays as it is typed."""
        start, end = node.start_mark.index, node.end_mark.index
        if any(start < comment.start < end for comment in self._comments):
            self._next = max(self._next, sum(comment.start < end for comment in self._comments))
            return True
        return any(self._is_half_typed(inner) for inner in _nodes(node))

    def _is_half_typed(self, node: Any) -> bool:
        """[a: b] is a block without its brackets, {a} a name without its colon."""
        if isinstance(node, ScalarNode):
            return not node.value and not node.style
        return self._raw(node)[:1] not in ("{", "[")

    def _raw(self, node: Any) -> str:
        return self._text[node.start_mark.index : node.end_mark.index]

    def _scalar(self, node: Any) -> str:
        raw = self._raw(node)
        if node.style in ("|", ">"):
            return json.dumps(node.value, ensure_ascii=False)
        if "\n" not in raw:
            return raw
        if "\n" in node.value or node.style == '"':
            return json.dumps(node.value, ensure_ascii=False)
        return "'" + node.value.replace("'", "''") + "'" if node.style == "'" else str(node.value)

    def _comments_before(self, index: int, indent: str) -> None:
        while self._next < len(self._comments) and self._comments[self._next].start < index:
            comment = self._comments[self._next]
            self._next += 1
            self._blank_above(comment.line)
            self._lines.append(f"{indent}{comment.text}")

    def _trailing(self, line: int, before: int | None = None) -> None:
        """The comment at the end of a line stays there."""
        if self._next < len(self._comments):
            comment = self._comments[self._next]
            if not comment.is_alone and comment.line <= line and (before is None or comment.start < before):
                self._next += 1
                self._lines[-1] += f" {comment.text}"

    def _blank_above(self, line: int) -> None:
        """One blank line stays one."""
        if self._lines and line and not self._source[line - 1].strip() and self._lines[-1]:
            self._lines.append("")
