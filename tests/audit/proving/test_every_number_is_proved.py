"""Each field of the form that holds a number is gathered for proof, wherever it may stand in a claim file."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from inspect import getclosurevars
from pathlib import Path
from types import FunctionType
from typing import Any

import pytest
import yaml
from passageproof.problems import Position
from passageproof.proof.proving.fields import quoted_scopes
from passageproof.reading.evidence import read_evidence
from passageproof.reading.fields import count, list_of, words
from passageproof.reading.form import Form, Slot
from passageproof.reading.report_model import Claim, Report
from passageproof.reading.reports import REPORT
from passageproof.reading.values import Ends, Length, Number, Percentage, PValue, Range
from passageproof.reading.yaml_text import Sheet

EVERY_FIELD = Path(__file__).parent / "every_field.yaml"
NUMBERS = (Number, Percentage, Ends, PValue, Length, Range)
ONE_OF_EACH = ("39", "39%", "62% to 80%", "1.2 to 7.1", "<.05", "12 months", "over 3 mm")

NEED_NO_PROOF: dict[str, str] = {}
"""Fields with a number that no passage has to show, by their path ("claims/levels/events"): why not."""


def forms_read_by(reader: Any) -> list[Form]:
    """The forms that a reader makes use of: its own, those it was made of, and those that its function names."""
    found: dict[Form, None] = {}
    seen, waiting = set(), [reader]
    while waiting:
        value = waiting.pop()
        owner = getattr(value, "__self__", value)
        if isinstance(owner, Form):
            found[owner] = None
        elif isinstance(value, FunctionType) and value not in seen:
            seen.add(value)
            named = getclosurevars(value)
            waiting += [*named.nonlocals.values(), *named.globals.values()]
    return list(found)


def slots_below(form: Form, path: str = "") -> Iterator[tuple[str, Slot]]:
    """Each field of a form and of those below it, with its path in the model: "claims/follow_up/at"."""
    for slot in form.slots:
        yield f"{path}{slot.attribute}", slot
        for inner in forms_read_by(slot.read):
            yield from slots_below(inner, f"{path}{slot.attribute}/")


def holds_number(read: Callable[[Any, Sheet], Any]) -> bool:
    """Whether a reader gives a number for some text that a number may be typed as, alone or in a list."""
    mark = yaml.Mark("", 0, 0, 0, None, None)
    for text in ONE_OF_EACH:
        alone = yaml.ScalarNode("", text, mark, mark)
        for node in (alone, yaml.SequenceNode("", [alone], mark, mark)):
            found = read(node, Sheet("k.yaml", text, []))
            if any(isinstance(value, NUMBERS) for value in (found, *(found if type(found) is tuple else ()))):
                return True
    return False


NUMERIC = {path for path, slot in slots_below(REPORT) if holds_number(slot.read)}


def typed_numbers(value: Any, path: str = "") -> Iterator[tuple[str, Position]]:
    """The places of all numbers of a report, each with the path of its field."""
    if isinstance(value, Ends):
        yield from ((path, end.position) for end in (value.low, value.high))
    elif isinstance(value, NUMBERS):
        yield path, value.position
    elif hasattr(value, "_fields"):
        for name in value._fields:
            yield from typed_numbers(getattr(value, name), f"{path}/{name}" if path else name)
    elif isinstance(value, tuple):
        for item in value:
            yield from typed_numbers(item, path)


@pytest.fixture
def report(tmp_path: Path) -> Report:
    (tmp_path / "evidence" / "claims").mkdir(parents=True)
    (tmp_path / "evidence" / "claims" / "k.yaml").write_text(EVERY_FIELD.read_text())
    (tmp_path / "evidence" / "compendium.yaml").write_text("format: 1\n")
    return read_evidence(tmp_path).reports["k"]


def test_the_fields_with_a_number_are_found() -> None:
    assert {
        "studies/covers", "studies/patients/recall/rate", "studies/shares/parts/count", "claims/events",
        "claims/total/candidates", "claims/levels/range", "claims/levels/grades/rate", "claims/follow_up/at",
        "claims/contrast/absolute/interval", "claims/contrast/pooled/i2", "claims/tests/p", "claims/pairs/only_a",
    } <= NUMERIC  # fmt: skip
    assert not NUMERIC & {"claims/id", "claims/note", "claims/given", "claims/levels/level", "read/on"}


@pytest.mark.parametrize(
    ("slot", "expected"),
    [
        (Slot("note", count), {"claims/note"}),
        (Slot("note", list_of(count, "numbers")), {"claims/note"}),
        (Slot("note", Form("a block", Claim, Slot("id", count)).read), {"claims/note/id"}),
        (Slot("note", words), set()),
    ],
    ids=["number", "list", "block", "words"],
)
def test_a_field_added_to_a_form_is_found(slot: Slot, expected: set[str]) -> None:
    form = Form("a claim", Claim, slot)
    assert {path for path, inner in slots_below(form, "claims/") if holds_number(inner.read)} == expected


def test_the_report_fills_each_field_with_a_number(report: Report) -> None:
    missing = NUMERIC - {path for path, _ in typed_numbers(report)}
    assert missing == set(), f"type these in {EVERY_FIELD.name}, so that it can be seen whether they are proved"


def test_each_number_typed_is_gathered_for_proof(report: Report) -> None:
    gathered = {row.position for scope in quoted_scopes(report) for row in scope.quoted}
    unproved = {path for path, position in typed_numbers(report) if position not in gathered}
    assert unproved == set(NEED_NO_PROOF), "add them to audit/proving/fields.py, their roles to field_roles.py"
