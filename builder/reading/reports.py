"""The claim file of one report: who read it, whom it studied, and what it says."""

from __future__ import annotations

import datetime
from typing import Any

from ..problems import Position
from . import studies
from .claims import ACKNOWLEDGED, CLAIM
from .fields import check_id, date, list_of, one_of, words
from .form import Form, Slot
from .kinds import Many, Reader, Text, noted, taking
from .names import RESERVED_ADDRESSES, RESERVED_CLAIMS
from .parsing import KEY, is_key
from .refusals import items_meant, refuse
from .report_model import Checked, Read, Report
from .values import Date, Words
from .yaml_text import BROKEN, MappingNode, ScalarNode, SequenceNode, Sheet

_NOWHERE = Position("", 1, 1)
NOBODY = Words("", _NOWHERE)
"""Stands for a word that could not be read where the model needs one; its name "" is among the unreadable ones."""
LONG_AGO = Date("", _NOWHERE, datetime.date.min)
"""Stands for a day that could not be read: no rule finds it too late."""


@taking(Text("the key of an entry in sources/*.bib", KEY, (0, None), True, tuple(sorted(RESERVED_ADDRESSES))))
def _source_key(node: Any, sheet: Sheet) -> Any:
    found = words(node, sheet)
    if found is not BROKEN and not is_key(found.text):
        return sheet.error(
            node,
            "not-a-key",
            f'"{found.text}" cannot be the key of a report: use letters, digits, "_" and "-" only',
            "type the key of its entry in evidence/sources/",
        )
    return found


def _check_read(values: list[Any], typed: int, node: Any, sheet: Sheet) -> None:
    depth, what, via = values[3], values[4], values[5]
    if depth.text == "part" and what is None and not typed & _WHAT:
        tells = "with `depth: part`, type in `what` which part was read"
        sheet.error(node, "missing-field", tells, "what: WHICH PART")
    if via is not None and depth.text != "secondary":
        sheet.error(
            node,
            "field-not-here",
            "`via` names the report that quotes this one: it is allowed only with `depth: secondary`",
            "delete it, or type depth: secondary",
        )


READ = Form(
    "`read`",
    Read,
    Slot("by", words, required=True, instead=NOBODY),
    Slot("on", date, required=True, instead=LONG_AGO),
    Slot("depth", one_of("full text", "abstract", "part", "secondary"), required=True, instead=NOBODY),
    Slot("what", words),
    Slot("via", words),
    then=_check_read,
)
_WHAT = READ.bits("what")

CHECKED = Form(
    "`checked`",
    Checked,
    Slot("by", words, required=True, instead=NOBODY),
    Slot("on", date, required=True, instead=LONG_AGO),
)


def _each(form: Form, kind: str, what: str, reserved: frozenset[str]) -> Reader:
    """A list of blocks with an id each: the readable ones, and the ids of the others."""

    def read(node: Any, sheet: Sheet) -> Any:
        if node.__class__ is not SequenceNode:
            return refuse(node, sheet, f"a list of {what}, each after a dash", items_meant(node, what))
        items: list[Any] = []
        names: set[str] = set()
        unreadable: set[str] = set()
        for entry in node.value:
            name = _typed_id(entry)
            block = form.read(entry, sheet)
            if name is None:
                continue
            text = name.value
            if not check_id(text, reserved, "id", name, sheet):
                unreadable.add(f"{kind}{text}")
            elif text in names:
                sheet.error(
                    name,
                    "duplicate-id",
                    f'another of the {what} of this file has the id "{text}"',
                    "rename one of the two",
                )
            elif block is BROKEN:
                unreadable.add(f"{kind}{text}")
            else:
                items.append(block)
            names.add(text)
        return items, unreadable

    return noted(read, Many(form.read))


def _typed_id(node: Any) -> Any:
    """The node of the id of a block, if it has a readable one."""
    if node.__class__ is MappingNode:
        for key, value in node.value:
            if key.__class__ is ScalarNode and key.value == "id" and value.__class__ is ScalarNode and value.value:
                return value
    return None


REPORT = Form(
    "this file",
    Report,
    Slot("source", _source_key, required=True, instead=NOBODY),
    Slot("read", READ.read, required=True, instead=Read(_NOWHERE, NOBODY, LONG_AGO, NOBODY, None, None)),
    Slot("checked", CHECKED.read),
    Slot("studies", _each(studies.STUDY, "study:", "studies", frozenset()), required=True, instead=([], ())),
    Slot("claims", _each(CLAIM, "claim:", "claims", RESERVED_CLAIMS), required=True, instead=([], ())),
    Slot("nothing_claimed", words),
    Slot("acknowledged", list_of(ACKNOWLEDGED.read, "acknowledgements"), instead=()),
)
_STUDIES, _CLAIMS = REPORT.bits("studies"), REPORT.bits("claims")


def read_report(root: Any, sheet: Sheet, key: str) -> tuple[Report | None, set[str]]:
    """The report of this key and the names in it that could not be read ("claim:key/id", "study:id").

    root: the composed file. None where its structure is of another kind.
    """
    before = len(sheet.problems)
    report = REPORT.read(root, sheet)
    if report is BROKEN:
        return None, {f"report:{key}"}
    studies_read, lost_studies = report.studies
    claims, lost_claims = report.claims
    unreadable = set(lost_studies) | {name.replace(":", f":{key}/", 1) for name in lost_claims}
    if len(sheet.problems) > before:
        unreadable |= {"person:", "outcome:", "question:", "factor:", "source:"}
    _check_whole(report, root, sheet, key, unreadable)
    return report._replace(key=key, file=sheet.file, studies=tuple(studies_read), claims=tuple(claims)), unreadable


def _check_whole(report: Report, root: Any, sheet: Sheet, key: str, unreadable: set[str]) -> None:
    """What holds between the fields of one file."""
    nodes: dict[Any, Any] = {name.value: value for name, value in root.value if name.__class__ is ScalarNode}
    source = report.source
    if source is not NOBODY and source.text != key:
        message = f'`source` is "{source.text}" but the file is named "{key}": they must be the same'
        sheet.error(nodes["source"], "name-differs", message, f"call this file {source.text}.yaml")
    elif key in RESERVED_ADDRESSES:
        tells = f'"{key}" is reserved: choose another key for the report'
        sheet.error(root, "reserved-name", tells, "change it in the entry, in `source` and in the name of this file")
    elif not is_key(key):
        tells = f'the name of this file, "{key}", must be a key: letters, digits, "_" and "-" only'
        sheet.error(root, "not-a-key", tells, "change it in the entry, in `source` and in the name of this file")
    for name in ("studies", "claims"):
        node: Any = nodes.get(name)
        is_empty = node.__class__ is SequenceNode and not node.value
        if is_empty and "nothing_claimed" not in nodes:
            tells = f"with an empty list of {name}, type in `nothing_claimed` why"
            sheet.error(node, "missing-field", tells, "nothing_claimed: WHY THIS REPORT YIELDS NO CLAIM")
    claims = nodes.get("claims")
    if "nothing_claimed" in nodes and claims.__class__ is SequenceNode and claims.value:
        sheet.error(
            nodes["nothing_claimed"],
            "field-not-here",
            "`nothing_claimed` is allowed only where the list of claims is empty",
            "delete this line",
        )
    if report.checked and report.checked.by.text and report.checked.by.text == report.read.by.text:
        node = nodes["checked"]
        tells = f"{report.read.by.text} read this report: somebody else must re-read it"
        sheet.error(node, "checked-by-reader", tells, "type who re-read it, or delete `checked` until somebody has")
