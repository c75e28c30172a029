"""YAML as its author typed it: text with places, and one plain sentence for what YAML cannot read."""

from __future__ import annotations

import re
from enum import Enum
from itertools import pairwise
from typing import Any, Final

import yaml
from yaml.nodes import MappingNode as MappingNode, Node as Node, ScalarNode as ScalarNode, SequenceNode as SequenceNode

from ..compiled_patterns import compiled
from ..problems import Position, Problem, error
from ..records import NamedTuple
from .invisible import invisible_problem, refuse_invisible
from .names import UnitNames


class Broken(Enum):
    """What a reader gives for something it could not read, once it has said so."""

    BROKEN = 0


BROKEN: Final = Broken.BROKEN

_may_be_special = compiled(r"(?:^|[\s\[{,:-])[&*!][^\s]", re.MULTILINE).search
_find_control = compiled("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x84\x86-\x9f\ud800-\udfff\ufeff\ufffe\uffff]").search
_find_breaks = compiled("[\x85\u2028\u2029]").finditer
_find_hashes = compiled(r"[ \t]#\d").finditer
_find_names = compiled(r"(?:^|[\s{,])id\s*:\s*[\"']?([A-Za-z0-9_-]+)", re.MULTILINE).findall
_find_keys = compiled(r"(?:^|[\s{,])[\"']?([A-Za-z0-9_-]+)[\"']?\s*:(?:\s|$)", re.MULTILINE).findall


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

    def __init__(self, file: str, text: str, problems: list[Problem], units: UnitNames | None = None) -> None:
        """units: what `unit` may name in this compendium; None: what it may name in every one."""
        self.file = file
        self.text = text
        self.problems = problems
        self.units = units if units is not None else UnitNames()
        self._lines: list[str] | None = None
        self._block: Any = None
        self._previous: dict[int, Any] = {}

    def place(self, node: Node) -> Position:
        """Where a value or key begins."""
        mark = node.start_mark
        return Position(self.file, mark.line + 1, mark.column + 1)

    def error(self, node: Node, rule: str, message: str, hint: str = "") -> Broken:
        """Notes what the writer has to mend, and gives the mark of something unreadable."""
        self.problems.append(error(self.place(node), rule, message, hint))
        return BROKEN

    def ask(self, node: Node, rule: str, message: str, hint: str = "") -> None:
        """Notes what may be meant and may be a slip."""
        self.problems.append(error(self.place(node), rule, message, hint)._replace(severity="ask"))

    def line(self, number: int) -> str:
        """A line by its number from 0; "" behind the last one."""
        if self._lines is None:
            self._lines = self.text.split("\n")
        return self._lines[number] if number < len(self._lines) else ""

    def before(self, node: Node) -> str:
        """What stands on the line before a value."""
        return self.line(node.start_mark.line)[: node.start_mark.column]

    def behind(self, node: Node) -> str:
        """What stands on the line from where a value ends."""
        return self.line(node.end_mark.line)[node.end_mark.column :]

    def previous(self, block: Any, key: Any) -> Any:
        """The pair of key and value that stands before this key in its block, or None."""
        if self._block is not block:
            pairs = block.value
            self._block = block
            self._previous = {id(pair[0]): before for before, pair in pairwise(pairs)}
        return self._previous.get(id(key))


def compose(sheet: Sheet) -> Any:
    """The root node of the file, or None once its fault is noted: one problem for a fault of syntax."""
    text = sheet.text
    if not text.isascii():
        text = _without_hidden_breaks(sheet)
        refuse_invisible(sheet.file, text, sheet.problems, controls=False)
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
        message = "there is an invisible line separator here, copied from another program: delete it"
        sheet.problems.append(error(place, "invisible-character", message))
    sheet.text = sheet.text.translate({0x85: " ", 0x2028: " ", 0x2029: " "})
    return sheet.text


def _line_and_column(text: str, offset: int) -> tuple[int, int]:
    return text.count("\n", 0, offset) + 1, offset - text.rfind("\n", 0, offset)


