"""The page for contributors: its template passes the check, and it has a paragraph for every rule there is."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import passageproof
import pytest
from guide.compendium import catalogue_of, html_of, nothing_named, written
from passageproof.audit.computed_names import FACTOR, OVERALL
from passageproof.audit.whole import audit
from passageproof.guide.about.contribute_page import all_rules, contribute_page
from passageproof.guide.about.contribute_texts import BIBTEX_TEMPLATE, CLAIM_TEMPLATE, UNITS, template
from passageproof.guide.values.document import Section, walk
from passageproof.numerals import FORMAT_1, Unit as CountedUnit
from passageproof.numerals.lexicon import SHOWN_FIELDS
from passageproof.problems import as_text
from passageproof.reading.evidence import read_evidence
from passageproof.reading.unit_forms import UNIT
from passageproof.synthesis import wilson_interval
from passageproof.writing.starting import compendium_files

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


def test_page_has_one_section_for_each_rule() -> None:
    anchors = [block.anchor for block in walk(PAGE.blocks) if isinstance(block, Section)]
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


def problems_of_the_template(folder: Path, units: str = "", slip: tuple[str, str] = ("", "")) -> list[str]:
    unit = CountedUnit("eye", "eye", "eyes") if units else FORMAT_1.units["tooth"]
    vocabulary = f"""\
{units}factors:
  your-factor:
    title: Your factor
    unit: mm
    levels: [{{id: small, title: up to 3 mm, range: up to 3 mm}}, {{id: large, title: over 3 mm, range: over 3 mm}}]
outcomes:
  your-outcome: {{title: healed, construct: success, strictness: strict, basis: a, threshold: b, good: yes}}
"""
    people = """\
format: 1
title: A guide
programme: A programme
demonstration: yes
evidence: {date: 2026-10-30, release: 1.0.0}
people: {XX: {name: Edda Reader, interests: none declared}}
"""
    files = {
        "compendium.yaml": people,
        "vocabulary.yaml": vocabulary,
        "questions/your-question.yaml": "id: your-question\ntitle: A question\n",
        "sources/made-up.bib": template(BIBTEX_TEMPLATE, unit),
        "claims/sampler2021repairs.yaml": template(CLAIM_TEMPLATE, unit).replace(*slip),
    }
    written(files, folder)
    return [as_text(problem) for problem in audit(read_evidence(folder)).problems]


@pytest.mark.parametrize("units", ["", EYES])
def test_template_passes_the_check_as_it_stands_in_every_trade(tmp_path: Path, units: str) -> None:
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
    # Fields of the form do not stand on the page: the message of `unknown-field` lists them.
    assert "Every field and every rule" not in readme
    assert "every rule of the check" in readme
