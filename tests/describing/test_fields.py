"""No field is read that is not described, and what stands as an example is read without a word."""

from __future__ import annotations

import gc
from importlib import import_module
from pathlib import Path

import passageproof
import pytest
from passageproof.describing.files import BLOCKS, FILES, block_name, blocks_of
from passageproof.describing.told import SHARED, told_of
from passageproof.problems import Problem, as_text
from passageproof.reading.form import Form, Slot
from passageproof.reading.kinds import kind_of
from passageproof.reading.names import UnitNames
from passageproof.reading.yaml_text import BROKEN, Sheet, compose

READING = Path(passageproof.__file__).parent / "reading"
for module in sorted(READING.glob("*.py")):
    import_module(f"passageproof.reading.{module.stem}")

FORMS = [
    found
    for found in gc.get_objects()
    if isinstance(found, Form) and found.make.__module__.startswith("passageproof.reading")
]
"""Every form that there is once all of reading is loaded, whether or not anybody has described it."""

SLOTS = [(block_name(block.form), slot) for block in BLOCKS.values() for slot in block.form.slots]


def test_every_form_is_described_and_stands_in_a_file():
    described = {block.form.make for block in BLOCKS.values()}
    assert {form.make for form in FORMS} == described
    assert len(described) > 45
    assert {name for file in FILES for name in blocks_of(file)} == set(BLOCKS)


@pytest.mark.parametrize(("block", "slot"), SLOTS, ids=lambda given: getattr(given, "name", given))
def test_field_is_described_in_one_line_and_its_example_is_read(block: str, slot: Slot):
    told = told_of(BLOCKS[block], slot.name)
    assert 3 < len(told.says) < 240
    assert told.says[0] not in " ABCDEFGHIJKLMNOPQRSTUVWXYZ" or told.says.split()[0].isupper()
    assert not told.says.endswith(".")
    problems: list[Problem] = []
    # A unit of the vocabulary may stand in an example.
    sheet = Sheet("x.yaml", f"{slot.name}: {told.example}\n", problems, UnitNames())
    root = compose(sheet)
    assert root is not None
    value = slot.read(root.value[0][1], sheet)
    assert [as_text(problem) for problem in problems] == []
    assert value is not BROKEN


def test_no_field_is_described_that_is_not_read():
    for name, block in BLOCKS.items():
        assert set(block.fields) <= set(block.form.field_names), name
    read = {field for block in BLOCKS.values() for field in block.form.field_names}
    assert set(SHARED) <= read


@pytest.mark.parametrize(("block", "slot"), SLOTS, ids=lambda given: getattr(given, "name", given))
def test_every_reader_says_what_it_takes(block: str, slot: Slot):
    kind_of(slot.read)


def test_a_field_that_nobody_describes_is_found():
    form = BLOCKS["margin"].form
    extended = Form("`margin`", form.make, *form.slots, Slot("size", form.slots[0].read, attribute="sides"))
    with pytest.raises(KeyError):
        [told_of(BLOCKS["margin"]._replace(form=extended), slot.name) for slot in extended.slots]