def _refuse_cut_by_hash(sheet: Sheet) -> None:
    # "Table #3": YAML takes the rest of the line for a remark. People who write remarks leave a blank behind the sign.
    for found in _find_hashes(sheet.text):
        offset = found.start() + 1
        begin = sheet.text.rfind("\n", 0, offset) + 1
        before = sheet.text[begin:offset].rstrip()
        # Behind a colon or dash the value is empty, which the field itself says; in quotes nothing is cut.
        if not before or before[-1] in ":-,[{" or not {'"', "'", "#"}.isdisjoint(before):
            continue
        place = Position(sheet.file, *_line_and_column(sheet.text, offset))
        rest = sheet.text[offset:].split("\n", 1)[0]
        message = f'"{_first(rest)}" is cut off as a comment: put the whole text in quotes'
        sheet.problems.append(error(place, "text-needs-quotes", message))


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
            mark: Any = event.start_mark
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
    place = Position(sheet.file, *_line_and_column(sheet.text, offset))
    sheet.problems.append(invisible_problem(place, sheet.text[offset]))


def _explain(sheet: Sheet, fault: yaml.MarkedYAMLError) -> None:
    """Notes a fault of syntax in the words of somebody who fills in a form."""
    here = fault.problem_mark or fault.context_mark
    if here is None:
        sheet.problems.append(
            error(Position(sheet.file, 1, 1), "yaml-syntax", f"YAML cannot read this: {fault.problem}")
        )
        return
    opened = fault.context_mark or here
    mark, rule, message, hint = _described_fault(sheet, fault.problem or "", fault.context or "", here, opened)
    sheet.problems.append(error(Position(sheet.file, mark.line + 1, mark.column + 1), rule, message, hint))


_Fault = tuple[Any, str, str, str]
"""The place, rule, message and hint for something that YAML cannot read."""


def _described_fault(sheet: Sheet, problem: str, context: str, here: Any, opened: Any) -> _Fault:
    """A fault as the parser words it, told so that its author can mend it."""
    return (
        _unbroken(sheet, here, opened)
        or _without_dash(sheet, problem, here)
        or _misread_text(sheet, problem, context, here, opened)
        or _unended(sheet, problem, context, here, opened)
        or _misplaced(sheet, problem, here)
    )


class _Mark(NamedTuple):
    """A place that the parser has not marked, from 0."""

    line: int
    column: int


def _unbroken(sheet: Sheet, here: Any, opened: Any) -> _Fault | None:
    """A no-break space where YAML expects a plain one: behind a colon or a dash, or as indent."""
    for mark in (here, opened):
        line = sheet.line(mark.line)
        found = _find_unbroken(line)
        if found is not None:
            name = f"U+{ord(found[1]):04X}"
            message = f"there is a no-break space ({name}) here, which YAML takes for a letter: type a plain blank"
            return _Mark(mark.line, found.start(1)), "yaml-syntax", message, ""
    return None


_find_unbroken = compiled("(?:^\\s*|[:-] ?)([\u00a0\u2007\u202f])").search


def _without_dash(sheet: Sheet, problem: str, here: Any) -> _Fault | None:
    """The first item of a list without its dash: "claims:", below it "id: a", and the other fields deeper."""
    if not problem.startswith("mapping values") or here.line < 2:
        return None
    first, above = sheet.line(here.line - 1), sheet.line(here.line - 2)
    indent, inner = (len(line) - len(line.lstrip()) for line in (first, sheet.line(here.line)))
    is_below = above.rstrip().endswith(":") and len(above) - len(above.lstrip()) <= indent < inner
    if not is_below or first.lstrip().startswith("-") or ": " not in first:
        return None
    message = f'a dash is missing before "{_first(first.strip())}": each item of a list begins with "- "'
    return _Mark(here.line - 1, indent), "yaml-syntax", message, f"- {first.strip()}"


