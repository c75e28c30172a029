"""The page for contributors: its template passes the check, and it has a paragraph for every rule there is."""

from __future__ import annotations

import ast
import re
from html import escape
from pathlib import Path

import passageproof
import pytest
from guide.compendium import catalogue_of, html_of, nothing_named, written
from passageproof.audit.computed_names import FACTOR, OVERALL
from passageproof.audit.whole import audit
from passageproof.describing.files import BLOCKS, FILES
from passageproof.describing.told import told_of
from passageproof.guide.about.contribute_page import all_rules, contribute_page
from passageproof.guide.about.contribute_templates import TEMPLATES
from passageproof.guide.about.contribute_texts import BIBTEX_TEMPLATE, CLAIM_TEMPLATE, UNITS, template
from passageproof.numerals import FORMAT_1, Unit as CountedUnit
from passageproof.numerals.lexicon import SHOWN_FIELDS
from passageproof.problems import as_text
from passageproof.reading.evidence import read_evidence
from passageproof.reading.kinds import Chosen, kind_of
from passageproof.reading.unit_forms import UNIT
from passageproof.results.values.document import Details, Facts, Raw, Section, Table, walk
from passageproof.results.values.line import Link, plain_text
from passageproof.results.values.page_lines import page_lines
from passageproof.synthesis import wilson_interval
from passageproof.writing.starting import compendium_files

UNIT_OF_THE_PAGE = catalogue_of({}).main_unit()
PAGE = contribute_page(catalogue_of({}), nothing_named)
ROOT = Path(passageproof.__file__).parent


def rules_named_in_code() -> set[str]:
    """Every text of the form of a rule's name that a call to `error`, `ask` or `Problem` is given."""
    found: set[str] = set()
    for path in sorted(ROOT.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.Call):
                name = getattr(node.func, "id", getattr(node.func, "attr", ""))
                if name in ("error", "ask", "Problem"):
                    for argument in node.args:
                        if isinstance(argument, ast.Constant) and isinstance(argument.value, str):
                            found.add(argument.value)
    return {text for text in found if re.fullmatch(r"[a-z]+(-[a-z0-9]+)+", text)}


def test_every_rule_that_code_names_has_a_paragraph() -> None:
    named = rules_named_in_code()
    assert len(named) > 40
    assert named - set(all_rules()) == set()


def test_page_has_one_closed_part_for_each_rule() -> None:
    anchors = [block.anchor for block in walk(PAGE.blocks) if isinstance(block, Details) and not block.is_open]
    assert sorted(anchor for anchor in anchors if anchor.startswith("rule-")) == [
        f"rule-{name}" for name in all_rules()
    ]


def test_names_of_fields_are_shown_as_code_and_not_between_backticks() -> None:
    assert "<code>in_words</code>" in html_of(PAGE)
    assert "`" not in html_of(PAGE)


@pytest.mark.parametrize("name", sorted(all_rules()))
def test_rule_has_a_paragraph_with_its_basis(name: str) -> None:
    text = all_rules()[name]
    assert len(text) > 60
    assert text.rstrip().endswith(".")


def test_every_computed_name_stands_on_the_page() -> None:
    html = html_of(PAGE)
    for name in OVERALL:
        assert f"$question/overall/{name}<" in html
    for name in FACTOR:
        assert f"$question/factor/{name}<" in html


EYES = "units:\n  eye: {one: eye, many: eyes, of: patient}\n"


FILES_TO_COPY = {"question": "questions/your-question.yaml"}


def problems_of_the_template(folder: Path, units: str = "", slip: tuple[str, str] = ("", "")) -> list[str]:
    unit = CountedUnit("eye", "eye", "eyes") if units else FORMAT_1.units["tooth"]
    files = {FILES_TO_COPY.get(name, f"{name}.yaml"): template(text, unit) for name, text in TEMPLATES.items()}
    files["vocabulary.yaml"] = units + files["vocabulary.yaml"]
    files["sources/made-up.bib"] = template(BIBTEX_TEMPLATE, unit)
    files["claims/sampler2021repairs.yaml"] = template(CLAIM_TEMPLATE, unit).replace(*slip)
    written(files, folder)
    return [as_text(problem) for problem in audit(read_evidence(folder)).problems]


@pytest.mark.parametrize("units", ["", EYES])
def test_templates_together_pass_the_check_as_they_stand_in_every_trade(tmp_path: Path, units: str) -> None:
    assert problems_of_the_template(tmp_path, units) == []


