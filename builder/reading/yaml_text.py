"""YAML as its author typed it: text with places, and one plain sentence for what YAML cannot read."""

from __future__ import annotations

import re
from typing import Any

from ..compiled_patterns import compiled, lent
from ..problems import Position, error
from .invisible import RETYPE, invisible_problem, refuse_invisible
from .places import Places
from .sheet import BROKEN as BROKEN, Broken as Broken, Sheet as Sheet, first_of, quoted_value

with lent():  # it compiles all that YAML calls printable, which its parser in C never asks
    import yaml
    from yaml.nodes import (
        MappingNode as MappingNode,
        Node as Node,
        ScalarNode as ScalarNode,
        SequenceNode as SequenceNode,
    )

_may_be_special = compiled(r"(?:^|[\s\[{,:-])[&*!][^\s]", re.MULTILINE).search
_find_control = compiled("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x84\x86-\x9f\ud800-\udfff\ufeff\ufffe\uffff]").search
_find_unseen = compiled(
    "[\x00-\x08\x0b-\x1f\x7f-\x9f\u200b\u2028-\u202e\u2060\u2066-\u2069\ud800-\udfff\ufdd0-\ufdef\ufeff\ufffe\uffff]"
).search
_find_breaks = compiled("[\x85\u2028\u2029]").finditer
_find_widthless = compiled("[\u200b\u2060]").finditer
_find_hashes = compiled(r"[ \t]#\d").finditer
_find_names = compiled(r"(?:^|[\s{,])id\s*:\s*[\"']?([A-Za-z0-9_-]+)", re.MULTILINE).findall
_find_keys = compiled(r"(?:^|[\s{,])[\"']?([A-Za-z0-9_-]+)[\"']?\s*:(?:\s|$)", re.MULTILINE).findall


class CutText(ScalarNode):
    """A text of which a part was lost, once that is said: whoever reads it is silent."""


_ASKS = "\ue000"
"""Stands for "?" while the parser in Python reads: there the sign ends a text in brackets, in the one in C it does not
(YAML 1.2.2, section 7.3.3, has it inside of plain texts)."""


class _InPython(yaml.BaseLoader):
    """The parser in Python, for where there is none in C: in a browser. It gives the same nodes."""

    def __init__(self, text: Any) -> None:
        """text: or a file that is open for reading it."""
        super().__init__((text if isinstance(text, str) else text.read()).replace("?", _ASKS))

    def compose_scalar_node(self, anchor: Any) -> Any:
        node = super().compose_scalar_node(anchor)
        node.value = node.value.replace(_ASKS, "?")
        return node


BASE: Any = getattr(yaml, "CBaseLoader", _InPython)
PARSED_BY = f"PyYAML {yaml.__version__}, {BASE.__name__}"
"""What took the YAML apart, for whoever keeps what was made of it."""


class _TextLoader(BASE):  # type: ignore[misc]
    """PyYAML's composer without its search for types: every scalar is text, so nothing has to be resolved.

    The composer asks these three for each node; answering at once is a quarter of its time.
    """

    def descend_resolver(self, current_node: Any, current_index: Any) -> None:
        """Nothing to prepare."""

    def ascend_resolver(self) -> None:
        """Nothing to undo."""

    def resolve(self, kind: Any, value: Any, implicit: Any) -> str:
        """No tag: the form knows what stands where."""
        return ""


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
            from .yaml_faults import fault_of  # only a message needs it

            sheet.problems.append(fault_of(sheet, fault))
        return None
    except yaml.YAMLError:
        _explain_control(sheet)
        return None
    if root is None:
        sheet.problems.append(
            error(Position(sheet.file, 1, 1), "empty-file", "this file is empty", "delete it, or fill it in")
        )
        return None
    if ("&" in text or "*" in text or "!" in text) and _may_be_special(text) and _refuse_special(sheet):
        return None
    if "\\" in text:
        _refuse_escaped(root, sheet)
    if "#" in text:
        lines = _refuse_cut_by_hash(sheet)
        if lines:
            _mark_as_cut(root, frozenset(lines))
    return root