def _misread_text(sheet: Sheet, problem: str, context: str, here: Any, opened: Any) -> _Fault | None:
    """A text in which a character means something else to YAML."""
    text = sheet.line(here.line)
    sign = text[here.column : here.column + 1]
    is_mapping = problem.startswith("mapping values")
    if (is_mapping or _is_unclosed(problem)) and sign == ":" and ": " in text[: here.column]:
        message = 'a second ": " in this text cuts it short: put the whole text in quotes'
        return here, "text-needs-quotes", message, _quoted(text)
    if is_mapping:
        message = "this line is indented further than the field above it, which already has a value"
        return here, "yaml-syntax", message, ""
    if "block scalar" in context:
        return opened, "text-needs-quotes", *_must_be_quoted(sheet, opened)
    if "tab character" in problem or ("cannot start any token" in problem and sign == "\t"):
        return here, "yaml-syntax", "there is a tab here: indent with blanks", ""
    if "scanning an alias" in context:
        return opened, "text-needs-quotes", *_must_be_quoted(sheet, opened)
    if "cannot start any token" in problem or "expected node content" in problem:
        return here, "text-needs-quotes", *_must_be_quoted(sheet, here)
    return None


def _is_unclosed(problem: str) -> bool:
    return "expected ',' or" in problem


def _unended(sheet: Sheet, problem: str, context: str, here: Any, opened: Any) -> _Fault | None:
    """Something that was begun and not ended: a quote, an escape, a bracket, a field."""
    if "quoted scalar" in context and "end of stream" in problem:
        return opened, "yaml-syntax", "the quote that opens here is never closed", ""
    if "escape" in problem:
        message = "a backslash between double quotes has a meaning of its own: use single quotes instead"
        return here, "yaml-syntax", message, ""
    if _is_unclosed(problem):
        bracket = sheet.line(opened.line)[opened.column : opened.column + 1]
        rest = _first(sheet.line(here.line)[here.column :])
        comma = f', or a comma is missing before "{rest}"' if rest else ""
        return opened, "yaml-syntax", f'the bracket "{bracket}" that opens here is not closed{comma}', ""
    if "could not find expected ':'" in problem:
        line = _first(sheet.line(opened.line)[opened.column :])
        return opened, "yaml-syntax", f'"{line}" is not of the form "field: value"', ""
    return None


def _misplaced(sheet: Sheet, problem: str, here: Any) -> _Fault:
    """Something that is whole and stands where it cannot."""
    if "another document" in problem:
        return here, "yaml-syntax", 'a second document begins here with "---": each file may hold only one', ""
    if "block sequence entries" in problem:
        return here, "yaml-syntax", 'a list must begin on a line of its own, with each item after "- "', ""
    if "nesting" in problem:
        return here, "yaml-syntax", "brackets or lists are nested too deep", ""
    if sheet.line(here.line)[: here.column].rstrip().endswith(("'", '"')):
        message = "the text goes on after its closing quote: put all of it in quotes, and double any quote inside it"
        return here, "text-needs-quotes", message, ""
    if "did not find expected" in problem:
        return here, "yaml-syntax", "this line is not indented like the fields or items above it", ""
    return here, "yaml-syntax", f"YAML cannot read this: {problem}", ""


_find_field = compiled(r"([\w-]+):\s*$").search
_find_other_field = compiled(r",\s*[\w-]+:\s|[}\]]\s*$").search


def _must_be_quoted(sheet: Sheet, mark: Any) -> tuple[str, str]:
    """Message and hint for a text whose first character means something else to YAML."""
    text = sheet.line(mark.line)
    sign = text[mark.column : mark.column + 1]
    if not sign:
        return "a value is missing here", ""
    message = f'a text that begins with "{sign}" must be in quotes'
    field = _find_field(text[: mark.column])
    rest = text[mark.column :]
    if sign not in "]},[{" and field is not None and _find_other_field(rest):
        # Several fields in brackets: the value ends at the comma before the next one.
        value = re.split(r",\s|[}\]]", rest, maxsplit=1)[0].strip()
        return message, _quoted(f"{field[1]}: {value}")
    return message, "" if sign in "]},[{" else _quoted(text)


def _quoted(line: str) -> str:
    """The same line with its value in quotes, ready to paste; "" where the line has several fields in brackets."""
    name, colon, value = line.partition(": ")
    value = value.strip()
    if not colon or not value or "{" in name or value[0] in "{[\"'":
        return ""
    if '"' in value or "\\" in value:
        return f"{name}: '" + value.replace("'", "''") + "'"
    return f'{name}: "{value}"'
