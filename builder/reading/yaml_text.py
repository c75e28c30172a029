"""YAML as its author typed it: text with places, and one plain sentence for what YAML cannot read."""

from __future__ import annotations

import re
from enum import Enum
from typing import Any, Final

import yaml
from yaml.nodes import MappingNode as MappingNode
from yaml.nodes import Node as Node
from yaml.nodes import ScalarNode as ScalarNode
from yaml.nodes import SequenceNode as SequenceNode

from builder.problems import Position, Problem, error


class Broken(Enum):
    """What a reader gives for something it could not read, once it has said so."""

    BROKEN = 0


BROKEN: Final = Broken.BROKEN

_may_be_special = re.compile(r"(?:^|[\s\[{,:-])[&*!][^\s]", re.MULTILINE).search
_find_control = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x84\x86-\x9f\ud800-\udfff\ufeff\ufffe\uffff]").search
_find_breaks = re.compile("[\x85\u2028\u2029]").finditer
_find_cut_by_hash = re.compile(r"^[^\"'#\n]*[^\s:,\[{\"'#-][^\"'#\n]*[ \t]#\d", re.MULTILINE).finditer
_find_names = re.compile(r"(?:^|[\s{,])id\s*:\s*[\"']?([A-Za-z0-9_-]+)", re.MULTILINE).findall
_find_keys = re.compile(r"(?:^|[\s{,])[\"']?([A-Za-z0-9_-]+)[\"']?\s*:(?:\s|$)", re.MULTILINE).findall


class _TextLoader(yaml.CBaseLoader):
    """PyYAML's C composer without its search for types: every scalar is text, so nothing has to be resolved.

    The composer asks these three for each node; answering at once is a quarter of its time.
    """

    def descend_resolver(self, current_node: Any, current_index: Any) -> None:
        """Nothing to prepare."""

    def ascend_resolver(self) -> None:
        """Nothing to undo."""

    def resolve(self, kind: Any, value: Any, implicit: Any) -> str:
        """No tag: the form knows what stands where."""
        return ""


class Sheet:
    """One file while it is read: its name and text, and the problems found in it so far."""

    __slots__ = ("file", "problems", "text")

    def __init__(self, file: str, text: str, problems: list[Problem]) -> None:
        self.file = file
        self.text = text
        self.problems = problems

    def place(self, node: Node) -> Position:
        """Where a value or key begins."""
        mark = node.start_mark
        return Position(self.file, mark.line + 1, mark.column + 1)

    def error(self, node: Node, rule: str, message: str, hint: str = "") -> Broken:
        """Notes what the writer has to mend, and gives the mark of something unreadable."""
        self.problems.append(error(self.place(node), rule, message, hint))
        return BROKEN

    def line(self, number: int) -> str:
        """A line by its number from 0; "" behind the last one."""
        lines = self.text.split("\n")
        return lines[number] if number < len(lines) else ""

    def before(self, node: Node) -> str:
        """What stands on the line before a value."""
        return self.line(node.start_mark.line)[: node.start_mark.column]

    def behind(self, node: Node) -> str:
        """What stands on the line from where a value ends."""
        return self.line(node.end_mark.line)[node.end_mark.column :]


def compose(sheet: Sheet) -> Any:
    """The root node of the file, or None once its fault is noted: one problem for a fault of syntax."""
    text = sheet.text
    if not text.isascii():
        text = _without_hidden_breaks(sheet)
    try:
        root = _TextLoader(text).get_single_node()
    except yaml.MarkedYAMLError as fault:
        if not (_may_be_special(text) and _refuse_special(sheet)):
            _explain(sheet, fault)
        return None
    except yaml.YAMLError:
        _explain_control(sheet)
        return None
    if root is None:
        sheet.problems.append(error(Position(sheet.file, 1, 1), "empty-file", "this file is empty"))
        return None
    if ("&" in text or "*" in text or "!" in text) and _may_be_special(text) and _refuse_special(sheet):
        return None
    if "#" in text:
        _refuse_cut_by_hash(sheet)
    return root


def names_in(text: str) -> tuple[set[str], set[str]]:
    """What a file that cannot be read seems to name: the values of its `id` fields, and all its keys."""
    return set(_find_names(text)), set(_find_keys(text))


def _without_hidden_breaks(sheet: Sheet) -> str:
    # YAML counts these three as line ends and no editor does, so every later place would be wrong.
    for found in _find_breaks(sheet.text):
        place = Position(sheet.file, *_line_and_column(sheet.text, found.start()))
        message = "an invisible line separator stands here, copied from another program: delete it"
        sheet.problems.append(error(place, "invisible-character", message))
    sheet.text = sheet.text.translate({0x85: " ", 0x2028: " ", 0x2029: " "})
    return sheet.text


def _line_and_column(text: str, offset: int) -> tuple[int, int]:
    return text.count("\n", 0, offset) + 1, offset - text.rfind("\n", 0, offset)


def _refuse_cut_by_hash(sheet: Sheet) -> None:
    # "Table #3": YAML takes the rest of the line for a remark. People who write remarks leave a blank behind the sign.
    for found in _find_cut_by_hash(sheet.text):
        offset = found.end() - 2
        place = Position(sheet.file, *_line_and_column(sheet.text, offset))
        rest = sheet.text[offset:].split("\n", 1)[0]
        sheet.problems.append(
            error(place, "text-needs-quotes", f'"{rest}" is cut off as a remark: put the whole text in quotes')
        )