def _mark_as_cut(node: Any, lines: frozenset[int]) -> None:
    """Marks the last text that ends on each of these lines, from 0."""
    found: dict[int, Any] = {}
    waiting = [node]
    while waiting:
        each = waiting.pop()
        if each.__class__ is ScalarNode:
            line = each.end_mark.line
            if line in lines and (line not in found or each.start_mark.index > found[line].start_mark.index):
                found[line] = each
        else:
            for inner in each.value:
                waiting += inner if inner.__class__ is tuple else [inner]
    for each in found.values():
        each.__class__ = CutText


def _refuse_escaped(node: Any, sheet: Sheet) -> None:
    """Notes what double quotes may hide: an escape of a character that nobody could type here (YAML 1.2.2, 5.7)."""
    waiting = [node]
    while waiting:
        each = waiting.pop()
        if each.__class__ is ScalarNode:
            if each.style == '"' and (found := _find_unseen(each.value)) is not None:
                message = f"an escape here stands for an invisible character (U+{ord(found[0]):04X}): delete it"
                sheet.error(each, "invisible-character", message, RETYPE)
        else:
            for inner in each.value:
                waiting += inner if inner.__class__ is tuple else [inner]


def names_in(text: str) -> tuple[set[str], set[str]]:
    """What a file that cannot be read seems to name: the values of its `id` fields, and all its keys."""
    return set(_find_names(text)), set(_find_keys(text))


def _without_hidden_breaks(sheet: Sheet) -> str:
    # YAML counts these three as line ends and no editor does, so every later place would be wrong.
    places = Places(sheet.file, sheet.text)
    for found in _find_breaks(sheet.text):
        place = places.place(found.start())
        message = "there is an invisible line separator here, copied from another program: delete it"
        sheet.problems.append(error(place, "invisible-character", message, RETYPE))
    places = Places(sheet.file, sheet.text)
    for found in _find_widthless(sheet.text):
        place = places.place(found.start())
        message = (
            f"there is an invisible character (U+{ord(found[0]):04X}) here, copied from another program: delete it"
        )
        sheet.problems.append(error(place, "invisible-character", message, RETYPE))
    sheet.text = sheet.text.translate({0x85: " ", 0x2028: " ", 0x2029: " ", 0x200B: "", 0x2060: ""})
    return sheet.text


def _line_and_column(text: str, offset: int) -> tuple[int, int]:
    return text.count("\n", 0, offset) + 1, offset - text.rfind("\n", 0, offset)


def _refuse_cut_by_hash(sheet: Sheet) -> list[int]:
    """Notes each text that a "#" cut; the lines, from 0."""
    lines: list[int] = []
    places = Places(sheet.file, sheet.text)
    last = -1
    # "Table #3": YAML takes the rest of the line for a remark. People who write remarks leave a blank behind the sign.
    for found in _find_hashes(sheet.text):
        offset = found.start() + 1
        place = places.place(offset)
        if place.line == last:
            continue  # the first one of a line has all that follows, or does not count because of what stands before
        last = place.line
        before = sheet.text[offset - place.column + 1 : offset].rstrip()
        # Behind a colon or dash the value is empty, which the field itself says; in quotes nothing is cut.
        if not before or before[-1] in ":-,[{" or not {'"', "'", "#"}.isdisjoint(before):
            continue
        rest = sheet.line(place.line - 1)[place.column - 1 :]
        message = f'"{first_of(rest)}" is cut off as a comment: put the whole text in quotes'
        hint = quoted_value(sheet.line(place.line - 1)) or 'type " where the text begins and where it ends'
        sheet.problems.append(error(place, "text-needs-quotes", message, hint))
        lines.append(place.line - 1)
    return lines


def _refuse_special(sheet: Sheet) -> bool:
    """True where the file has aliases, anchors or tags; each is noted."""
    found = False
    events = yaml.parse(sheet.text, Loader=BASE)
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
                    f'YAML reads "{first_of(line[mark.column :])}" as {what}, which this form does not know:'
                    " put a text in quotes, and write repeated values out",
                    quoted_value(line) or 'type " where the text begins and where it ends',
                )
            )
    except yaml.YAMLError:
        return found
    return found


def _explain_control(sheet: Sheet) -> None:
    found = _find_control(sheet.text)
    offset = found.start() if found else 0
    place = Position(sheet.file, *_line_and_column(sheet.text, offset))
    sheet.problems.append(invisible_problem(place, sheet.text[offset]))