def test_every_field_of_a_unit_is_told_with_its_example() -> None:
    assert {name for name, _, _ in UNITS} == set(UNIT.field_names)
    told = " ".join(said for name, _, said in UNITS if name == "shown")
    assert all(name in told for name in SHOWN_FIELDS.values())
    html = html_of(PAGE)
    for _, example, said in UNITS:
        assert example in html
        assert said[:40] in html


def test_slip_of_a_digit_in_the_template_is_found(tmp_path: Path) -> None:
    assert problems_of_the_template(tmp_path, slip=("events: 41", "events: 42")) != []


def test_interval_of_the_template_is_wilsons() -> None:
    # Newcombe 1998, Stat Med 17:857, method 3, on 41 of 52; the template prints 66% to 88%.
    low, high = wilson_interval(41, 52)
    assert (round(100 * low), round(100 * high)) == (66, 88)


def test_readme_of_a_new_compendium_says_what_the_page_says() -> None:
    readme = " ".join(compendium_files()["README.md"].split())
    page = re.sub("<[^>]+>", "", html_of(PAGE))
    assert "stands twice in these files, in the passage of the paper and in the claim" in readme
    assert "A figure is typed twice, in its passage and in the claim" in page
    assert "every field of each with its meaning and an example" in readme
    assert "every rule of the check" in readme


def test_templates_for_each_kind_of_file_stand_on_the_page():
    assert {*TEMPLATES, "claims"} == {file.name for file in FILES}
    for text in TEMPLATES.values():
        assert escape(template(text, UNIT_OF_THE_PAGE), quote=False) in html_of(PAGE)


@pytest.mark.parametrize("block", BLOCKS)
def test_every_field_stands_on_the_page_with_what_it_holds_its_list_and_an_example(block: str):
    parts = closed_parts()[f"fields-{block}"]
    text = plain_text(tuple(part for facts in parts.blocks for row in facts.rows for line in row for part in line))
    for slot in BLOCKS[block].form.slots:
        told = told_of(BLOCKS[block], slot.name)
        assert f"{slot.name} (needed)" in text or not slot.required
        assert told.says[1:] + "." in text
        assert f"Example: {told.example}" in text
        kind = kind_of(slot.read)
        if isinstance(kind, Chosen):
            assert (" or " if len(kind.values) == 2 and not kind.missing else ", ").join(kind.values) in text


def test_a_field_says_what_is_typed_in_it():
    html = re.sub("<[^>]+>", "", html_of(PAGE))
    for said in (
        "Typed: one of: before, during, after",
        "Typed: a whole number such as 39 or 42,300, or not reported",
        "Typed: not reported, or an id of a claim, or a block, follow up",
        "Typed: a list of: level",
        "Typed: one of: odds ratio, risk ratio, hazard ratio, risk difference, mean difference, prevented fraction",
        "Typed: none or not reported, or a list of: words",
        "Typed: by name, each person",
        "Typed: one of: yes, no, not reported",
    ):
        assert said in html


def closed_parts() -> dict[str, Details]:
    return {block.anchor: block for block in walk(PAGE.blocks) if isinstance(block, Details)}


def test_every_link_to_a_block_or_field_leads_to_its_fields() -> None:
    targets = {part.target[1:] for part in walk(PAGE.blocks) if isinstance(part, Link) and part.target.startswith("#f")}
    anchors = [anchor for block in walk(PAGE.blocks) if isinstance(block, Facts) for anchor in block.anchors]
    assert len(targets) > 40
    assert targets <= {*closed_parts(), *anchors}


def test_every_field_has_an_address_of_its_own_and_a_row_that_names_each_block_with_one() -> None:
    html = html_of(PAGE)
    ids = re.findall(r'id="([^"]+)"', html)
    assert len(ids) == len(set(ids))
    for block, described in BLOCKS.items():
        for slot in described.form.slots:
            assert f"field-{slot.name}-in-{block}" in ids
            assert f'href="#field-{slot.name}-in-{block}"' in html
    assert "field-follow_up" in ids


def test_nothing_but_the_steps_and_the_doors_stands_open() -> None:
    shown = [block for block in PAGE.blocks if not isinstance(block, Details)]
    shown += [inner for block in shown if isinstance(block, Section) for inner in block.blocks]
    assert not [block for block in shown if isinstance(block, (Table, Facts, Raw))]


def test_the_search_finds_a_field_and_a_rule_by_name() -> None:
    lines = dict(page_lines(PAGE))
    assert lines["field-in_words"] == "in_words"
    assert lines["rule-figure-not-in-passage"] == "figure-not-in-passage"