def _refuse_special(sheet: Sheet) -> bool:
    """True where the file has aliases, anchors or tags; each is noted."""
    found = False
    events = yaml.parse(sheet.text, Loader=yaml.CBaseLoader)
    try:
        for event in events:
            anchor = getattr(event, "anchor", None)
            tag = getattr(event, "tag", None)
            if anchor is None and tag is None:
                continue
            found = True
            mark = event.start_mark
            line = sheet.line(mark.line)
            sign = line[mark.column : mark.column + 1]
            what = {"&": "an anchor", "*": "an alias", "!": "a tag"}.get(sign, "an anchor or tag")
            sheet.problems.append(
                error(
                    Position(sheet.file, mark.line + 1, mark.column + 1),
                    "yaml-alias-or-tag",
                    f'YAML reads "{_first(line[mark.column :])}" as {what}, which this form does not know:'
                    " put a text in quotes, and write repeated values out",
                )
            )
    except yaml.YAMLError:
        return found
    return found


def _first(text: str) -> str:
    """The beginning of a text, short enough for a message."""
    text = text.rstrip()
    return text if len(text) <= 30 else text[:29].rstrip() + "…"


def _explain_control(sheet: Sheet) -> None:
    found = _find_control(sheet.text)
    offset = found.start() if found else 0
    code = f"U+{ord(sheet.text[offset]):04X}" if sheet.text else "?"
    place = Position(sheet.file, *_line_and_column(sheet.text, offset))
    message = f"an invisible control character ({code}) stands here: delete it"
    sheet.problems.append(error(place, "invisible-character", message))


def _explain(sheet: Sheet, fault: yaml.MarkedYAMLError) -> None:
    """Notes a fault of syntax in the words of somebody who fills in a form."""
    problem = fault.problem or ""
    here = fault.problem_mark or fault.context_mark
    opened = fault.context_mark or here
    line, column = here.line, here.column
    text = sheet.line(line)
    rule, message, hint = "yaml-syntax", "", ""
    sign = text[column : column + 1]
    is_second_colon = sign == ":" and ": " in text[:column]

    if (problem.startswith("mapping values") or "expected ',' or" in problem) and is_second_colon:
        rule = "text-needs-quotes"
        message = 'a second ": " in this text ends it too early: put the whole text in quotes'
        hint = _quoted(text)
    elif problem.startswith("mapping values"):
        message = "this line is indented deeper than the field above it, which has its value already"
    elif opened and "block scalar" in (fault.context or ""):
        line, column = opened.line, opened.column
        text = sheet.line(line)
        rule = "text-needs-quotes"
        message = f'a text that begins with "{text[column : column + 1]}" must stand in quotes'
        hint = _quoted(text)
    elif "cannot start any token" in problem and sign == "\t":
        message = "a tab stands here: indent with blanks"
    elif "cannot start any token" in problem or "expected node content" in problem or "alias" in (fault.context or ""):
        line, column = (here if "expected node content" in problem or not fault.context_mark else opened).line, (
            here if "expected node content" in problem or not fault.context_mark else opened
        ).column
        text = sheet.line(line)
        sign = text[column : column + 1]
        rule = "text-needs-quotes"
        message = f'a text that begins with "{sign}" must stand in quotes' if sign else "a value is missing here"
        hint = _quoted(text) if sign and sign not in "]}," else ""
    elif "quoted scalar" in (fault.context or "") and "end of stream" in problem:
        line, column = opened.line, opened.column
        message = "the quote that opens here is never closed"
    elif "escape" in problem:
        message = "a backslash between double quotes has a meaning of its own: use single quotes"
    elif "expected ',' or" in problem:
        line, column = opened.line, opened.column
        bracket = sheet.line(line)[column : column + 1]
        message = f'the bracket "{bracket}" that opens here is not closed, or a comma is missing before "{_first(sheet.line(here.line)[here.column :])}"'
        if not sheet.line(here.line)[here.column :].strip():
            message = f'the bracket "{bracket}" that opens here is not closed'
    elif "could not find expected ':'" in problem:
        line, column = opened.line, opened.column
        message = f'"{_first(sheet.line(line)[column:])}" is no "field: value"'
    elif "another document" in problem:
        message = 'a second document begins here with "---": a file holds one'
    elif "block sequence entries" in problem:
        message = 'a list begins on a line of its own, each item behind "- "'
    elif "nesting" in problem:
        message = "brackets or lists are nested too deep"
    elif text[:column].rstrip()[-1:] in ("'", '"') and text[:column].rstrip():
        rule = "text-needs-quotes"
        message = "the text goes on behind its closing quote: put the whole text in quotes, and write a quote inside it twice"
    elif "did not find expected" in problem:
        message = "this line is not indented like the fields or items above it"
    else:
        message = f"YAML cannot read this: {problem}"
    sheet.problems.append(error(Position(sheet.file, line + 1, column + 1), rule, message, hint))


def _quoted(line: str) -> str:
    """The same line with its value in quotes, ready to paste; "" where the line has several fields in brackets."""
    name, colon, value = line.partition(": ")
    value = value.strip()
    if not colon or not value or "{" in name or value[0] in "{[\"'":
        return ""
    if '"' in value or "\\" in value:
        return f"{name}: '" + value.replace("'", "''") + "'"
    return f'{name}: "{value}"'
