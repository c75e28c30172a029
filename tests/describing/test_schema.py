"""The schemas refuse nothing that the check accepts, and what they can know to be wrong they refuse."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from describing.mutants import mutants
from jsonschema import Draft202012Validator
from passageproof.describing.files import FILES, FileKind
from passageproof.describing.schema import schema_of, schema_path, schema_text
from passageproof.problems import Problem, as_text
from passageproof.reading.compendium import read_compendium
from passageproof.reading.files import TOP
from passageproof.reading.questions import read_question
from passageproof.reading.reports import read_report
from passageproof.reading.standing import read_local, read_statuses, read_urgent
from passageproof.reading.vocabulary import read_vocabulary
from passageproof.reading.yaml_text import Sheet, compose
from passageproof.writing.starting import compendium_files
from yaml_values import core_values

ROOT = Path(__file__).parents[2]
VALIDATORS = {file.name: Draft202012Validator(schema_of(file)) for file in FILES}
FOLDERS = {"claims": "claims", "questions": "question"}


def kind_of_file(path: Path) -> str:
    """The name of the schema for a file of the evidence."""
    return FOLDERS.get(path.parent.name, path.stem)


def refused(kind: str, text: str) -> list[str]:
    """What the schema says of a file, with the place of each."""
    errors = VALIDATORS[kind].iter_errors(core_values(text))
    return [f"{'/'.join(map(str, error.absolute_path))}: {error.message}" for error in errors]


FOUND = [
    *sorted((ROOT / "evidence").rglob("*.yaml")),
    *sorted((ROOT / "tests").glob("*/evidence/**/*.yaml")),
    *sorted((ROOT / "builder/writing/compendium/evidence").rglob("*.yaml")),
]


@pytest.mark.parametrize("path", FOUND, ids=lambda path: str(path.relative_to(ROOT)))
def test_what_passes_the_check_is_valid(path: Path):
    assert refused(kind_of_file(path), path.read_text("utf-8")) == []


def test_every_compendium_that_is_kept_here_was_looked_at():
    folders = {str(path.relative_to(ROOT)).split("/evidence/")[0] for path in FOUND}
    assert folders >= {"tests/example", "tests/other_trade", "tests/published", "builder/writing/compendium"}
    assert {kind_of_file(path) for path in FOUND} == {file.name for file in FILES}
    assert len(FOUND) > 100
    assert [name for name in compendium_files() if name.endswith(".yaml") and name.startswith("evidence/")]


def test_every_kind_of_yaml_file_that_is_read_has_a_schema():
    assert {file.name for file in FILES} == {*TOP, *FOLDERS.values()}


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.name)
def test_schema_is_one_of_draft_2020_12(file: FileKind):
    schema = json.loads(schema_text(file))
    Draft202012Validator.check_schema(schema)
    assert schema["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    assert schema_path(file) == f"data/schema/{file.name}.json"


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.name)
def test_every_property_is_described_and_its_example_is_valid(file: FileKind):
    schema = schema_of(file)
    for block in schema["$defs"].values():
        for name, field in block.get("properties", {}).items():
            assert field["description"], name
            validator = Draft202012Validator({**field, "$defs": schema["$defs"]})
            for example in field["examples"]:
                assert [error.message for error in validator.iter_errors(example)] == [], name


def told(kind: str, text: str) -> list[str]:
    """What the form says of a file, as `check` would."""
    problems: list[Problem] = []
    sheet = Sheet("x", text, problems)
    root = compose(sheet)
    if root is not None:
        READERS[kind](root, sheet)
    return [as_text(problem) for problem in problems]


READERS: dict[str, Callable[[Any, Sheet], object]] = {
    "claims": lambda root, sheet: read_report(root, sheet, "marlow2019furcal"),
    "question": lambda root, sheet: read_question(root, sheet, "root-perforation"),
    "vocabulary": lambda root, sheet: read_vocabulary(root, sheet, ()),
    "compendium": read_compendium,
    "urgent": read_urgent,
    "local": read_local,
    "status": read_statuses,
}
EXAMPLE = sorted((ROOT / "tests/example/evidence").rglob("*.yaml"))


@pytest.mark.parametrize("kind", READERS)
def test_schema_refuses_only_what_the_form_refuses(kind: str):
    texts = [path.read_text("utf-8") for path in FOUND if kind_of_file(path) == kind and path.parts[-3] != "published"]
    small = [text for text in texts if len(text) < 6000] or texts
    known = 0
    for said, text in mutants(small, 60, seed=12):
        by_schema = refused(kind, text)
        by_form = told(kind, text)
        assert not by_schema or by_form, f"{said}\n{text}\n{by_schema}"
        known += bool(by_schema)
    assert known > 20


WRONG = [
    ("claims", "source: marlow2019furcal", "source: marlow 2019", "source"),
    ("claims", "depth: full text", "depth: whole text", "read/depth"),
    ("claims", "depth: full text", "depth: part", "read"),
    ("claims", "depth: full text", "depth: full text, via: arden2023recall", "read/depth"),
    ("claims", "on: 2026-02-03", "on: 3 February 2026", "read/on"),
    ("claims", "species: human", "species: people", "studies/0/species"),
    ("claims", "treated: 58", "treated: 58.5", "studies/0/flow/treated"),
    ("claims", "treated: 58", "treatd: 58", "studies/0/flow"),
    ("claims", "treated: 58", "recall: {seen: examined}", "studies/0/flow/recall"),
    ("claims", "success_rate: 83%", "success_rate: 83", "claims/0/success_rate"),
    ("claims", "success_rate: 83%", "success_rate: 183%", "claims/0/success_rate"),
    ("claims", "success_rate: 83%", "success_rate: 83%\n    rate: 83%", "claims/0"),
    ("claims", "    events: 39\n", "", "claims/0"),
    ("claims", "    total: 47\n", "    total: {candidates: [47], reason: one}\n", "claims/0/total"),
    ("claims", "    total: 47\n", "    total: 47\n    interval: 80% to 62\n", "claims/0/interval"),
    ("claims", "    total: 47\n", "    total: 47\n    confidence: 95%\n", "claims/0"),
    ("claims", "    total: 47\n", "    total:\n", "claims/0/total"),
    ("claims", "    total: 47\n", "    total: 47\n    unit: mm\n", "claims/0"),
    ("claims", "timing: last recall", "timing: by", "claims/0/follow_up"),
    ("claims", "timing: last recall", "timing: last recall, at: 5 years", "claims/0/follow_up"),
    ("claims", "minimum: 12 months", "minimum: 12", "claims/0/follow_up"),
    ("claims", "    factor: size\n", "", "claims/1"),
    ("claims", "known_at: before", "known_at: early", "claims/1/known_at"),
    ("claims", "direction: worse", "direction: poor", "claims/1/levels/1/direction"),
    ("claims", "events: 7, total: 12", "mean: 7, total: 12", "claims/1"),
    ("claims", ", events: 7, total: 12, success_rate: 58%, direction: worse", ", direction: worse", "claims/1"),
    ("claims", ", events: 7, total: 12, success_rate: 58%, direction: worse", "", "claims/1/levels/1"),
    ("claims", "  - id: overall", "  - id: over all", "claims/0/id"),
    ("claims", "  - id: overall", "  - id: studies", "claims/0/id"),
    ("question", "id: root-perforation", "id: sources", "id"),
    ("question", "where: [two", "wher: [two", "searched"),
    ("question", "searched: {", "searched: no #{", "searched"),
    ("question", "{kind: study, claim: marlow2019furcal/by-size}", "{kind: study}", "options/0/for/0/basis"),
    (
        "question",
        "{kind: study, claim: marlow2019furcal/by-size}",
        "{kind: guideline, claim: a/b}",
        "options/0/for/0/basis",
    ),
    ("question", "claim: marlow2019furcal/by-size", "claim: marlow2019furcal", "options/0/for/0/basis/claim"),
    ("question", "{factor: size, ask", "{factor: size, tooth: FDI, ask", "situation/0"),
    ("question", "{factor: size, ask", "{ask", "situation/0"),
    ("question", "at_least: 80%", "at_least: 80", "thresholds/0/at_least"),
    ("question", "down: 1", "down: 3", "certainty/0/steps/0/down"),
    ("question", "down: 1", "down: 1, up: 1", "certainty/0/steps/0"),
    ("question", "start: low", "start: moderate", "certainty/0/start"),
    ("question", "factor: size, level: large, start", "level: large, start", "certainty/0"),
    ("question", "visits: [6 months", "visits: [6", "recall/visits/0"),
    ("vocabulary", "role: prognostic\n", "role: prognosis\n", "factors/size/role"),
    ("vocabulary", "strictness: strict", "strictness: high", "outcomes/healed-strict/strictness"),
    ("vocabulary", "good: yes", "good: true", "outcomes/healed-strict/good"),
    ("vocabulary", "  size:\n", "  Size:\n", "factors"),
    ("vocabulary", "  size:\n", "  overall:\n", "factors"),
    ("vocabulary", "range: up to 3 mm", "range: 3 mm or so", "factors/size/levels/0/range"),
    ("compendium", "format: 1", "format: 2", "format"),
    ("compendium", "release: 1.2.0", "release: 1.2", "evidence/release"),
    ("compendium", "demonstration: yes", "demonstration: maybe", "demonstration"),
    ("compendium", "https://", "ftp://", "repository"),
    ("compendium", "title: ", "titel: ", ""),
    ("urgent", "signs: [", "sign: [", "irrigant-extruded"),
    ("local", "name: not set", "nam: not set", "call"),
    ("status", "state: none found", "state: fine", "marlow2019furcal/state"),
]


@pytest.mark.parametrize(("kind", "right", "wrong", "place"), WRONG)
def test_slip_is_refused_in_its_place_by_the_schema_and_by_the_form(kind: str, right: str, wrong: str, place: str):
    text = next(text for text in SEEDED[kind] if right in text)
    slip = text.replace(right, wrong, 1)
    assert place in [said.split(": ")[0] for said in refused(kind, slip)]
    assert told(kind, slip)


SEEDED = {kind: [path.read_text("utf-8") for path in EXAMPLE if kind_of_file(path) == kind] for kind in READERS}


@pytest.mark.parametrize(
    ("kind", "right", "wrong"),
    [
        ("claims", "on: 2026-02-03", "on: 2026-02-30"),
        ("claims", "source: marlow2019furcal", "source: arden2023recall"),
        ("claims", "unit: tooth", "unit: bicycle"),
        ("question", "by: [IM, TO]", "by: [QQ]"),
    ],
)
def test_what_takes_a_calendar_or_another_file_is_for_the_check(kind: str, right: str, wrong: str):
    text = next(text for text in SEEDED[kind] if right in text)
    assert refused(kind, text.replace(right, wrong, 1)) == []
